"""A real subscription on loopback, and what other people's readers make of its feed.

usage: subscription.py STAVE [unittest options]

vdirsyncer fetches the feed from `stave serve` and from nginx with the configuration that we
show, khal lists what it fetched, and libical reads the same events.
"""
import pathlib
import subprocess
import sys
import tempfile
import unittest

import gi

gi.require_version("ICalGLib", "3.0")
from gi.repository import ICalGLib  # noqa: E402

import serving  # noqa: E402
from served import Served  # noqa: E402

SESSION = """\
session {number}: {title}
when: 2026-12-{day:02} {time}, Europe/Lisbon
push-up: 3 x 8, rest 60 s

"""
SYNCER = """\
[general]
status_path = "{folder}/status"
[pair crew]
a = "here"
b = "web"
collections = null
conflict_resolution = "b wins"
[storage here]
type = "filesystem"
path = "{folder}/calendar"
fileext = ".ics"
[storage web]
type = "http"
url = "http://127.0.0.1:{port}/feeds/season.ics"
"""
KHAL = """\
[calendars]
[[crew]]
path = {folder}/calendar
[locale]
local_timezone = Europe/Lisbon
default_timezone = Europe/Lisbon
timeformat = %H:%M
dateformat = %Y-%m-%d
longdateformat = %Y-%m-%d
datetimeformat = %Y-%m-%d %H:%M
longdatetimeformat = %Y-%m-%d %H:%M
[sqlite]
path = {folder}/khal.db
"""


class Subscription(unittest.TestCase):
    program = ""

    def setUp(self):
        scratch = tempfile.TemporaryDirectory()
        self.addCleanup(scratch.cleanup)
        self.folder = pathlib.Path(scratch.name)
        (self.folder / "calendar").mkdir()
        (self.folder / "khal").write_text(KHAL.format(folder=self.folder), encoding="utf-8")

    def subscribe(self, server):
        self.addCleanup(server.stop)
        text = SYNCER.format(folder=self.folder, port=server.port)
        (self.folder / "syncer").write_text(text, encoding="utf-8")

    def run_program(self, *words):
        run = subprocess.run(words, cwd=self.folder, capture_output=True, check=False, text=True,
                             env={"PATH": "/usr/bin:/bin", "HOME": str(self.folder),
                                  "LC_ALL": "C.UTF-8"})
        self.assertEqual(run.returncode, 0, run.stderr)
        return run.stdout

    def publish(self, sessions, now):
        source = "".join(SESSION.format(number=number, title=title, day=day, time=time)
                         for number, title, day, time in sessions)
        (self.folder / "season.stave").write_text(source, encoding="utf-8")
        self.run_program(self.program, "publish", "season.stave", "--out", "site", "--now", now)

    def seen(self):
        """What an athlete has after the next fetch: start and title, by start."""
        self.run_program("vdirsyncer", "-c", "syncer", "discover")
        self.run_program("vdirsyncer", "-c", "syncer", "sync")
        told = self.run_program("khal", "-c", "khal", "list", "--format",
                                "{start-long-full} {title}", "--day-format", "", "2026-12-01",
                                "60d")
        return [line for line in told.splitlines() if line]

    def in_libical(self):
        feed = (self.folder / "site/feeds/season.ics").read_text(encoding="utf-8")
        calendar = ICalGLib.Parser.parse_string(feed)
        found = []
        event = calendar.get_first_component(ICalGLib.ComponentKind.VEVENT_COMPONENT)
        while event is not None:
            start = event.get_dtstart()
            found.append(f"{start.get_year()}-{start.get_month():02}-{start.get_day():02} "
                         f"{start.get_hour():02}:{start.get_minute():02} {event.get_summary()}")
            event = calendar.get_next_component(ICalGLib.ComponentKind.VEVENT_COMPONENT)
        self.assertEqual(calendar.count_errors(), 0)
        return sorted(found)

    def test_an_edit_and_a_cancellation_arrive_from_the_coachs_computer(self):
        self.follow(lambda: Served(self.program, self.folder / "site"))

    def test_an_edit_and_a_cancellation_arrive_from_nginx(self):
        self.follow(lambda: serving.Nginx(self.folder))

    def follow(self, start):
        first = [(1, "Ebb", 3, "18:30"), (2, "Flood", 10, "18:30"), (3, "Neap", 17, "18:30")]
        self.publish(first, "2026-11-01T12:00:00Z")
        self.subscribe(start())
        wanted = ["2026-12-03 18:30 Session 1: Ebb", "2026-12-10 18:30 Session 2: Flood",
                  "2026-12-17 18:30 Session 3: Neap"]
        self.assertEqual(self.seen(), wanted)
        self.assertEqual(self.in_libical(), wanted)
        self.publish([(1, "Ebb", 4, "19:00"), (3, "Neap tide", 17, "18:30")],
                     "2026-11-02T12:00:00Z")
        wanted = ["2026-12-04 19:00 Session 1: Ebb",
                  "2026-12-10 18:30 CANCELLED - Session 2: Flood",
                  "2026-12-17 18:30 Session 3: Neap tide"]
        self.assertEqual(self.seen(), wanted)
        self.assertEqual(self.in_libical(), wanted)
        self.assertEqual(len(list((self.folder / "calendar").iterdir())), 3)


if __name__ == "__main__":
    Subscription.program = str(pathlib.Path(sys.argv.pop(1)).resolve())
    unittest.main()
