"""Every example, built by the real program and read back by programs of other people.

usage: cards.py STAVE EXAMPLES_FOLDER... [unittest options]

Cards: poppler (pdfinfo, pdffonts, pdftotext), qpdf, and mutool where it is installed.
Feeds: python3-icalendar and python3-vobject, held against the dates as the sources
have them and Python's own zoneinfo.
"""

import functools
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
from datetime import datetime, timedelta, timezone
from xml.etree import ElementTree
from zoneinfo import ZoneInfo

import icalendar
import vobject

import strict_feed

# Ten millimetres, in points. Office printers leave out the outer four or five:
# common practice, no source.
MARGIN = 10 / 25.4 * 72
# ISO 216: 210 mm x 297 mm.
A4 = (210 / 25.4 * 72, 297 / 25.4 * 72)
WHEN = re.compile(r"^\s*when\s*:\s*(?:[A-Za-z]+ )?(\d{4}-\d\d-\d\d) (\d\d?:\d\d)( [ap]m)?"
                  r"(?: for (\d+) (min|h)\s*)?(?:, *([A-Z]\w+/\w+))?\s*(?:#.*)?$", re.IGNORECASE)


def run(*words, expect=0, **more):
    done = subprocess.run([str(word) for word in words], capture_output=True, timeout=120,
                          check=False, **more)
    if done.returncode != expect:
        raise AssertionError(f"{words[0]}: {done.returncode}: {done.stderr.decode()}")
    return done.stdout.decode("utf-8")


def one_line(text):
    """All blanks alike: lines are broken and blanks widened to fit the page."""
    return " ".join(text.split())


class Built:
    """The sources, copied and built in a folder of their own."""

    def __init__(self, program, sources, folder, **environment):
        self.folder = pathlib.Path(folder)
        self.sources = [pathlib.Path(shutil.copy(source, self.folder)) for source in sources]
        # What the sources take in lies in folders beside them.
        for folder in {pathlib.Path(source).parent / "shared" for source in sources}:
            if folder.is_dir():
                shutil.copytree(folder, self.folder / "shared", dirs_exist_ok=True)
        self.environment = {"PATH": os.environ["PATH"], **environment}
        self.program = program
        run(program, "build", *self.sources, "--out", self.folder / "out", env=self.environment)
        self.cards = sorted((self.folder / "out/cards").glob("*.pdf"))
        self.feeds = sorted((self.folder / "out/feeds").glob("*.ics"))

    def explained(self, source):
        return json.loads(run(self.program, "explain", "--json", source, env=self.environment))

    def plans(self, source):
        return json.loads(run(self.program, "plan", "--json", source, env=self.environment))

    def planned(self, source):
        """The days of the source's plans."""
        return [day for plan in self.plans(source) for week in plan["weeks"]
                for day in week["days"]]

    def card(self, session):
        return self.folder / "out/cards" / f"{session['name']}.pdf"


def for_each_card(test):
    """Runs a test for every card and its session, on after a failure."""

    @functools.wraps(test)
    def run_all(self):
        for session in self.sessions:
            with self.subTest(card=session["name"]):
                test(self, self.built.card(session), session)

    return run_all


class Readers(unittest.TestCase):
    program = ""
    sources = []

    @classmethod
    def setUpClass(cls):
        holder = tempfile.TemporaryDirectory(prefix="stave-cards-")
        cls.addClassCleanup(holder.cleanup)
        cls.holder = pathlib.Path(holder.name)
        (cls.holder / "first").mkdir()
        cls.built = Built(cls.program, cls.sources, cls.holder / "first")
        cls.sessions = []
        cls.planned = []
        for source in cls.built.sources:
            days = cls.built.planned(source)
            cls.planned += [day for day in days if day["standing"] in ("held", "moved")]
            # What a plan holds has a card for each of its days.
            held = {day["session"] for day in days}
            cls.sessions += [session for session in cls.built.explained(source)
                             if session["name"] not in held]


