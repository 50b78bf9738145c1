#!/usr/bin/env python3
"""Times a season: 52 weeks for 200 athletes, a card of each session for each of them.

usage: season.py STAVE [ATHLETES] [WEEKS]

Builds it fresh, then again unchanged, in a folder of its own, with wall-clock seconds and the
greatest memory of each run. The people and their numbers are made up.
"""

import os
import pathlib
import sys
import tempfile
import time

KIT = ("kit Boathouse: barbell 20 kg, rack, bench, 2 pairs of plates 25 20 15 10 5 2.5 1.25 kg, "
       "2 kettlebells 12 16 24 kg, rower\n\n")

SESSION = """session 1: Lee shore
for: Crew
warm-up:
  easy skip: 2 min
sets Strength: rest 2 min
  back squat: 3 x 5 @ 70 %
  deadlift: 6-5-4 @ 72.5 %
    cue: push the floor away
  bench press: 3 x 8 @ 65 %
circuit Deck: 3 rounds, rest 90 s
  swing: 15 @ 16 kg
  row: 250 m @ 2000 m pace plus 8 s
  push-up: 10
"""


def athlete(number):
    lines = [f"athlete Hand {number}:", f"  weight: {55 + number % 40} kg", "  kit: Boathouse"]
    for lift, least in (("back squat", 60), ("deadlift", 80), ("bench press", 40)):
        lines.append(f"  test {lift}: {1 + number % 8} @ {least + number * 7 % 80} kg on 2026-12-20")
    lines.append(f"  test row: 2000 m in 7:{number % 60:02} on 2026-12-20")
    return "\n".join(lines) + "\n\n"


def season(athletes, weeks):
    people = "".join(athlete(number) for number in range(athletes))
    crew = "squad Crew: " + ", ".join(f"Hand {number}" for number in range(athletes)) + "\n\n"
    plan = (f"\nplan Year of tides:\n  from: 2027-01-04\n  weeks: {weeks}\n"
            "  zone: Europe/Lisbon\n  Tuesday: 18:30, Lee shore\n")
    return KIT + people + crew + SESSION + plan


def timed(words, log):
    """The seconds and megabytes of a run that must succeed."""
    start = time.monotonic()
    child = os.posix_spawn(words[0], words, os.environ,
                           file_actions=[(os.POSIX_SPAWN_OPEN, stream, log,
                                          os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
                                         for stream in (1, 2)])
    _, status, use = os.wait4(child, 0)
    seconds = time.monotonic() - start
    if status != 0:
        sys.exit(pathlib.Path(log).read_text()[-2000:])
    return seconds, use.ru_maxrss / 1024


def main():
    stave = str(pathlib.Path(sys.argv[1]).resolve())
    athletes, weeks = (int(word) for word in (sys.argv[2:4] + ["200", "52"])[:2])
    with tempfile.TemporaryDirectory() as folder:
        source = pathlib.Path(folder) / "season.stave"
        source.write_text(season(athletes, weeks))
        for name in ("fresh", "unchanged"):
            seconds, megabytes = timed([stave, "build", str(source), "--out", f"{folder}/out"],
                                       f"{folder}/log")
            print(f"{name:10} {seconds:6.2f} s {megabytes:6.0f} MB")


if __name__ == "__main__":
    main()
