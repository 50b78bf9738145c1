#!/usr/bin/env python3
"""Writes ERRORS.md: what every diagnostic says, with an example and its mend.

    grammar/errors.py STAVE    writes it; STAVE is the built command

tests/checks/errors_page.py says whether the page is what this would write.
Names, severities and their order are those of compiler/diagnostics/catalogue.def. Examples
come from errors.txt and are tried with STAVE; a code that has none there shows the first
mended case of tests/files/errors, which other tests try.
"""

import re
import subprocess
import sys
import tempfile
import textwrap
from dataclasses import dataclass, field
from pathlib import Path

GRAMMAR = Path(__file__).resolve().parent
ROOT = GRAMMAR.parent
PAGE = GRAMMAR / "ERRORS.md"
CASES = ROOT / "tests" / "files" / "errors"
HEAD = "session: Example\n"
WIDTH = 95
# The group of what no line of a text can allow, since it is said of none.
OF_FILES = "Files, before their text and after it"

TOP = """# What Stave says, and how to mend it

Every problem that Stave can find has a name, which stands in brackets behind it and never
changes. Here is each of them, in the order of the sentences it is made of: what is wrong, why
it is told, and how to mend it. Below stand lines that give it, and the same lines mended; where
no session opens in them, they stand below `session: Example`.

An **error** stops the build. A **warning** or a **note** does not: it may be just what you
mean.

This page is written by `errors.py` beside it, from the same words that the program prints.

"""


@dataclass
class Entry:
    """One code of the catalogue; `sentences` still hold {0} for their arguments."""

    name: str
    severity: str
    group: str
    sentences: list


@dataclass
class Extra:
    """What errors.txt says of one code."""

    example: str = ""
    mended: str = ""
    more: list = field(default_factory=list)
    source: str = ""
    whole: bool = False
    arguments: list = field(default_factory=list)


def read_catalogue():
    text = (ROOT / "compiler" / "diagnostics" / "catalogue.def").read_text("utf-8")
    text = text[text.index("#endif") :]
    group, entries = "", []
    pattern = r"^// ([^\n]+)\.$|^STAVE_DIAGNOSTIC\(\w+, \"([\w-]+)\", (\w+),(.*?)\)$"
    for match in re.finditer(pattern, text, re.MULTILINE | re.DOTALL):
        if match.group(1):
            group = match.group(1)
            continue
        strings = re.findall(r'"((?:[^"\\]|\\.)*)"(\s*,|\s*$|)', match.group(4))
        sentences = [""]
        for string, comma in strings:
            sentences[-1] += string
            if comma.strip() == ",":
                sentences.append("")
        entries.append(Entry(match.group(2), match.group(3), group, sentences))
    return entries


def read_extras():
    extras, current, into = {}, None, "example"
    # Blank lines count inside an example alone.
    gap = ""
    for line in (GRAMMAR / "errors.txt").read_text("utf-8").splitlines():
        if line.startswith("== "):
            current = extras.setdefault(line[3:], Extra())
            into, gap = "example", ""
        elif current is None:
            continue
        elif not line.strip():
            gap = "\n"
        elif line == "->":
            into, gap = "mended", ""
        elif line.startswith("more: "):
            current.more.append(line[6:])
        elif line.startswith("source: "):
            current.source = line[8:]
        elif line == "whole:":
            current.whole = True
        elif line.startswith("arguments: "):
            current.arguments = line[11:].split(" | ")
        else:
            before = getattr(current, into)
            setattr(current, into, before + (gap if before else "") + line + "\n")
            gap = ""
    return extras


def read_printed(text):
    """Code, line and sentences of each problem that `stave check` has printed."""
    printed = []
    for block in text.split("\n\n"):
        first = re.match(r"\w+: (.*) \(([\w-]+)\)\n  .*?, line (\d+), column \d+\n", block)
        if not first:
            continue
        said = [re.search(rf"^  {label}: (.*)$", block, re.MULTILINE) for label in ("why", "mend")]
        sentences = [first.group(1), *(match.group(1) if match else "" for match in said)]
        printed.append((first.group(2), int(first.group(3)), sentences))
    return printed


def read_cases():
    """For each code the first golden case with a mend: line, mended line, sentences."""
    cases = {}
    for path in sorted(CASES.glob("*.stave")):
        lines = path.read_bytes().decode("utf-8", "replace").splitlines()
        golden = path.with_suffix(".txt")
        if not golden.exists():
            continue
        printed = read_printed(golden.read_text("utf-8"))
        sentences = {(code, line): said for code, line, said in printed}
        spoken_of = 0
        for number, line in enumerate(lines, start=1):
            mark = re.match(r"#\^ ([\w-]+)", line)
            if not mark and not line.startswith("#="):
                spoken_of = number
            mended = number < len(lines) and lines[number].startswith("#= ")
            said = mark and sentences.get((mark.group(1), spoken_of))
            if said and mended and mark.group(1) not in cases:
                cases[mark.group(1)] = (lines[spoken_of - 1].strip(), lines[number][3:], said)
    return cases


