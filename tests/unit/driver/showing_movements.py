"""`stave movements`: the library, read by people.

usage: showing_movements.py STAVE [unittest options]
"""

import unittest

import program
from program import InFolder

OWN = """\
movement push-up:
  also: press-up
  counted in: reps
  cue: hands on the thwart

movement oar press:
  counted in: reps
  how: Press the oar.
"""


class Movements(InFolder):
    def names(self, *words):
        told = self.stave("movements", *words)
        self.assertEqual((told.code, told.err), (0, ""))
        return [line.split("  ")[0].strip() for line in told.out.splitlines()]

    def test_lists_them_all_by_name(self):
        names = self.names()
        self.assertGreater(len(names), 300)
        for name in ["push-up", "deadlift", "Romanian deadlift"]:
            self.assertIn(name, names)
        self.assertEqual(len(names), len(set(names)))

    def test_shows_one_by_any_of_its_names(self):
        for words in [["push-up"], ["Push-Up"], ["press-up"], ["push", "up"], ["push up"]]:
            told = self.stave("movements", *words)
            self.assertEqual((told.code, told.err), (0, ""), words)
            self.assertTrue(told.out.startswith("Push-up"), told.out)
            self.assertGreater(len(told.out.splitlines()), 8)

    def test_lists_those_that_speak_of_all_words(self):
        few = self.names("kettlebell", "overhead")
        more = self.names("kettlebell")
        self.assertTrue(0 < len(few) < len(more))
        self.assertLess(len(more), len(self.names()))
        self.assertTrue(set(few) <= set(more))
        self.assertEqual(self.names("KETTLEBELL"), more)

    def test_says_when_nothing_is_found_and_what_may_be_meant(self):
        told = self.stave("movements", "puhs-up")
        self.assertEqual((told.code, told.out), (1, ""))
        self.assertIn("puhs-up", told.err)
        self.assertIn("push-up meant", told.err)
        told = self.stave("movements", "skiff", "haul")
        self.assertEqual((told.code, told.out), (1, ""))
        self.assertNotIn("meant", told.err)

    def test_offers_what_shares_a_word_with_what_is_not_found(self):
        told = self.stave("movements", "battle", "ropes")
        self.assertEqual((told.code, told.out), (1, ""))
        self.assertIn("skip rope", told.err)
        self.assertLess(told.err.count(","), 5)
        self.write("own.stave", OWN)
        told = self.stave("movements", "--file", "own.stave", "spare", "oars")
        self.assertIn("oar press", told.err)

    def test_puts_a_files_definitions_first(self):
        self.write("own.stave", OWN)
        told = self.stave("movements", "--file", "own.stave", "push-up")
        self.assertEqual(told.code, 0, told.err)
        self.assertIn("hands on the thwart", told.out)
        self.assertIn("oar press", self.stave("movements", "oar", "--file", "own.stave").out)
        without = self.stave("movements", "push-up")
        self.assertNotIn("thwart", without.out)

    def test_tells_problems_of_the_file(self):
        self.write("bad.stave", OWN + "  sides: seven\n")
        told = self.lines("movements", "--file", "bad.stave", "oar")
        self.assertEqual(told.code, 1)
        self.assertTrue(told.err.startswith("bad.stave:9:"), told.err)
        told = self.lines("movements", "--file", "absent.stave", "oar")
        self.assertEqual((told.code, told.codes()), (3, ["cannot-read"]))

    def test_a_full_device_is_told_of(self):
        with open("/dev/full", "wb") as full:
            run = program.subprocess.run([self.program, "movements"], stdout=full,
                                         stderr=program.subprocess.PIPE, check=False)
        self.assertEqual(run.returncode, 3)

    def test_standard_input_may_be_the_file(self):
        told = self.stave("movements", "oar", "--file", "-", data=OWN.encode())
        self.assertIn("oar press", told.out)


if __name__ == "__main__":
    program.main()
