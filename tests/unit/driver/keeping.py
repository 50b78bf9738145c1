"""Feeds belong to their sources: none is taken from another, none is left behind unsaid.

usage: keeping.py STAVE [unittest options]

What a calendar program takes for the same event: RFC 5545, section 3.8.4.7.
"""

import json
import re
import unittest

import program
from program import LIST, InFolder

PLAN = """\
plan {plan}:
  from: 2026-11-30
  weeks: 4
  zone: Europe/Lisbon
  Monday: 18:30, session {number}{group}

session {number}: Slack water
push-up: 3 x 8, rest 60 s
"""
SESSION = """\
session 4: Slack water
when: 2026-12-03 18:30 for 55 min, Europe/Lisbon
push-up: 3 x 8, rest 60 s
"""
CREW = """\
athlete Mara:
athlete Jonas:
squad Crew: {crew}

""" + SESSION.replace("push-up", "for: Crew\npush-up")
NOW = "2026-11-26T12:00:00Z"
LATER = "2026-11-27T12:00:00Z"


def plan(name="Autumn", number=9, group=""):
    return PLAN.format(plan=name, number=number, group=group)


class Keeping(InFolder):
    def run_stave(self, command, *words, code=0, told=(), now=NOW):
        done = self.lines(command, *words, "--now", now) if command == "build" else \
            self.lines(command, *words, env={"SOURCE_DATE_EPOCH": "1795694400"})
        self.assertEqual((done.code, done.codes()), (code, list(told)), done.err)
        return done

    def build(self, *words, **more):
        return self.run_stave("build", *words, **more)

    def publish(self, *words, **more):
        return self.run_stave("publish", *words, "--out", "site", **more)

    def values(self, path, name):
        text = (self.folder / path).read_bytes().decode().replace("\r\n ", "")
        return re.findall(rf"(?m)^{name}:(.*)\r$", text)

    def refused(self, run, *words, folder="stave-out"):
        before = self.files(folder, with_list=True)
        done = run(*words, code=3, told=["feed-taken"])
        self.assertEqual(self.files(folder, with_list=True), before)
        return done.err


