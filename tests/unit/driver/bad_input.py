"""Input that no coach meant: never a crash or a hang, always a catalogued problem.

usage: bad_input.py STAVE [unittest options]
"""

import os
import pathlib
import re
import threading
import time
import unittest

import program
from program import GOOD, InFolder

CATALOGUE = pathlib.Path(__file__).parents[3] / "compiler/diagnostics/catalogue.def"
CODES = set(re.findall(r'STAVE_DIAGNOSTIC\(\w+, "([a-z0-9-]+)"', CATALOGUE.read_text("utf-8")))
HEAD = "session: A\nsets:\n"
DIGITS = "9" * 5000


class BadInput(InFolder):
    def refused(self, words, *expected, code=1, **more):
        """A build that fails with these problems among others and changes nothing."""
        before = self.files() or self.build_good()
        told = self.lines("build", *words, **more)
        self.assertEqual((told.code, told.out), (code, ""), told.err[:500])
        self.assertLessEqual(set(expected), set(told.codes()), told.err[:500])
        self.assertLessEqual(set(told.codes()) - {""}, CODES)
        self.assertEqual(self.files(), before)
        return told

    def refuse_text(self, text, *expected):
        self.write("bad.stave", text)
        return self.refused(["bad.stave"], *expected)

    def accepted(self, text):
        self.write("fine.stave", text)
        told = self.stave("build", "fine.stave")
        self.assertEqual((told.code, told.err), (0, ""))
        return told


class NoText(BadInput):
    def test_an_empty_file(self):
        self.refuse_text("", "no-session")
        self.refuse_text("\n \n\t\n", "no-session")
        self.refuse_text(b"\xef\xbb\xbf", "no-session")

    def test_a_folder(self):
        (self.folder / "sub").mkdir()
        self.refused(["sub"], "is-folder", code=3)

    def test_a_program(self):
        self.write("bad.stave", pathlib.Path(self.program).read_bytes()[:1_000_000])
        told = self.refused(["bad.stave"])
        self.assertTrue(set(told.codes()) & {"not-utf8", "control-character"})

    def test_nul_bytes(self):
        self.refuse_text(b"\0" * 100_000, "control-character")
        self.refuse_text(HEAD.encode() + b"push\0up: 8\n", "control-character")

    def test_bytes_that_are_no_utf8(self):
        # RFC 3629: a lone continuation, overlong, a surrogate, beyond U+10FFFF, cut short.
        for wrong in [b"\x80", b"\xc0\xaf", b"\xe0\x80\xaf", b"\xed\xa0\x80", b"\xf4\x90\x80\x80",
                      b"\xf8\x88\x80\x80\x80", b"\xff", b"\xe2\x82"]:
            with self.subTest(wrong=wrong):
                self.refuse_text(HEAD.encode() + b"push" + wrong + b"up: 8\n", "not-utf8")
        self.refuse_text(GOOD.encode("utf-16"), "not-utf8")

    def test_byte_order_mark_and_any_line_end(self):
        text = GOOD.encode()
        plain = self.stave("explain", "-", data=text).out
        for other in [b"\xef\xbb\xbf" + text, text.replace(b"\n", b"\r\n"),
                      text.replace(b"\n", b"\r"), text.rstrip(b"\n")]:
            told = self.stave("explain", "-", data=other)
            self.assertEqual((told.code, told.err, told.out), (0, "", plain))

    def test_places_are_right_with_any_line_end(self):
        for end in ["\n", "\r\n", "\r"]:
            text = f"session: A{end}{end}sets:{end}plank: 8-10{end}"
            told = self.lines("check", "-", data=text.encode())
            self.assertTrue(told.err.startswith("standard input:4:8: error"), told.err)


