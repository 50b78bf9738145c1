"""`stave watch`: what is built when a file is saved, in whatever way an editor does it.

usage: watching.py STAVE [unittest options]
"""

import os
import queue
import re
import shutil
import signal
import subprocess
import threading
import time

import program
from program import SECONDS, InFolder, clean_environment

SESSION = """\
session 4: {title}
when: 2026-12-03 18:30 for 55 min, Europe/Lisbon
push-up: 3 x {reps}, rest 60 s
"""
CARD = "stave-out/cards/session-4-slack-water.pdf"


class Watching(InFolder):
    def setUp(self):
        super().setUp()
        self.reps = 8

    def write(self, name="slack.stave", content=None, title="Slack water", reps=None):
        """Without a content a session that differs from those before."""
        if content is None:
            self.reps = self.reps + 1 if reps is None else reps
            content = SESSION.format(title=title, reps=self.reps)
        return super().write(name, content)

    def environment(self):
        return {"LC_ALL": "C.UTF-8"}

    def start(self, *words, count=1):
        # What was saved right before a build begins may be built twice.
        time.sleep(0.1)
        self.process = subprocess.Popen(
            [self.program, "watch", *words], cwd=self.folder, text=True, bufsize=1,
            stdout=subprocess.PIPE, stderr=subprocess.PIPE,
            env=clean_environment(**self.environment()))
        self.addCleanup(self.stop)
        self.lines = queue.Queue()
        self.said = []
        self.readers = [threading.Thread(target=self.read, daemon=True),
                        threading.Thread(target=self.read_problems, daemon=True)]
        for reader in self.readers:
            reader.start()
        for _ in range(count):
            self.next()

    def read(self):
        for line in self.process.stdout:
            self.lines.put(line)

    def read_problems(self):
        for line in self.process.stderr:
            self.said.append(line)

    def stop(self, how=signal.SIGTERM):
        if self.process.poll() is None:
            self.process.send_signal(how)
        code = self.process.wait(SECONDS)
        for reader in self.readers:
            reader.join(SECONDS)
        self.process.stdout.close()
        self.process.stderr.close()
        return code

    def next(self):
        """The line of the next build."""
        return self.lines.get(timeout=SECONDS)

    def has_said(self, beginning):
        """Whether a problem begins so; it may be read after the line of its build."""
        end = time.monotonic() + SECONDS
        while time.monotonic() < end:
            if any(line.startswith(beginning) for line in list(self.said)):
                return True
            time.sleep(0.01)
        return False

    def card(self):
        return (self.folder / CARD).read_bytes()

    def assert_built(self, before, line):
        self.assertRegex(line, r"^.+: \d+ written, \d+ as before.*, \d+ ms\n$")
        self.assertNotEqual(self.card(), before)


class Saving(Watching):
    def check(self, save):
        self.write()
        self.start("slack.stave")
        for _ in range(3):
            before = self.card()
            save()
            self.assert_built(before, self.next())

    def test_in_place(self):
        self.check(self.write)

    def test_by_renaming_a_new_file_onto_it(self):
        self.check(lambda: os.replace(self.write("slack.stave~"), self.folder / "slack.stave"))

    def test_by_deleting_and_making_it_anew(self):
        def save():
            (self.folder / "slack.stave").unlink()
            self.write()
        self.check(save)

    def test_by_moving_the_old_one_aside_first(self):
        def save():
            os.replace(self.folder / "slack.stave", self.folder / "slack.stave.bak")
            self.write()
        self.check(save)

    def test_through_a_link(self):
        self.write("texts/slack.stave")
        (self.folder / "slack.stave").symlink_to("texts/slack.stave")
        self.start("slack.stave")
        before = self.card()
        self.write("texts/slack.stave")
        self.assert_built(before, self.next())

    def test_often_ends_with_the_last(self):
        self.write()
        self.start("slack.stave")
        for _ in range(200):
            self.write(reps=5 + self.reps % 90)
        self.write(reps=97)
        deadline = time.monotonic() + SECONDS
        while "3 x 97" not in self.dump() or not self.lines.empty():
            self.next()
            self.assertLess(time.monotonic(), deadline)
        feed = (self.folder / "stave-out/feeds/slack.ics").read_text("utf-8")
        self.assertIn("97", feed)

    def dump(self):
        feed = (self.folder / "stave-out/feeds/slack.ics").read_text("utf-8")
        return "3 x 97" if re.search(r"3\s?×\s?97", feed.replace("\n ", "")) else ""


class Errors(Watching):
    def test_leave_what_was_built_until_they_are_mended(self):
        self.write()
        self.start("slack.stave")
        before = self.card()
        self.write("slack.stave", "session: A\nplank: 12 kg\n")
        self.assertIn("nothing written", self.next())
        self.assertEqual(self.card(), before)
        self.assertTrue(self.has_said("error:"))
        self.write()
        self.assert_built(before, self.next())

    def test_of_a_file_that_is_not_there_yet_are_mended_by_it(self):
        self.start("slack.stave")
        self.write()
        self.assertRegex(self.next(), r"2 written")

    def test_of_standard_input_are_told(self):
        told = self.stave("watch", "-", "--diagnostics", "line")
        self.assertEqual((told.code, told.codes()), (3, ["cannot-watch"]))


class Dependence(Watching):
    def test_on_an_included_file(self):
        self.write("kit/moves.stave", "movement tarp drag:\n  cue: low hips\n")
        self.write("slack.stave",
                   "include: kit/moves.stave\nsession 4: Slack water\ntarp drag: 3 x 8\n")
        self.start("slack.stave")
        before = self.card()
        self.write("kit/moves.stave", "movement tarp drag:\n  cue: long steps\n")
        self.assert_built(before, self.next())

    def test_builds_only_what_was_saved(self):
        self.write()
        self.write("ebb.stave", title="Ebb")
        self.start("slack.stave", "ebb.stave")
        before = self.card()
        self.write("ebb.stave", title="Ebb")
        self.assertRegex(self.next(), r"^ebb.stave: 2 written, 0 as before, ")
        self.assertEqual(self.card(), before)

    def test_keeps_files_from_writing_over_each_other(self):
        self.write()
        self.write("ebb.stave", title="Ebb")
        self.start("slack.stave", "ebb.stave")
        before = self.card()
        self.write("ebb.stave")
        self.assertRegex(self.next(), r"^ebb.stave: nothing written, ")
        self.assertTrue(self.has_said("error: Two files would both write"))
        self.assertEqual(self.card(), before)

    def test_makes_again_what_somebody_has_taken_away(self):
        self.write()
        self.write("ebb.stave", title="Ebb")
        self.start("slack.stave", "ebb.stave")
        shutil.rmtree(self.folder / "stave-out")
        self.write("ebb.stave", title="Ebb")
        self.assertRegex(self.next(), r"^ebb.stave, slack.stave: 4 written, 0 as before, ")
        self.card()


class Ending(Watching):
    def test_by_a_signal_is_a_run_that_is_done(self):
        for how in (signal.SIGTERM, signal.SIGINT):
            self.write()
            self.start("slack.stave")
            self.assertEqual(self.stop(how), 0)

    def test_at_any_moment_leaves_whole_files(self):
        self.write()
        for moment in range(8):
            self.start("slack.stave")
            self.write()
            time.sleep(moment / 200)
            self.stop(signal.SIGKILL)
            self.assertTrue(self.card().rstrip().endswith(b"%%EOF"))
            feed = (self.folder / "stave-out/feeds/slack.ics").read_bytes()
            self.assertTrue(feed.endswith(b"END:VCALENDAR\r\n"))


if __name__ == "__main__":
    program.main()
