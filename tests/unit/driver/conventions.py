"""`stave conventions`: the program reckons as it says it does.

usage: conventions.py STAVE [unittest options]
"""

import json
import unittest

import program
from program import InFolder

LIFTER = """\
athlete Ana:
  weight: 72 kg
{lines}
  test deadlift: {test} on 2026-11-03

session 1: Trial
when: 2026-12-03 18:30
for: Ana
sets:
  deadlift: 3 @ {load}
"""


class Conventions(InFolder):
    def explained(self, *lines):
        text = "session 1: Trial\nsets: rest 90 s\n" + "".join(f"  {line}\n" for line in lines)
        self.write("trial.stave", text)
        told = self.stave("explain", "--json", "trial.stave")
        self.assertEqual(told.code, 0, told.err)
        return json.loads(told.out)[0]

    def explained_text(self, *lines):
        self.explained(*lines)
        return self.stave("explain", "trial.stave").out

    def loads(self, test, load="100 %", lines=""):
        self.write("loads.stave", LIFTER.format(test=test, load=load, lines=lines))
        return self.stave("explain", "--loads", "loads.stave")

    # That the text is the guide's is a check of the documents.
    def test_programs_read_them_as_people_do(self):
        told = self.stave("conventions", "--json")
        self.assertEqual((told.code, told.err), (0, ""))
        text = self.stave("conventions").out
        rows = json.loads(told.out)
        self.assertEqual([one["number"] for one in rows], list(range(1, 18)))
        for one in rows:
            for part in ("question", "choice", "matters"):
                self.assertIn(one[part], text)

    # 4 x 8 x (3 + 1 + 1 + 0) s and three rests of 90 s: 430 s; the rest behind the last set and
    # a pause after the last repetition would be seen here.
    def test_tempo_and_rests(self):
        self.assertEqual(self.explained("squat: 4 x 8, tempo 3-1-X-0")["total_seconds"], 430)
        self.assertEqual(self.explained("squat: 1 x 8, tempo 2-0-2-1")["total_seconds"], 40)

    def test_sides(self):
        one = self.explained("step-up: 8 each side, tempo 2-0-2-0")
        self.assertEqual(one["work_seconds"], 64)

    def test_kilograms_moved(self):
        told = self.explained_text("farmer carry: 30 m @ 2 x 24 kg", "chin-up: 5")
        self.assertNotIn("Volume load", told)
        told = self.explained_text("chin-up: 5 @ bodyweight", "squat: 5 @ 20 kg")
        self.assertIn("Volume load: 100 kg", told)

    # Ties go down: 101.25 kg lies between 100 and 102.5.
    def test_rounding(self):
        kit = "  kit: barbell 20 kg, 4 plates 20 kg, 2 plates 1.25 kg"
        self.assertIn("-> 100 kg", self.loads("1 @ 135 kg", "75 %", kit).out)
        self.assertIn("-> 102.5 kg", self.loads("1 @ 135 kg", "75 %", kit + "\n  rounding: up").out)

    def test_collars_count_where_listed(self):
        kit = "  kit: barbell 20 kg, 4 plates 20 kg, collars 2.5 kg"
        self.assertIn("-> 65 kg", self.loads("1 @ 65 kg", "100 %", kit).out)
        bare = kit.replace(", collars 2.5 kg", "")
        self.assertIn("-> 60 kg", self.loads("1 @ 62 kg", "100 %", bare).out)

    # 100 kg once: Epley would make it 103.3.
    def test_a_single_is_the_max(self):
        self.assertIn("-> 100 kg", self.loads("1 @ 100 kg").out)

    # 10 repetitions: 1/30 makes 133.333 kg, 0.0333 would make 133.3. Brzycki's 36/(37 - r) is
    # the same there, 1/(1.0278 - 0.0278 r) would make 133.37.
    def test_constants(self):
        self.assertIn("133.33 kg", self.loads("10 @ 100 kg").out)
        self.assertIn("133.33 kg", self.loads("10 @ 100 kg", lines="  estimate by: Brzycki").out)

    # 10 miles at a mile in 10 min take 6000 s; by 26.8 m a minute 6 mph would take 6005.
    def test_miles_are_exact(self):
        one = self.explained("run: 16093.44 m @ 10:00 per mile")
        self.assertEqual(one["total_seconds"], 6000)

    def test_no_energy_is_estimated(self):
        self.assertIn("20 kcal", self.explained_text("row: 20 kcal"))
        self.assertNotIn("kcal", self.explained_text("squat: 3 x 5 @ 60 kg", "run: 5 km"))

    def test_more_than_ten_repetitions(self):
        warning = "test-many-reps"
        self.assertIn(warning, self.loads("11 @ 60 kg").err)
        self.assertNotIn(warning, self.loads("10 @ 60 kg").err)
        self.assertEqual(self.loads("37 @ 60 kg").code, 1)


if __name__ == "__main__":
    program.main()
