"""Texts in feeds: whatever stands in them, five readers find it whole, and nothing beside it.

usage: feed_texts.py FEED_SAMPLE [unittest options]

RFC 5545, section 3.1, says how lines end and are folded, section 3.3.11 what is escaped in a
TEXT and that control characters have no place there. What becomes of those is ours: line breaks
of every kind are one, tabs are blanks, other controls go.
"""
import re
import unicodedata

import feed_sample
import readers
import strict_feed
from feed_sample import build, event

DAY = (2026, 12, 4, 6, 15)
# Of one to four bytes in UTF-8; a backslash is written before the comma.
LETTERS = {"x": 1, "é": 2, "潮": 3, "🚣": 4, ",": 2}
SHIFTS = range(81)

HOSTILE = [
    "BEGIN:VEVENT", "END:VEVENT", "END:VCALENDAR", "BEGIN:VALARM",
    "a\r\nEND:VEVENT\r\nBEGIN:VEVENT\r\nUID:x\r\nb", "a\nEND:VCALENDAR\nb", "a\rEND:VEVENT\rb",
    "a\r\n END:VEVENT", "a\n\tEND:VEVENT", "a\u2028END:VEVENT\u2029b", "a\x85END:VEVENT",
    "a\vEND:VEVENT\fb", "ATTENDEE:mailto:x@example.org", "DTSTART;TZID=Europe/Lisbon:20261203T183000",
    ";,:;,:", '"quoted; not: quoted", "', "a;b,c:d=e", ",", ";", ":", "=", '"', "^n^'^^",
    "\u200fEND:VEVENT\u200e", "\u202eEND:VCALENDAR\u202c", "\u2067BEGIN:VALARM\u2069",
    "שלום \u200f(12)\u200e مرحبا", "\ufeffBEGIN:VEVENT", "zero\u200bwidth\u200djoined\u00ad",
    "e\u0301\u0323 combined", "\ufdd0 \uffff \U0010ffff",
    *(f"a{chr(value)}b" for value in (*range(0x20), *range(0x7f, 0xa0))),
    "\x1b[2J\x07", "%00%0A {x} $x `x` ${x}", "<b>&amp;</b>", "a  b   c",
]
HOSTILE_BACKSLASHES = [
    "\\", "\\\\", "\\n", "\\N", "a\\nEND:VCALENDAR", "\\nEND:VEVENT\\nBEGIN:VEVENT\\nUID:x", "\\,",
    "\\;", "\\:", '\\"', "\\\\n", "\\\r\nEND:VEVENT", "a\\", "\\x41\\u0041\\0",
]


def as_text(text, line_break):
    text = re.sub("\r\n|[\r\n\x85\u2028\u2029]", "\n", text).replace("\t", " ")
    kept = [sign for sign in text if sign == "\n" or unicodedata.category(sign) != "Cc"]
    return "".join(kept).replace("\n", line_break)


def as_written(source):
    """The event as readers should find it."""
    return {**source, "summary": as_text(source["summary"], " "),
            "location": as_text(source["location"], " "),
            "description": as_text(source["description"], "\n")}


class Texts(feed_sample.SampleTest):
    def compare_texts(self, events, names=readers.NAMES):
        feed = build(self.program, events)
        self.assertEqual(strict_feed.check(feed), [])
        for name in names:
            with self.subTest(reader=name):
                self.compare(name, feed, list(map(as_written, events)))
        return feed

    def test_lines_of_a_text_are_lines_to_all_readers(self):
        # Sections 3.1 and 3.3.11: CR LF ends a line of the feed, \n one of the text.
        lines = ["Ebb", "", "Flood; neap, spring", "", "", "Slack"]
        events = [event(f"break-{number}", DAY, description=line_break.join(lines))
                  for number, line_break in enumerate(("\r\n", "\n", "\r", "\u2028", "\x85"))]
        feed = self.compare_texts(events)
        self.assertEqual(feed.count(b"DESCRIPTION:Ebb\\n\\nFlood\\; neap\\, spring\\n\\n\\nSlack\r\n"),
                         len(events))
        self.assertNotRegex(feed, rb"\r(?!\n)|(?<!\r)\n")

    def test_a_fold_may_come_anywhere(self):
        # Section 3.1: folds count octets, and readers take them out before they read characters.
        for number, (letter, size) in enumerate(LETTERS.items()):
            events = [event(f"shift-{number}-{shift}", DAY, summary="x" * shift + 40 * letter,
                            description="y" * shift + 20 * "é潮🚣,", place="z" * shift + 10 * letter)
                      for shift in SHIFTS]
            feed = self.compare_texts(events)
            # Each place inside a letter was at the end of a line once.
            ends = {len(line) for line in feed.split(b"\r\n") if line.startswith(b"SUMMARY:")
                    and len(line) > 75 - size}
            wanted = range(76 - size, 76) if letter != "," else range(75, 76)
            self.assertEqual(ends, set(wanted), letter)

    def test_hostile_texts_are_texts(self):
        events = [event(f"hostile-{number}", DAY, summary=text, description=text, place=text)
                  for number, text in enumerate(HOSTILE)]
        # What comes to nothing is left out, and so are the blanks that some readers take away.
        for source in events:
            for name in ("description", "location"):
                source[name] = f"a{source[name]}b"
        self.compare_texts(events)

    def test_hostile_backslashes_are_texts(self):
        events = [event(f"hostile-{number}", DAY, summary=text, description=text, place=text)
                  for number, text in enumerate(HOSTILE_BACKSLASHES)]
        feed = self.compare_texts(events, readers.READS_BACKSLASHES)
        # The others read some of them wrongly, but never as lines of the feed.
        for name in set(readers.NAMES) - set(readers.READS_BACKSLASHES):
            found = self.read(name, feed)
            self.assertEqual(list(found), list(map(feed_sample.uid_of, events)), name)
            for each in found.values():
                self.assertEqual((each["status"], each["url"], each["start"].hour),
                                 ("CONFIRMED", "", 6))

    def test_texts_of_10_kb_are_cut_where_programs_would_break_off(self):
        long = event("long", (2026, 12, 3, 18, 30), summary="BEGIN:VEVENT " * 800,
                     description="🚣é;,/" * 2000, place="x" * 10_000)
        feed = build(self.program, [long])
        self.assertEqual(strict_feed.check(feed), [])
        for name in readers.NAMES:
            found, = self.read(name, feed).values()
            for text_name, most in (("summary", 255), ("location", 255), ("description", 8000)):
                text = found[text_name]
                self.assertLessEqual(len(text.encode("utf-16-le")) // 2, most)
                self.assertGreater(len(text.encode("utf-16-le")) // 2, most - 4)
                self.assertTrue(text.endswith("…") and long[text_name].startswith(text[:-1]), name)


if __name__ == "__main__":
    feed_sample.main()
