"""Edits of a season, each followed through the feed as athletes' calendars see it.

usage: seasons.py STAVE [unittest options]

Feeds are built, the source is edited, and they are built again a week later; then every
event is compared property by property. What a calendar program does with UID, SEQUENCE
and LAST-MODIFIED: RFC 5545, sections 3.8.4.7, 3.8.7.4 and 3.8.7.3.
"""
import pathlib
import subprocess
import sys
import tempfile
import unittest

import icalendar
import vobject

import strict_feed

PLAN = """\
plan Autumn:
  from: 2026-11-30
  weeks: 4
  zone: Europe/Lisbon
  Monday: 18:30 for 55 min, session 9
  Thursday: 19:00, session 10

session 9: Slack water
push-up: 3 x 8, rest 60 s

session 10: Ebb
squat: 3 x 8, rest 60 s
"""

DAYS = """\
session 1: Slack water
when: 2026-12-03 18:30 for 55 min, Europe/Lisbon
push-up: 3 x 8, rest 60 s

session 2: Ebb
when: 2026-12-10 18:30, Europe/Lisbon
squat: 3 x 8, rest 60 s

session 3: Flood
when: 2026-12-17 18:30, Europe/Lisbon
plank: 3 x 40 s, rest 60 s
"""

FIRST = "2026-11-01T12:00:00Z"
SECOND = "2026-11-08T12:00:00Z"
FIRST_STAMP, SECOND_STAMP = "20261101T120000Z", "20261108T120000Z"


def unfolded(feed):
    return feed.replace(b"\r\n ", b"").decode().split("\r\n")


def events(feed):
    """By UID: the lines of each event, in their order."""
    found = {}
    lines = None
    for line in unfolded(feed):
        if line == "BEGIN:VEVENT":
            lines = []
        elif line == "END:VEVENT":
            uid, = [each[4:] for each in lines if each.startswith("UID:")]
            found[uid] = lines
            lines = None
        elif lines is not None:
            lines.append(line)
    return found


def value(lines, name):
    return next((line.partition(":")[2] for line in lines
                 if line.startswith((name + ":", name + ";"))), "")


class InFolder(unittest.TestCase):
    program = ""

    def setUp(self):
        scratch = tempfile.TemporaryDirectory()
        self.addCleanup(scratch.cleanup)
        self.folder = pathlib.Path(scratch.name)

    def run_stave(self, *words):
        return subprocess.run([self.program, *words], cwd=self.folder, capture_output=True,
                              check=False, text=True)

    def build(self, source, now, *more, name="season.stave"):
        """The feeds by name."""
        (self.folder / name).write_text(source, encoding="utf-8")
        told = self.run_stave("build", name, "--now", now, *more)
        self.assertEqual(told.returncode, 0, told.stderr)
        feeds = {path.name: path.read_bytes()
                 for path in sorted((self.folder / "stave-out/feeds").iterdir())}
        for feed in feeds.values():
            self.assertEqual(strict_feed.check(feed), [])
            self.check_readers(feed)
        return feeds

    def check_readers(self, feed):
        """python3-icalendar and python3-vobject see the events that stand there."""
        wanted = [(uid, value(lines, "STATUS"), value(lines, "SEQUENCE"))
                  for uid, lines in events(feed).items()]
        read = [(str(event["UID"]), str(event["STATUS"]), str(event["SEQUENCE"]))
                for event in icalendar.Calendar.from_ical(feed).walk("VEVENT")]
        self.assertEqual(read, wanted)
        read = [(event.uid.value, event.status.value, event.sequence.value)
                for event in vobject.readOne(feed.decode()).vevent_list]
        self.assertEqual(read, wanted)


def swapped(source, *pairs):
    for part, replacement in pairs:
        assert part in source, part
        source = source.replace(part, replacement)
    return source


