"""Files that take in others, from a real disk; warnings that count.

usage: including.py STAVE [unittest options]
"""

import json
import os
import unittest

import program
from program import GOOD, InFolder

OAR = "movement oar press:\n  counted in: reps\n"
SESSION = "session: Loft\nsets:\n  oar press: 3 x 8\n"
# More minutes than are booked.
WARNED = GOOD.replace("for 55 min", "for 5 min")


class Include(InFolder):
    def told(self, text, *words):
        self.write("evening.stave", text)
        return self.lines("check", "evening.stave", *words)

    def test_counts_paths_from_the_file_that_names_them(self):
        self.write("season/evening.stave", "include: ../kit/loft.stave\n" + SESSION)
        self.write("kit/loft.stave", "include: more/oars.stave\n")
        self.write("kit/more/oars.stave", OAR)
        told = self.lines("check", "season/evening.stave")
        self.assertEqual((told.code, told.err), (0, ""))
        told = self.lines("check", self.folder / "season/evening.stave")
        self.assertEqual((told.code, told.err), (0, ""))

    def test_counts_paths_from_the_working_folder_for_standard_input(self):
        self.write("kit/oars.stave", OAR)
        told = self.lines("check", "-", data=("include: kit/oars.stave\n" + SESSION).encode())
        self.assertEqual((told.code, told.err), (0, ""))

    def test_takes_absolute_paths_and_links(self):
        path = self.write("kit/oars.stave", OAR)
        (self.folder / "oars.stave").symlink_to(path)
        for name in [path, "oars.stave", "./oars.stave", "kit/../oars.stave"]:
            told = self.told(f"include: {name}\n{SESSION}")
            self.assertEqual((told.code, told.err), (0, ""), name)

    def test_goes_up_from_where_a_linked_folder_is(self):
        self.write("far/oars.stave", OAR)
        self.write("far/kit/more.stave", "")
        (self.folder / "link").symlink_to(self.folder / "far" / "kit")
        told = self.told(f"include: link/../oars.stave\n{SESSION}")
        self.assertEqual((told.code, told.err), (0, ""))

    def test_knows_a_file_by_every_name(self):
        path = self.write("kit/oars.stave", OAR)
        (self.folder / "link.stave").symlink_to(path)
        told = self.told("include: kit/oars.stave\ninclude: link.stave\n"
                         f"include: kit/../kit/oars.stave\ninclude: {path}\n{SESSION}")
        self.assertEqual((told.code, told.err), (0, ""))

    def test_finds_a_ring_through_links(self):
        self.write("a.stave", "include: b.stave\n")
        (self.folder / "b.stave").symlink_to("a.stave")
        self.assertEqual(self.told("include: a.stave\n" + SESSION).codes(),
                         ["movement-unknown", "include-cycle"])
        self.assertEqual(self.told("include: evening.stave\n" + SESSION).codes()[0],
                         "include-cycle")

    def test_says_why_a_file_cannot_be_taken_in(self):
        os.mkfifo(self.folder / "pipe")
        (self.folder / "folder").mkdir()
        (self.folder / "astray").symlink_to("nowhere")
        self.write("large", b"# " + b"x\n# " * (5 << 20))
        for name, why in [("absent.stave", "No such file or directory"),
                          ("folder", "it is a folder"), ("pipe", "it is no plain file"),
                          ("/dev/zero", "it is no plain file"), ("/dev/stdin", "plain file"),
                          ("astray", "No such file or directory"),
                          ("large", "it is larger than 16 MB"),
                          ("https://example.org/a.stave", "not fetched from the net"),
                          ("~/oars.stave", "No such file or directory"),
                          ("x" * 300, "File name too long")]:
            with self.subTest(name=name):
                told = self.told(f"include: {name}\nsession: A\nrow: 5 min\n")
                self.assertEqual((told.code, told.codes()), (1, ["include-missing"]), told.err)
                self.assertIn(why, told.err)
                self.assertTrue(told.err.startswith("evening.stave:1:10: error: "), told.err)

    def test_refuses_what_is_no_text_and_names_the_file(self):
        self.write("a.stave", b"movement a:\n  cue: \xff\xfe\n")
        self.write("b.stave", b"\0\0\0")
        for name in ["a.stave", "b.stave"]:
            told = self.told(f"include: {name}\nsession: A\nrow: 5 min\n")
            self.assertEqual(told.code, 1)
            self.assertTrue(told.err.startswith(f"{name}:"), told.err)

    def test_takes_files_with_a_byte_order_mark_and_foreign_line_ends(self):
        self.write("oars.stave", b"\xef\xbb\xbf" + OAR.replace("\n", "\r\n").encode())
        told = self.told("include: oars.stave\n" + SESSION)
        self.assertEqual((told.code, told.err), (0, ""))

    def test_builds_cards_of_the_file_alone(self):
        self.write("old.stave", GOOD)
        self.write("new.stave", "include: old.stave\nsession 5: High water\nbased on: session 4\n"
                                "when: 2026-12-10 18:30 for 55 min, Europe/Lisbon\n")
        told = self.stave("build", "new.stave")
        self.assertEqual((told.code, told.err), (0, ""))
        self.assertEqual(set(self.files()), {"stave-out/cards/session-5-high-water.pdf",
                                             "stave-out/feeds/new.ics"})

    def test_names_the_files_in_every_form_of_problems(self):
        self.write("kit/oars.stave", OAR + "  sides: seven\n")
        self.write("evening.stave", "include: kit/oars.stave\n" + SESSION)
        text = self.stave("check", "evening.stave").err
        self.assertIn("  kit/oars.stave, line 3, column ", text)
        told = self.stave("check", "evening.stave", "--diagnostics", "json")
        found = json.loads(told.err)
        self.assertEqual([one["file"] for one in found], ["kit/oars.stave"])
        self.assertEqual(found[0]["begin"]["line"], 3)


