"""Athletes: a card and a feed for each, with their own loads, and nothing of theirs elsewhere.

usage: people.py STAVE [unittest options]
"""

import re
import subprocess
import unittest

import program
from program import InFolder

BASE = "https://crew.example.org/training/"

# Numbers and words that stand nowhere else, so that they can be searched for.
CREW = """\
athlete Mara Lindqvist:
  weight: 67.43 kg
  age group: under 17
  units: kg
  kit: barbell 20 kg, rack, 2 pairs of plates 20 kg, 2 pairs of 15 10 5 2.5 1.25 kg, box 40 cm
  avoid: jumping, hanging
  test deadlift: 1 @ 121.7 kg on 2026-11-02
athlete Jonas Feld:
  weight: 83.19 kg
  age group: over 61
  units: lb
  language: Portuguese
  kit: barbell 45 lb, rack, pairs of plates 45 35 25 10 5 2.5 lb, box 40 cm
  avoid: kneeling
  test deadlift: 1 @ 286.3 lb on 2026-11-02
squad Crew: Mara Lindqvist, Jonas Feld

session 4: Slack water
when: 2026-12-03 18:30 for 60 min, Europe/Lisbon
for: {audience}
warm-up:
  walk: 5 min
sets: rest 2 min
  deadlift: {reps} x 5 @ 75 %
  deadlift: 1 @ 95 %
  box jump: 3 x 5
    or step-up: 3 x 8 each leg, if no jumping
"""

# Of each athlete: what only the coach may read, and what only they may.
MARA = {"secret": ["67.43", "121.7", "hanging", "under 17", "age group"], "name": "Mara", "load": "92.5 kg"}
JONAS = {"secret": ["83.19", "286.3", "kneeling", "over 61"], "name": "Jonas", "load": "215 lb"}


def text_of(path):
    if path.suffix == ".pdf":
        done = subprocess.run(["pdftotext", "-layout", path, "-"], check=True, capture_output=True)
        return done.stdout.decode("utf-8")
    return re.sub(r"\r\n ", "", path.read_bytes().decode("utf-8"))


class People(InFolder):
    def setUp(self):
        super().setUp()
        self.write_crew()

    def write_crew(self, audience="Crew", reps=3):
        self.write("crew.stave", CREW.format(audience=audience, reps=reps))

    def run_stave(self, *words, code=0):
        done = self.lines(*words, env={"SOURCE_DATE_EPOCH": "1790000000"})
        self.assertEqual(done.code, code, done.err)
        return done

    def texts(self, folder):
        """By path: all that can be read in the files of a folder."""
        root = self.folder / folder
        return {str(path.relative_to(root)): text_of(path)
                for path in sorted(root.rglob("*")) if path.is_file() and path.suffix != ".json"}


