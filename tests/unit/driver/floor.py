"""Rotas for a room: for a number of people, for a squad by its names, and for a plan's day.

usage: floor.py STAVE [unittest options]
"""

import json
import subprocess
import unittest

import program
from program import InFolder

CREW = """\
athlete Mara:
athlete Jonas:
athlete Ines:
athlete Rui:
squad Inshore crew: Mara, Jonas, Ines
squad Cooks: Rui
kit Loft: box 40 cm, kettlebell 16 kg, bench

plan Autumn:
  from: 2026-11-30
  weeks: 4
  zone: Europe/Lisbon
  Monday: 18:30 for 55 min, Slack water
  grow Deck: 1 round each week
  cancelled: 2026-12-14, gale

session: Slack water
for: Inshore crew
kit: Loft
circuit Deck: 2 rounds, rest 60 s
  step-up: 8 each leg
  goblet squat: 10 @ 16 kg
  push-up: 10
"""


class Floor(InFolder):
    def setUp(self):
        super().setUp()
        self.write("crew.stave", CREW)

    def told(self, *words, code=0):
        done = self.lines("explain", "crew.stave", *words)
        self.assertEqual(done.code, code, done.err)
        return done

    def table(self, *words):
        """The cells of the rota, row by row, without its head."""
        lines = self.told(*words).out.splitlines()
        start = next(i for i, line in enumerate(lines) if line.endswith("waits"))
        end = lines.index("", start)
        return [line.split("  ") for line in lines[start + 1:end]]


class Names(Floor):
    def test_stand_in_the_rota_in_the_places_of_numbers(self):
        text = self.told("--floor", "Inshore crew").out
        self.assertIn("3 people", text)
        for name in ("Mara", "Jonas", "Ines"):
            self.assertIn(name, text)
        self.assertNotIn("Rui", text)

    # Each visits every station once a round, whoever they are.
    def test_are_at_every_station_as_often_as_there_are_rounds(self):
        rows = self.table("--floor", "inshore CREW")
        for name in ("Mara", "Jonas", "Ines"):
            at = [cell for row in rows for cell in row if name in cell]
            self.assertEqual(len(at), len(rows))

    # Why is nobody's business: the star is all that is told.
    def test_have_a_star_where_they_do_something_else(self):
        self.write("crew.stave", CREW.replace("athlete Jonas:", "athlete Jonas:\n  avoid: squat"))
        told = self.told("--floor", "Inshore crew").out
        rows = [line for line in told.splitlines() if "Jonas" in line]
        goblet = [line.split() for line in rows]
        self.assertEqual(sum("Jonas*" in row for row in goblet), 2)
        self.assertTrue(all(row[2] == "Jonas*" for row in goblet if "Jonas*" in row), goblet)
        self.assertIn("* does what their own card says.", told)
        self.assertNotIn("avoid", told)
        found = json.loads(self.told("--floor", "Inshore crew", "--json").out)
        self.assertEqual(found[0]["blocks"][0]["own_ways"], [{"team": 2, "station": 2}])
        for words in (["--floor", "3"], ["--floor", "Ines"]):
            self.assertNotIn("*", self.told(*words).out)

    def test_of_one_athlete_will_do(self):
        self.assertIn("1 person", self.told("--floor", "Ines").out)

    def test_go_into_json_for_each_team(self):
        found = json.loads(self.told("--floor", "Inshore crew", "--json").out)
        self.assertEqual(found[0]["blocks"][0]["team_names"], ["Mara", "Jonas", "Ines"])
        found = json.loads(self.told("--floor", "3", "--json").out)
        self.assertEqual(found[0]["blocks"][0]["team_names"], [])

    def test_of_groups_are_joined(self):
        text = CREW.replace("2 rounds, rest 60 s", "2 rounds, rest 60 s, in pairs").replace("circuit", "stations")
        self.write("crew.stave", text)
        self.assertIn("Mara+Jonas", self.told("--floor", "Inshore crew").out)

    # The session is for the crew; of the cooks nobody comes.
    def test_of_whom_nobody_comes_make_no_rota(self):
        self.assertEqual(self.told("--floor", "Cooks").out.strip(), "")

    def test_that_nobody_has_are_refused(self):
        done = self.told("--floor", "Inland crew", code=3)
        self.assertEqual(done.codes(), ["floor-name"])

    def test_of_too_many_are_refused(self):
        many = "".join(f"athlete P{i}:\n" for i in range(61))
        squad = "squad All: " + ", ".join(f"P{i}" for i in range(61)) + "\n"
        self.write("crew.stave", many + squad + CREW.replace("for: Inshore crew", "for: All"))
        self.assertEqual(self.told("--floor", "All", code=3).codes(), ["floor-people"])


