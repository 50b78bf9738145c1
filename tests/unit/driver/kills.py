"""Builds and publishings killed at any moment leave whole files, and the next run makes all good.

usage: kills.py STAVE KILL_AT [unittest options]

KILL_AT is the library of kill_at.c.
"""

import json
import os
import pathlib
import random
import re
import subprocess
import sys
import time

import program
from program import GOOD, OTHER, InFolder, clean_environment

KILLS = 120


class Kills(InFolder):
    words = ()
    kill_at = ""

    def start(self, **more):
        return subprocess.Popen([self.program, *self.words], cwd=self.folder,
                                stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                                env=clean_environment(SOURCE_DATE_EPOCH="1790000000", **more))

    def whole_run_seconds(self):
        started = time.monotonic()
        self.assertEqual(self.start().wait(program.SECONDS), 0)
        return time.monotonic() - started

    def kill_often(self, seconds, prepare, check):
        """`prepare` has the number of the run, and `check` comes behind each."""
        chance = random.Random(4)
        killed = 0
        for number in range(1, KILLS + 1):
            prepare(number)
            run = self.start()
            moment = chance.uniform(0, 1.1 * seconds)
            time.sleep(moment)
            run.kill()
            # How long a run takes changes with what else the disk has to do.
            if run.wait() == -9:
                killed += 1
                seconds *= 1.05
            else:
                seconds = min(seconds, (seconds + moment) / 2)
            check()
        self.assertGreater(killed, KILLS // 3)

    def check_card(self, name, content):
        self.assertTrue(content.startswith(b"%PDF-"), name)
        self.assertTrue(content.endswith(b"%%EOF\n"), name)
        # ISO 32000-1, 7.5.5 and 7.5.8: the offset of the cross-references before the end, which
        # here are an object of their own.
        start = int(content[content.rindex(b"startxref") + 9:-6])
        self.assertRegex(content[start:start + 200], rb"(?s)^\d+ 0 obj\n.*/Type /XRef")

    def check_feed(self, name, content):
        self.assertTrue(content.endswith(b"END:VCALENDAR\r\n"), name)
        self.assertEqual(content.count(b"BEGIN:VEVENT\r\n"), content.count(b"END:VEVENT\r\n"))


class Builds(Kills):
    words = ("build", "slack.stave")

    def version(self, number):
        return GOOD.replace("4 x 5 @ 60 kg", f"4 x 5 @ {30 + number} kg")

    def check_whole(self, names):
        for name, (content, _) in self.files().items():
            if re.search(r"\.\d+\.part$", name):
                continue
            self.assertIn(name, names)
            if name.endswith(".pdf"):
                self.check_card(name, content)
            else:
                self.check_feed(name, content)

    def test_killed_at_random_moments(self):
        self.write("slack.stave", self.version(0))
        seconds = self.whole_run_seconds()
        names = set(self.files())
        self.kill_often(seconds,
                        lambda number: self.write("slack.stave", self.version(number % 30)),
                        lambda: self.check_whole(names))
        # A damaged feed would be refused now.
        self.write("slack.stave", self.version(31))
        told = self.lines("build", "slack.stave")
        self.assertEqual((told.code, told.err), (0, ""))


class Publishings(Kills):
    """Two versions in turn: files are made, changed and taken away."""

    words = ("publish", "slack.stave", "--private", "ana.stave", "--out", "site", "--svg", "--base",
             "https://crew.example.org/")

    # Half files that were met.
    halves = 0

    def prepare(self, number):
        text = GOOD if number % 2 else OTHER.replace("Slack water", "High water")
        self.write("slack.stave", text)
        self.write("ana.stave", text.replace("session 4", "session 7")
                   .replace("Boathouse loft", "Quiet cove"))

    def published(self):
        return {name.removeprefix("site/"): content
                for name, (content, _) in self.files("site", with_list=True).items()}

    def check_whole(self, whole):
        """`whole` has the contents that a file may have; feeds and the list tell of the past."""
        self.assertEqual((self.folder / "ana.addresses").read_bytes(), self.addresses)
        for name, content in self.published().items():
            if re.search(r"\.\d+\.part$", name):
                self.halves += 1
                continue
            self.assertIn(name, whole)
            if name.endswith(".ics"):
                self.check_feed(name, content)
            elif name.endswith(".json"):
                self.assertEqual(json.loads(content)["version"], 1)
            else:
                self.assertIn(content, whole[name], name)
            if name.endswith(".pdf"):
                self.check_card(name, content)

    def publish_both(self):
        """The contents that a file may have, by its name, and how long a run takes."""
        whole = {}
        seconds = 0
        for number in (0, 1):
            self.prepare(number)
            seconds = self.whole_run_seconds()
            for name, content in self.published().items():
                whole.setdefault(name, set()).add(content)
        self.addresses = (self.folder / "ana.addresses").read_bytes()
        return whole, seconds

    def preloaded(self):
        """The loader takes a blank in LD_PRELOAD for the end of a name, so the folder is said
        apart."""
        library = pathlib.Path(self.kill_at)
        return {"LD_PRELOAD": library.name, "LD_LIBRARY_PATH": str(library.parent)}

    def test_killed_at_each_call_that_changes_the_disk(self):
        whole, _ = self.publish_both()
        calls = 0
        code = -9
        while code == -9:
            calls += 1
            # From the same state each time: the version that is not there.
            self.prepare(1)
            self.whole_run_seconds()
            self.prepare(0)
            code = self.start(KILL_AT=str(calls), **self.preloaded()).wait(program.SECONDS)
            self.check_whole(whole)
        self.assertEqual(code, 0)
        # Some ten files are written, flushed and put in place, and as many are taken away.
        self.assertGreater(calls, 40)
        self.check_mended(whole)

    def test_killed_at_random_moments(self):
        whole, seconds = self.publish_both()
        self.kill_often(seconds, self.prepare, lambda: self.check_whole(whole))
        self.check_mended(whole)

    def check_mended(self, whole):
        # The next run knows every file of theirs, and takes away what was half made.
        self.assertGreater(self.halves, 0)
        self.prepare(1)
        self.whole_run_seconds()
        after = self.published()
        self.assertEqual({name for name in after if name.endswith(".part")}, set())
        names = {name for name in whole if "high-water" not in name}
        self.assertEqual(set(after), names)
        for name, content in after.items():
            if not name.endswith((".ics", ".json")):
                self.assertIn(content, whole[name])
        # Nobody has lost an event, nor has it twice.
        for name in (name for name in after if name.endswith(".ics")):
            self.assertEqual(after[name].count(b"BEGIN:VEVENT"), 1, name)


class Halves(Publishings):
    """What a killed run left half made, wherever it is."""

    PLACES = ("site/index.html.4711.part", "site/cards/x.pdf.4711.part",
              "site/people/mara/mara.ics.4711.part", "site/private/abc/cards/x.svg.4711.part",
              "site/stave-manifest.json.4711.part")
    OTHERS = ("site/cards/x.txt.4711.part", "site/mine/x.pdf.4711.part", "site/cards/x.part",
              "slack.stave.4711.part")

    test_killed_at_each_call_that_changes_the_disk = None
    test_killed_at_random_moments = None

    def leave(self, names):
        for name in names:
            self.write(name, "half")

    def left(self, names):
        return [name for name in names if (self.folder / name).exists()]

    def test_goes_at_once_where_nobody_else_can_write(self):
        self.prepare(1)
        self.leave(self.PLACES + self.OTHERS)
        self.whole_run_seconds()
        self.assertEqual(self.left(self.PLACES + self.OTHERS), list(self.OTHERS))

    def test_behind_a_link_stays_for_another_lock(self):
        self.prepare(1)
        self.leave(["other/mara.ics.4711.part"])
        (self.folder / "site").mkdir()
        (self.folder / "site/people").symlink_to("../other")
        self.whole_run_seconds()
        self.assertTrue((self.folder / "other/mara.ics.4711.part").exists())

    def test_stays_for_an_hour_where_there_are_no_locks(self):
        self.prepare(1)
        ours = ("site/index.html.4711.part", "site/cards/x.pdf.4711.part")
        self.leave(ours)
        environment = {"NO_LOCKS": "1", **self.preloaded()}
        self.assertEqual(self.start(**environment).wait(program.SECONDS), 0)
        self.assertEqual(self.left(ours), list(ours))
        for name in ours:
            os.utime(self.folder / name, (1, 1))
        self.prepare(2)
        self.assertEqual(self.start(**environment).wait(program.SECONDS), 0)
        self.assertEqual(self.left(ours), [])


if __name__ == "__main__":
    Kills.kill_at = str(pathlib.Path(sys.argv.pop(2)).resolve())
    program.main()
