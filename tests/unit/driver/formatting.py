"""`stave format`: people's own files in their one true layout.

usage: formatting.py STAVE [unittest options]
"""

import os
import random
import resource
import subprocess
import time
import unittest

import program
from program import InFolder, clean_environment

LOOSE = "session:   A\nsets:\npush-up:3x8\n   cue:  ribs down\n\n\n"
NEAT = "session: A\nsets:\n  push-up: 3 x 8\n    cue: ribs down\n"
BROKEN = "session:   A\nsets:\npush-up: 8 x\n"
KILLS = 80


class Format(InFolder):
    def formatted(self, content, *words):
        path = self.write("a.stave", content)
        told = self.lines("format", "a.stave", *words)
        return told, path.read_bytes()

    def test_gives_a_file_its_layout_and_says_so(self):
        told, after = self.formatted(LOOSE)
        self.assertEqual((told.code, told.out, told.err), (0, "a.stave formatted\n", ""))
        self.assertEqual(after, NEAT.encode())

    def test_does_not_write_what_has_not_changed(self):
        path = self.write("a.stave", NEAT)
        os.utime(path, ns=(1_000_000_000, 1_000_000_000))
        before = path.stat()
        told = self.lines("format", "a.stave")
        self.assertEqual((told.code, told.out, told.err), (0, "", ""))
        after = path.stat()
        self.assertEqual((after.st_mtime_ns, after.st_ino), (before.st_mtime_ns, before.st_ino))

    def test_takes_away_a_byte_order_mark_and_foreign_line_ends(self):
        for content in [b"\xef\xbb\xbf" + LOOSE.encode(), LOOSE.replace("\n", "\r\n").encode(),
                        LOOSE.replace("\n", "\r").encode(), NEAT.removesuffix("\n").encode()]:
            self.assertEqual(self.formatted(content)[1], NEAT.encode())

    def test_leaves_a_broken_file_as_it_is(self):
        for content in [BROKEN.encode(), b"\xef\xbb\xbf" + BROKEN.replace("\n", "\r\n").encode(),
                        b"session: \xff\n", b"\0", b"x" * 3000]:
            with self.subTest(content=content[:20]):
                told, after = self.formatted(content)
                self.assertEqual((told.code, told.out), (1, ""))
                self.assertEqual(len(told.codes()), 1)
                self.assertEqual(after, content)

    def test_formats_what_only_checking_would_refuse(self):
        told, after = self.formatted("sets:\npush-up:3x8\n")
        self.assertEqual((told.code, told.err), (0, ""))
        self.assertEqual(after, b"sets:\n  push-up: 3 x 8\n")

    def test_formats_the_good_files_beside_a_broken_one(self):
        self.write("bad.stave", BROKEN)
        self.write("good.stave", LOOSE)
        told = self.lines("format", "bad.stave", "good.stave", "absent.stave")
        self.assertEqual(told.code, 3)
        self.assertEqual((self.folder / "good.stave").read_text(), NEAT)
        self.assertEqual((self.folder / "bad.stave").read_text(), BROKEN)

    def test_leaves_a_file_that_would_not_say_the_same(self):
        # The line is a byte too long once its blanks are put in.
        long = "session: A\nsets:\npush-up:3x8 # " + "x" * 1983 + "\n"
        self.write("long.stave", long)
        self.write("good.stave", LOOSE)
        told = self.lines("format", "long.stave", "good.stave")
        self.assertEqual((told.code, told.codes()), (3, ["layout-differs"]))
        self.assertEqual(told.out, "good.stave formatted\n")
        self.assertEqual((self.folder / "long.stave").read_text(), long)
        self.assertEqual((self.folder / "good.stave").read_text(), NEAT)
        told = self.lines("format", "-", data=long.encode())
        self.assertEqual((told.code, told.out), (3, long))

    def test_only_names_the_files_with_check(self):
        self.write("a.stave", LOOSE)
        self.write("b.stave", NEAT)
        before = self.files(".")
        told = self.lines("format", "--check", "a.stave", "b.stave")
        self.assertEqual((told.code, told.out, told.err), (1, "a.stave is not formatted\n", ""))
        self.assertEqual(self.files("."), before)
        told = self.lines("format", "--check", "b.stave")
        self.assertEqual((told.code, told.out, told.err), (0, "", ""))

    def test_reads_standard_input_and_writes_standard_output(self):
        for content, after, code in [(LOOSE, NEAT, 0), (NEAT, NEAT, 0), (BROKEN, BROKEN, 1),
                                     ("", "", 0)]:
            told = self.lines("format", "-", data=content.encode())
            self.assertEqual((told.code, told.out), (code, after))
        told = self.lines("format", "--check", "-", data=LOOSE.encode())
        self.assertEqual((told.code, told.out), (1, "standard input is not formatted\n"))
        self.assertEqual(self.files("."), {})

    def test_hands_back_a_broken_text_byte_for_byte(self):
        content = b"\xef\xbb\xbfsession: A\r\nx: \xff\r\n"
        run = subprocess.run([self.program, "format", "-"], input=content, capture_output=True,
                             check=False, env=clean_environment())
        self.assertEqual((run.returncode, run.stdout), (1, content))

    def test_does_not_follow_what_is_taken_in(self):
        other = self.write("other.stave", LOOSE)
        told, _ = self.formatted("include:other.stave\nsession:   B\nbased on: A\n")
        self.assertEqual((told.code, told.err), (0, ""))
        self.assertEqual(other.read_text(), LOOSE)
        told, _ = self.formatted("include: absent.stave\nsession: B\n")
        self.assertEqual((told.code, told.err), (0, ""))

    def test_keeps_rights_and_links(self):
        path = self.write("real/a.stave", LOOSE)
        path.chmod(0o600)
        (self.folder / "link.stave").symlink_to("real/a.stave")
        self.assertEqual(self.lines("format", "link.stave").code, 0)
        self.assertTrue((self.folder / "link.stave").is_symlink())
        self.assertEqual(path.read_text(), NEAT)
        self.assertEqual(path.stat().st_mode & 0o7777, 0o600)

    def test_leaves_a_file_that_may_not_be_written(self):
        path = self.write("a.stave", LOOSE)
        path.chmod(0o444)
        told = self.lines("format", "a.stave")
        self.assertEqual((told.code, told.out, told.codes()), (3, "", ["cannot-write"]))
        self.assertEqual(path.read_text(), LOOSE)
        self.assertEqual(os.listdir(self.folder), ["a.stave"])

    def test_leaves_a_file_on_a_full_disk(self):
        path = self.write("a.stave", LOOSE)
        for size in [0, 10]:
            told = self.lines("format", "a.stave", preexec_fn=lambda: resource.setrlimit(
                resource.RLIMIT_FSIZE, (size, size)))
            self.assertEqual((told.code, told.codes()), (3, ["cannot-write"]))
            self.assertEqual(path.read_text(), LOOSE)
            self.assertEqual(os.listdir(self.folder), ["a.stave"])

    def test_clears_away_what_a_killed_run_left_once_it_is_old(self):
        path = self.write("a.stave", LOOSE)
        for name in ["a.stave.71.part", "b.stave.71.part", "a.stave.part"]:
            os.utime(self.write(name, "half"), (1_000_000_000, 1_000_000_000))
        self.write("a.stave.72.part", "half")
        self.assertEqual(self.lines("format", "a.stave").code, 0)
        self.assertEqual(path.read_text(), NEAT)
        self.assertEqual(sorted(os.listdir(self.folder)),
                         ["a.stave", "a.stave.72.part", "a.stave.part", "b.stave.71.part"])

    def test_killed_at_any_moment_leaves_a_whole_file(self):
        sessions = "".join(LOOSE.replace("A", f"S{i}").strip("\n") + "\n" for i in range(2000))
        path = self.write("a.stave", sessions)
        started = time.monotonic()
        self.assertEqual(self.stave("format", "a.stave").code, 0)
        seconds = time.monotonic() - started
        neat = path.read_text()
        chance = random.Random(7)
        killed = 0
        for _ in range(KILLS):
            path.write_text(sessions)
            run = subprocess.Popen([self.program, "format", "a.stave"], cwd=self.folder,
                                   stdout=subprocess.DEVNULL, env=clean_environment())
            time.sleep(chance.uniform(0, 1.1 * seconds))
            run.kill()
            killed += run.wait() == -9
            self.assertIn(path.read_text(), [sessions, neat])
        self.assertGreater(killed, KILLS // 3)


if __name__ == "__main__":
    program.main()
