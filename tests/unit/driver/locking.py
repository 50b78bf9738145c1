"""Two runs at once in one folder: one waits for the other, and none undoes what it wrote.

usage: locking.py STAVE [unittest options]

The lock is flock(2) on the folder, which the system lets go when its holder ends, however that is.
"""

import fcntl
import json
import os
import re
import signal
import subprocess
import threading
import time
import unittest

import program
from program import GOOD, LIST, InFolder, clean_environment

ROUNDS = 12
# What a run waits before it gives up, and some more.
WAIT = 5


class Locking(InFolder):
    def setUp(self):
        super().setUp()
        self.write("slack.stave", GOOD)

    def start(self, *words):
        return subprocess.Popen([self.program, *words], cwd=self.folder,
                                stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                                env=clean_environment(SOURCE_DATE_EPOCH="1790000000"))

    def hold(self, folder="stave-out"):
        (self.folder / folder).mkdir(exist_ok=True)
        held = os.open(self.folder / folder, os.O_RDONLY)
        self.addCleanup(os.close, held)
        fcntl.flock(held, fcntl.LOCK_EX)
        return held

    def test_a_folder_that_is_written_into_is_busy(self):
        self.build_good()
        before = self.files(with_list=True)
        self.hold()
        self.write("slack.stave", GOOD.replace("60 kg", "65 kg"))
        for command in ("build", "publish", "preview"):
            started = time.monotonic()
            words = () if command == "build" else ("--out", "stave-out")
            told = self.lines(command, "slack.stave", *words)
            self.assertEqual((told.code, told.codes()), (3, ["folder-busy"]), told.err)
            self.assertGreater(time.monotonic() - started, WAIT - 1)
        told = self.lines("explain", "--floor", "4", "--wall", "slack.stave")
        self.assertEqual((told.code, told.codes()), (3, ["folder-busy"]), told.err)
        self.assertEqual(self.files(with_list=True), before)
        # Another folder is another matter, and what writes nothing does not wait.
        self.assertEqual(self.lines("build", "slack.stave", "--out", "other").code, 0)
        self.assertEqual(self.lines("check", "slack.stave").code, 0)

    def test_a_run_waits_for_another_to_end(self):
        held = self.hold()
        run = self.start("build", "slack.stave")
        time.sleep(1)
        self.assertIsNone(run.poll())
        fcntl.flock(held, fcntl.LOCK_UN)
        self.assertEqual(run.wait(program.SECONDS), 0)
        run.communicate()

    def test_a_killed_run_holds_nothing(self):
        sessions = "".join(GOOD.replace("session 4", f"session {number}")
                           .replace("12-03", f"12-{number % 27 + 1:02}") for number in range(60))
        self.write("many.stave", sessions)
        run = self.start("build", "many.stave")
        folder = self.folder / "stave-out"
        deadline = time.monotonic() + program.SECONDS
        while not self.is_locked(folder) and time.monotonic() < deadline:
            time.sleep(0.005)
        run.send_signal(signal.SIGSTOP)
        self.assertTrue(self.is_locked(folder), "it was over too soon")
        self.assertEqual(self.lines("build", "slack.stave").codes(), ["folder-busy"])
        run.kill()
        run.communicate()
        started = time.monotonic()
        told = self.lines("build", "slack.stave")
        self.assertEqual((told.code, told.err), (0, ""))
        self.assertLess(time.monotonic() - started, WAIT)
        # Nothing lies about that a later run could stumble over.
        self.assertEqual([name for name in os.listdir(folder) if "lock" in name], [])

    def is_locked(self, folder):
        if not folder.exists():
            return False
        tried = os.open(folder, os.O_RDONLY)
        try:
            fcntl.flock(tried, fcntl.LOCK_SH | fcntl.LOCK_NB)
        except BlockingIOError:
            return True
        finally:
            os.close(tried)
        return False

    def test_runs_at_once_lose_nothing_of_each_other(self):
        others = [f"crew-{number}.stave" for number in range(4)]
        failed = []

        def build(name, number):
            text = GOOD.replace("session 4", f"session {number}")
            for turn in range(ROUNDS):
                self.write(name, text.replace("60 kg", f"{60 + turn} kg"))
                run = self.start("build", name)
                told = run.communicate(timeout=program.SECONDS)
                if run.returncode != 0:
                    failed.append(told)

        threads = [threading.Thread(target=build, args=(name, number + 10))
                   for number, name in enumerate(others)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        self.assertEqual(failed, [])
        listed = json.loads((self.folder / "stave-out" / LIST).read_text("utf-8"))["files"]
        self.assertEqual(set(listed), {name.removeprefix("stave-out/") for name in self.files()})
        self.assertEqual(len(listed), 2 * len(others))
        for name in others:
            feed = (self.folder / "stave-out/feeds" / name.replace(".stave", ".ics")).read_text()
            self.assertEqual(re.findall(r"SEQUENCE:(\d+)", feed), [str(ROUNDS - 1)])

    def test_runs_of_one_file_at_once_count_each_change_once(self):
        self.build_good()
        self.write("slack.stave", GOOD.replace("60 kg", "65 kg"))
        runs = [self.start("build", "slack.stave") for _ in range(6)]
        for run in runs:
            out, err = run.communicate(timeout=program.SECONDS)
            self.assertEqual((run.returncode, err), (0, b""), out)
        feed = (self.folder / "stave-out/feeds/slack.ics").read_text()
        self.assertEqual(re.findall(r"SEQUENCE:(\d+)", feed), ["1"])

    def test_a_run_that_writes_nothing_leaves_no_folder(self):
        self.write("bad.stave", GOOD.replace("60 kg", "60 miles"))
        self.write("long.stave", "session 1: Long\npages: 1\n" + "note: cold hands and feet\n" * 300
                   + "plank: 40 s\n")
        for name in ("bad.stave", "long.stave"):
            for folder in ("stave-out", "some/where/else"):
                self.assertNotEqual(self.lines("build", name, "--out", folder).code, 0)
        self.assertEqual(sorted(os.listdir(self.folder)),
                         ["bad.stave", "long.stave", "slack.stave"])


if __name__ == "__main__":
    program.main()