class Strict(InFolder):
    def test_lets_warnings_fail_a_check(self):
        self.write("a.stave", WARNED)
        usual = self.lines("check", "a.stave")
        self.assertEqual((usual.code, usual.codes()), (0, ["over-time"]))
        strict = self.lines("check", "a.stave", "--strict")
        self.assertEqual((strict.code, strict.err), (1, usual.err))

    def test_lets_warnings_stop_a_build_before_it_writes(self):
        self.write("a.stave", WARNED)
        told = self.lines("build", "a.stave", "--strict")
        self.assertEqual((told.code, told.out, self.files()), (1, "", {}))
        self.assertEqual(self.lines("build", "a.stave").code, 0)
        self.assertEqual(len(self.files()), 2)

    def test_stops_a_build_of_another_file_too(self):
        self.write("a.stave", WARNED)
        self.write("b.stave", GOOD.replace("session 4", "session 5"))
        told = self.lines("build", "a.stave", "b.stave", "--strict")
        self.assertEqual((told.code, self.files()), (1, {}))

    def test_says_nothing_of_what_is_allowed(self):
        self.write("a.stave", WARNED.replace("place:", "allow: over-time, the tide\nplace:"))
        told = self.lines("build", "a.stave", "--strict")
        self.assertEqual((told.code, told.err, len(self.files())), (0, "", 2))

    def test_does_not_count_notes(self):
        self.write("a.stave", "session: A\nskiff haul: 8\n")
        told = self.lines("check", "a.stave", "--strict")
        self.assertEqual((told.code, told.codes()), (0, ["movement-unknown"]))

    def test_counts_warnings_behind_more_notes_than_are_shown(self):
        names = "".join(f"session {i}: S{i}\n" + "".join(
            f"odd thing {i * 50 + j}: 5\n" for j in range(50)) for i in range(6))
        self.write("a.stave", names + "session 99: Last\nsquat: 5 x 500\n")
        told = self.lines("check", "a.stave", "--strict")
        self.assertEqual(told.code, 1)

    def test_does_not_allow_what_cards_show_twice(self):
        self.write("a.stave", GOOD.replace("place:", "allow: card-cues-dropped, known\nplace:"))
        told = self.lines("check", "a.stave", "--strict")
        self.assertEqual((told.code, told.err), (0, ""))


if __name__ == "__main__":
    program.main()