# What pdftotext reads back is what stands on the wall.
class Wall(Floor):
    def sheet(self, *words):
        self.told("--floor", *words, "--wall")
        paths = sorted((self.folder / "stave-out/floor").glob("*.pdf"))
        self.assertEqual(len(paths), 1)
        done = subprocess.run(["pdftotext", "-layout", paths[0], "-"], check=True,
                              capture_output=True)
        return paths[0], done.stdout.decode("utf-8")

    def test_has_one_page_with_every_name_where_it_is_in_the_text(self):
        path, text = self.sheet("Inshore crew", "--day", "2026-12-07")
        self.assertEqual(path.name, "slack-water-2026-12-07-a.pdf")
        self.assertEqual(text.count("\f"), 1)
        rows = [line.split() for line in text.splitlines() if line.strip()[:1].isdigit()]
        rows = [row for row in rows if len(row) == 4]
        self.assertEqual(rows, [[cell for cell in "  ".join(row).split() if cell != "-"]
                                for row in self.table("--floor", "Inshore crew", "--day",
                                                      "2026-12-07")])

    def test_is_whole_by_another_reader(self):
        path, _ = self.sheet("8")
        subprocess.run(["qpdf", "--check", path], check=True, capture_output=True)

    def test_goes_on_to_further_pages_with_the_same_head(self):
        path, text = self.sheet("40")
        pages = text.split("\f")[:-1]
        self.assertGreater(len(pages), 1)
        for page in pages:
            self.assertIn("A1 step-up", page)

    # A name of a hundred letters is cut, and breaks nothing.
    def test_takes_names_of_any_length(self):
        self.write("crew.stave", CREW.replace("Mara", "Ma" + "r" * 100 + "a"))
        self.assertIn("…", self.sheet("Inshore crew")[1])

    def test_is_left_alone_by_a_build_into_the_same_folder(self):
        path, _ = self.sheet("8")
        self.assertEqual(self.lines("build", "crew.stave").code, 0)
        self.assertTrue(path.exists())


class Days(Floor):
    # A round more each week, so 2, 3 and 5 rounds; the third week is cancelled.
    def test_of_a_plan_have_their_sessions_as_they_have_grown(self):
        for day, rounds in (("2026-11-30", 2), ("2026-12-07", 3), ("2026-12-21", 5)):
            found = json.loads(self.told("--floor", "8", "--day", day, "--json").out)
            self.assertEqual([one["date"] for one in found], [day])
            self.assertEqual(found[0]["blocks"][0]["rounds"], rounds)
        self.assertIn("Slack water, 2026-12-07", self.told("--floor", "8", "--day", "2026-12-07").out)

    def test_with_names_are_of_those_who_come(self):
        text = self.told("--floor", "Inshore crew", "--day", "2026-12-07").out
        self.assertIn("Mara", text)

    def test_without_a_session_are_refused(self):
        for day in ("2026-12-14", "2026-12-08", "soon"):
            done = self.told("--floor", "8", "--day", day, code=3)
            self.assertEqual(done.codes(), ["floor-day"])

    def test_of_files_with_errors_tell_of_those_alone(self):
        self.write("crew.stave", CREW + "push-up 8\n")
        done = self.told("--floor", "Nobody", "--day", "2026-12-07", code=1)
        self.assertNotIn("floor", done.err)


if __name__ == "__main__":
    program.main()