class TooMuch(BadInput):
    def test_a_line_of_a_megabyte(self):
        for middle in ["8-" * 500_000 + "8", "a" * 1_000_000, "🚣" * 250_000, " " * 1_000_000 + "8"]:
            self.refuse_text(f"{HEAD}push-up: {middle}\n", "line-too-long")

    def test_nested_brackets(self):
        self.refuse_text(f"{HEAD}push-up: {'(' * 10_000}8{')' * 10_000}\n", "line-too-long")
        for opener, closer in ["()", "[]", "{}", "<>"]:
            self.refuse_text(f"{HEAD}push-up: {opener * 900}8{closer * 900}\n")

    def test_sets_and_rounds_beyond_reason(self):
        for amount in ["1000000000 x 8", "3 x 1000000000", "1000000000", "1..1000000000",
                       "1000000000..1", "2..1000000000 by 2", "101 x 8", "1000000 x 1000000 m",
                       "1000000 x max", "8 @ 1000000000 kg", "8 @ 1000000 x 8 kg", "1000000 h",
                       "8, rest 1000000 min", "8, tempo 1000000-1-1-1", "8, arc 1000000 deg"]:
            with self.subTest(amount=amount):
                self.refuse_text(f"{HEAD}push-up: {amount}\n")
        for rounds in ["1000000000 rounds", "101 rounds"]:
            self.refuse_text(f"session: A\ncircuit: {rounds}\npush-up: 8\n")

    def test_numbers_of_thousands_of_digits(self):
        for amount in [f"{DIGITS} x 8", f"3 x {DIGITS}", f"8 @ {DIGITS} kg", f"8 @ 0.{DIGITS} kg",
                       f"{DIGITS} s", f"1..{DIGITS}", f"8, tempo {DIGITS}-1-1-1"]:
            self.refuse_text(f"{HEAD}push-up: {amount}\n", "line-too-long")
        # In a line that is short enough the numbers themselves are judged.
        digits = DIGITS[:1000]
        for amount in [f"{digits} x 8", f"8 @ {digits} kg", f"8 @ 0.{digits} kg", f"{digits}:30",
                       f"8, rest {digits} s", f"{digits}/{digits} mile"]:
            self.refuse_text(f"{HEAD}push-up: {amount}\n")
        self.refuse_text(f"session: A\nwhen: {digits}-01-01 18:30\nsets:\npush-up: 8\n")
        self.refuse_text(f"session: A\nwhen: 2026-01-01 18:30 for {digits} h\nsets:\npush-up: 8\n")

    def test_a_million_lines(self):
        started = time.monotonic()
        self.refuse_text(HEAD + "push-up: 3 x 8\n" * 1_000_000, "too-many")
        self.refuse_text("no colon here\n" * 1_000_000, "no-colon")
        self.accepted(GOOD + "\n" * 1_000_000)
        self.accepted(GOOD + "# nothing\n" * 1_000_000)
        # Generous: a build with sanitizers on a busy machine.
        self.assertLess(time.monotonic() - started, 100)

    def test_a_thousand_sessions(self):
        sessions = "".join(f"session {number}: A{number}\nsets:\npush-up: 8\n" for number in range(1000))
        self.write("many.stave", sessions)
        told = self.stave("check", "many.stave")
        self.assertEqual((told.code, told.err), (0, ""))

    def test_only_so_many_problems_are_told(self):
        told = self.lines("check", "-", data=b"no colon here\n" * 100_000)
        self.assertLess(len(told.err.splitlines()), 300)

    def test_a_file_larger_than_the_bound(self):
        large = self.write("large.stave", "")
        os.truncate(large, 16 * 1024 * 1024 + 1)
        self.refused(["large.stave"], "file-too-large", code=3)


class StrangeFiles(BadInput):
    def test_a_device_without_end(self):
        self.refused(["/dev/zero"], "file-too-large", code=3)

    def test_standard_input_without_end(self):
        before = self.build_good()
        with open("/dev/zero", "rb") as endless:
            told = self.lines("build", "-", data=None, stdin=endless)
        self.assertEqual((told.code, told.codes()), (3, ["file-too-large"]))
        self.assertEqual(self.files(), before)

    def test_a_named_pipe_is_read_like_a_file(self):
        os.mkfifo(self.folder / "pipe.stave")
        writer = threading.Thread(
            target=lambda: (self.folder / "pipe.stave").write_text(GOOD, "utf-8"))
        writer.start()
        told = self.stave("build", "pipe.stave")
        writer.join()
        self.assertEqual((told.code, told.err), (0, ""))
        self.assertEqual(len(self.files()), 2)

    def test_the_same_file_by_two_paths(self):
        self.refused(["slack.stave", "./slack.stave"], "same-output", code=3)

    def test_two_files_with_the_same_session(self):
        self.write("other.stave", GOOD)
        told = self.refused(["slack.stave", "other.stave"], "same-output", code=3)
        self.assertIn("session-4-slack-water.pdf", told.err)

    def test_two_files_of_the_same_name(self):
        self.write("sub/slack.stave", GOOD.replace("session 4", "session 5"))
        told = self.refused(["slack.stave", "sub/slack.stave"], "same-output", code=3)
        self.assertIn("slack.ics", told.err)

    def test_a_path_that_cannot_be(self):
        for path in ["absent.stave", "", "slack.stave/x", "x" * 300, "a/" * 3000]:
            with self.subTest(path=path[:20]):
                self.refused([path], "cannot-read", code=3)

    def test_a_circle_of_links(self):
        (self.folder / "circle.stave").symlink_to("circle.stave")
        self.refused(["circle.stave"], "cannot-read", code=3)

    def test_names_with_spaces_and_letters_of_any_script(self):
        source = self.write("δύο λέξεις – 北.stave", GOOD)
        told = self.stave("build", source.name, "--out", "Ausgabe für Ærø/neu 🚣")
        self.assertEqual((told.code, told.err), (0, ""))
        self.assertEqual(len(self.files("Ausgabe für Ærø/neu 🚣")), 2)


if __name__ == "__main__":
    program.main()