class Cards(Readers):
    def test_every_session_has_a_card(self):
        names = [session["name"] + ".pdf" for session in self.sessions]
        names += [f"{day['session']}-{day['day']}.pdf" for day in self.planned]
        names.sort()
        self.assertEqual([card.name for card in self.built.cards], names)
        self.assertGreater(len(names), 10)

    @for_each_card
    def test_pdfinfo_sees_one_page_of_a4(self, card, _):
        facts = dict(re.findall(r"(?m)^([^:]+): +(.*)$", run("pdfinfo", card)))
        self.assertEqual(facts["Pages"], "1")
        width, height = map(float, re.findall(r"[\d.]+", facts["Page size"])[:2])
        self.assertAlmostEqual(width, A4[0], delta=0.01)
        self.assertAlmostEqual(height, A4[1], delta=0.01)
        self.assertNotIn("CreationDate", facts)

    @for_each_card
    def test_pdffonts_sees_every_font_embedded_as_a_subset_with_its_letters(self, card, _):
        rows = run("pdffonts", card).splitlines()[2:]
        self.assertTrue(rows)
        for row in rows:
            self.assertRegex(row, r"^[A-Z]{6}\+Roboto\S* .* yes +yes +yes +\d+ +0$")

    @for_each_card
    def test_qpdf_finds_no_fault(self, card, _):
        told = run("qpdf", "--check", card)
        self.assertIn("No syntax or stream encoding errors found", told)

    @for_each_card
    def test_mutool_reads_the_same_text_and_complains_of_nothing(self, card, session):
        if not shutil.which("mutool"):
            print("left out: mutool is not installed", file=sys.stderr)
            return
        done = subprocess.run(["mutool", "draw", "-F", "text", card], capture_output=True,
                              timeout=120, check=False)
        told = done.stderr.decode().splitlines()
        # What the tool itself was built without.
        complaints = [line for line in told if re.match("error|warning: (?!ICC)", line)]
        self.assertEqual((done.returncode, complaints), (0, []))
        self.assertIn(one_line(session["title"])[:20], one_line(done.stdout.decode()))

    @for_each_card
    def test_pdftotext_finds_title_number_and_every_movement_as_typed(self, card, session):
        text = one_line(run("pdftotext", "-raw", card, "-"))
        wanted = [session["title"], *(movement["movement"] for movement in session["movements"])]
        if session["number"]:
            wanted.append(f"SESSION {session['number']}")
        if "time" in session:
            wanted.append(session["time"])
        # The card begins a movement's name with a capital.
        missing = [name for name in wanted if one_line(name).casefold() not in text.casefold()]
        self.assertEqual(missing, [], text)

    @for_each_card
    def test_pdftotext_finds_every_number_of_every_dose_and_load(self, card, session):
        text = run("pdftotext", "-raw", card, "-")
        found = set(re.findall(r"\d+(?:\.\d+)?", text))
        for entry in session["entries"]:
            if entry["kind"] == "rest":
                continue
            for number in re.findall(r"\d+(?:\.\d+)?", entry["dose"] + " " + entry["load"]):
                self.assertIn(number, found, entry)

    @for_each_card
    def test_no_word_stands_outside_the_margins(self, card, _):
        page = ElementTree.fromstring(run("pdftotext", "-bbox", card, "-"))
        words = page.findall(".//{*}word")
        self.assertGreater(len(words), 20)
        for word in words:
            left, top, right, bottom = (float(word.get(side))
                                        for side in ("xMin", "yMin", "xMax", "yMax"))
            self.assertGreaterEqual(min(left, top), MARGIN, word.text)
            self.assertLessEqual(right, A4[0] - MARGIN, word.text)
            self.assertLessEqual(bottom, A4[1] - MARGIN, word.text)

    @for_each_card
    def test_nothing_that_is_drawn_stands_outside_the_margins(self, card, _):
        picture = self.holder / "page"
        run("pdftoppm", "-gray", "-r", "72", "-singlefile", card, picture)
        _, size, _, pixels = (self.holder / "page.pgm").read_bytes().split(b"\n", 3)
        width, height = map(int, size.split())
        rows = [pixels[row * width:(row + 1) * width] for row in range(height)]
        edge = int(MARGIN)
        blank = b"\xff" * width
        self.assertEqual(set(rows[:edge] + rows[-edge:]), {blank})
        columns = {row[:edge] + row[-edge:] for row in rows}
        self.assertEqual(columns, {b"\xff" * (2 * edge)})
        self.assertNotEqual(set(rows), {blank})

    def test_bytes_do_not_depend_on_folder_time_place_or_language(self):
        other = self.holder / "another folder – 2"
        other.mkdir()
        again = Built(self.program, self.sources, other, TZ="Asia/Tokyo", LC_ALL="de_DE.UTF-8",
                      HOME="/nowhere")
        self.assertEqual([card.name for card in again.cards],
                         [card.name for card in self.built.cards])
        for card, copy in zip(self.built.cards, again.cards):
            self.assertEqual(card.read_bytes(), copy.read_bytes(), card.name)
        # Feeds carry the time of their making and nothing else of it.
        stamps = re.compile(rb"(?m)^(?:DTSTAMP|CREATED|LAST-MODIFIED):\d{8}T\d{6}Z\r\n")
        for feed, copy in zip(self.built.feeds, again.feeds):
            self.assertEqual(stamps.sub(b"", feed.read_bytes()), stamps.sub(b"", copy.read_bytes()))

    def test_bytes_are_those_of_the_date_that_is_fixed(self):
        made = []
        for name in ("early", "late"):
            (self.holder / name).mkdir()
            made.append(Built(self.program, self.sources, self.holder / name,
                              SOURCE_DATE_EPOCH="4000000000"))
        for first, second in zip(made[0].cards + made[0].feeds, made[1].cards + made[1].feeds):
            self.assertEqual(first.read_bytes(), second.read_bytes(), first.name)
        for feed in made[0].feeds:
            self.assertIn(b"DTSTAMP:20961002T070640Z", feed.read_bytes())
        told = run("pdfinfo", "-isodates", made[0].cards[0])
        self.assertRegex(told, r"CreationDate: +2096-10-02T07:06:40Z")
        self.assertIn("2096-10-02T07:06:40Z", run("pdfinfo", "-meta", made[0].cards[0]))


