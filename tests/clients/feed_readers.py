"""Feeds, read back by five readers that other people wrote and by a strict checker.

usage: feed_readers.py FEED_SAMPLE [unittest options]
"""
import unittest

import icalendar

import feed_sample
import readers
import strict_feed
from feed_sample import build, event

LONG_TEXT = "\n".join(f"{number}. Zug – тяга – 🚣 {number} × 5; halten, atmen"
                      for number in range(150))

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


class FeedReaders(feed_sample.SampleTest):
    def test_all_readers_find_the_sample(self):
        feed = self.compare_all(SAMPLE)
        # And by what readers know of zones themselves.
        for name in readers.KNOW_ZONES:
            self.compare(name, feed, SAMPLE)

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


class StrictChecker(unittest.TestCase):
    """The checker itself finds what it is there to find."""

    def test_it_finds_faults(self):
        good = build(feed_sample.SampleTest.program, SAMPLE)
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
    feed_sample.main()