class Taken(Keeping):
    FEED = "stave-out/feeds/autumn.ics"

    def test_a_plan_of_the_same_name_in_another_file_is_refused(self):
        self.write("north/season.stave", plan())
        self.write("south/crew.stave", plan(number=5))
        self.build("north/season.stave")
        err = self.refused(self.build, "south/crew.stave")
        self.assertIn("north/season.stave", err)
        self.assertIn(self.FEED, err)
        # The ways on that the message names.
        self.build("south/crew.stave", "--out", "elsewhere")
        self.write("south/crew.stave", plan("Autumn south", number=5))
        self.build("south/crew.stave")
        self.build("north/season.stave")

    def test_a_file_of_the_same_name_in_another_folder_is_refused(self):
        self.write("north/season.stave", SESSION)
        self.write("south/season.stave", SESSION.replace("session 4", "session 7"))
        self.build("north/season.stave")
        self.assertIn("north/season.stave", self.refused(self.build, "south/season.stave"))

    def test_an_athlete_of_the_same_name_in_another_file_is_refused(self):
        self.write("north.stave", CREW.format(crew="Mara"))
        self.write("south.stave", CREW.format(crew="Mara").replace("session 4", "session 7"))
        self.build("north.stave")
        err = self.refused(self.build, "south.stave")
        self.assertIn("people/mara/mara.ics", err)

    def test_another_sources_feed_is_refused_where_all_is_published(self):
        self.write("north/season.stave", plan())
        self.write("south/crew.stave", plan(number=5))
        self.publish("north/season.stave")
        err = self.refused(self.publish, "south/crew.stave", folder="site")
        self.assertIn("north/season.stave", err)
        self.publish("north/season.stave")

    def test_the_list_of_what_is_published_names_no_source(self):
        self.write("clients/season.stave", plan())
        self.publish("clients/season.stave")
        text = (self.folder / "site" / LIST).read_text("utf-8")
        self.assertNotIn("clients", text)
        self.assertEqual([name for name, entry in json.loads(text)["files"].items()
                          if "feed of" in entry], ["feeds/autumn.ics"])

    def test_a_renamed_file_goes_on_with_its_plan(self):
        for run, folder in ((self.build, "stave-out"), (self.publish, "site")):
            self.write("season.stave", plan())
            run("season.stave")
            uids = self.values(f"{folder}/feeds/autumn.ics", "UID")
            (self.folder / "season.stave").rename(self.folder / "winter.stave")
            before = (self.folder / folder / "feeds/autumn.ics").read_bytes()
            run("winter.stave")
            self.assertEqual((self.folder / folder / "feeds/autumn.ics").read_bytes(), before)
            self.assertEqual(len(set(uids)), 4)
            # And is its owner from then on.
            self.write("season.stave", plan(number=5))
            self.refused(run, "season.stave", folder=folder)

    def test_a_renamed_file_may_change_as_well(self):
        self.write("season.stave", plan())
        self.build("season.stave")
        uids = self.values(self.FEED, "UID")
        (self.folder / "season.stave").unlink()
        self.write("sub/winter.stave", plan().replace("3 x 8", "4 x 8").replace("18:30", "19:00"))
        self.build("sub/winter.stave", now=LATER)
        self.assertEqual(self.values(self.FEED, "UID"), uids)
        self.assertEqual(self.values(self.FEED, "SEQUENCE"), ["1"] * 4)

    def test_a_plan_that_went_into_another_file_takes_its_feed_along(self):
        self.write("season.stave", plan())
        self.build("season.stave")
        uids = self.values(self.FEED, "UID")
        self.write("season.stave", SESSION)
        self.write("plans.stave", plan())
        self.build("plans.stave")
        self.assertEqual(self.values(self.FEED, "UID"), uids)
        self.assertEqual(self.values(self.FEED, "SEQUENCE"), ["0"] * 4)

    def test_a_file_with_an_error_keeps_its_feeds(self):
        self.write("season.stave", plan())
        self.build("season.stave")
        self.write("season.stave", plan().replace("3 x 8", "3 x 8 @ 60"))
        self.write("other.stave", plan(number=5))
        self.refused(self.build, "other.stave")

    def test_a_file_that_is_not_found_keeps_what_would_be_lost(self):
        self.write("season.stave", plan())
        self.build("season.stave")
        (self.folder / "season.stave").unlink()
        self.write("other.stave", plan(number=5).replace("Monday", "Thursday")
                   .replace("Slack water", "Ebb"))
        self.refused(self.build, "other.stave")
        self.assertIn(f"build once with --previous {self.FEED}",
                      self.stave("build", "other.stave", "--now", NOW).err)
        self.build("other.stave", "--previous", self.FEED)
        self.build("other.stave")
        # What is over is nobody's loss.
        self.write("third.stave", plan(number=6).replace("Monday", "Friday")
                   .replace("2026-11-30", "2028-01-03").replace("Slack water", "Flood"))
        (self.folder / "other.stave").unlink()
        self.build("third.stave", now="2027-06-01T12:00:00Z")

    def test_sources_that_are_built_together_or_watched_are_told_once(self):
        self.write("a.stave", plan())
        self.write("b.stave", plan(number=5))
        self.build("a.stave")
        self.build("a.stave", "b.stave", code=3, told=["same-output"])

    def test_standard_input_is_nobodys_and_anybodys(self):
        self.write("a.stave", plan())
        self.build("a.stave")
        done = self.stave("build", "-", "--now", NOW, data=plan().encode())
        self.assertEqual((done.code, done.err), (0, ""))

    def test_moving_folder_and_sources_together_changes_nothing(self):
        self.write("one/season.stave", plan())
        self.build("one/season.stave", "--out", "one/out")
        (self.folder / "one").rename(self.folder / "two")
        before = self.files("two", with_list=True)
        self.build("two/season.stave", "--out", "two/out")
        self.assertEqual(self.files("two", with_list=True), before)


