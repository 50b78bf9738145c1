"""Mends that the command makes in people's own files.

usage: fixing.py STAVE [unittest options]
"""

import os
import resource
import unittest

import program
from program import GOOD, InFolder

BAD = "session: A\nkit chair\nsets:\n  push-up: 3 x 5+\n"
MENDED = "session: A\nkit: chair\nsets:\n  push-up: 3 x 5 or more\n"


class Fix(InFolder):
    def fixed(self, content, *words):
        path = self.write("a.stave", content)
        told = self.lines("check", "--fix", "a.stave", *words)
        return told, path.read_bytes()

    def test_makes_the_mends_that_leave_no_choice(self):
        told, after = self.fixed(BAD)
        self.assertEqual(after, MENDED.encode())
        self.assertEqual((told.code, told.out, told.err), (0, "a.stave: 2 mends made\n", ""))

    def test_leaves_what_two_things_may_be_meant_by(self):
        text = "session: A\nsets:\n  deadlift: 4 x 5 @ 60\n  push-up: 5+\n"
        told, after = self.fixed(text)
        self.assertEqual(after, text.replace("5+", "5 or more").encode())
        self.assertEqual((told.code, told.codes()), (1, ["load-unit"]))
        self.assertIn("1 mend made", told.out)

    def test_leaves_what_would_change_what_is_to_be_done(self):
        for line in ["burpee: AMRAP 60 s",
                     "burpee: 3 rounds of 10",
                     "squat: 5, resting a while", "gate lift: 10 left, 12 right",
                     "squat: 5 x 5-3-1 @ 60 kg", "squat: 3 8 5 @ 80 kg", "row: 20 m min",
                     "squat: 5 @ 60 kg lb", "squat: 3 x 5 #@ 60 kg", "squat: 5, tempo 3-1-10",
                     "row: 1 h 90", "hike: 1 h 1515 min",
                     "burpee: 3 x +5", "clean + press: 3 x 5"]:
            with self.subTest(line=line):
                text = f"session: A\nsets:\n  {line}\n  row: 400 m\n"
                told, after = self.fixed(text)
                self.assertEqual(after, text.encode())
                self.assertEqual((told.code, told.out), (1, ""))
        told, after = self.fixed("session: A\nsets:\n  squat: 3 x 5 heavy\n")
        self.assertEqual(after, b"session: A\nsets:\n  squat: 3 x 5\n    note: heavy\n")

    def test_puts_in_order_what_keeps_every_word_and_figure(self):
        for line, mended in [("gate lift: each leg 12", "gate lift: 12 each leg"),
                             ("gate lift: left 12", "gate lift: 12 left"),
                             ("squat: 3 x 5 RPE 8 @ 80 kg", "squat: 3 x 5 @ 80 kg, RPE 8"),
                             ("squat: 5 x 5 @ 60 kg, then rest 3 min",
                              "squat: 5 x 5 @ 60 kg, rest 3 min"),
                             ("gate lift: 10 left, 10 right", "gate lift: 10 each side")]:
            with self.subTest(line=line):
                told, after = self.fixed(f"session: A\nsets:\n  {line}\n  row: 400 m\n")
                self.assertEqual(after, f"session: A\nsets:\n  {mended}\n  row: 400 m\n".encode())
                self.assertEqual(told.code, 0)

    def test_leaves_what_is_only_warned_of(self):
        text = ("session: A\nkit: kettlebell 16 kg\nsets:\n"
                "  puhs-up: 3 x 8\n  bench press: 3 x 8\n  pace: 3 x 8\n")
        told, after = self.fixed(text)
        self.assertEqual(after, text.encode())
        self.assertEqual((told.code, told.out), (0, ""))
        self.assertTrue({"near-keyword", "near-movement", "kit-not-listed"} <= set(told.codes()))

    def test_goes_on_until_nothing_is_left_to_mend(self):
        # The line gets its colon first; only then is its amount looked at.
        told, after = self.fixed("session: A\nkit chair\npush-up 3 x 5+\n")
        self.assertIn(b"push-up: 3 x 5 or more\n", after)
        again, same = self.fixed(after)
        self.assertEqual((again.out, same), ("", after))

    def test_makes_more_mends_than_are_shown(self):
        many = "".join(f"session {i}: S{i}\nrow; 5 min\n" for i in range(2500))
        told, after = self.fixed(many)
        self.assertNotIn(b";", after)
        self.assertIn("2500 mends made", told.out)

    def test_keeps_a_byte_order_mark_and_line_ends(self):
        for mark in [b"", b"\xef\xbb\xbf"]:
            for end in [b"\n", b"\r\n", b"\r"]:
                with self.subTest(mark=mark, end=end):
                    _, after = self.fixed(mark + BAD.encode().replace(b"\n", end))
                    self.assertEqual(after, mark + MENDED.encode().replace(b"\n", end))

    def test_adds_lines_with_the_line_ends_of_the_file(self):
        text = b"session: A\r\nsquat: 5, slow on the way down\r\nplank: 40 s\r\n"
        told, after = self.fixed(text)
        self.assertNotEqual(after, text, told.err)
        self.assertEqual(after.count(b"\n"), after.count(b"\r\n"))
        self.assertEqual(after.count(b"\n"), 4)

    def test_makes_up_no_session(self):
        told, after = self.fixed("push-up: 3 x 8\n")
        self.assertEqual((told.code, after), (1, b"push-up: 3 x 8\n"))

    def test_keeps_a_file_without_its_last_line_end(self):
        _, after = self.fixed(BAD.removesuffix("\n"))
        self.assertEqual(after, MENDED.removesuffix("\n").encode())

    def test_does_not_write_what_has_not_changed(self):
        for text in [GOOD, "session: A\nsets:\n  deadlift: 4 x 5 @ 60\n", ""]:
            path = self.write("a.stave", text)
            os.utime(path, ns=(1_000_000_000, 1_000_000_000))
            before = path.stat()
            self.lines("check", "--fix", "a.stave")
            after = path.stat()
            self.assertEqual((after.st_mtime_ns, after.st_ino), (before.st_mtime_ns, before.st_ino))

    def test_reads_standard_input_and_writes_standard_output(self):
        told = self.lines("check", "--fix", "-", data=BAD.encode())
        self.assertEqual((told.code, told.out, told.err), (0, MENDED, ""))
        told = self.lines("check", "--fix", "-", data=b"session: A\nx: 5 @ 60\n")
        self.assertEqual((told.code, told.out), (1, "session: A\nx: 5 @ 60\n"))
        self.assertEqual(self.files("."), {})

    def test_never_writes_what_is_taken_in(self):
        other = self.write("other.stave", "movement oar press:\n  counted in: reps\n  kit oar\n")
        before = other.read_bytes()
        told, after = self.fixed("include: other.stave\n" + BAD)
        self.assertEqual(other.read_bytes(), before)
        self.assertIn(b"5 or more", after)
        self.assertEqual(told.code, 1)
        self.assertTrue(told.err.startswith("other.stave:3:"), told.err)

    def test_never_mends_a_filled_line_of_a_routine(self):
        text = ("routine A: reps 5+\n  squat: 5\n  push-up: 3 x [reps]\n"
                "session: A\nsets:\n  use A:\n")
        told, after = self.fixed(text)
        self.assertEqual(after, text.encode())
        self.assertEqual(told.codes(), ["at-least"])

    def test_mends_every_file_that_is_named_and_tells_of_the_rest(self):
        self.write("a.stave", BAD)
        self.write("b.stave", GOOD)
        self.write("c.stave", "session: A\nx: 5 @ 60\n")
        told = self.lines("check", "--fix", "a.stave", "b.stave", "c.stave", "absent.stave")
        self.assertEqual((told.code, told.codes()), (3, ["cannot-read", "movement-unknown", "load-unit"]))
        self.assertEqual((self.folder / "a.stave").read_text(), MENDED)
        self.assertEqual((self.folder / "b.stave").read_text(), GOOD)

    def test_counts_what_remains_with_strict(self):
        text = BAD.replace("5+", "500+")
        self.assertEqual(self.fixed(text)[0].code, 0)
        told, after = self.fixed(text, "--strict")
        self.assertEqual((told.code, told.codes()), (1, ["count-high"]))
        self.assertEqual(after, MENDED.replace("5 or", "500 or").encode())

    def test_says_what_a_check_says_of_what_remains(self):
        cues = "".join(f"    cue: {'long words to be read by all ' * 4}{i}\n" for i in range(40))
        self.write("a.stave", "session: A\nsets:\n" + "".join(
            f"  thing {i}: 3 x 8\n{cues if i == 0 else ''}" for i in range(40)))
        check = self.lines("check", "a.stave")
        fix = self.lines("check", "--fix", "a.stave")
        self.assertEqual((fix.code, fix.err), (check.code, check.err))

    def test_says_what_a_build_would_refuse(self):
        rows = "".join(f"  push-up: 3 x {i}\n" for i in range(1, 61))
        crowded = "session: A\n" + "".join(f"sets {block}:\n{rows}" for block in "BCDE")
        told, after = self.fixed(crowded)
        self.assertEqual((told.code, told.out, told.codes()), (1, "", ["card-overflow"]))
        self.assertEqual(after, crowded.encode())

    def test_looks_at_the_paper_that_is_asked_for(self):
        rows = "".join(f"  push-up: 3 x {i}\n" for i in range(1, 25))
        self.write("a.stave", "session: A\nsets:\n" + rows)
        for paper, code in (("a3", 0), ("a4", 0), ("a6", 1)):
            told = self.lines("check", "--fix", "a.stave", "--paper", paper)
            self.assertEqual((told.code, told.codes()), (code, ["card-overflow"] * code))
        # Too long for every paper, and told of one.
        self.write("a.stave", "session: A\n" + "".join(
            f"sets {block}:\n{rows}" for block in "BCDEFG"))
        told = self.lines("check", "--fix", "a.stave", "--paper", "a6")
        self.assertEqual(told.codes(), ["card-overflow"])

    def test_keeps_rights_and_links(self):
        path = self.write("real/a.stave", BAD)
        path.chmod(0o640)
        (self.folder / "link.stave").symlink_to("real/a.stave")
        self.assertEqual(self.lines("check", "--fix", "link.stave").code, 0)
        self.assertTrue((self.folder / "link.stave").is_symlink())
        self.assertEqual(path.read_text(), MENDED)
        self.assertEqual(path.stat().st_mode & 0o7777, 0o640)
        self.assertEqual(os.listdir(path.parent), ["a.stave"])

    def test_keeps_owner_and_group(self):
        path = self.write("a.stave", BAD)
        # Only an administrator gives files away.
        user, group = (4711, 4712) if os.getuid() == 0 else (os.getuid(), os.getgid())
        os.chown(path, user, group)
        path.chmod(0o660)
        self.assertEqual(self.lines("check", "--fix", "a.stave").code, 0)
        self.assertEqual(path.read_text(), MENDED)
        after = path.stat()
        self.assertEqual((after.st_uid, after.st_gid, after.st_mode & 0o7777),
                         (user, group, 0o660))

    def test_leaves_what_it_would_take_away_from_its_owner(self):
        # Only an administrator becomes somebody else; for others there is nothing to leave.
        if os.getuid() != 0:
            with self.assertRaises(PermissionError):
                os.chown(self.write("a.stave", BAD), 0, 0)
            return

        def become(user, group):
            os.setgroups([])
            os.setgid(group)
            os.setuid(user)

        self.folder.chmod(0o777)
        path = self.write("a.stave", BAD)
        path.chmod(0o666)
        told = self.lines("check", "--fix", "a.stave", preexec_fn=lambda: become(4711, 4712))
        self.assertEqual((told.code, told.codes()), (3, ["cannot-write"]))
        self.assertEqual((path.read_text(), path.stat().st_uid), (BAD, 0))
        # Its own, of a group that it is not in.
        os.chown(path, 4711, 4713)
        path.chmod(0o664)
        told = self.lines("check", "--fix", "a.stave", preexec_fn=lambda: become(4711, 4712))
        after = path.stat()
        self.assertEqual((told.code, path.read_text()), (0, MENDED))
        self.assertEqual((after.st_uid, after.st_gid, after.st_mode & 0o7777),
                         (4711, 4712, 0o644))

    def test_leaves_a_file_that_may_not_be_written(self):
        path = self.write("a.stave", BAD)
        path.chmod(0o444)
        told = self.lines("check", "--fix", "a.stave")
        self.assertEqual((told.code, told.out, told.codes()), (3, "", ["cannot-write"]))
        self.assertEqual(path.read_text(), BAD)
        self.assertEqual(os.listdir(self.folder), ["a.stave"])

    def test_leaves_a_file_on_a_full_disk(self):
        path = self.write("a.stave", BAD)
        for size in [0, 10]:
            told = self.lines("check", "--fix", "a.stave", preexec_fn=lambda: resource.setrlimit(
                resource.RLIMIT_FSIZE, (size, size)))
            self.assertEqual((told.code, told.codes()), (3, ["cannot-write"]))
            self.assertEqual(path.read_text(), BAD)
            self.assertEqual(os.listdir(self.folder), ["a.stave"])


if __name__ == "__main__":
    program.main()
