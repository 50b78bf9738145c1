"""Every time zone, by its name of today and those from before, as five readers have it.

usage: feed_zones.py FEED_SAMPLE [unittest options]
"""
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import feed_sample
import strict_feed
from feed_sample import build, event


def wide_sample():
    """For every zone one event a month in 2026 and 2027, and noon on each side of a change."""
    for zone_number, name in enumerate(feed_sample.zones()):
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


class FeedZones(feed_sample.SampleTest):
    def test_every_zone_is_read_at_the_right_instant(self):
        events = list(wide_sample())
        self.assertGreater(len(events), 7000)
        feed = build(self.program, events)
        self.assertEqual(strict_feed.check(feed), [])
        for name in ("icalendar", "vobject", "ical.js", "libical"):
            self.compare_by_feed_alone(name, feed, events)
        # khal keeps each event in a file of its own, and needs a second for some fifty of them:
        # one in each zone, and all months.
        few = events[::20]
        self.assertEqual({each["zone"] for each in few}, set(feed_sample.zones()))
        self.compare_by_feed_alone("khal", build(self.program, few), few)

    def test_names_from_before_are_zones_to_all_readers(self):
        events = [event(f"z{number}-{month}", (2026, month, 14, 18, 30), alias)
                  for number, (alias, _) in enumerate(feed_sample.aliases()) for month in (1, 7)]
        feed = self.compare_all(events)
        # And by what readers know of the names themselves; khal's knowledge is python3-icalendar's.
        for name in ("icalendar", "libical"):
            with self.subTest(knows=name):
                self.compare(name, feed, events)


if __name__ == "__main__":
    feed_sample.main()