# What is edited, then how many events of the feed are changed, cancelled and new; all
# others stay byte for byte as they were.
PLAN_EDITS = {
    "nothing": ([], 0, 0, 0),
    "a remark": ([("plan Autumn", "# For the crew.\nplan Autumn")], 0, 0, 0),
    "layout": ([("  weeks: 4", "  weeks:    4")], 0, 0, 0),
    "the dose": ([("push-up: 3 x 8", "push-up: 4 x 8")], 4, 0, 0),
    "the time": ([("18:30", "18:00")], 4, 0, 0),
    "the booked time": ([("for 55 min", "for 75 min")], 4, 0, 0),
    "a title": ([("Slack water", "Slack tide")], 4, 0, 0),
    "a number": ([("session 9", "session 19")], 4, 0, 0),
    "a place": ([("push-up", "place: Loft\npush-up")], 4, 0, 0),
    "the zone": ([("Europe/Lisbon", "Europe/Madrid")], 8, 0, 0),
    "no zone": ([("  zone: Europe/Lisbon\n", "")], 8, 0, 0),
    "another weekday": ([("Monday", "Tuesday")], 4, 0, 0),
    "a cancelled day": ([("  Monday", "  cancelled: 2026-12-07, gale\n  Monday")], 0, 1, 0),
    "days away": ([("  Monday", "  away: 2026-12-07 to 2026-12-10, leave\n  Monday")], 0, 2, 0),
    "a moved day": ([("  Monday", "  moved: 2026-12-07 to 2026-12-08 19:00, ice\n  Monday")],
                    1, 0, 0),
    "the order of slots": ([("  Monday: 18:30 for 55 min, session 9\n", ""),
                            ("session 10\n\n", "session 10\n  Monday: 18:30 for 55 min, "
                             "session 9\n\n")], 0, 0, 0),
    "a slot less": ([("  Thursday: 19:00, session 10\n", "")], 0, 4, 0),
    "a slot more": ([("  Thursday", "  Saturday: 9:00, session 10\n  Thursday")],
                    0, 0, 4),
    # Each entry says its week and how many there are.
    "a week inserted before": ([("2026-11-30", "2026-11-23"), ("weeks: 4", "weeks: 5")], 8, 0, 2),
    "a week more": ([("weeks: 4", "weeks: 5")], 8, 0, 2),
    "a week less": ([("weeks: 4", "weeks: 3")], 6, 2, 0),
    "all a week later": ([("2026-11-30", "2026-12-07")], 8, 0, 0),
    "a last day in place of a number": ([("11-30\n  weeks: 4", "11-30 to 2026-12-27")], 0, 0, 0),
    "growth": ([("  Monday", "  grow push-up: 1 rep each week\n  Monday")], 3, 0, 0),
    "a lighter week": ([("  Monday", "  lighter: week 3 by 40 %\n  Monday")], 2, 0, 0),
    "turns": ([("19:00, session 10", "19:00, session 10 then session 9")], 2, 0, 0),
    "a day more": ([("  Monday", "  once: Saturday 2026-12-12 09:00, session 10\n  Monday")],
                   0, 0, 1),
    "a cue": ([("push-up: 3 x 8, rest 60 s", "push-up: 3 x 8, rest 60 s\n  cue: long neck")],
              4, 0, 0),
    "a place of the plan": ([("  weeks: 4", "  weeks: 4\n  place: Boathouse loft")], 8, 0, 0),
    "dose, time and title at once": ([("3 x 8, rest 60 s\n\n", "4 x 8, rest 60 s\n\n"),
                                      ("18:30", "18:00"), ("Slack water", "Slack tide")],
                                     4, 0, 0),
    "a cancelled day and another dose": ([
        ("  Monday", "  cancelled: 2026-12-07, gale\n  Monday"), ("squat: 3", "squat: 4")],
        4, 1, 0),
    "a session of the plan written before it": ([
        ("session 10: Ebb\nsquat: 3 x 8, rest 60 s\n", ""),
        ("plan Autumn", "session 10: Ebb\nsquat: 3 x 8, rest 60 s\n\nplan Autumn")], 0, 0, 0),
    "another plan": ([("plan Autumn", "plan Other:\n  from: 2027-03-01\n  weeks: 1\n"
                       "  zone: Europe/Lisbon\n  Monday: 7:00, session 9\n\nplan Autumn")],
                     0, 0, 0),
}

