"""A folder that Stave writes loses what is no longer made, also when runs are killed.

usage: clearing.py STAVE [unittest options]
"""

import json
import random
import re
import subprocess
import time
import unittest

import program
from program import GOOD, InFolder, clean_environment

KILLS = 60
MANIFEST = "stave-out/stave-manifest.json"


class Build(InFolder):
    def cards(self):
        return sorted(path.name for path in (self.folder / "stave-out/cards").iterdir())

    def build(self, *words):
        done = self.stave("build", *words)
        self.assertEqual((done.code, done.err), (0, ""))
        return done

    def test_loses_cards_and_pictures_of_its_own_sources_alone(self):
        self.write("slack.stave", GOOD)
        self.write("other.stave", GOOD.replace("session 4", "session 5"))
        self.build("slack.stave", "--svg", "--technique")
        self.build("other.stave")
        self.write("slack.stave", GOOD.replace("Slack water", "High water"))
        told = self.build(str(self.folder / "slack.stave"), "--svg")
        self.assertEqual(self.cards(), ["session-4-high-water.pdf", "session-4-high-water.svg",
                                        "session-5-slack-water.pdf"])
        self.assertIn("removed stave-out/cards/session-4-slack-water-2.svg\n", told.out)

    def test_keeps_feeds_for_what_they_remember(self):
        self.write("slack.stave", GOOD)
        self.build("slack.stave")
        self.write("slack.stave", re.sub("when:.*\n", "", GOOD))
        self.build("slack.stave")
        self.assertTrue((self.folder / "stave-out/feeds/slack.ics").exists())

    def test_keeps_pictures_that_it_was_not_asked_for(self):
        self.write("slack.stave", GOOD)
        self.stave("preview", "slack.stave", "--technique")
        self.build("slack.stave")
        self.stave("preview", "slack.stave", "--page", "1")
        self.assertEqual(self.cards(), ["session-4-slack-water-2.png", "session-4-slack-water.pdf",
                                        "session-4-slack-water.png"])
        self.stave("preview", "slack.stave")
        self.assertEqual(self.cards(), ["session-4-slack-water.pdf", "session-4-slack-water.png"])

    def test_knows_its_files_when_all_are_moved_together(self):
        self.write("here/slack.stave", GOOD)
        self.build("here/slack.stave", "--out", "here/out")
        (self.folder / "here").rename(self.folder / "there")
        self.write("there/slack.stave", GOOD.replace("Slack water", "High water"))
        self.build("there/slack.stave", "--out", "there/out")
        cards = [path.name for path in (self.folder / "there/out/cards").iterdir()]
        self.assertEqual(cards, ["session-4-high-water.pdf"])

    def test_keeps_no_list_where_nothing_was_written(self):
        self.write("slack.stave", GOOD)
        self.stave("preview", "slack.stave", "--page", "9")
        self.assertEqual(self.files(with_list=True), {})

    def test_touches_nothing_when_nothing_has_changed(self):
        self.write("slack.stave", GOOD)
        self.build("slack.stave")
        before = self.files(with_list=True)
        self.assertEqual(len(before), 3)
        self.build("slack.stave")
        self.assertEqual(self.files(with_list=True), before)

    def test_forgets_nothing_of_standard_input(self):
        for title in ("Slack water", "High water"):
            text = GOOD.replace("Slack water", title).encode()
            self.assertEqual(self.stave("build", "-", data=text).code, 0)
        self.assertEqual(len(self.cards()), 2)


class Kills(InFolder):
    def version(self, number):
        """Each has other cards than the one before."""
        return (GOOD.replace("Slack water", f"Water {number}")
                + GOOD.replace("session 4", f"\nsession {10 + number}"))

    def start(self):
        return subprocess.Popen(
            [self.program, "publish", "slack.stave", "--private", "ana.stave", "--out", "stave-out"],
            cwd=self.folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
            env=clean_environment(SOURCE_DATE_EPOCH="1790000000"))

    def check_whole(self):
        ends = {".pdf": b"%%EOF\n", ".ics": b"END:VCALENDAR\r\n", ".html": b"</html>\n"}
        for name, (content, _) in self.files(with_list=True).items():
            if re.search(r"\.\d+\.part$", name):
                continue
            if name == MANIFEST:
                json.loads(content)
                continue
            ending = ends[name[name.rindex("."):]]
            self.assertTrue(content.endswith(ending), name)

    def test_at_random_moments_leave_whole_files_and_nothing_for_good(self):
        self.write("slack.stave", self.version(0))
        self.write("ana.stave", self.version(0))
        started = time.monotonic()
        self.assertEqual(self.start().wait(program.SECONDS), 0)
        seconds = time.monotonic() - started
        chance = random.Random(7)
        killed = 0
        for number in range(1, KILLS + 1):
            self.write("slack.stave", self.version(number))
            self.write("ana.stave", self.version(number))
            if number % 5 == 0:
                (self.folder / "ana.addresses").unlink(missing_ok=True)
            run = self.start()
            time.sleep(chance.uniform(0, 1.1 * seconds))
            run.kill()
            killed += run.wait() == -9
            self.check_whole()
        self.assertGreater(killed, KILLS // 4)
        self.assertEqual(self.start().wait(program.SECONDS), 0)
        token = (self.folder / "ana.addresses").read_text().rstrip().rpartition(": ")[2]
        stem = f"session-4-water-{KILLS}.pdf"
        left = [name for name in self.files(with_list=True) if not name.endswith(".part")]
        card = f"session-{10 + KILLS}-slack-water.pdf"
        self.assertEqual(sorted(left), sorted(f"stave-out/{name}" for name in (
            f"cards/{card}", f"cards/{stem}", "feeds/slack.html", "feeds/slack.ics", "index.html",
            f"private/{token}/ana.ics", f"private/{token}/cards/{card}",
            f"private/{token}/cards/{stem}", f"private/{token}/index.html",
            "stave-manifest.json")))


if __name__ == "__main__":
    program.main()
