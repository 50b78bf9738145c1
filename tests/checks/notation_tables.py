"""What NOTATION.md must name: keywords, units, limits, warnings, productions.

Each check takes the page and gives what is wrong with it, in lines.
"""

import re
import sys
from fractions import Fraction
from pathlib import Path

from markdown_blocks import blocks, code_spans

GRAMMAR = Path(__file__).resolve().parent.parent.parent / "grammar"
COMPILER = GRAMMAR.parent / "compiler"
sys.path.insert(0, str(GRAMMAR))

import productions  # noqa: E402, found beside the grammar

# Limits that are told, and the constant that sets each.
LIMITS = {
    "bytes in a line": "longest_line",
    "signs in an address": "longest_link",
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
    "files that are taken in": "most_includes",
    "files that take in one another": "deepest_include",
    "routines that use one another": "deepest_use",
    "sessions based on one another": "deepest_base",
    "lines that routines or based sessions bring": "most_added_lines",
    "people in a block": "most_people",
    "amounts joined by `then`": "most_steps",
    "amounts in a bracket": "most_parts",
    "loads of a movement, set by set": "most_loads",
    "loads in a line": "most_terms",
    "directions of a repetition": "most_directions",
}


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


def check_warnings(markdown):
    """The table of what a colleague would ask has every warning and note."""
    catalogue = (COMPILER / "diagnostics" / "catalogue.def").read_text("utf-8")
    rows = " ".join(re.findall(r"^\| `.*$", markdown, re.MULTILINE))
    names = re.findall(r"\"([\w-]+)\",\s*(?:warning|note),", catalogue)
    return [f"{name}: in no table" for name in names if f"`{name}`" not in rows]


def check_rules(markdown):
    """The productions are those of the headers, and what they name is written or told."""
    text = "".join(block.text for block in blocks(markdown) if block.info == ("ebnf",))
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


def check_tables(markdown):
    problems = check_words(markdown) + check_units(markdown) + check_limits(markdown)
    return problems + check_warnings(markdown) + check_rules(markdown)
