"""Feeds, read back by python3-icalendar, python3-vobject, ical.js and a strict checker.

usage: feed_readers.py FEED_SAMPLE [unittest options]

The events are chosen here. FEED_SAMPLE turns them into a feed; what the readers
should find is computed here from Python's zoneinfo, which reads the time zone
database by itself. python3-icalendar uses its own knowledge of "Europe/Lisbon"
where it has any, so it also reads every feed with names that it cannot know and
must then use the feed's VTIMEZONE. python3-vobject and ical.js always use the VTIMEZONE.
"""
import itertools
import json
import pathlib
import subprocess
import sys
import unittest
from datetime import date, datetime, timedelta, timezone
from zoneinfo import ZoneInfo

import icalendar
import vobject

import npm_packages
import strict_feed

TEXTS = ("summary", "description", "location", "url")
ZONE_NUMBERS = itertools.count(1)
ZONE_TABLE = pathlib.Path("/usr/share/zoneinfo/zone1970.tab")
LONG_TEXT = "\n".join(f"{number}. Zug – тяга – 🚣 {number} × 5; halten, atmen"
                      for number in range(150))


def event(uid, start, zone="", minutes=50, summary="Slack water", description="A Row", place="",
          url=""):
    return {"id": uid, "start": list(start), "zone": zone, "minutes": minutes, "summary": summary,
            "description": description, "location": place, "url": url}


SAMPLE = [
    event("lisbon-winter", (2026, 12, 3, 18, 30), "Europe/Lisbon", place="Boathouse loft, Quay 2"),
    event("lisbon-summer", (2026, 7, 3, 18, 30), "Europe/Lisbon"),
    event("over-the-spring-jump", (2026, 3, 29, 0, 30), "Europe/Lisbon"),
    event("into-the-hour-that-comes-twice", (2026, 10, 25, 0, 30), "Europe/Lisbon"),
    event("over-the-autumn-change", (2026, 10, 25, 0, 30), "Europe/Lisbon", minutes=180),
    event("new-york", (2026, 11, 1, 18, 0), "America/New_York"),
    event("tokyo", (2027, 2, 28, 23, 45), "Asia/Tokyo"),
    event("kolkata", (2026, 6, 1, 5, 30), "Asia/Kolkata"),
    event("lord-howe", (2026, 10, 4, 3, 0), "Australia/Lord_Howe"),
    event("sao-paulo", (2026, 1, 15, 19, 0), "America/Sao_Paulo"),
    event("casablanca-in-ramadan", (2026, 3, 1, 18, 30), "Africa/Casablanca"),
    event("casablanca", (2026, 5, 1, 18, 30), "Africa/Casablanca"),
    event("cairo", (2026, 10, 30, 7, 0), "Africa/Cairo"),
    event("dublin", (2026, 12, 24, 10, 0), "Europe/Dublin"),
    event("leap-day", (2028, 2, 29, 23, 30), "Europe/Lisbon"),
    event("last-year", (2037, 12, 31, 23, 30), "Europe/Lisbon"),
    event("floating", (2026, 12, 3, 6, 15)),
    event("floating-over-midnight", (2026, 12, 31, 23, 30), minutes=90),
    event("marks", (2026, 12, 4, 6, 15), summary='Row; swim, "rest": 1/2 \\ 3',
          description='a;b,c\\d:e"f\n\nspaces  end', place="Slip; north, gate: 4"),
    event("address", (2026, 12, 4, 7, 0),
          url="https://example.org:8080/a;b,c/~d?e=%C3%B6&f=(g)#" + "h" * 240),
    event("scripts", (2026, 12, 5, 6, 15), summary="Gezeiten – прилив – παλίρροια – שפל – 潮 🚣",
          place="Großer Steg"),
    event("long", (2026, 12, 6, 6, 15), "Europe/Lisbon", description=LONG_TEXT),
    event("fold-edges", (2026, 12, 7, 6, 15), summary="é" * 200, description="🚣" * 500),
]

# python3-icalendar 4.0.3 reads an escaped backslash before n, comma or semicolon
# wrongly; other readers must not.
BACKSLASHES = [event("backslashes", (2026, 12, 4, 6, 15), description="\\n \\, \\; \\\\ \\")]