class Examples:
    """Runs `stave check` over the lines of errors.txt."""

    def __init__(self, stave):
        self.stave = stave
        self.problems = []

    def printed(self, text, whole):
        if not whole and not re.search(r"^\s*session\b", text, re.MULTILINE):
            text = HEAD + text
        with tempfile.TemporaryDirectory() as folder:
            (Path(folder) / "example.stave").write_text(text, "utf-8")
            command = [self.stave, "check", "example.stave"]
            result = subprocess.run(command, cwd=folder, capture_output=True, text=True)
        found = read_printed(result.stderr)
        notes = {code for code in re.findall(r"^note: .* \(([\w-]+)\)$", result.stderr, re.M)}
        return found, [code for code, _, _ in found if code not in notes]

    def sentences(self, code, extra):
        """What Stave says of the example; the mended lines must be free of problems."""
        found, _ = self.printed(extra.example, extra.whole)
        said = next((said for name, _, said in found if name == code), None)
        if said is None:
            told = ", ".join(name for name, _, _ in found) or "nothing"
            self.problems.append(f"{code}: its example gives {told}")
        _, left = self.printed(extra.mended, False)
        if left or not extra.mended:
            self.problems.append(f"{code}: its mended lines give {', '.join(left) or 'nothing'}")
        return said


def filled(sentence, arguments):
    return re.sub(r"\{(\d)\}", lambda m: (arguments + ["…"] * 10)[int(m.group(1))], sentence)


def example_lines(label, text):
    """One line in a list, several in a block."""
    lines = textwrap.dedent(text).rstrip("\n").split("\n")
    if len(lines) == 1:
        return f"- {label}: `{lines[0]}`\n"
    return f"- {label}:\n\n  ```text\n" + "".join(f"  {line}".rstrip() + "\n" for line in lines) + "  ```\n\n"


def section(entry, extra, case, examples):
    example, mended = extra.example, extra.mended
    said = None
    if example:
        said = examples.sentences(entry.name, extra)
    elif case:
        example, mended, said = case
    elif not extra.arguments:
        examples.problems.append(f"{entry.name}: no example, neither in errors.txt nor in a case")
    what, why, mend = said or [filled(text, extra.arguments) for text in entry.sentences]
    words = f"**{entry.severity.capitalize()}.** {what} {why} **Mend:** {mend}"
    text = f"### {entry.name}\n\n" + textwrap.fill(words, WIDTH, break_on_hyphens=False) + "\n\n"
    if example:
        shown = example_lines("written", example) + example_lines("mended", mended)
        text += shown.rstrip() + "\n\n"
    more = list(extra.more)
    if extra.source:
        more.append(f"It rests on: {extra.source}.")
    if entry.severity != "error" and entry.group != OF_FILES:
        more.append(f"To keep it quiet: `allow: {entry.name}, why`.")
    if more:
        text += textwrap.fill(" ".join(more), WIDTH, break_on_hyphens=False) + "\n\n"
    return text


def slug(heading):
    return re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-")


def write_page(stave):
    """The page, and what is wrong with its examples."""
    entries, extras, cases = read_catalogue(), read_extras(), read_cases()
    examples = Examples(stave)
    names = {entry.name for entry in entries}
    for name in extras.keys() - names:
        examples.problems.append(f"{name}: no code of the catalogue")
    groups = {}
    for entry in entries:
        groups.setdefault(entry.group, []).append(entry)
    page = TOP
    for group, members in groups.items():
        links = ", ".join(f"[{entry.name}](#{entry.name})" for entry in members)
        page += f"- [{group}](#{slug(group)}): {links}\n"
    for group, members in groups.items():
        page += f"\n## {group}\n\n"
        for entry in members:
            extra = extras.get(entry.name, Extra())
            page += section(entry, extra, cases.get(entry.name), examples)
        page = page.rstrip("\n") + "\n"
    return page, examples.problems


def main():
    page, problems = write_page(str(Path(sys.argv[1]).resolve()))
    PAGE.write_text(page, "utf-8")
    print("\n".join([*problems, f"{page.count(chr(10) + '### ')} codes, {len(problems)} problems"]))
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main())
