"""Builds killed at any moment leave whole cards and feeds.

usage: kills.py STAVE [unittest options]
"""

import random
import re
import subprocess
import time
import unittest

import program
from program import GOOD, InFolder, clean_environment

KILLS = 120


class Kills(InFolder):
    def version(self, number):
        return GOOD.replace("4 x 5 @ 60 kg", f"4 x 5 @ {30 + number} kg")

    def start(self):
        return subprocess.Popen([self.program, "build", "slack.stave"], cwd=self.folder,
                                stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                                env=clean_environment(SOURCE_DATE_EPOCH="1790000000"))

    def whole_build_seconds(self):
        self.write("slack.stave", self.version(0))
        started = time.monotonic()
        self.assertEqual(self.start().wait(program.SECONDS), 0)
        return time.monotonic() - started

    def check_whole(self, names):
        for name, (content, _) in self.files().items():
            if re.search(r"\.\d+\.part$", name):
                continue
            self.assertIn(name, names)
            if name.endswith(".pdf"):
                self.assertTrue(content.startswith(b"%PDF-"), name)
                self.assertTrue(content.endswith(b"%%EOF\n"), name)
                # ISO 32000-1, 7.5.5 and 7.5.8: the offset of the cross-references before the
                # end, which here are an object of their own.
                start = int(content[content.rindex(b"startxref") + 9:-6])
                self.assertRegex(content[start:start + 200], rb"(?s)^\d+ 0 obj\n.*/Type /XRef")
            else:
                self.assertTrue(content.endswith(b"END:VCALENDAR\r\n"), name)

    def test_killed_at_random_moments(self):
        seconds = self.whole_build_seconds()
        names = set(self.files())
        chance = random.Random(4)
        killed = 0
        for number in range(1, KILLS + 1):
            self.write("slack.stave", self.version(number % 30))
            build = self.start()
            time.sleep(chance.uniform(0, 1.1 * seconds))
            build.kill()
            killed += build.wait() == -9
            self.check_whole(names)
        self.assertGreater(killed, KILLS // 3)
        # A damaged feed would be refused now.
        self.write("slack.stave", self.version(31))
        told = self.lines("build", "slack.stave")
        self.assertEqual((told.code, told.err), (0, ""))


if __name__ == "__main__":
    program.main()