class Build(People):
    def test_makes_a_card_and_a_feed_for_each(self):
        self.run_stave("build", "crew.stave", "--together")
        self.assertEqual(
            sorted(self.texts("stave-out")),
            ["cards/session-4-slack-water.pdf", "feeds/crew.ics",
             "people/jonas-feld/jonas-feld.ics", "people/jonas-feld/session-4-slack-water.pdf",
             "people/mara-lindqvist/mara-lindqvist.ics",
             "people/mara-lindqvist/session-4-slack-water.pdf",
             "people/session-4-slack-water.pdf"])

    def test_has_one_file_of_all_pages_for_the_printer(self):
        self.run_stave("build", "crew.stave", "--together")
        path = self.folder / "stave-out/people/session-4-slack-water.pdf"
        info = subprocess.run(["pdfinfo", path], check=True, capture_output=True, text=True)
        self.assertRegex(info.stdout, r"Pages:\s+2\b")
        pages = text_of(path).split("\f")
        self.assertIn("Mara Lindqvist", pages[0])
        self.assertIn("Jonas Feld", pages[1])

    # 75 % of 121.7 kg is 91.275 kg, whose nearest is 92.5 of 90 and 92.5; of 286.3 lb it is
    # 214.725 lb, whose nearest is 215 of 210 and 215. Arithmetic, no source.
    def test_gives_loads_in_the_units_and_words_of_each(self):
        self.run_stave("build", "crew.stave")
        texts = self.texts("stave-out")
        for folder, own, other in (("mara-lindqvist", MARA, JONAS), ("jonas-feld", JONAS, MARA)):
            for name in (f"{folder}.ics", "session-4-slack-water.pdf"):
                text = texts[f"people/{folder}/{name}"].replace("\u202f", " ").replace("\u00a0", " ")
                self.assertIn(own["load"].replace(".", ",") if own is JONAS else own["load"], text)
                self.assertNotIn(other["load"], text)
                self.assertNotIn(other["name"], text)
        self.assertIn("Pare e avise", texts["people/jonas-feld/session-4-slack-water.pdf"])
        self.assertIn("75", texts["cards/session-4-slack-water.pdf"])

    def test_says_whose_a_length_is(self):
        out = self.run_stave("build", "crew.stave").out
        self.assertEqual(re.findall(r"(?m)^Session 4: (.*?): \d+ min, ", out),
                         ["Slack water", "Slack water, Mara Lindqvist", "Slack water, Jonas Feld"])

    def test_never_shows_what_somebody_is_to_avoid(self):
        self.run_stave("build", "crew.stave")
        texts = self.texts("stave-out")
        mara = texts["people/mara-lindqvist/session-4-slack-water.pdf"].lower()
        self.assertIn("step-up", mara)
        self.assertNotIn("box jump", mara)
        self.assertIn("box jump", texts["people/jonas-feld/session-4-slack-water.pdf"].lower())

    def test_leaves_the_feed_of_whom_nothing_changed_for(self):
        self.run_stave("build", "crew.stave", "--now", "2026-11-26T10:00:00Z")
        before = self.files("stave-out")
        self.write_crew(audience="Mara Lindqvist")
        self.run_stave("build", "crew.stave", "--now", "2026-11-26T11:00:00Z")
        after = self.files("stave-out")
        mara = "stave-out/people/mara-lindqvist/mara-lindqvist.ics"
        jonas = "stave-out/people/jonas-feld/jonas-feld.ics"
        self.assertEqual(before[mara], after[mara])
        # Who has no session any more keeps the feed, which is the memory of what they have seen.
        self.assertIn(jonas, after)

    def test_tells_of_a_change_in_each_feed(self):
        self.run_stave("build", "crew.stave", "--now", "2026-11-26T10:00:00Z")
        self.write_crew(reps=4)
        self.run_stave("build", "crew.stave", "--now", "2026-11-26T11:00:00Z")
        for name in ("mara-lindqvist", "jonas-feld"):
            text = self.texts("stave-out")[f"people/{name}/{name}.ics"]
            self.assertIn("SEQUENCE:1", text)
            self.assertEqual(text.count("BEGIN:VEVENT"), 1)


