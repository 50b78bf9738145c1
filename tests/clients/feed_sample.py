"""Feeds of events that a test chooses, and what readers should find in them.

FEED_SAMPLE, which make_feed.cpp is, turns the events into a feed. What is to be found is worked
out here from Python's zoneinfo, which reads the time zone database by itself.
"""

import json
import pathlib
import subprocess
import sys
import unittest
from datetime import datetime, timedelta, timezone
from zoneinfo import ZoneInfo

import readers
import strict_feed

ZONE_TABLE = pathlib.Path("/usr/share/zoneinfo/zone1970.tab")
# The database in its compact form; a line `L TARGET ALIAS` is a name from before.
DATABASE = pathlib.Path("/usr/share/zoneinfo/tzdata.zi")


def zones():
    """The names of all zones that the database lists, links left out."""
    rows = ZONE_TABLE.read_text(encoding="utf-8").splitlines()
    return sorted({row.split("\t")[2] for row in rows if row and not row.startswith("#")})


def aliases():
    """[(alias, target)] of all names that lead to another one, such as US/Pacific."""
    links = dict(reversed(line.split()[1:]) for line in DATABASE.read_text("utf-8").splitlines()
                 if line.startswith("L "))
    # An alias may lead to another one.
    found = []
    for alias, target in sorted(links.items()):
        while target in links:
            target = links[target]
        found.append((alias, target))
    return found


def event(uid, start, zone="", minutes=50, summary="Slack water", description="A Row", place="",
          url=""):
    return {"id": uid, "start": list(start), "zone": zone, "minutes": minutes, "summary": summary,
            "description": description, "location": place, "url": url}


def build(program, events, now=(2026, 11, 1, 12, 0), previous=""):
    order = {"name": "skerry-winter", "title": "Skerry Point, winter", "now": list(now),
             "previous": previous, "events": events}
    run = subprocess.run([program], input=json.dumps(order).encode(), capture_output=True,
                         check=False)
    if run.returncode:
        raise RuntimeError(run.stderr.decode())
    return run.stdout


def uid_of(source):
    return f"skerry-winter.{source['id']}@feeds.stave.invalid"


def expected(source):
    """What a reader should find: floating times naive, all others in UTC."""
    start = datetime(*source["start"])
    if source["zone"]:
        start = start.replace(tzinfo=ZoneInfo(source["zone"])).astimezone(timezone.utc)
    return {"start": start, "end": start + timedelta(minutes=source["minutes"]),
            "summary": source["summary"], "description": source["description"],
            "location": source["location"], "url": source["url"], "status": "CONFIRMED"}


class SampleTest(unittest.TestCase):
    program = ""

    def read(self, name, feed):
        return dict(readers.readers_of(self.program)[name](feed))

    def compare(self, name, feed, events):
        """Each event as it was ordered, and no others."""
        wanted = {uid_of(source): expected(source) for source in events}
        found = self.read(name, feed)
        self.assertEqual(list(found), list(wanted), name)
        if name == "khal":
            # It shows these without the blanks around them.
            for each in wanted.values():
                for text in ("description", "location"):
                    each[text] = each[text].strip()
        wrong = {uid: (found[uid], wanted[uid]) for uid in wanted if found[uid] != wanted[uid]}
        self.assertEqual(len(wrong), 0, (name, list(wrong.items())[:3]))

    def compare_all(self, events, names=readers.NAMES):
        """By each of the readers, in a feed without a fault; the feed."""
        feed = build(self.program, events)
        self.assertEqual(strict_feed.check(feed), [])
        for name in names:
            with self.subTest(reader=name):
                self.compare_by_feed_alone(name, feed, events)
        return feed

    def compare_by_feed_alone(self, name, feed, events):
        """Without what a reader knows of time zones by itself."""
        if name in readers.KNOW_ZONES:
            feed = readers.with_unknown_zones(feed)
        self.compare(name, feed, events)


def main():
    SampleTest.program = sys.argv.pop(1)
    unittest.main()
