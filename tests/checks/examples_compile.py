#!/usr/bin/env python3
"""Every file of examples/ builds without a warning, to cards of one page and a feed.

    examples_compile.py STAVE    STAVE is the built command

Pages are counted by poppler's pdfinfo, events and offsets are read by icalendar.
"""

import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path

from icalendar import Calendar

EXAMPLES = Path(__file__).resolve().parent.parent.parent / "examples"


def count(pattern, text):
    return len(re.findall(pattern, text, re.MULTILINE))


def pages_and_size(card):
    said = subprocess.run(["pdfinfo", card], capture_output=True, text=True, check=True).stdout
    pages = re.search(r"^Pages:\s+(\d+)", said, re.MULTILINE)
    size = re.search(r"^Page size:.*\((\w+)\)", said, re.MULTILINE)
    return pages and pages.group(1), size and size.group(1)


def events(feed):
    return Calendar.from_ical(feed.read_bytes()).walk("VEVENT")


def build(stave, files, out):
    """All files in one run, as examples/run does: no two may write one card."""
    result = subprocess.run(
        [stave, "build", *files, "--out", out, "--diagnostics", "line"],
        capture_output=True,
        text=True,
    )
    problems = result.stderr.splitlines()
    if result.returncode != 0:
        problems.append(f"stave build left with {result.returncode}")
    return problems


def planned_days(stave, file):
    """What the file's plans hold, session by session and day by day."""
    text = subprocess.run([stave, "plan", "--json", file], capture_output=True, text=True).stdout
    return [day for plan in json.loads(text) for week in plan["weeks"] for day in week["days"]]


def card_count(stave, file):
    """A card for each session, or for each day that a plan holds it."""
    days = planned_days(stave, file)
    planned = {day["session"] for day in days}
    held = sum(day["standing"] in ("held", "moved") for day in days)
    return count(r"^session\b", file.read_text("utf-8")) - len(planned) + held


def check_cards(stave, files, out):
    cards = sorted(out.glob("cards/*.pdf"))
    sessions = sum(card_count(stave, file) for file in files)
    problems = [f"{sessions} sessions, {len(cards)} cards"] if sessions != len(cards) else []
    for card in cards:
        if pages_and_size(card) != ("1", "A4"):
            problems.append(f"{card.name}: {pages_and_size(card)}, not one A4 page")
    return problems


def check_feeds(files, out):
    problems = []
    for file in files:
        dates = count(r"^when:", file.read_text("utf-8"))
        feed = out / "feeds" / f"{file.stem}.ics"
        found = len(events(feed)) if feed.exists() else 0
        if found != dates:
            problems.append(f"{file.name}: {dates} dates, {found} events")
    return problems


def check_season(out):
    """The season crosses a change of the clocks and stays at one time of day."""
    starts = [event.decoded("DTSTART") for event in events(out / "feeds/skerry-point-season.ics")]
    offsets = {start.utcoffset() for start in starts}
    times = {start.time() for start in starts}
    if len(starts) < 4 or len(offsets) != 2 or len(times) != 1:
        return [f"the season starts at {', '.join(map(str, starts))}"]
    return []


def main():
    stave = str(Path(sys.argv[1]).resolve())
    files = sorted(EXAMPLES.glob("*.stave"))
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder)
        problems = build(stave, files, out)
        if not problems:
            problems = check_cards(stave, files, out) + check_feeds(files, out) + check_season(out)
    print("\n".join([*problems, f"{len(files)} files, {len(problems)} problems"]))
    return 1 if problems or len(files) < 7 else 0


if __name__ == "__main__":
    sys.exit(main())
