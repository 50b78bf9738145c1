#!/usr/bin/env python3
"""Every example of grammar/NOTATION.md does what it says, and no keyword is left out.

    notation_examples.py STAVE    STAVE is the built command

Blocks, by the words behind their fence:

    stave                 a whole file: neither error nor warning
    stave fragment        the same, put below `session: Example`
    stave error CODE      refused with that code alone; put below a session's
                          head where it holds none
    stave refused         each line by itself, refused with the code that its
                          remark names; behind an arrow stands the line that mends it
    text                  right behind an error: what `stave check` prints of it
    ebnf                  the grammar, whose rules carry the names of grammar/*.hpp
"""

import re
import subprocess
import sys
import tempfile
from fractions import Fraction
from pathlib import Path

from markdown_blocks import blocks, code_spans

GRAMMAR = Path(__file__).resolve().parent.parent.parent / "grammar"
COMPILER = GRAMMAR.parent / "compiler"
NOTATION = GRAMMAR / "NOTATION.md"
HEADERS = ["lexical.hpp", "quantity.hpp", "session.hpp"]
HEAD = "session: Example\n"
KINDS = {"stave", "text", "ebnf"}
REFUSED = re.compile(r"^(.*?)\s+# ([a-z-]+)(?: -> (.*))?$")
LATER = "## 16."

# Limits that are told, and the constant that sets each.
LIMITS = {
    "bytes in a line": "longest_line",
    "lines in a file": "most_lines",
    "sessions in a file": "most_sessions",
    "blocks in a session": "most_blocks",
    "movements in a block": "most_items",
    "rounds of a block": "most_rounds",
    "sets of a movement": "most_sets",
    "sets in a session": "most_session_sets",
    "sets in a file": "most_file_sets",
    "joined movements in a line": "most_joined",
    "substitutes of a movement": "most_substitutes",
    "values in a list": "most_values",
    "a number": "largest_number",
    "digits behind the point": "most_decimals",
    "a count": "largest_count",
    "a load, for each implement": "heaviest_kg",
    "implements held": "most_implements",
    "an angle": "half_turn",
}


class Checker:
    """Runs `stave check` on texts, all at once, and gathers what is wrong."""

    def __init__(self, stave, folder):
        self.stave = stave
        self.folder = Path(folder)
        self.problems = []
        self.waiting = []

    def expect(self, text, codes, what):
        """`text` gives the diagnostics `codes` and no others; asked for by `run`."""
        path = self.folder / f"{len(self.waiting)}.stave"
        path.write_text(text, "utf-8")
        self.waiting.append((path, set(codes), what))

    def run(self):
        names = [path.name for path, _, _ in self.waiting]
        result = subprocess.run(
            [self.stave, "check", "--diagnostics", "line", *names],
            cwd=self.folder,
            capture_output=True,
            text=True,
        )
        if result.returncode not in (0, 1):
            self.problems.append(f"stave check left with {result.returncode}: {result.stderr}")
        said = {}
        for line in result.stderr.splitlines():
            match = re.match(r"([^:]+):\d+:\d+: .* \[([a-z-]+)\]$", line)
            if not match:
                self.problems.append(f"not a diagnostic: {line}")
                continue
            said.setdefault(match.group(1), []).append((match.group(2), line))
        for path, codes, what in self.waiting:
            found = said.get(path.name, [])
            if {code for code, _ in found} != codes:
                lines = "".join(f"\n    {line}" for _, line in found) or " nothing"
                wanted = ", ".join(sorted(codes)) or "nothing"
                self.problems.append(f"{what}: should say {wanted}, says{lines}")


def whole(text):
    opens = re.search(r"^\s*(?:session|movement)\b", text, re.MULTILINE)
    return text if opens else HEAD + text


