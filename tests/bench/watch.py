#!/usr/bin/env python3
"""Times `stave watch`: from a save to the line that tells of the new build.

usage: watch.py STAVE FILE [SAVES]
       watch.py STAVE season [ATHLETES] [SAVES]

Watches a copy of the file in a folder of its own. First one load changes with each save, then
every card, since each session is called otherwise. Or watches a season of twelve weeks and twelve
sessions, a card of each for each athlete: a remark, a cue of one session, a test of one athlete
and a day that is cancelled change. Prints the least and the middle of the milliseconds, and those
of the processors.
"""

import pathlib
import re
import statistics
import subprocess
import sys
import tempfile
import time

import season

WEEKS = 12
TESTED = "on 2027-01-03"


def one_line(text, number):
    """The first load in kilograms of a block is another one."""
    return re.sub(r"@ \d+(\.\d+)? (kg|%)", lambda found: f"@ {40 + number % 30} {found[2]}", text,
                  count=1)


def every_card(text, number):
    """Each session has another title, and so another card."""
    return re.sub(r"(?m)^(session [^\n]*?)( \d+x)?$", rf"\1 {number}x", text)


def a_remark(text, number):
    """Nothing that is built changes."""
    return f"# {number}\n{text}"


def a_cue(text, number):
    """One session has another cue."""
    return text.replace("push the floor away", f"push the floor away, {number} s down", 1)


def a_test(text, number):
    """One athlete has lifted more."""
    return text.replace(f"kg {TESTED}", f"kg {TESTED}\n  test deadlift: 2 @ {90 + number} kg on "
                        "2027-01-04", 1)


def a_day(text, number):
    """A session falls out, for another reason with each save."""
    return f"{text}  cancelled: 2027-02-02, gale {number}\n"


def long_season(athletes):
    text = season.season(athletes, WEEKS)
    sessions = "\n".join(season.SESSION.replace("session 1: Lee shore", f"session {number}: Lee "
                                                f"shore {'ABCDEFGHIJKL'[number - 1]}")
                         for number in range(1, WEEKS + 1))
    # Tests that are old by the last week would be told of.
    text = text.replace("on 2026-12-20", TESTED)
    turns = " then ".join(f"session {number}" for number in range(1, WEEKS + 1))
    return text.replace(season.SESSION, sessions).replace("18:30, Lee shore", f"18:30, {turns}")


def processor_seconds(process):
    fields = pathlib.Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / 100


def main():
    stave, source = str(pathlib.Path(sys.argv[1]).resolve()), sys.argv[2]
    numbers = [int(word) for word in sys.argv[3:]]
    if source == "season":
        text = long_season(numbers.pop(0) if numbers else 91)
        changes = (a_remark, a_cue, a_test, a_day)
    else:
        text = pathlib.Path(source).read_text()
        changes = (one_line, every_card)
    saves = numbers.pop(0) if numbers else 15
    with tempfile.TemporaryDirectory() as folder:
        copy = pathlib.Path(folder) / "watched.stave"
        copy.write_text(text)
        with subprocess.Popen([stave, "watch", str(copy), "--out", f"{folder}/out"], text=True,
                              stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as watch:
            print("first     ", watch.stdout.readline().strip())
            for change in changes:
                times, used = [], processor_seconds(watch.pid)
                for number in range(saves):
                    changed = change(text, number)
                    start = time.monotonic()
                    copy.write_text(changed)
                    told = watch.stdout.readline().strip().partition(": ")[2]
                    times.append(1000 * (time.monotonic() - start))
                used = 1000 * (processor_seconds(watch.pid) - used) / saves
                print(f"{change.__name__:10} least {min(times):.0f} ms, middle "
                      f"{statistics.median(times):.0f} ms, processors {used:.0f} ms; {told}")
            watch.terminate()


if __name__ == "__main__":
    main()
