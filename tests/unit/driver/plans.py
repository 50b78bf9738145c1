"""What `stave plan` and `stave build` say of the days of a plan.

usage: plans.py STAVE [unittest options]
"""

import json
import unittest

import program
from program import InFolder

CREWS = """\
plan Crews:
  from: 2026-11-30
  weeks: 3
  Tuesday: 18:30 for 45 min, session 9, group A
  {second}
  grow deadlift: 2.5 kg each week
  lighter: week 3 by 40 %

session 9: Slack water
deadlift: 3 x 5 @ 60 kg, rest 2 min
  group B: 3 x 8 @ 50 kg
"""
APART = CREWS.format(second="Wednesday: 18:30 for 45 min, session 9, group B")


class Growth(InFolder):
    def grown(self, text):
        """Of each week."""
        told = self.stave("plan", "-", data=text.encode())
        self.assertEqual((told.code, "error" in told.err), (0, False), told.err)
        lines = [line.strip() for line in told.out.splitlines()]
        shown = [line.removeprefix("grown to: ") for line in lines if line.startswith("grown to:")]
        told = self.stave("plan", "--json", "-", data=text.encode())
        (plan,) = json.loads(told.out)
        said = [", ".join(f"{one['what']} {one['at']}" for one in week["growth"])
                for week in plan["weeks"] if week["growth"]]
        self.assertEqual(shown, said)
        return shown

    def test_of_groups_that_differ_stands_apart(self):
        self.assertEqual(self.grown(APART), [
            "deadlift 60 kg for group A and 50 kg for group B",
            "deadlift 62.5 kg for group A and 52.5 kg for group B",
            "deadlift 62.5 kg for group A and 52.5 kg for group B"])

    def test_of_groups_that_agree_stands_once(self):
        text = APART.replace("8 @ 50 kg", "8")
        self.assertEqual(self.grown(text)[1], "deadlift 62.5 kg")
        third = text.replace("  grow", "  Friday: 18:30, session 10\n  grow") + \
            "\nsession 10: Ebb\ndeadlift: 2 x 3 @ 80 kg, rest 2 min\n"
        self.assertEqual(self.grown(third)[1], "deadlift 62.5 kg and 82.5 kg")

    def test_of_lines_in_a_session_for_everybody_stands_apart(self):
        text = CREWS.format(second="").replace(", group A", "") + "  level 2: 3 x 5 @ 70 kg\n"
        self.assertEqual(self.grown(text)[1],
                         "deadlift 62.5 kg and 52.5 kg for group B and 72.5 kg for level 2")

    def test_is_what_the_cards_say(self):
        # A group's own line has the sets that it says.
        text = APART.replace("2.5 kg each", "1 set each")
        self.assertEqual(self.grown(text), ["deadlift 3 sets",
                                            "deadlift 4 sets for group A and 3 sets for group B"])


class Summaries(InFolder):
    def heads(self, text):
        self.write("crews.stave", text)
        told = self.stave("build", "crews.stave")
        self.assertEqual((told.code, told.err), (0, ""))
        return [line.rpartition(": ")[0] for line in told.out.splitlines()
                if line.startswith("Session ")]

    def test_of_a_plans_days_tell_them_apart(self):
        self.assertEqual([head.removeprefix("Session 9: ") for head in self.heads(APART)], [
            "Slack water, 2026-12-01 18:30, group A", "Slack water, 2026-12-02 18:30, group B",
            "Slack water, 2026-12-08 18:30, group A", "Slack water, 2026-12-09 18:30, group B",
            "Slack water, 2026-12-15 18:30, group A", "Slack water, 2026-12-16 18:30, group B"])

    def test_of_athletes_say_the_day_as_well(self):
        text = "athlete Mara:\n" + CREWS.format(second="").replace(", group A", "")
        self.write("crews.stave", text)
        told = self.stave("build", "crews.stave")
        self.assertIn("\nSession 9: Slack water, 2026-12-08 18:30, Mara: ", told.out)
        self.assertIn("\nSession 9: Slack water, 2026-12-08 18:30: ", told.out)

    def test_of_sessions_by_themselves_are_as_they_were(self):
        self.build_good()
        self.assertIn("\nSession 4: Slack water: ", self.stave("build", "slack.stave").out)


if __name__ == "__main__":
    program.main()