DAY_EDITS = {
    "nothing": ([], 0, 0, 0),
    "the dose": ([("push-up: 3 x 8", "push-up: 4 x 8")], 1, 0, 0),
    "the time": ([("12-03 18:30", "12-03 18:00")], 1, 0, 0),
    "the day": ([("12-03 18:30", "12-05 18:30")], 1, 0, 0),
    "the week": ([("12-03 18:30", "12-28 18:30")], 1, 0, 0),
    "a title": ([("Slack water", "Slack tide")], 1, 0, 0),
    "a number": ([("session 1:", "session 11:")], 1, 0, 0),
    "number and title": ([("session 1: Slack water", "session 11: Slack tide")], 1, 0, 0),
    "a number taken away": ([("session 1: ", "session: ")], 1, 0, 0),
    "the zone": ([("18:30 for 55 min, Europe/Lisbon", "18:30 for 55 min, Europe/Madrid")],
                 1, 0, 0),
    "a session less": ([(DAYS[:DAYS.index("session 2")], "")], 0, 1, 0),
    "a session without a day": ([("when: 2026-12-10 18:30, Europe/Lisbon\n", "")], 0, 1, 0),
    "a session more": ([("session 2", "session 4: Neap\nwhen: 2026-12-05 9:00\nplank: 40 s\n\n"
                         "session 2")], 0, 0, 1),
    "all a week later": ([("12-17", "12-24"), ("12-10", "12-17"), ("12-03", "12-10")], 3, 0, 0),
    "a session put in before all": ([("session 1:", "session 7: Neap\nwhen: 2026-11-26 18:30, "
                                      "Europe/Lisbon\nplank: 40 s\n\nsession 1:")], 0, 0, 1),
    "dose, time and title": ([("3 x 8, rest 60 s\n\nsession 2", "4 x 8, rest 60 s\n\nsession 2"),
                              ("12-03 18:30", "12-03 18:00"), ("Slack water", "Slack tide")],
                             1, 0, 0),
    "a link": ([("push-up", "link: https://crew.example.org/\npush-up")], 1, 0, 0),
    "the coach": ([("push-up", "coach: Sofia\npush-up")], 1, 0, 0),
}


