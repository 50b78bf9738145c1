"""Feeds from build to build: what they remember, and when they are left alone.

usage: feeds.py STAVE [unittest options]
"""

import re
import unittest

import program
from program import GOOD, OTHER, InFolder

NOW = ["--now", "2026-11-26T12:00:00Z"]
LATER = ["--now", "2026-11-27T12:00:00Z"]


class Feeds(InFolder):
    def build(self, text, *words, source="slack.stave"):
        self.write(source, text)
        told = self.lines("build", source, *words)
        self.assertEqual((told.code, told.err), (0, ""))
        return self.feed(source.replace(".stave", ".ics"))

    def feed(self, name="slack.ics"):
        return (self.folder / "stave-out/feeds" / name).read_bytes()

    def values(self, feed, name):
        return re.findall(rf"(?m)^{name}:(.*)\r$", feed.decode())


class Previous(Feeds):
    def test_a_renamed_file_goes_on_from_its_old_feed(self):
        old = self.build(GOOD, *NOW)
        words = ["--previous", "stave-out/feeds/slack.ics", *LATER]
        new = self.build(OTHER, *words, source="winter.stave")
        self.assertEqual(self.values(new, "UID"), self.values(old, "UID"))
        self.assertEqual(self.values(new, "SEQUENCE"), ["1"])
        # Left in a script, or left out, the option changes nothing any more.
        self.assertEqual(self.build(OTHER, *words, source="winter.stave"), new)
        self.assertEqual(self.build(OTHER, *LATER, source="winter.stave"), new)

    def test_one_that_was_forgotten_can_be_made_good(self):
        old = self.build(GOOD, *NOW)
        self.build(GOOD, *NOW, source="winter.stave")
        new = self.build(GOOD, "--previous", "stave-out/feeds/slack.ics", source="winter.stave")
        self.assertEqual(self.values(new, "UID"), self.values(old, "UID"))
        self.assertEqual(self.values(new, "STATUS"), ["CONFIRMED"])

    def test_it_goes_with_one_file_that_is_a_feed(self):
        self.build(GOOD)
        self.write("other.stave", GOOD.replace("session 4", "session 5"))
        told = self.stave("build", "slack.stave", "other.stave", "--previous", "x.ics")
        self.assertEqual((told.code, told.out), (2, ""))
        self.assertIn("--previous goes with one file", told.err)
        for name, code in [("absent.ics", "cannot-read"), ("slack.stave", "foreign-feed")]:
            told = self.lines("build", "slack.stave", "--previous", name)
            self.assertEqual((told.code, told.codes()), (3, [code]))

    def test_a_feed_of_a_later_version_is_left_alone(self):
        feed = self.build(GOOD).replace(b"X-STAVE-FORMAT:1", b"X-STAVE-FORMAT:2")
        place = self.write("stave-out/feeds/slack.ics", feed)
        self.write("slack.stave", OTHER)
        told = self.lines("build", "slack.stave")
        self.assertEqual((told.code, told.codes()), (3, ["newer-feed"]))
        self.assertEqual(place.read_bytes(), feed)


class Cancelling(Feeds):
    # RFC 5545, section 3.8.1.11: a cancelled event says so in its STATUS.
    def test_a_session_without_its_date_is_cancelled_and_comes_back(self):
        first = self.build(GOOD, *NOW)
        undated = re.sub(r"when:.*\n", "", GOOD)
        gone = self.build(undated, *LATER)
        self.assertEqual(self.values(gone, "STATUS"), ["CANCELLED"])
        self.assertEqual(self.values(gone, "UID"), self.values(first, "UID"))
        self.assertEqual(self.build(undated, "--now", "2026-12-02T12:00:00Z"), gone)
        back = self.build(GOOD, "--now", "2026-12-02T12:00:00Z")
        self.assertEqual(self.values(back, "STATUS"), ["CONFIRMED"])
        self.assertEqual(self.values(back, "SEQUENCE"), ["2"])

    def test_a_calendar_in_the_place_of_no_feed_is_left_alone(self):
        place = self.write("stave-out/feeds/slack.ics", "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n")
        before = place.read_bytes()
        self.build(re.sub(r"when:.*\n", "", GOOD))
        self.assertEqual(place.read_bytes(), before)


class Clock(Feeds):
    def test_now_wins_over_the_environment(self):
        self.write("slack.stave", GOOD)
        told = self.stave("build", "slack.stave", *NOW, env={"SOURCE_DATE_EPOCH": "1"})
        self.assertEqual((told.code, told.err), (0, ""))
        self.assertEqual(self.values(self.feed(), "DTSTAMP"), ["20261126T120000Z"])

    def test_what_is_no_time_is_refused(self):
        self.write("slack.stave", GOOD)
        for now in ["", "tomorrow", "2026-02-30T12:00:00Z", "2026-12-01T24:00:00Z",
                    "2026-12-01 12:00:00Z", "2026-12-01T12:00:00", "1969-12-31T23:59:59Z"]:
            told = self.lines("build", "slack.stave", "--now", now)
            self.assertEqual((told.code, told.codes()), (2, ["odd-clock"]), now)
        for epoch in ["", "x", "-1", "1.5", "9" * 30]:
            told = self.lines("build", "slack.stave", env={"SOURCE_DATE_EPOCH": epoch})
            self.assertEqual((told.code, told.codes()), (2, ["odd-clock"]), epoch)
        self.assertEqual(self.files(), {})


class Large(Feeds):
    def test_a_feed_beyond_a_megabyte_is_warned_of(self):
        whole = self.build(GOOD, *NOW)
        head, event, end = re.split(rb"(?s)(?<=\n)(BEGIN:VEVENT.*END:VEVENT\r\n)", whole)
        many = b"".join(event.replace(b"session-4", b"session-%d" % number)
                        for number in range(4, 2004))
        self.write("stave-out/feeds/slack.ics", head + many + end)
        told = self.lines("build", "slack.stave", *LATER)
        self.assertEqual((told.code, told.codes()), (0, ["feed-large"]))
        self.assertGreater(len(self.feed()), 1_000_000)
        before = self.files()
        told = self.lines("build", "slack.stave", "--strict", *LATER)
        self.assertEqual((told.code, told.codes()), (1, ["feed-large"]))
        self.assertEqual(self.files(), before)


if __name__ == "__main__":
    program.main()
