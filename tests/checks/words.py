#!/usr/bin/env python3
"""No marks of unfinished work, switched-off tests or one machine's paths; tidy line ends.

Each rule says which files it is for. Test sources and calendars keep the bytes
they are there to show.
"""

import re
import sys

from tree import ROOT, files

BINARY = {".png", ".pdf", ".ttf", ".pyc"}
# These name what they look for, or quote licences to the letter.
EXEMPT = {"tests/checks/words.py", "LICENSE"}

RULES = [
    ("a mark of unfinished work", "", r"\b(?:TODO|FIXME|XXX|HACK|TBD)\b"),
    ("a test switched off", "tests/", r"\bDISABLED_\w|\bGTEST_SKIP\b|\bskipTest\b|@unittest\.skip"),
    ("a failure hidden", "", r"\|\|\s*true\b"),
    ("one machine's path", "", r"(?<![\w.])/(?:work|home|root|Users)/"),
    ("a warning silenced without a reason", "", r"NOLINT(?!\w*(?:\([\w, *-]+\))?: \w)"),
]


def problems_of(path, text):
    lines = text.split("\n")
    for number, line in enumerate(lines, start=1):
        for what, start, pattern in RULES:
            if path.startswith(start) and re.search(pattern, line):
                yield f"{path}:{number}: {what}: {line.strip()}"
    if path.startswith("tests/files/") or path.endswith(".ics"):
        return
    for number, line in enumerate(lines, start=1):
        if line != line.rstrip(" \t\r"):
            yield f"{path}:{number}: blanks or a carriage return at the line's end"
    if text and not text.endswith("\n"):
        yield f"{path}: no line feed at the end"


# Lines that must be caught, so that a slip in a pattern shows.
PLANTED = [
    ("compiler/a.cpp", "// TODO: later\n"),
    ("tests/unit/a.cpp", "TEST(Thing, DISABLED_works) {}\n"),
    ("tests/run", "ctest || true\n"),
    ("tests/a.py", 'open("/home/me/file")\n'),
    ("compiler/a.cpp", "int x;  // NOLINT\n"),
    ("compiler/a.cpp", "int x; \n"),
    ("compiler/a.cpp", "int x;"),
]


def main():
    problems = [
        f"planted line not caught: {text!r}"
        for path, text in PLANTED
        if not list(problems_of(path, text))
    ]
    count = 0
    for relative in files():
        path = relative.as_posix()
        if relative.suffix in BINARY or path in EXEMPT:
            continue
        text = (ROOT / relative).read_bytes().decode("utf-8", "replace")
        problems += problems_of(path, text)
        count += 1
    print("\n".join([*problems, f"{count} files, {len(problems)} problems"]))
    return 1 if problems or not count else 0


if __name__ == "__main__":
    sys.exit(main())
