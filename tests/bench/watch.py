#!/usr/bin/env python3
"""Times `stave watch`: from a save to the line that tells of the new build.

usage: watch.py STAVE FILE [SAVES]

Watches a copy of the file in a folder of its own. First one load changes with each save, then
every card, since each session is called otherwise. Prints the least and the middle of the
milliseconds, and those of the processors.
"""

import pathlib
import re
import statistics
import subprocess
import sys
import tempfile
import time


def one_line(text, number):
    """The first load in kilograms of a block is another one."""
    return re.sub(r"@ \d+(\.\d+)? (kg|%)", lambda found: f"@ {40 + number % 30} {found[2]}", text,
                  count=1)


def every_card(text, number):
    """Each session has another title, and so another card."""
    return re.sub(r"(?m)^(session [^\n]*?)( \d+x)?$", rf"\1 {number}x", text)


def processor_seconds(process):
    fields = pathlib.Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / 100


def main():
    stave, source = (str(pathlib.Path(word).resolve()) for word in sys.argv[1:3])
    saves = int(sys.argv[3]) if len(sys.argv) > 3 else 15
    text = pathlib.Path(source).read_text()
    with tempfile.TemporaryDirectory() as folder:
        copy = pathlib.Path(folder) / "watched.stave"
        copy.write_text(text)
        with subprocess.Popen([stave, "watch", str(copy), "--out", f"{folder}/out"], text=True,
                              stdout=subprocess.PIPE, stderr=subprocess.DEVNULL) as watch:
            print("first     ", watch.stdout.readline().strip())
            for change in (one_line, every_card):
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
