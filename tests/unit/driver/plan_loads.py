"""`stave plan`: what a week loads, read by people and by programs.

usage: plan_loads.py STAVE [unittest options]
"""

import json
import statistics
import unittest

import program
from program import InFolder

# The minutes are those of one piece of work, so the loads are effort x minutes by hand.
DAYS = [("Monday", 6, 60), ("Tuesday", 4, 45), ("Wednesday", 7, 60), ("Friday", 8, 50),
        ("Saturday", 3, 90)]


def plan(weeks=1, days=DAYS):
    """A plan of these days each week, from a Monday."""
    text = f"plan Rota:\nfrom: 2026-11-30\nweeks: {weeks}\n"
    for day, effort, minutes in days:
        text += f"{day}: 18:00, {day} row\n"
    for day, effort, minutes in days:
        said = "" if effort is None else f"effort: {effort}\n"
        text += f"session: {day} row\n{said}easy row: {minutes} min\n"
    return text.encode()


class PlanLoads(InFolder):
    def told(self, text):
        told = self.stave("plan", "--json", "-", data=text)
        (plan_read,) = json.loads(told.out)
        return plan_read["training_load"]

    # Arithmetic by hand with the formulas of Foster (1998) MSSE 30:1164-1168: 360, 180, 420, 0,
    # 400, 270 and 0 add up to 1630; with a sample's deviation of 178.766 (this program's
    # convention) the monotony is 1.3026 and the strain 2123.2.
    def test_a_week_has_its_load_monotony_and_strain(self):
        (week,) = self.told(plan())["groups"][0]["weeks"]
        self.assertEqual([week[key] for key in ["load", "monotony", "strain"]],
                         ["1630", "1.3026", "2123.2"])
        self.assertEqual(week["mean_7_days"], "232.8571")
        self.assertIsNone(week["mean_28_days"])
        text = self.stave("plan", "-", data=plan()).out
        self.assertRegex(text, r"\n  1 +1630 +1\.3 +2123 +232\.9 +- ")

    # The same figures by another program's mean and standard deviation, and the averages of
    # Williams et al. (2017) BJSM 51:209-210 written out anew.
    def test_weeks_agree_with_figures_worked_out_apart(self):
        weeks = self.told(plan(5))["groups"][0]["weeks"]
        days = [360, 180, 420, 0, 400, 270, 0] * 5
        for index, week in enumerate(weeks):
            so_far = days[:7 * index + 7]
            monotony = statistics.mean(so_far[-7:]) / statistics.stdev(so_far[-7:])
            self.assertAlmostEqual(float(week["monotony"]), monotony, 3)
            for count, key in [(7, "ewma_7"), (28, "ewma_28")]:
                average = so_far[0]
                for load in so_far[1:]:
                    average += (load - average) * 2 / (count + 1)
                self.assertAlmostEqual(float(week[key]), average, 3)
            if index < 3:
                self.assertIsNone(week["coupled_ratio"])
                continue
            for key in ["coupled_ratio", "uncoupled_ratio"]:
                self.assertEqual(week[key], "1")

    def test_seven_days_alike_have_no_monotony(self):
        names = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]
        (week,) = self.told(plan(days=[(name, 5, 30) for name in names]))["groups"][0]["weeks"]
        self.assertEqual(week["load"], "1050")
        self.assertIsNone(week["monotony"])
        self.assertIsNone(week["strain"])

    def test_it_is_said_that_such_ratios_are_contested(self):
        self.assertIn("contested", self.told(plan())["remark"])
        self.assertIn("contested", self.stave("plan", "-", data=plan()).out)

    def test_a_session_without_an_effort_leaves_the_week_open(self):
        days = [*DAYS, ("Sunday", None, 20)]
        (group,) = self.told(plan(days=days))["groups"]
        self.assertEqual((group["without_effort"], group["weeks"]), (["Sunday row"], []))
        text = self.stave("plan", "-", data=plan(days=days)).out
        self.assertIn("no effort is said: Sunday row\n", text)

    def test_nothing_is_said_where_no_session_has_an_effort(self):
        text = plan(days=[("Sunday", None, 20)])
        self.assertIsNone(self.told(text))
        self.assertNotIn("Training load", self.stave("plan", "-", data=text).out)


class Effort(InFolder):
    def problems(self, line, before="", behind="push-up: 3 x 8\n"):
        text = f"session: A\n{before}{line}\n{behind}"
        told = self.stave("check", "--diagnostics", "line", "-", data=text.encode())
        return told.codes()

    def test_is_a_number_of_ten(self):
        for number in ["0", "6", "6.5", "10"]:
            self.assertNotIn("measure-unit", self.problems(f"effort: {number}"))
        for number in ["10.5", "11", "6 kg"]:
            self.assertIn("measure-unit", self.problems(f"effort: {number}"))

    def test_stands_once_and_before_the_first_block(self):
        self.assertIn("field-twice", self.problems("effort: 6", before="effort: 5\n"))
        self.assertIn("line-not-here", self.problems("effort: 6", before="sets:\n"))

    def test_is_told_and_laid_out_like_any_fact(self):
        text = b"session: A\nEFFORT:6.5\npush-up: 3 x 8\n"
        self.assertIn("\nEffort 6.5 of 10\n", self.stave("explain", "-", data=text).out)
        self.assertIn("\neffort: 6.5\n", self.stave("format", "-", data=text).out)

    def test_comes_along_with_a_base(self):
        text = (b"session 1: A\neffort: 6\npush-up: 3 x 8\n"
                b"session 2: B\nbased on: session 1\n")
        told = json.loads(self.stave("explain", "--json", "-", data=text).out)
        self.assertEqual([session["effort"] for session in told], ["6", "6"])


if __name__ == "__main__":
    program.main()