class Dropped(Keeping):
    def dropped(self, run, *words, **more):
        return run(*words, told=["feed-dropped"], **more).err

    def test_a_renamed_plan_leaves_a_feed(self):
        self.write("season.stave", plan())
        self.build("season.stave")
        uids = self.values("stave-out/feeds/autumn.ics", "UID")
        self.write("season.stave", plan("Winter"))
        err = self.dropped(self.build, "season.stave")
        self.assertIn("stave-out/feeds/autumn.ics", err)
        (self.folder / "stave-out/feeds/winter.ics").unlink()
        self.dropped(self.build, "season.stave", "--previous", "stave-out/feeds/autumn.ics")
        self.assertEqual(self.values("stave-out/feeds/winter.ics", "UID"), uids)
        (self.folder / "stave-out/feeds/autumn.ics").unlink()
        self.build("season.stave")

    def test_the_groups_of_a_renamed_plan_go_on_one_by_one(self):
        def crew(name):
            text = plan(name, group=", group Blue")
            return text.replace("  Monday", "  Tuesday: 18:30, session 9, group Red\n  Monday", 1)

        self.write("season.stave", crew("Autumn"))
        self.build("season.stave")
        before = {group: self.values(f"stave-out/feeds/autumn-{group}.ics", "UID")
                  for group in ("blue", "red")}
        self.write("season.stave", crew("Harbour"))
        for group in ("blue", "red"):
            old = f"stave-out/feeds/autumn-{group}.ics"
            told = self.stave("build", "season.stave", "--previous", old, "--now", NOW)
            self.assertEqual(told.code, 0, told.err)
            uids = self.values(f"stave-out/feeds/harbour-{group}.ics", "UID")
            self.assertTrue(set(before[group]) <= set(uids), group)

    def test_the_message_says_what_can_be_done_in_each_case(self):
        self.write("season.stave", plan())
        self.build("season.stave")
        self.write("season.stave", plan("Winter"))
        words = ("season.stave", "--now", NOW)
        told = self.stave("build", *words).err
        self.assertIn("keep 4 sessions to come", told)
        self.assertIn("build once with --previous stave-out/feeds/autumn.ics", told)
        told = self.stave("build", *words, "--previous", "stave-out/feeds/autumn.ics").err
        self.assertNotIn("--previous", told)

    def test_a_group_that_is_gone_leaves_a_feed(self):
        two = plan(group=", group A").replace(
            "\n\n", "\n  Tuesday: 18:30, session 9, group B\n\n", 1)
        for run, folder in ((self.build, "stave-out"), (self.publish, "site")):
            self.write("season.stave", two)
            run("season.stave")
            self.write("season.stave", plan(group=", group A"))
            self.assertIn(f"{folder}/feeds/autumn-b.ics", self.dropped(run, "season.stave"))
        # What was published is taken away, so it is told once.
        self.publish("season.stave")
        self.dropped(self.build, "season.stave")

    def test_an_athlete_who_is_gone_leaves_a_feed(self):
        self.write("crew.stave", CREW.format(crew="Mara, Jonas"))
        self.build("crew.stave")
        self.publish("crew.stave")
        self.write("crew.stave", CREW.format(crew="Mara").replace("athlete Jonas:\n", ""))
        err = self.dropped(self.build, "crew.stave")
        self.assertIn("people/jonas/jonas.ics", err)
        self.assertIn("jonas.ics", self.dropped(self.publish, "crew.stave"))
        self.publish("crew.stave")

    def test_an_address_that_was_taken_back_is_no_loss(self):
        self.write("crew.stave", CREW.format(crew="Mara, Jonas"))
        self.publish("crew.stave")
        path = self.folder / "crew.addresses"
        path.write_text("".join(line for line in path.read_text().splitlines(True)
                                if "Jonas" not in line))
        self.publish("crew.stave")

    def test_a_renamed_file_leaves_the_feed_of_its_own_sessions(self):
        self.write("season.stave", SESSION)
        self.build("season.stave")
        (self.folder / "season.stave").rename(self.folder / "winter.stave")
        self.assertIn("feeds/season.ics", self.dropped(self.build, "winter.stave"))
        # Another file's feed is none of this one's business.
        self.write("season.stave", SESSION)
        self.build("winter.stave")

    def test_a_feed_that_previous_names_and_whose_file_is_gone_is_told_of(self):
        self.write("season.stave", plan())
        self.build("season.stave")
        (self.folder / "season.stave").unlink()
        self.write("winter.stave", plan("Winter"))
        words = ("winter.stave", "--previous", "stave-out/feeds/autumn.ics")
        self.dropped(self.build, *words)
        self.write("season.stave", plan())
        self.build(*words)

    def test_a_feed_without_sessions_to_come_is_no_loss(self):
        self.write("season.stave", plan())
        self.build("season.stave")
        self.write("season.stave", plan("Winter"))
        self.build("season.stave", now="2027-06-01T12:00:00Z")

    def test_a_source_that_is_gone_leaves_a_feed(self):
        self.write("a.stave", plan())
        self.write("b.stave", SESSION)
        self.publish("a.stave", "b.stave")
        (self.folder / "a.stave").unlink()
        self.dropped(self.publish, "b.stave")
        self.publish("b.stave")

    def test_nothing_is_taken_away_where_warnings_are_errors(self):
        self.write("a.stave", plan())
        self.write("b.stave", SESSION)
        self.publish("a.stave", "b.stave")
        (self.folder / "a.stave").unlink()
        before = self.files("site", with_list=True)
        self.publish("b.stave", "--strict", code=1, told=["feed-dropped"])
        self.assertEqual(self.files("site", with_list=True), before)

    def test_a_build_that_tells_of_one_is_not_remembered(self):
        env = {"SOURCE_DATE_EPOCH": "1795694400", "XDG_CACHE_HOME": str(self.folder / "cache")}
        self.write("season.stave", plan())
        self.stave("build", "season.stave", env=env)
        self.write("season.stave", plan("Winter"))
        for _ in range(2):
            self.assertEqual(self.lines("build", "season.stave", env=env).codes(),
                             ["feed-dropped"])
        (self.folder / "stave-out/feeds/autumn.ics").unlink()
        self.assertEqual(self.lines("build", "season.stave", env=env).codes(), [])
        self.assertEqual(len(list((self.folder / "cache/stave").glob("*.json"))), 2)


