"""Runs the real `stave` in a folder of its own, as a person at a shell would."""

import os
import pathlib
import subprocess
import sys
import tempfile
import unittest
from dataclasses import dataclass

# A Debug build with sanitizers is many times slower than what coaches run.
SECONDS = 120

GOOD = """\
session 4: Slack water
when: 2026-12-03 18:30 for 55 min, Europe/Lisbon
place: Boathouse loft

sets Haul: rest 2 min
  deadlift: 4 x 5 @ 60 kg
  chin-up: 3 x max

circuit Deck legs: 3 rounds, rest 60 s
  step-up: 10 each side @ 2 x 8 kg
  wall sit: 40 s
"""
OTHER = GOOD.replace("4 x 5 @ 60 kg", "5 x 5 @ 65 kg")


# What a folder keeps of its own: which of its files are Stave's.
LIST = "stave-manifest.json"


@dataclass
class Result:
    code: int
    out: str
    err: str

    def codes(self):
        """The catalogue's names of the problems told in the line format."""
        return [line.rpartition("[")[2].removesuffix("]") for line in self.err.splitlines()]


def clean_environment(**more):
    kept = {name: os.environ[name] for name in ("PATH", "ASAN_OPTIONS", "UBSAN_OPTIONS")
            if name in os.environ}
    return {**kept, "LC_ALL": "C", **more}


class InFolder(unittest.TestCase):
    """Each test has a folder whose name is no plain word."""

    program = ""

    def setUp(self):
        holder = tempfile.TemporaryDirectory(prefix="stave test – κύμα ")
        self.addCleanup(holder.cleanup)
        self.folder = pathlib.Path(holder.name)

    def write(self, name, content):
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return path

    def stave(self, *words, data=b"", env=None, **more):
        run = subprocess.run(
            [self.program, *map(str, words)], input=data, capture_output=True, cwd=self.folder,
            env=clean_environment(**(env or {})), timeout=SECONDS, check=False, **more)
        return Result(run.returncode, run.stdout.decode("utf-8", "replace"),
                      run.stderr.decode("utf-8", "replace"))

    def lines(self, command, *words, **more):
        """A run whose problems are told a line each."""
        return self.stave(command, *words, "--diagnostics", "line", **more)

    def files(self, folder="stave-out", with_list=False):
        """Bytes and time of every file below, whatever its name; the list that Stave keeps of
        them only where it is asked for."""
        found = [path for path in sorted((self.folder / folder).rglob("*"))
                 if path.is_file() and (with_list or path.name != LIST)]
        return {str(path.relative_to(self.folder)): (path.read_bytes(), path.stat().st_mtime_ns)
                for path in found}

    def build_good(self):
        """Builds a card and a feed and says what stands there then."""
        source = self.write("slack.stave", GOOD)
        done = self.stave("build", source.name)
        self.assertEqual((done.code, done.err), (0, ""))
        files = self.files()
        self.assertEqual(len(files), 2)
        return files


def main():
    InFolder.program = str(pathlib.Path(sys.argv.pop(1)).resolve())
    unittest.main()