def expect_refused(checker, block):
    """Each line by itself, and each mend."""
    for offset, line in enumerate(block.text.splitlines(), start=1):
        place = f"line {block.line + offset}"
        match = REFUSED.match(line)
        if not match:
            checker.problems.append(f"{place}: names no code: {line}")
            continue
        body, code, mend = match.groups()
        checker.expect(f"{HEAD}{body}\n", [code], f"{place}: {body}")
        if mend:
            checker.expect(f"{HEAD}{mend}\n", [], f"{place}: the mend {mend}")


def check_output(checker, block, printed):
    path = checker.folder / "session.stave"
    path.write_text(whole(block.text), "utf-8")
    result = subprocess.run(
        [checker.stave, "check", path.name],
        cwd=checker.folder,
        capture_output=True,
        text=True,
    )
    if result.stderr != printed.text:
        checker.problems.append(f"line {printed.line}: Stave prints\n{result.stderr}")


def check_examples(checker, found):
    for position, block in enumerate(found):
        place = f"line {block.line}"
        match block.info:
            case ("stave",):
                checker.expect(block.text, [], place)
            case ("stave", "fragment"):
                checker.expect(HEAD + block.text, [], place)
            case ("stave", "error", code):
                checker.expect(whole(block.text), [code], place)
            case ("stave", "refused"):
                expect_refused(checker, block)
            case ("text",):
                before = found[position - 1]
                if position == 0 or before.info[:2] != ("stave", "error"):
                    checker.problems.append(f"{place}: stands behind no error")
                else:
                    check_output(checker, before, block)
            case ("ebnf",):
                pass
            case _:
                checker.problems.append(f"{place}: no kind of block: {' '.join(block.info)}")
    checker.run()


def keywords(name):
    """The arguments of every STAVE_<name>(...) line, quotes taken off."""
    text = (GRAMMAR / "keywords.def").read_text("utf-8")
    lines = re.findall(rf"^STAVE_{name}\((.*)\)$", text, re.MULTILINE)
    return [[part.strip('"') for part in re.findall(r'"[^"]*"|[^,\s]+', line)] for line in lines]


def macros():
    text = (GRAMMAR / "keywords.def").read_text("utf-8")
    return set(re.findall(r"^STAVE_(\w+)\(", text, re.MULTILINE))


def has_word(texts, word):
    pattern = re.compile(rf"(?<!\w){re.escape(word)}(?!\w)")
    return any(pattern.search(text) for text in texts)


def check_words(markdown):
    """Every keyword stands in code: in a span or in an example; words for later in their section."""
    examples = [block.text for block in blocks(markdown) if block.info[:1] == ("stave",)]
    spans = code_spans(markdown)
    later = markdown[markdown.index(LATER) :]
    later_spans = code_spans(later[: later.index("\n## ", 1)])

    now, then, units = [], [], []
    for kind in sorted(macros()):
        for row in keywords(kind):
            if kind in ("FIELD", "OPENER"):
                (then if row[2] == "later" else now).append(row[1])
            elif kind == "UNIT":
                units += row[2:4]
            elif kind == "UNIT_SPELLING":
                units.append(row[1])
            elif kind in ("OPENER_SPELLING", "SIDE_WORD", "PATTERN"):
                now.append(row[1])
            elif kind.startswith("LATER"):
                then.append(row[0])
            else:
                now.append(row[0])
    problems = [f"{word}: never shown" for word in now if not has_word(spans + examples, word)]
    problems += [f"{word}: no unit of the table" for word in units if word not in spans]
    problems += [f"{word}: not listed for later" for word in then if not has_word(later_spans, word)]
    # Whoever types a word by itself must find it by itself.
    problems += [f"{word}: not a span" for word in now if word not in " ".join(spans)]
    return problems


