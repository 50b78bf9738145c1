"""`stave watch` makes only what has changed: what stands in its folder, and what it tells, is
what `stave build` comes to that has seen the same saves.

usage: rebuilding.py STAVE [unittest options]

A small season is edited at random, the same in every run.
"""

import calendar
import os
import random
import time

import program
from program import LIST
from watching import Watching

# Within the season, so that some of its days are over.
NOW = str(calendar.timegm((2027, 1, 15, 12, 0, 0)))
LIFTS = ("back squat", "deadlift", "bench press")
LANGUAGES = ("English", "Portuguese", "German", "Polish", "Greek")


class Season:
    """A text in pieces that edits change."""

    def __init__(self, chance):
        self.chance = chance
        self.remark = ""
        self.athletes = {name: self.athlete() for name in ("Mara", "Jonas", "Ines", "Tiago")}
        self.squad = ["Mara", "Tiago"]
        self.room = "barbell 20 kg, rack, bench, 2 pairs of plates 25 20 15 10 5 2.5 kg, box 40 cm"
        self.drag = "tarp drag"
        self.titles = {1: "Lee shore", 2: "Slack water", 3: "Long row"}
        self.cues = {1: "push the floor away", 2: "tall chest", 3: "long arms"}
        self.reps = {1: 5, 2: 8, 3: 10}
        self.more = {1: "", 2: "", 3: ""}
        self.place = "Boathouse loft"
        self.drag_cue = "low hips"
        self.zone = "Europe/Lisbon"
        self.weeks = 3
        self.growth = "2.5 % of max"
        self.changes = {}
        self.broken = ""

    def athlete(self):
        return {"weight": self.chance.randint(55, 90), "language": "", "avoid": "", "kit": True,
                "tests": {lift: self.chance.randint(60, 140) for lift in LIFTS}}

    def athlete_text(self, name):
        person = self.athletes[name]
        lines = [f"athlete {name}:", f"  weight: {person['weight']} kg"]
        if person["kit"]:
            lines.append("  kit: Loft")
        if person["language"]:
            lines.append(f"  language: {person['language']}")
        if person["avoid"]:
            lines.append(f"  avoid: {person['avoid']}")
        lines += [f"  test {lift}: 3 @ {load} kg on 2026-12-20"
                  for lift, load in person["tests"].items()]
        return "\n".join(lines)

    def session_text(self, number):
        lines = [f"session {number}: {self.titles[number]}"]
        if number == 1:
            lines += ["sets Strength: rest 2 min", f"  back squat: 3 x {self.reps[1]} @ 70 %",
                      "    group B: 5 x 3 @ 80 %"]
        elif number == 2:
            lines += ["sets: rest 2 min", f"  deadlift: 4 x {self.reps[2]} @ 65 %"]
        else:
            lines += ["warm-up:", "  walk: 5 min", "circuit Deck: 3 rounds, rest 60 s", f"  push-up: {self.reps[3]}",
                      "  box jump: 6", "    or step-up: 8 each leg, if no jumping"]
        lines += [f"    cue: {self.cues[number]}", f"  {self.drag}: 2 x 20 m"]
        if number == 3:
            lines[-1] = f"  {self.drag}: 20 m"
        if self.more[number]:
            lines.append(f"  {self.more[number]}")
        return "\n".join(lines)

    def plan_text(self):
        lines = ["plan Winter tides:", "  from: 2027-01-04", f"  weeks: {self.weeks}",
                 f"  zone: {self.zone}", f"  place: {self.place}",
                 "  Tuesday: 18:30, session 1 then session 2", "  Friday: 19:00, session 3"]
        if self.growth:
            lines.append(f"  grow back squat: {self.growth} each week")
        lines += [f"  {change}" for change in self.changes.values()]
        return "\n".join(lines)

    def text(self):
        drag = (f"movement {self.drag}:\n  counted in: m\n  pattern: gait\n"
                f"  cue: {self.drag_cue}")
        parts = [f"# {self.remark}", f"kit Loft: {self.room}", drag,
                 *(self.athlete_text(name) for name in self.athletes),
                 "squad B: " + ", ".join(self.squad),
                 *(self.session_text(number) for number in self.titles), self.plan_text(),
                 self.broken]
        return "\n\n".join(parts) + "\n"

    # What a coach does to it.

    def somebody(self):
        return self.athletes[self.chance.choice(list(self.athletes))]

    def type_a_line_above(self):
        self.remark += f"a remark\n# and {self.chance.randint(0, 99)} "

    def change_a_dose(self):
        self.reps[self.chance.choice([1, 2, 3])] = self.chance.randint(3, 12)

    def change_a_cue(self):
        self.cues[self.chance.choice([1, 2, 3])] = f"slow {self.chance.randint(2, 9)} s down"

    def change_a_test(self):
        self.somebody()["tests"][self.chance.choice(LIFTS)] = self.chance.randint(60, 140)

    def change_the_kit(self):
        plates = self.chance.choice(["25 20 15 10 5 2.5", "20 10 5", "25 15 10 5 2.5 1.25"])
        self.room = f"barbell 20 kg, rack, bench, 2 pairs of plates {plates} kg, box 40 cm"

    def have_no_kit_line(self):
        person = self.somebody()
        person["kit"] = not person["kit"]

    def rename_a_movement(self):
        self.drag = f"tarp drag {self.chance.choice('abcdef')}"

    def define_it_otherwise(self):
        self.drag_cue = f"hips {self.chance.choice(['low', 'still', 'behind the hands'])}"

    def cancel_a_day(self):
        self.change("01-12", "cancelled: 2027-01-12, gale", "01-19", "cancelled: 2027-01-19, ice")

    def move_a_day(self):
        self.change("01-15", "moved: 2027-01-15 to 2027-01-16 10:00, ice", "01-22",
                    "moved: 2027-01-22 to 2027-01-23 11:00")

    def be_away(self):
        self.change("01-08", "away: 2027-01-08, leave", "01-22", "away: 2027-01-22, leave")

    def change(self, *days):
        choice = 2 * self.chance.randint(0, 1)
        day, line = days[choice:choice + 2]
        if self.changes.get(day) == line:
            del self.changes[day]
        else:
            self.changes[day] = line

    def add_or_remove_somebody(self):
        if "Rosa" in self.athletes:
            del self.athletes["Rosa"]
        else:
            self.athletes = {"Rosa": self.athlete(), **self.athletes}

    def grow_otherwise(self):
        self.growth = self.chance.choice(["", "2.5 % of max", "1 set", "1 % of max"])

    def change_the_zone(self):
        self.zone = self.chance.choice(["Europe/Lisbon", "Europe/Athens", "Atlantic/Azores"])

    def change_the_weeks(self):
        self.weeks = self.chance.choice([2, 3, 4])

    def change_the_place(self):
        self.place = self.chance.choice(["Boathouse loft", "Slipway", "Drill hall"])

    def speak_otherwise(self):
        self.somebody()["language"] = self.chance.choice(LANGUAGES)

    def avoid_something(self):
        self.somebody()["avoid"] = self.chance.choice(["", "jumping", "lunge", "push-up"])

    def change_the_squad(self):
        self.squad = self.chance.sample(["Mara", "Jonas", "Ines", "Tiago"],
                                        self.chance.randint(1, 3))

    def rename_a_session(self):
        self.titles[self.chance.choice([1, 2, 3])] = self.chance.choice(
            ["Ebb", "Flood", "Neap tide", "Spring tide"]) + f" {self.chance.randint(1, 99)}"

    def use_the_library(self):
        self.more[self.chance.choice([1, 2])] = self.chance.choice(
            ["", "front squat: 2 x 5 @ 30 kg", "plank: 2 x 30 s", "goblet squat: 2 x 8 @ 12 kg"])

    def name_something_unknown(self):
        self.more[self.chance.choice([1, 2])] = self.chance.choice(
            ["", "keel lift: 2 x 6 reps", "keel lift: 2 x 6 reps @ 50 % of deadlift"])

    def make_a_mistake(self):
        self.broken = "session 9: Broken\nplank: 12 kg"

    def write_what_cannot_be_printed(self):
        self.broken = "session 9: Broken\nplank: 30 s\n  cue: breathe ☃ out"


