"""A session each week of two years in every zone stands at the instant that zdump tells.

usage: every_week.py FEED_SAMPLE [unittest options]

FEED_SAMPLE writes the feed. When its events begin is worked out here from the feed alone: the
rules of its VTIMEZONEs, expanded by dateutil, with the offset of the last onset before the time
(RFC 5545, section 3.6.5). What they are held against comes from `zdump -i` of the C library, which
reads the zone database by itself. Times that a change of clocks skips or brings twice are left
out: the compiler refuses them.
"""

import re
import subprocess
import sys
import unittest
from datetime import date, datetime, timedelta

from dateutil.rrule import rrulestr

import feed_sample
import strict_feed
from feed_sample import build, event

FIRST_DAY = date(2026, 1, 5)
WEEKS = 104
# Far from where clocks change, close behind it, and in the night.
CLOCKS = ((18, 30), (3, 5), (0, 20))
ZONES = feed_sample.zones()


def offset_from(text):
    """+hh, +hhmm or +hhmmss."""
    sign = -1 if text[0] == "-" else 1
    hours, minutes, seconds = (int(text[at:at + 2] or "0") for at in (1, 3, 5))
    return sign * timedelta(hours=hours, minutes=minutes, seconds=seconds)


def clock_from(text):
    """hh, hh:mm or hh:mm:ss of a day, which may have more than 24 hours."""
    parts = [int(part) for part in text.split(":")] + [0, 0]
    return timedelta(hours=parts[0], minutes=parts[1], seconds=parts[2])


def dumped(name):
    """[(first instant in UTC, offset)] as zdump tells them, and the offset before all."""
    told = subprocess.run(["zdump", "-i", "-c", "2026,2029", name], capture_output=True, text=True,
                          check=True).stdout
    rows = [line.split("\t") for line in told.splitlines()
            if re.match(r"(-|\d{4}-\d\d-\d\d)\t", line)]
    before = offset_from(rows[0][2])
    changes = []
    for day, clock, offset, *_ in rows[1:]:
        offset = offset_from(offset)
        local = datetime.combine(date.fromisoformat(day), datetime.min.time()) + clock_from(clock)
        changes.append((local - offset, offset))
    return before, changes


def instants(local, before, changes):
    """All at which clocks show the local time: none in a gap, two where an hour comes twice."""
    found = []
    starts = [datetime.min] + [start for start, _ in changes]
    ends = starts[1:] + [datetime.max]
    for start, end, offset in zip(starts, ends, [before] + [offset for _, offset in changes]):
        if start <= local - offset < end:
            found.append(local - offset)
    return found


def stamp(text):
    return datetime.strptime(text, "%Y%m%dT%H%M%S")


def onsets(parts):
    """[(local onset by the offset before it, offset after it)] of a VTIMEZONE's parts, in order."""
    found = []
    for _, properties, _ in parts:
        values = {name: value for name, _, value in properties}
        start, offset = stamp(values["DTSTART"]), offset_from(values["TZOFFSETTO"])
        times = [start]
        if "RRULE" in values:
            rule = rrulestr(values["RRULE"], dtstart=start)
            times = rule.between(datetime(2024, 1, 1), datetime(2029, 1, 1))
        found += [(time, offset) for time in times]
    return sorted(found)


def begins(feed):
    """UID to the instant in UTC, by the feed alone."""
    complaints = []
    _, _, children = strict_feed.read_tree(strict_feed.unfold(feed), complaints)[2][0]
    zones = {child[1][0][2]: onsets(child[2]) for child in children if child[0] == "VTIMEZONE"}
    found = {}
    for _, properties, _ in (child for child in children if child[0] == "VEVENT"):
        values = {name: (parameters, value) for name, parameters, value in properties}
        parameters, text = values["DTSTART"]
        local = stamp(text.removesuffix("Z"))
        if "TZID" in parameters:
            local -= [offset for time, offset in zones[parameters["TZID"]] if time <= local][-1]
        found[values["UID"][1]] = local
    return found


class EveryWeek(unittest.TestCase):
    program = ""

    def test_a_name_from_before_is_the_zone_that_it_leads_to(self):
        events, wanted = [], {}
        links = feed_sample.aliases()
        self.assertGreater(len(links), 140)
        self.assertLessEqual({("Asia/Calcutta", "Asia/Kolkata"), ("US/Pacific", "America/Los_Angeles"),
                              ("Europe/Kiev", "Europe/Kyiv")}, set(links))
        for number, pair in enumerate(links):
            before, changes = dumped(pair[1])
            for week in range(WEEKS):
                day = FIRST_DAY + timedelta(days=7 * week + (6 + number) % 7)
                at = instants(datetime(day.year, day.month, day.day, 18, 30), before, changes)
                if len(at) != 1:
                    continue
                for name in pair:
                    uid = f"z{number}-{pair.index(name)}-w{week}"
                    events.append(event(uid, (day.year, day.month, day.day, 18, 30), name))
                    wanted[f"skerry-winter.{uid}@feeds.stave.invalid"] = at[0]
        found = begins(build(self.program, events))
        wrong = {uid: (found.get(uid), at) for uid, at in wanted.items() if found.get(uid) != at}
        self.assertEqual(wrong, {}, list(wrong.items())[:5])
        self.assertGreater(len(found), 2 * len(links) * (WEEKS - 2))

    def test_each_session_begins_when_zdump_says(self):
        events, wanted, left_out = [], {}, 0
        for number, name in enumerate(ZONES):
            before, changes = dumped(name)
            for week in range(WEEKS):
                day = FIRST_DAY + timedelta(days=7 * week + (6 + number) % 7)
                for hour, minute in CLOCKS:
                    at = instants(datetime(day.year, day.month, day.day, hour, minute), before,
                                  changes)
                    if len(at) != 1:
                        left_out += 1
                        continue
                    uid = f"z{number}-w{week}-{hour}"
                    events.append(event(uid, (day.year, day.month, day.day, hour, minute), name))
                    wanted[f"skerry-winter.{uid}@feeds.stave.invalid"] = at[0]
        self.assertGreater(len(ZONES), 300)
        self.assertLess(left_out, 100)
        self.assertTrue(any(dumped(name)[1] for name in ZONES))
        found = begins(build(self.program, events))
        self.assertEqual(len(found), len(wanted))
        wrong = {uid: (found[uid], wanted[uid]) for uid in wanted if found[uid] != wanted[uid]}
        self.assertEqual(wrong, {}, list(wrong.items())[:5])


if __name__ == "__main__":
    EveryWeek.program = sys.argv.pop(1)
    unittest.main()