class LeftOut(Keeping):
    """A file that is not named this time, though it makes what stands there."""

    def setUp(self):
        super().setUp()
        self.write("a.stave", plan())
        self.write("b.stave", SESSION)

    def refused(self, *words, told=("feed-left-out",)):
        before = self.files("site", with_list=True)
        err = self.stave("publish", *words, "--out", "site",
                         env={"SOURCE_DATE_EPOCH": "1795694400"}).err
        self.publish(*words, code=3, told=told)
        self.assertEqual(self.files("site", with_list=True), before)
        return err

    def test_is_told_before_its_feed_begins_anew(self):
        self.publish("a.stave", "b.stave")
        self.write("b.stave", SESSION.replace("3 x 8", "3 x 9"))
        self.publish("a.stave", "b.stave")
        self.assertEqual(self.values("site/feeds/b.ics", "SEQUENCE"), ["1"])
        err = self.refused("a.stave")
        self.assertIn("b.stave makes site/feeds/b.ics", err)
        self.assertIn("stave publish b.stave;", err)
        self.publish("a.stave", "b.stave")
        self.assertEqual(self.values("site/feeds/b.ics", "SEQUENCE"), ["1"])

    def test_goes_when_its_feed_is_deleted(self):
        self.publish("a.stave", "b.stave")
        (self.folder / "site/feeds/b.ics").unlink()
        self.publish("a.stave")
        self.assertFalse((self.folder / "site/feeds/b.html").exists())
        self.publish("a.stave")

    def test_with_a_private_address_is_told_as_well(self):
        self.publish("a.stave", "--private", "b.stave")
        self.assertIn("--private b.stave;", self.refused("a.stave"))
        self.publish("a.stave", "--private", "b.stave")
        # Whoever takes the address back means it.
        (self.folder / "b.addresses").unlink()
        self.publish("a.stave")
        self.assertEqual(list((self.folder / "site/private").iterdir()), [])

    def test_is_told_once_for_all_its_athletes(self):
        self.write("crew.stave", CREW.format(crew="Mara, Jonas").replace("session 4", "session 6"))
        self.publish("a.stave", "crew.stave")
        err = self.refused("a.stave")
        self.assertIn("and 2 other feeds", err)
        self.assertIn("with 3 sessions to come", err)

    def test_that_makes_no_session_of_it_any_more_is_no_loss(self):
        self.publish("a.stave", "b.stave")
        self.write("b.stave", "movement gunwale row:\n  counted in: reps\n")
        self.publish("a.stave", told=["feed-dropped"])

    def test_whose_sessions_are_over_is_no_loss(self):
        self.publish("a.stave", "b.stave")
        late = {"SOURCE_DATE_EPOCH": "1830000000"}
        done = self.lines("publish", "a.stave", "--out", "site", env=late)
        self.assertEqual((done.code, done.codes()), (0, []), done.err)


if __name__ == "__main__":
    program.main()