class Edits(InFolder):
    def follow(self, before, after, changed, cancelled, new):
        old, now = events(before), events(after)
        self.assertLessEqual(set(old), set(now), "an event is lost")
        self.assertEqual(len(set(now) - set(old)), new)
        for uid in set(now) - set(old):
            self.assertEqual(value(now[uid], "SEQUENCE"), "0")
            self.assertEqual(value(now[uid], "CREATED"), SECOND_STAMP)
        found = {"CONFIRMED": 0, "CANCELLED": 0}
        for uid in old:
            if old[uid] == now[uid]:
                continue
            found[value(now[uid], "STATUS")] += 1
            self.check_state(old[uid], now[uid])
            if value(now[uid], "STATUS") == "CANCELLED":
                self.check_cancelled(old[uid], now[uid])
        self.assertEqual(found, {"CONFIRMED": changed, "CANCELLED": cancelled})

    def check_state(self, old, now):
        self.assertEqual(int(value(now, "SEQUENCE")), int(value(old, "SEQUENCE")) + 1)
        self.assertEqual(value(now, "CREATED"), FIRST_STAMP)
        self.assertEqual(value(now, "DTSTAMP"), SECOND_STAMP)
        self.assertEqual(value(now, "LAST-MODIFIED"), SECOND_STAMP)

    def check_cancelled(self, old, now):
        for name in ["DTSTART", "DTEND"]:
            self.assertEqual(value(now, name), value(old, name))
        self.assertEqual(value(now, "TRANSP"), "TRANSPARENT")
        self.assertEqual(value(now, "SUMMARY"), "CANCELLED - " + value(old, "SUMMARY"))
        self.assertTrue(value(now, "DESCRIPTION").endswith(value(old, "DESCRIPTION")))

    def try_edits(self, source, edits, name):
        for what, (pairs, *counts) in edits.items():
            with self.subTest(edit=what):
                self.setUp()
                before = self.build(source, FIRST)[name]
                path = self.folder / "stave-out/feeds" / name
                written = path.stat()
                edited = swapped(source, *pairs)
                after = self.build(edited, SECOND)[name]
                self.follow(before, after, *counts)
                if not any(counts):
                    self.assertEqual(after, before)
                    self.assertEqual((path.stat().st_mtime_ns, path.stat().st_ino),
                                     (written.st_mtime_ns, written.st_ino), "it was touched")
                # The same again a day later: nothing to tell.
                self.assertEqual(self.build(edited, "2026-11-09T12:00:00Z")[name], after)

    def test_of_a_plan(self):
        self.try_edits(PLAN, PLAN_EDITS, "autumn.ics")

    def test_of_sessions_with_days_of_their_own(self):
        self.try_edits(DAYS, DAY_EDITS, "season.ics")

    def test_another_order_of_sessions_is_another_order_of_the_same_entries(self):
        before = self.build(DAYS, FIRST)["season.ics"]
        second = DAYS[DAYS.index("session 2"):DAYS.index("session 3")]
        after = self.build(second + swapped(DAYS, (second, "")), SECOND)["season.ics"]
        self.assertEqual(events(after), events(before))
        self.assertNotEqual(after, before)
        self.assertEqual(self.build(DAYS, "2026-11-09T12:00:00Z")["season.ics"], before)

    def test_what_was_cancelled_comes_back_as_the_same_event(self):
        before = self.build(PLAN, FIRST)["autumn.ics"]
        gale = swapped(PLAN, ("  Monday", "  cancelled: 2026-12-07, gale\n  Monday"))
        cancelled = self.build(gale, SECOND)["autumn.ics"]
        uid, = [uid for uid, lines in events(cancelled).items() if "STATUS:CANCELLED" in lines]
        self.assertTrue(value(events(cancelled)[uid], "DESCRIPTION").startswith("Cancelled: gale"))
        after = events(self.build(PLAN, "2026-11-09T12:00:00Z")["autumn.ics"])
        self.assertEqual(value(after[uid], "SEQUENCE"), "2")
        self.assertEqual(value(after[uid], "STATUS"), "CONFIRMED")
        self.assertEqual({**after, uid: 0}, {**events(before), uid: 0})

    def test_a_file_that_was_renamed_goes_on_from_its_feed(self):
        before = self.build(DAYS, FIRST)["season.ics"]
        after = self.build(DAYS, SECOND, "--previous", "stave-out/feeds/season.ics",
                           name="winter.stave")["winter.ics"]
        self.assertEqual(events(after), events(before))

    def test_what_is_cancelled_is_dropped_thirty_days_after_its_end(self):
        self.build(PLAN, FIRST)
        gale = swapped(PLAN, ("  Monday: 18:30 for 55 min, session 9\n", ""))
        feed = self.build(gale, SECOND)["autumn.ics"]
        self.assertEqual(feed.count(b"STATUS:CANCELLED\r\n"), 4)
        # Lisbon keeps UTC in winter: the first of them would have ended at 19:25.
        for now, left in [("2026-12-30T19:24:59Z", 4), ("2026-12-30T19:25:00Z", 3),
                          ("2027-01-20T19:24:59Z", 1), ("2027-01-20T19:25:00Z", 0)]:
            after = self.build(gale, now)["autumn.ics"]
            self.assertEqual(after.count(b"STATUS:CANCELLED\r\n"), left, now)
            kept = {uid: lines for uid, lines in events(feed).items() if uid in events(after)}
            self.assertEqual(events(after), kept, "what is left has changed")

    def test_a_renamed_file_keeps_the_feed_of_its_plan(self):
        before = self.build(PLAN, FIRST)["autumn.ics"]
        path = self.folder / "stave-out/feeds/autumn.ics"
        written = path.stat()
        (self.folder / "season.stave").unlink()
        self.assertEqual(self.build(PLAN, SECOND, name="winter.stave")["autumn.ics"], before)
        self.assertEqual((path.stat().st_mtime_ns, path.stat().st_ino),
                         (written.st_mtime_ns, written.st_ino), "it was touched")
        (self.folder / "winter.stave").unlink()
        edited = swapped(PLAN, ("push-up: 3 x 8", "push-up: 4 x 8"))
        self.follow(before, self.build(edited, SECOND, name="spring.stave")["autumn.ics"], 4, 0, 0)

    def test_a_renamed_plan_goes_on_from_its_old_feed(self):
        before = self.build(PLAN, FIRST)["autumn.ics"]
        renamed = swapped(PLAN, ("plan Autumn", "plan Winter"))
        after = self.build(renamed, SECOND, "--previous", "stave-out/feeds/autumn.ics")
        # Each entry names its plan.
        self.follow(before, after["winter.ics"], 8, 0, 0)
        self.assertEqual(after["autumn.ics"], before)
        again = self.build(renamed, "2026-11-09T12:00:00Z")
        self.assertEqual(again["winter.ics"], after["winter.ics"])

    def test_a_group_more_leaves_the_others_alone(self):
        one = swapped(PLAN, ("min, session 9\n", "min, session 9, group A\n"))
        two = swapped(one, ("  Thursday", "  Tuesday: 18:30, session 9, group B\n  Thursday"))
        before = self.build(one, FIRST)
        after = self.build(two, SECOND)
        self.assertEqual(list(after), ["autumn-a.ics", "autumn-b.ics"])
        self.assertEqual(after["autumn-a.ics"], before["autumn-a.ics"])
        self.assertEqual(len(events(after["autumn-b.ics"])), 8)
        # And again without it: nobody's entries change, and its own feed is left as it was.
        back = self.build(one, "2026-11-09T12:00:00Z")
        self.assertEqual(back, after)

    def test_there_are_thirty_edits_and_more(self):
        self.assertGreaterEqual(len(PLAN_EDITS) + len(DAY_EDITS), 50)

    def test_a_file_without_its_last_session_leaves_a_feed(self):
        self.build(DAYS, FIRST)
        without = DAYS.replace("when:", "note:")
        after = self.build(without, SECOND)["season.ics"]
        self.assertEqual(len(events(after)), 3)
        self.assertEqual(after.count(b"STATUS:CANCELLED\r\n"), 3)
        late = self.build(without, "2027-06-01T12:00:00Z")["season.ics"]
        self.assertEqual(len(events(late)), 1)
        self.assertEqual(self.build(without, "2028-06-01T12:00:00Z")["season.ics"], late)

    def test_a_previous_feed_of_several_is_found_by_its_name_or_refused(self):
        groups = swapped(PLAN, ("session 10\n\n", "session 10, group B\n\n"),
                         ("min, session 9\n", "min, session 9, group A\n"))
        before = self.build(groups, FIRST)
        self.assertEqual(list(before), ["autumn-a.ics", "autumn-b.ics"])
        self.assertIn(b"SUMMARY:Session 9: Slack water (A)\r\n", before["autumn-a.ics"])
        (self.folder / "stave-out/feeds").rename(self.folder / "old")
        after = self.build(groups, SECOND, "--previous", "old/autumn-a.ics")
        self.assertEqual(after["autumn-a.ics"], before["autumn-a.ics"])
        (self.folder / "old/autumn-a.ics").rename(self.folder / "old/copy.ics")
        told = self.run_stave("build", "season.stave", "--previous", "old/copy.ics")
        self.assertEqual(told.returncode, 3, told.stderr)
        self.assertIn("(unclear-previous)", told.stderr)

    def test_a_large_feed_earns_a_warning(self):
        notes = "note: " + "cold hands " * 90 + "\n"
        sessions = "".join(
            f"session {number}: Long\nwhen: 2026-12-03 {number % 24}:{number % 60:02}\n{notes * 7}"
            "plank: 40 s\n\n" for number in range(1, 160))
        (self.folder / "large.stave").write_text(sessions, encoding="utf-8")
        told = self.run_stave("build", "large.stave", "--now", FIRST)
        self.assertEqual(told.returncode, 0, told.stderr)
        self.assertIn("(feed-large)", told.stderr)

    def test_hostile_titles_inject_nothing(self):
        for title in ["BEGIN:VEVENT", "END:VCALENDAR", "a\\nb\\, c; \"d\"", "x" * 200,
                      "DTSTART:19700101T000000Z", "é" * 150, "ATTENDEE;X=1:mailto:x@example.org"]:
            with self.subTest(title=title[:20]):
                self.setUp()
                feed = self.build(DAYS.replace("Slack water", title), FIRST)["season.ics"]
                self.assertEqual(len(events(feed)), 3)
                self.assertNotIn("ATTENDEE", " ".join(line.partition(":")[0]
                                                      for line in unfolded(feed)))


if __name__ == "__main__":
    InFolder.program = str(pathlib.Path(sys.argv.pop(1)).resolve())
    unittest.main()