class Privacy(People):
    def secrets(self):
        return MARA["secret"] + JONAS["secret"]

    def test_keeps_what_is_known_of_people_out_of_every_output(self):
        self.run_stave("build", "crew.stave", "--together", "--svg")
        self.run_stave("publish", "crew.stave", "--out", "site", "--base", BASE, "--svg")
        for folder in ("stave-out", "site"):
            for path, text in self.texts(folder).items():
                for secret in self.secrets():
                    self.assertNotIn(secret, text, path)

    # What is noted for the coach of their ages is printed for the coach, and for nobody else.
    def test_tells_the_coach_alone_of_ages(self):
        told = self.run_stave("check", "crew.stave").err
        self.assertIn("Mara Lindqvist, who is under 17, is asked for", told)
        self.assertIn("Jonas Feld, who is over 61, is asked for", told)

    def test_points_at_the_athlete_whose_name_cannot_be_drawn(self):
        text = CREW.format(audience="Crew", reps=3).replace("Jonas Feld", "Jonas 龍")
        self.write("crew.stave", text)
        told = self.run_stave("check", "crew.stave", code=1).err
        line = 1 + text.splitlines().index("athlete Jonas 龍:")
        self.assertIn("glyph-missing", told)
        self.assertIn(f":{line}:15: error", told)

    def test_names_nobody_on_public_pages(self):
        self.write_crew(audience="Mara Lindqvist, Jonas Feld")
        self.run_stave("publish", "crew.stave", "--out", "site", "--base", BASE)
        public = {path: text for path, text in self.texts("site").items()
                  if not path.startswith("private/")}
        self.assertEqual(len(public), 4)
        for path, text in public.items():
            for person in (MARA, JONAS):
                self.assertNotIn(person["name"].lower(), text.lower(), path)
                self.assertNotIn(person["name"].lower(), path)
        manifest = (self.folder / "site/stave-manifest.json").read_text("utf-8")
        self.assertNotIn("mara", manifest.lower())

    def test_gives_each_an_address_of_their_own_that_can_be_taken_back(self):
        self.run_stave("publish", "crew.stave", "--out", "site", "--base", BASE)
        lines = (self.folder / "crew.addresses").read_text("utf-8").splitlines()
        tokens = dict(line.split(": ") for line in lines if not line.startswith("#"))
        self.assertEqual(sorted(tokens), ["athlete Jonas Feld", "athlete Mara Lindqvist"])
        for token in tokens.values():
            self.assertEqual(len({path for path in self.texts("site") if token in path}), 3)
        kept = [line for line in lines if "Jonas" not in line]
        self.write("crew.addresses", "\n".join(kept) + "\n")
        self.run_stave("publish", "crew.stave", "--out", "site", "--base", BASE)
        paths = list(self.texts("site"))
        self.assertFalse([path for path in paths if tokens["athlete Jonas Feld"] in path])
        self.assertTrue([path for path in paths if tokens["athlete Mara Lindqvist"] in path])


class Explain(People):
    def test_shows_the_coach_how_loads_came_about(self):
        told = self.run_stave("explain", "--loads", "crew.stave").out
        self.assertIn("max of deadlift 121.7 kg, the single itself,", told)
        self.assertIn("75 % of it = 91.28 kg -> 92.5 kg = bar 20 kg + 2 x (20 kg + 15 kg + 1.25 kg)",
                      told)

    # A fifth of 67.43 kg is 13.486 kg.
    def test_says_that_a_share_of_the_body_weight_is_one_weight(self):
        text = CREW.format(audience="Crew", reps=3) + "  deadlift: 8 @ 20 % of bodyweight\n"
        self.write("crew.stave", text)
        self.assertIn("20 % of the body weight, 67.43 kg = 13.49 kg in all, in one weight -> ",
                      self.run_stave("explain", "--loads", "crew.stave").out)

    # Beside the load the share would be the body weight, for who can divide.
    def test_shows_no_share_of_a_body_weight_on_a_card_of_somebodys_own(self):
        text = CREW.format(audience="Crew", reps=3) + "  deadlift: 8 @ 1.5 x bodyweight\n"
        self.write("crew.stave", text)
        self.run_stave("build", "crew.stave")
        for path, text in self.texts("stave-out/people").items():
            self.assertNotRegex(text.lower(), r"body ?weight|peso (do )?corpo", path)
        card = self.texts("stave-out")["cards/session-4-slack-water.pdf"]
        self.assertIn("bodyweight", card)

    def test_shows_the_coach_who_does_what(self):
        told = self.run_stave("explain", "--who", "crew.stave").out
        self.assertRegex(told, r"box jump +step-up +is to avoid jumping +Mara Lindqvist")
        self.assertRegex(told, r"box jump +as written +Jonas Feld")


if __name__ == "__main__":
    program.main()