EDITS = [act for name, act in vars(Season).items()
         if callable(act) and not name.startswith("_") and not name.endswith("text")
         and name not in ("athlete", "somebody", "change")]


class Rebuilding(Watching):
    def setUp(self):
        super().setUp()
        self.told = 0

    def environment(self):
        return {"LC_ALL": "C.UTF-8", "SOURCE_DATE_EPOCH": NOW}

    def save(self, text):
        self.write("season.stave~", text)
        os.replace(self.folder / "season.stave~", self.folder / "season.stave")

    def begin(self, season, *words):
        self.words = ("--diagnostics", "line", *words)
        self.save(season.text())
        self.start("season.stave", "--out", "watched", *self.words)
        self.compare("at first")

    def save_and_compare(self, season, why):
        self.save(season.text())
        line = self.next()
        self.compare(why)
        return line

    def compare(self, why):
        fresh = self.stave("build", "season.stave", "--out", "fresh", *self.words,
                           env=self.environment())
        wanted = fresh.err.replace("fresh/", "watched/").splitlines(keepends=True)
        end = time.monotonic() + 10
        while len(self.said) < self.told + len(wanted) and time.monotonic() < end:
            time.sleep(0.002)
        self.assertEqual(self.said[self.told:], wanted, why)
        self.told += len(wanted)
        watched, wanted = self.contents("watched"), self.contents("fresh")
        self.assertEqual(sorted(watched), sorted(wanted), why)
        self.assertEqual([name for name in wanted if watched[name] != wanted[name]], [], why)

    def contents(self, folder):
        top = self.folder / folder
        return {str(path.relative_to(top)): path.read_bytes() for path in sorted(top.rglob("*"))
                if path.is_file()}

    def at_both(self, name, act):
        for folder in ("watched", "fresh"):
            act(self.folder / folder / name)

    def some_output(self, chance, ending):
        top = self.folder / "watched"
        return str(chance.choice(sorted(top.rglob(f"*{ending}"))).relative_to(top))


