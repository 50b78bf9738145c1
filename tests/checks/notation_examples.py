#!/usr/bin/env python3
"""Every example of grammar/NOTATION.md does what it says, and no keyword is left out.

    notation_examples.py STAVE    STAVE is the built command

Blocks, by the words behind their fence:

    stave                 a whole file: neither error nor warning
    stave fragment        the same, put below `session: Example`
    stave error CODE      refused with that code alone; put below a session's
                          head where it holds none
    stave warning CODE    read, with that warning alone
    stave file NAME       a file that others of the page include
    stave refused         each line by itself, refused with the code that its
                          remark names; behind an arrow stands the line that mends it
    text                  right behind one of these two: what `stave check` prints of it
    ebnf                  the productions, which grammar/productions.py writes
"""

import re
import subprocess
import sys
import tempfile
from fractions import Fraction
from pathlib import Path

from markdown_blocks import blocks, code_spans

GRAMMAR = Path(__file__).resolve().parent.parent.parent / "grammar"
sys.path.insert(0, str(GRAMMAR))

import productions  # noqa: E402, found beside the grammar

COMPILER = GRAMMAR.parent / "compiler"
NOTATION = GRAMMAR / "NOTATION.md"
HEAD = "session: Example\n"
KINDS = {"stave", "text", "ebnf"}
REFUSED = re.compile(r"^(.*?)\s+# ([a-z-]+)(?: -> (.*))?$")

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
    "people in a block": "most_people",
    "amounts joined by `then`": "most_steps",
    "amounts in a bracket": "most_parts",
    "loads of a movement, set by set": "most_loads",
    "loads in a line": "most_terms",
    "directions of a repetition": "most_directions",
    "the bottom of a fraction": "largest_bottom",
}


class Checker:
    """Runs `stave check` on texts, all at once, and gathers what is wrong."""

    def __init__(self, stave, folder):
        self.stave = stave
        self.folder = Path(folder)
        self.problems = []
        self.waiting = []

    def expect(self, text, codes, what):
        """`text` gives the diagnostics `codes` and no others but notes; asked for by `run`."""
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
            match = re.match(r"([^:]+):\d+:\d+: (\w+): .* \[([a-z-]+)\]$", line)
            if not match:
                self.problems.append(f"not a diagnostic: {line}")
            elif match.group(2) != "note":
                said.setdefault(match.group(1), []).append((match.group(3), line))
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
            case ("stave", "error" | "warning", code):
                checker.expect(whole(block.text), [code], place)
            case ("stave", "refused"):
                expect_refused(checker, block)
            case ("stave", "file", name):
                (checker.folder / name).write_text(block.text, "utf-8")
            case ("text",):
                before = found[position - 1]
                if position == 0 or before.info[1:2] not in (("error",), ("warning",)):
                    checker.problems.append(f"{place}: stands behind no problem")
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
    """Every keyword stands in code, in a span or in an example, and by itself in a span."""
    examples = [block.text for block in blocks(markdown) if block.info[:1] == ("stave",)]
    spans = code_spans(markdown)
    all_spans = " ".join(spans)
    words, units = [], []
    for kind in sorted(macros()):
        for row in keywords(kind):
            if kind == "UNIT":
                units += row[2:4]
            elif kind == "UNIT_SPELLING":
                units.append(row[1])
            else:
                # An identity stands first where the word has one.
                words.append(row[1] if len(row) > 1 else row[0])
    problems = [f"{word}: never shown" for word in words if not has_word(spans + examples, word)]
    problems += [f"{word}: no unit of the table" for word in units if word not in spans]
    # Whoever types a word by itself must find it by itself.
    problems += [f"{word}: not a span" for word in words if word not in all_spans]
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


def check_rules(markdown, found):
    """The productions are those of the headers, and what they name is written or told."""
    text = "".join(block.text for block in found if block.info == ("ebnf",))
    problems = []
    if text != productions.productions():
        problems.append("the productions are not the headers' rules; run grammar/productions.py")
    written, used = set(), set()
    # A production begins at the line's start; what it goes on with is indented or all names.
    for left, right in re.findall(r"^([\w, \n]+?) +=((?:.|\n +)*)", text, re.MULTILINE):
        written |= set(re.findall(r"\w+", left))
        used |= set(re.findall(r"[a-z]\w+", re.sub(r'"[^"]*"', "", right)))
    told = set(code_spans(markdown))
    problems += [f"{name}: neither written nor told" for name in sorted(used - written - told)]
    return problems + [f"{name}: no rule" for name in sorted(spans_of_bodies(told) - written)]


def spans_of_bodies(spans):
    """The rules that the tables of lines say a body is read by."""
    return {span for span in spans if span.endswith("_body") or span == "movement_head"}


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
    problems += check_limits(markdown) + check_rules(markdown, found)
    print("\n".join([*problems, f"{texts} texts, {len(problems)} problems"]))
    return 1 if problems or not texts else 0


if __name__ == "__main__":
    sys.exit(main())
