#!/usr/bin/env python3
"""Examples and the movement library stand in the layout that `stave format` gives.

    formatted.py STAVE    STAVE is the built command
"""

import subprocess
import sys

from tree import ROOT, files

FOLDERS = ("examples", "compiler/movements")


def run(stave, *words, text=None):
    return subprocess.run([stave, "format", "--check", *words], input=text, capture_output=True,
                          text=True, cwd=ROOT, check=False)


def main():
    stave = sys.argv[1]
    paths = [str(path) for path in files()
             if path.suffix == ".stave" and str(path).startswith(FOLDERS)]
    told = run(stave, *paths)
    problems = (told.stdout + told.stderr).splitlines()
    if told.returncode not in (0, 1):
        problems.append(f"stave format left with {told.returncode}")
    if len(paths) < 20:
        problems.append(f"only {len(paths)} files were found")
    # A text that must be found, so that a slip in this test shows.
    if run(stave, "-", text="session:  A\nsquat:5\n").returncode != 1:
        problems.append("planted, not found: a text without layout")
    print("\n".join([*problems, f"{len(problems)} problems"]))
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main())