class Edits(Rebuilding):
    def check(self, seed, count, *words):
        chance = random.Random(seed)
        season = Season(chance)
        self.begin(season, *words)
        written = 0
        # Each of them, in any order, and some once more.
        edits = chance.sample(EDITS, len(EDITS)) + chance.choices(EDITS, k=count)
        for number, edit in enumerate(edits):
            season.broken = ""
            edit(season)
            if number % 5 == 3:
                self.disturb(chance)
            line = self.save_and_compare(season, f"{number}: {edit.__name__}")
            written += "nothing written" not in line
        self.assertGreater(written, len(edits) / 2)

    def disturb(self, chance):
        """Somebody deletes or changes what stands in the folder."""
        def write_over(path):
            path.write_bytes(b"x" * path.stat().st_size)

        def write_over_unseen(path):
            stat = path.stat()
            write_over(path)
            os.utime(path, ns=(stat.st_atime_ns, stat.st_mtime_ns))

        name = self.some_output(chance, chance.choice([".pdf", ".pdf", ".ics"]))
        acts = [os.unlink] if name.endswith(".ics") else [os.unlink, write_over, write_over_unseen]
        self.at_both(name, chance.choice(acts))

    def test_of_a_season(self):
        self.check(1, 12)

    def test_of_another_season(self):
        self.check(2, 12)

    def test_with_pictures_and_together(self):
        self.check(3, 4, "--svg", "--together")


class Standing(Rebuilding):
    def test_files_that_stand_are_not_touched(self):
        season = Season(random.Random(4))
        self.begin(season)
        before = self.files("watched", with_list=True)
        season.type_a_line_above()
        line = self.save_and_compare(season, "a line above")
        self.assertIn(" 0 written, ", line)
        self.assertEqual(self.files("watched", with_list=True), before)

    def test_of_an_athlete_only_what_is_theirs_is_written(self):
        season = Season(random.Random(5))
        self.begin(season)
        before = self.files("watched")
        season.athletes["Jonas"]["tests"]["back squat"] += 20
        self.save_and_compare(season, "a test")
        after = self.files("watched")
        changed = {name for name, file in after.items() if before.get(name) != file}
        self.assertTrue(changed)
        self.assertTrue(all("people/jonas/" in name for name in changed), changed)

    def test_a_list_that_is_gone_is_made_again(self):
        season = Season(random.Random(6))
        self.begin(season)
        self.at_both(LIST, os.unlink)
        season.type_a_line_above()
        self.save_and_compare(season, "no list")

    def test_a_file_put_in_the_place_of_a_card_at_once_is_seen(self):
        season = Season(random.Random(7))
        self.begin(season)
        for number in range(6):
            season.change_a_dose()
            self.save_and_compare(season, "a dose")
            name = self.some_output(random.Random(number), ".pdf")
            self.at_both(name, lambda path: path.write_bytes(b"x" * path.stat().st_size))
            season.type_a_line_above()
            self.save_and_compare(season, "a card that somebody wrote over")

    def test_a_feed_that_somebody_has_broken_is_told_of(self):
        season = Season(random.Random(8))
        self.begin(season)
        name = self.some_output(random.Random(8), ".ics")
        self.at_both(name, lambda path: path.write_bytes(path.read_bytes()[:-40]))
        season.type_a_line_above()
        self.assertIn("nothing written", self.save_and_compare(season, "a broken feed"))
        self.at_both(name, os.unlink)
        season.type_a_line_above()
        self.save_and_compare(season, "a feed that is gone")


if __name__ == "__main__":
    program.main()