def check_units(markdown):
    """The table has each unit once, with all its spellings and its exact factor."""
    bases = {"time": "s", "length": "m", "mass": "kg", "angle": "deg", "energy": "J", "power": "W"}
    wanted = {}
    for identity, dimension, one, many, numerator, denominator in keywords("UNIT"):
        others = {word for unit, word in keywords("UNIT_SPELLING") if unit == identity}
        factor = (Fraction(int(numerator), int(denominator)), bases.get(dimension, ""))
        wanted[frozenset({one, many})] = (others, factor)
    table = markdown[markdown.index("| unit | also written |") :]
    found = {}
    for row in table[: table.index("\n\n")].splitlines()[2:]:
        names, others, factor = (cell.strip() for cell in row.strip("|").split("|"))
        value, _, base = factor.partition(" ")
        spelled = set(re.findall("`([^`]+)`", others))
        found[frozenset(re.findall("`([^`]+)`", names))] = (spelled, (Fraction(value), base))
    return [
        f"{' '.join(sorted(names))}: the table says {found.get(names)}, keywords.def {wanted.get(names)}"
        for names in wanted.keys() | found.keys()
        if wanted.get(names) != found.get(names)
    ]


def check_limits(markdown):
    sources = [path for path in sorted(COMPILER.rglob("*")) if path.suffix in (".hpp", ".cpp")]
    text = "\n".join(path.read_text("utf-8") for path in sources)
    problems = []
    for label, constant in LIMITS.items():
        values = set(re.findall(rf"\bconstexpr [\w:]+ {constant} = ([\d']+)", text))
        value = "".join(values).replace("'", "")
        if len(values) != 1:
            problems.append(f"{constant}: set {len(values)} times in the compiler")
        elif not re.search(rf"^\| {re.escape(label)} \| {value}(?!\d)", markdown, re.MULTILINE):
            problems.append(f"{label}: the limit is {value}")
    return problems


def check_rules(found):
    """The productions carry the headers' names, and every body has one."""
    headers = "".join((GRAMMAR / name).read_text("utf-8") for name in HEADERS)
    rules = set(re.findall(r"^struct (\w+)", headers, re.MULTILINE))
    text = "".join(block.text for block in found if block.info == ("ebnf",))
    written = re.findall(r"^(\w+) +=", text, re.MULTILINE)
    problems = [f"{name}: no rule of the grammar" for name in written if name not in rules]
    problems += [f"{name}: written twice" for name in set(written) if written.count(name) > 1]
    bodies = {rule for rule in rules if rule.endswith("_body")} | {"movement_head"}
    problems += [f"{name}: not written" for name in sorted(bodies - set(written))]
    # What a production names, beyond prose and literals, is a production or a rule.
    used = set(re.findall(r"[a-z]+(?:_[a-z]+)+", re.sub(r'"[^"]*"', "", text)))
    problems += [f"{name}: used, never written" for name in sorted(used - set(written))]
    return problems


def planted(stave, folder):
    """Blocks that must be found wanting, so that a slip in this test shows."""
    wrong = """
```stave
session: Example
```
```stave fragment
push-up: 8-10
```
```stave error amount-zero
push-up: 8
```
```stave refused
push-up: 8  # amount-zero
push-up: 0  # amount-zero -> push-up: 0
```
```unknown
```
"""
    checker = Checker(stave, folder)
    check_examples(checker, blocks(wrong))
    return [] if len(checker.problems) == 6 else [f"planted: {checker.problems}"]


def main():
    stave = str(Path(sys.argv[1]).resolve())
    markdown = NOTATION.read_text("utf-8")
    found = blocks(markdown)
    with tempfile.TemporaryDirectory() as folder:
        problems = planted(stave, folder)
    with tempfile.TemporaryDirectory() as folder:
        checker = Checker(stave, folder)
        check_examples(checker, found)
        problems += checker.problems
        texts = len(checker.waiting)
    problems += check_words(markdown) + check_units(markdown)
    problems += check_limits(markdown) + check_rules(found)
    print("\n".join([*problems, f"{texts} texts, {len(problems)} problems"]))
    return 1 if problems or not texts else 0


if __name__ == "__main__":
    sys.exit(main())
