"""The feeds of plans, over changes of clocks and after edits: five readers find the same events.

usage: plan_feeds.py STAVE EXAMPLES [unittest options]

Which days a plan has is worked out here from its own words, and when they are in UTC by Python's
zoneinfo. A feed holds no events of whole days: every session has a time of day.
"""

import pathlib
import shutil
import subprocess
import sys
import tempfile
import unittest
from datetime import date, datetime, timedelta, timezone
from zoneinfo import ZoneInfo

import readers

FROM, WEEKS = date(2026, 10, 12), 26
PLAN = """\
plan Winter watch:
  from: 2026-10-12
  weeks: 26
{zone}  place: Boathouse loft, Quay 2
  Monday: 18:30 for 55 min, session 9
  Thursday: 06:45 for 40 min, session 10 then session 11
  once: Sunday 2026-11-01 10:00 for 90 min, session 10
{edits}
session 9: Slack water; ebb, "neap"
push-up: 3 x 8, rest 60 s

session 10: Ebb
squat: 3 x 8, rest 60 s

session 11: Flood – πλημμυρίδα
place: Slip
plank: 3 x 40 s, rest 60 s
"""
EDITS = """\
  away: 2026-12-24 to 2027-01-03, leave
  cancelled: 2026-12-14, gale
  cancelled: 2026-11-01, sea fog
  moved: 2026-10-26 to 2026-10-24 09:00, open day
  moved: 2027-03-11 to 2027-03-28 20:00, ice
"""
TITLES = {9: 'Session 9: Slack water; ebb, "neap"', 10: "Session 10: Ebb",
          11: "Session 11: Flood – πλημμυρίδα"}
# Clocks change on 2026-10-25 and 2027-03-28; on 2026-11-01 and 2027-03-14; on 2027-04-04 by
# half an hour; by no yearly rule; never; and where there is no zone.
ZONES = ("Europe/Lisbon", "America/New_York", "Australia/Lord_Howe", "Africa/Casablanca",
         "Asia/Kolkata", "")
FIRST, SECOND = "2026-10-01T12:00:00Z", "2026-10-08T12:00:00Z"


def planned():
    """(local start, minutes, session) of the plan before its edits."""
    yield datetime(2026, 11, 1, 10, 0), 90, 10
    for week in range(WEEKS):
        monday = FROM + timedelta(weeks=week)
        thursday = monday + timedelta(days=3)
        yield datetime(monday.year, monday.month, monday.day, 18, 30), 55, 9
        yield datetime(thursday.year, thursday.month, thursday.day, 6, 45), 40, 10 + week % 2


def edited():
    """The same behind them: (local start, minutes, session, what is said of a cancellation)."""
    moved = {date(2026, 10, 26): datetime(2026, 10, 24, 9, 0),
             date(2027, 3, 11): datetime(2027, 3, 28, 20, 0)}
    gone = {date(2026, 12, 14): "gale", date(2026, 11, 1): "sea fog"}
    for start, minutes, session in planned():
        reason = gone.get(start.date(), "")
        if date(2026, 12, 24) <= start.date() <= date(2027, 1, 3):
            reason = "leave"
        yield moved.get(start.date(), start), minutes, session, reason


def found_event(zone, start, minutes, session, reason=""):
    """What a reader is to find, but for the description."""
    if zone:
        start = start.replace(tzinfo=ZoneInfo(zone)).astimezone(timezone.utc)
    return {"start": start, "end": start + timedelta(minutes=minutes),
            "summary": ("CANCELLED - " if reason else "") + TITLES[session],
            "location": "Slip" if session == 11 else "Boathouse loft, Quay 2", "url": "",
            "status": "CANCELLED" if reason else "CONFIRMED"}


def in_order(events):
    return sorted(events, key=lambda event: (event["start"], event["summary"]))


class PlanFeeds(unittest.TestCase):
    stave = ""
    examples = pathlib.Path()

    def setUp(self):
        holder = tempfile.TemporaryDirectory()
        self.addCleanup(holder.cleanup)
        self.folder = pathlib.Path(holder.name)

    def build(self, *sources, now=FIRST):
        """The bytes of each feed, by its path."""
        done = subprocess.run([self.stave, "build", *sources, "--now", now], cwd=self.folder,
                              capture_output=True, text=True, check=False)
        self.assertEqual(done.returncode, 0, done.stderr)
        return {path.relative_to(self.folder): path.read_bytes()
                for path in sorted(self.folder.rglob("*.ics"))}

    def read_by_all(self, feed):
        """UID to event, as all readers have it, in their order."""
        lists = {}
        for name, reader in readers.readers_of(self.stave).items():
            if name in readers.KNOW_ZONES:
                lists[name] = list(reader(readers.with_unknown_zones(feed)))
            else:
                lists[name] = list(reader(feed))
        for name, events in lists.items():
            self.assertEqual(events, lists["vobject"], name)
        return dict(lists["vobject"])

    def plan(self, zone, edits, now):
        text = PLAN.format(zone=f"  zone: {zone}\n" if zone else "", edits=edits)
        (self.folder / "watch.stave").write_text(text, "utf-8")
        feed, = self.build("watch.stave", now=now).values()
        return self.read_by_all(feed)

    def test_a_season_is_the_same_to_all_before_and_after_its_edits(self):
        for zone in ZONES:
            with self.subTest(zone=zone):
                self.setUp()
                before = self.plan(zone, "", FIRST)
                wanted = [found_event(zone, *slot) for slot in planned()]
                self.check(before.values(), wanted)
                after = self.plan(zone, EDITS, SECOND)
                self.assertEqual(set(after), set(before))
                wanted = [found_event(zone, *slot) for slot in edited()]
                self.check(after.values(), wanted)
                for uid, event in after.items():
                    self.check_description(event, before[uid])

    def check(self, found, wanted):
        told = [{name: event[name] for name in readers.FIELDS if name != "description"}
                for event in found]
        self.assertEqual(in_order(told), in_order(wanted))
        self.assertEqual(len(wanted), 2 * WEEKS + 1)

    def check_description(self, event, before):
        """What was said stays, and what is cancelled or moved says why."""
        if event["status"] == "CONFIRMED":
            said = event["description"]
            if event["start"] != before["start"]:
                head, _, said = said.partition("\n")
                self.assertRegex(head, r"^Moved \(before: .*, (18:30\): open day|06:45\): ice)$")
            self.assertEqual(said, before["description"])
            return
        reason, _, rest = event["description"].partition("\n\n")
        self.assertIn(reason, {f"Cancelled: {why}" for why in ("leave", "gale", "sea fog")})
        self.assertEqual(rest, before["description"])

    def test_the_examples_are_the_same_to_all(self):
        for path in self.examples.glob("*.stave"):
            shutil.copy(path, self.folder)
        shutil.copytree(self.examples / "shared", self.folder / "shared")
        feeds = self.build(*sorted(path.name for path in self.folder.glob("*.stave")))
        self.assertGreater(len(feeds), 10)
        # The season of two crews, with a day that falls out, one that moves and days away.
        self.assertIn("autumn-at-skerry-point-a.ics", {path.name for path in feeds})
        for name, feed in feeds.items():
            with self.subTest(feed=str(name)):
                self.assertEqual(len(self.read_by_all(feed)), feed.count(b"BEGIN:VEVENT"))


if __name__ == "__main__":
    PlanFeeds.stave = str(pathlib.Path(sys.argv.pop(1)).resolve())
    PlanFeeds.examples = pathlib.Path(sys.argv.pop(1)).resolve()
    unittest.main()