def times_of(source):
    """Start and booked minutes as the source has them, in its order; the start naive where
    it names no zone, the minutes nothing where none are booked."""
    for line in source.read_text("utf-8-sig").splitlines():
        if found := WHEN.match(line):
            day, clock, half, count, unit, zone = found.groups()
            booked = int(count) * (60 if unit == "h" else 1) if count else None
            form = "%Y-%m-%d %I:%M %p" if half else "%Y-%m-%d %H:%M"
            start = datetime.strptime(f"{day} {clock}{half or ''}", form)
            if zone:
                start = start.replace(tzinfo=ZoneInfo(zone)).astimezone(timezone.utc)
            yield start, booked


def comparable(time):
    return time.astimezone(timezone.utc) if time.tzinfo else time


def icalendar_events(feed):
    for event in icalendar.Calendar.from_ical(feed).walk("VEVENT"):
        yield str(event["SUMMARY"]), event["DTSTART"].dt, event["DTEND"].dt


def vobject_events(feed):
    for event in vobject.readOne(feed.decode("utf-8")).vevent_list:
        yield event.summary.value, event.dtstart.value, event.dtend.value


def plan_feeds(plans):
    """A feed for each plan or, where it has groups, for each of them."""
    for plan in plans:
        groups = {day["group"] for week in plan["weeks"] for day in week["days"]} - {""}
        for group in groups or {""}:
            yield f"{plan['name']} {group}".strip().lower().replace(" ", "-") + ".ics"


class Feeds(Readers):
    def test_every_source_with_a_date_and_every_plan_has_a_feed(self):
        dated = [f"{source.stem}.ics" for source in self.built.sources
                 if any("date" in session for session in self.built.explained(source))]
        dated += [feed for source in self.built.sources
                  for feed in plan_feeds(self.built.plans(source))]
        dated.sort()
        self.assertEqual([feed.name for feed in self.built.feeds], dated)
        self.assertGreater(len(dated), 5)

    def test_both_readers_see_every_session_at_its_time_and_as_long_as_people_keep_free(self):
        for source in self.built.sources:
            sessions = [session for session in self.built.explained(source) if "date" in session]
            if not sessions:
                continue
            times = list(times_of(source))
            self.assertEqual(len(times), len(sessions), source.name)
            wanted = []
            for session, (start, booked) in zip(sessions, times):
                head = f"Session {session['number']}: " if session["number"] else ""
                wanted.append((head + session["title"], start,
                               start + timedelta(minutes=booked or session["minutes"])))
            feed = (self.built.folder / "out/feeds" / f"{source.stem}.ics").read_bytes()
            for reader in (icalendar_events, vobject_events):
                with self.subTest(source=source.name, reader=reader.__name__):
                    found = [(summary, comparable(start), comparable(end))
                             for summary, start, end in reader(feed)]
                    self.assertEqual(found, wanted)

    def test_every_feed_stands_the_strict_checker(self):
        for feed in self.built.feeds:
            self.assertEqual(strict_feed.check(feed.read_bytes()), [], feed.name)


if __name__ == "__main__":
    Readers.program = str(pathlib.Path(sys.argv.pop(1)).resolve())
    while len(sys.argv) > 1 and pathlib.Path(sys.argv[1]).is_dir():
        Readers.sources += sorted(pathlib.Path(sys.argv.pop(1)).glob("*.stave"))
    unittest.main()