def wide_sample():
    """For every zone one event a month in 2026 and 2027, and noon on each side of a change."""
    rows = ZONE_TABLE.read_text(encoding="utf-8").splitlines()
    names = sorted({row.split("\t")[2] for row in rows if row and not row.startswith("#")})
    for zone_number, name in enumerate(names):
        zone = ZoneInfo(name)
        days = {date(2026 + month // 12, month % 12 + 1, 1 + (zone_number + 7 * month) % 28)
                for month in range(24)}
        for offset in range(1, 730):
            day = date(2026, 1, 1) + timedelta(days=offset)
            before = day - timedelta(days=1)
            noons = [datetime(d.year, d.month, d.day, 12, tzinfo=zone) for d in (before, day)]
            if noons[0].utcoffset() != noons[1].utcoffset():
                days |= {before, day}
        for day in sorted(days):
            yield event(f"z{zone_number}-{day}", (day.year, day.month, day.day, 12, 0), name)


def build(program, events, now=(2026, 11, 1, 12, 0), previous=""):
    order = {"name": "skerry-winter", "title": "Skerry Point, winter", "now": list(now),
             "previous": previous, "events": events}
    run = subprocess.run([program], input=json.dumps(order).encode(), capture_output=True,
                         check=False)
    if run.returncode:
        raise RuntimeError(run.stderr.decode())
    return run.stdout


def expected(source):
    """What a reader should find: floating times naive, all others in UTC."""
    start = datetime(*source["start"])
    if source["zone"]:
        start = start.replace(tzinfo=ZoneInfo(source["zone"])).astimezone(timezone.utc)
    return {"start": start, "end": start + timedelta(minutes=source["minutes"]),
            "summary": source["summary"], "description": source["description"],
            "location": source["location"], "url": source["url"]}


def comparable(time):
    return time.astimezone(timezone.utc) if time.tzinfo else time


def read_icalendar(feed):
    for found in icalendar.Calendar.from_ical(feed).walk("VEVENT"):
        yield str(found["UID"]), {
            "start": comparable(found["DTSTART"].dt), "end": comparable(found["DTEND"].dt),
            **{name: str(found.get(name, "")) for name in TEXTS}}


def read_vobject(feed):
    for found in vobject.readOne(feed.decode("utf-8")).vevent_list:
        texts = {name: getattr(found, name).value if hasattr(found, name) else ""
                 for name in TEXTS}
        yield found.uid.value, {"start": comparable(found.dtstart.value),
                                "end": comparable(found.dtend.value), **texts}


def moment(told):
    """Seconds since 1970, or a local time as it is written."""
    if isinstance(told, str):
        return datetime.fromisoformat(told)
    return datetime.fromtimestamp(told, timezone.utc)


def read_ical_js(feed):
    folder = npm_packages.installed(FeedReaders.program)
    told = subprocess.run(["node", "read_feed.mjs"], cwd=folder, input=feed, capture_output=True,
                          check=True).stdout
    for uid, found in json.loads(told):
        yield uid, {**found, "start": moment(found["start"]), "end": moment(found["end"])}


def with_unknown_zones(feed):
    """TZIDs that no reader knows, nor remembers from an earlier feed.

    Names only become shorter, so that no line grows.
    """
    numbers = {}
    lines = []
    for line in feed.split(b"\r\n"):
        for head in (b"TZID:", b"DTSTART;TZID=", b"DTEND;TZID="):
            if line.startswith(head):
                name, colon, value = line[len(head):].partition(b":")
                number = numbers.get(name) or numbers.setdefault(name, next(ZONE_NUMBERS))
                line = head + b"Z%d" % number + colon + value
        lines.append(line)
    return b"\r\n".join(lines)


class FeedReaders(unittest.TestCase):
    program = ""

    def compare(self, reader, feed, events):
        wanted = {f"skerry-winter.{source['id']}@feeds.stave.invalid": expected(source)
                  for source in events}
        found = dict(reader(feed))
        self.assertEqual(list(found), list(wanted))
        wrong = {uid: (found[uid], wanted[uid]) for uid in wanted if found[uid] != wanted[uid]}
        self.assertEqual(len(wrong), 0, list(wrong.items())[:3])

    def test_icalendar_reads_the_sample(self):
        feed = build(self.program, SAMPLE)
        self.compare(read_icalendar, feed, SAMPLE)
        self.compare(read_icalendar, with_unknown_zones(feed), SAMPLE)

    def test_vobject_reads_the_sample(self):
        events = SAMPLE + BACKSLASHES
        feed = build(self.program, events)
        self.compare(read_vobject, feed, events)

    def test_ical_js_reads_the_sample(self):
        events = SAMPLE + BACKSLASHES
        self.compare(read_ical_js, build(self.program, events), events)

    def test_the_sample_stands_the_strict_checker(self):
        self.assertEqual(strict_feed.check(build(self.program, SAMPLE + BACKSLASHES)), [])

    def test_every_zone_is_read_at_the_right_instant(self):
        events = list(wide_sample())
        self.assertGreater(len(events), 7000)
        feed = build(self.program, events)
        self.assertEqual(strict_feed.check(feed), [])
        self.compare(read_icalendar, with_unknown_zones(feed), events)
        self.compare(read_vobject, feed, events)
        self.compare(read_ical_js, feed, events)

    def test_readers_see_the_calendars_name(self):
        calendar = icalendar.Calendar.from_ical(build(self.program, SAMPLE))
        self.assertEqual(str(calendar["NAME"]), "Skerry Point, winter")
        self.assertEqual(str(calendar["X-WR-CALNAME"]), "Skerry Point, winter")
        self.assertNotIn("METHOD", calendar)

    def test_a_changed_event_has_a_higher_sequence_and_a_later_stamp(self):
        first = build(self.program, SAMPLE)
        changed = [dict(source) for source in SAMPLE]
        changed[0]["summary"] = "Slack water, moved indoors"
        second = build(self.program, changed, now=(2026, 11, 2, 12, 0), previous=first.decode())
        before, after = (list(icalendar.Calendar.from_ical(feed).walk("VEVENT"))
                         for feed in (first, second))
        self.assertEqual([int(found["SEQUENCE"]) for found in after], [1] + [0] * (len(SAMPLE) - 1))
        self.assertLess(before[0]["LAST-MODIFIED"].dt, after[0]["LAST-MODIFIED"].dt)
        self.assertEqual([found.to_ical() for found in before[1:]],
                         [found.to_ical() for found in after[1:]])
        self.assertEqual(strict_feed.check(second), [])
        same = build(self.program, changed, now=(2026, 11, 3, 12, 0), previous=second.decode())
        self.assertEqual(same, second)

    def test_hostile_texts_break_nothing(self):
        hostile = "a\r\nEND:VEVENT\rBEGIN:VEVENT\nUID:x\u2028ATTENDEE:mailto:x\x00\x1b[2J\x85\u009b"
        events = [event("a", (2026, 12, 3, 18, 30), summary=hostile, description=hostile,
                        place=hostile)]
        feed = build(self.program, events)
        self.assertEqual(strict_feed.check(feed), [])
        (_, found), = read_icalendar(feed)
        self.assertEqual(found["summary"], "a END:VEVENT BEGIN:VEVENT UID:x ATTENDEE:mailto:x[2J ")
        self.assertEqual(found["description"],
                         "a\nEND:VEVENT\nBEGIN:VEVENT\nUID:x\nATTENDEE:mailto:x[2J\n")

    def test_texts_of_10_kb_are_cut_where_programs_would_break_off(self):
        long = event("long", (2026, 12, 3, 18, 30), summary="BEGIN:VEVENT " * 800,
                     description="🚣é;,/" * 2000, place="x" * 10_000)
        feed = build(self.program, [long])
        self.assertEqual(strict_feed.check(feed), [])
        for reader in (read_icalendar, read_vobject, read_ical_js):
            (_, found), = reader(feed)
            for name, most in (("summary", 255), ("location", 255), ("description", 8000)):
                text = found[name]
                self.assertLessEqual(len(text.encode("utf-16-le")) // 2, most)
                self.assertGreater(len(text.encode("utf-16-le")) // 2, most - 4)
                self.assertTrue(text.endswith("…") and long[name].startswith(text[:-1]))

    def test_texts_of_both_directions_come_back_whole(self):
        events = [
            event("both", (2026, 12, 4, 18, 30), summary="שלום \u200f(12)\u200e مرحبا",
                  description="\u202eEND:VCALENDAR\u202c\n\u2067BEGIN:VALARM\u2069", place="סירה 3"),
        ]
        feed = build(self.program, events)
        self.assertEqual(strict_feed.check(feed), [])
        for reader in (read_icalendar, read_vobject, read_ical_js):
            self.compare(reader, feed, events)


class StrictChecker(unittest.TestCase):
    """The checker itself finds what it is there to find."""

    def test_it_finds_faults(self):
        good = build(FeedReaders.program, SAMPLE)
        self.assertEqual(strict_feed.check(good), [])
        for part, replacement in [
                (b"\r\n", b"\n"), (b"\r\n ", b""), (b"SUMMARY:Slack", b"SUMMARY:Sl\x07ack"),
                (b"SUMMARY:Slack water", b"SUMMARY:Slack\\water"), (b"\\,", b","),
                (b"END:VTIMEZONE\r\n", b""), (b"DTEND;TZID=Asia/Tokyo:", b"DTEND:"),
                (b"TZID:Asia/Tokyo", b"TZID:Asia/Seoul"), (b"STATUS:CONFIRMED\r\n", b""),
                (b"UID:skerry-winter.tokyo@", b"UID:skerry-winter.kolkata@"),
                ("é".encode(), b"\xc3\r\n \xa9"), (b"SEQUENCE:0\r\n", b""),
                (b"VERSION:2.0\r\n", b"VERSION:2.0\r\nMETHOD:PUBLISH\r\n"),
                (b"END:VEVENT", b"BEGIN:VALARM\r\nEND:VALARM\r\nEND:VEVENT")]:
            with self.subTest(part=part):
                self.assertIn(part, good)
                self.assertNotEqual(strict_feed.check(good.replace(part, replacement, 1)), [])


if __name__ == "__main__":
    FeedReaders.program = sys.argv.pop(1)
    unittest.main()
