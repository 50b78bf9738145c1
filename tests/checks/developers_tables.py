#!/usr/bin/env python3
"""The tables of DEVELOPERS.md and README.md say what the project says.

Folders, who may include whom, packages, presets, forms, commands and exit codes
are each held against the one file that decides them; what a table leaves out is
found as well as what it makes up.
"""

import json
import re
import sys

import include_rules
from tree import ROOT, files

# What the include table calls by one word: a list of include_rules.py.
GROUPS = {"words": "WORDS", "core": "CORE", "passes": "PASSES", "forms": "FORMS", "tops": "TOPS"}


def read(path):
    return (ROOT / path).read_text("utf-8")


def table(markdown, first_heading):
    """The rows of the table whose first column has this heading, as lists of cells."""
    head = rf"^\| {re.escape(first_heading)} \|.*\n\|[-|]+\n"
    found = re.search(rf"{head}((?:\|.*\n)+)", markdown, re.MULTILINE)
    rows = found.group(1).splitlines() if found else []
    return [[cell.strip() for cell in row.strip("|").split(" | ")] for row in rows]


def spans(text):
    return re.findall(r"`([^`]+)`", text)


def compare(what, told, true):
    problems = [f"{what}: {name} is not there" for name in sorted(set(told) - set(true))]
    problems += [f"{what}: {name} is left out" for name in sorted(set(true) - set(told))]
    return problems + [f"{what}: a name stands twice"] * (len(told) != len(set(told)))


def folder_problems(markdown):
    """Each folder at the top, but compiler/ and backends/ target by target."""
    true = set()
    for path in files():
        if len(path.parts) > 1:
            top, *below = path.parts[:-1]
            parts = [top, below[0]] if top in ("compiler", "backends") and below else [top]
            true.add("/".join(parts) + "/")
    true -= {"compiler/", "backends/"}
    true |= {f"{path.parent.as_posix()}/" for path in files()
             if path.match("backends/*/*/CMakeLists.txt")}
    return compare("folders", [spans(row[0])[0] for row in table(markdown, "folder")], true)


def include_problems(markdown):
    problems, told = [], []
    for folder, allowed in table(markdown, "folder or file"):
        folder = spans(folder)[0]
        told.append(folder)
        named = spans(allowed)
        for word in re.findall(r"[a-z]+", re.sub(r"`[^`]+`", "", allowed)):
            named += getattr(include_rules, GROUPS[word]) if word in GROUPS else []
        rule = include_rules.RULES.get(folder, [])
        problems += compare(f"includes of {folder}", named, rule)
    return problems + compare("includes", told, include_rules.RULES)


def package_problems(markdown):
    told = [name for row in table(markdown, "package") for name in spans(row[0])]
    listed = re.findall(r"^\w+ (\S+)(?: \S+)?$", read(".cmake/packages.txt"), re.MULTILINE)
    return compare("packages", told, listed)


def preset_problems(markdown):
    presets = json.loads(read("CMakePresets.json"))["configurePresets"]
    told = [spans(row[0])[0] for row in table(markdown, "preset")]
    return compare("presets", told, [one["name"] for one in presets if not one.get("hidden")])


def enumerators(name):
    options = read("compiler/driver/options.hpp")
    return re.findall(r"\w+", re.search(rf"enum class {name} {{([^}}]*)}}", options).group(1))


def form_problems(markdown):
    rows = table(markdown, "form")
    told = [word for row in rows for word in re.findall(r"stave dump (\w+)", row[3])]
    problems = compare("forms", told, enumerators("Form"))
    for form, header, maker, _ in rows:
        for name in spans(form) + spans(maker):
            if not re.search(rf"\b{name}\b", read(spans(header)[0]) + made_by(maker)):
                problems.append(f"forms: {name} is not declared")
    return problems


def made_by(maker):
    """The headers that declare a pass."""
    name = spans(maker)[0]
    headers = [read(path) for path in files() if path.suffix == ".hpp" and path.parts[0] != "tests"]
    return "".join(text for text in headers if re.search(rf"\b{name}\(", text))


def exit_code_problems(what, markdown):
    constants = re.findall(r"exit_(\w+) = (\d)", read("compiler/driver/run.hpp"))
    rows = table(markdown, "exit code")
    told = [row[0] for row in rows]
    problems = compare(f"exit codes of {what}", told, [code for _, code in constants])
    for row in rows:
        for constant in spans(row[1]):
            if (constant.removeprefix("exit_"), row[0]) not in constants:
                problems.append(f"exit codes of {what}: {constant} is not {row[0]}")
    return problems


def command_problems(markdown):
    told = [re.match(r"`stave (\w+)", row[0]).group(1) for row in table(markdown, "command")]
    return compare("commands", told, enumerators("Command"))


def problems_of(developers, readme):
    return [
        *folder_problems(developers),
        *include_problems(developers),
        *package_problems(developers),
        *preset_problems(developers),
        *form_problems(developers),
        *exit_code_problems("DEVELOPERS.md", developers),
        *exit_code_problems("README.md", readme),
        *command_problems(readme),
    ]


# A change of DEVELOPERS.md that must be found, so that a slip in this test shows.
PLANTED = [
    ("| `compiler/civil/` |", "| `compiler/civics/` |"),
    ("| `compiler/zones` | `compiler/civil` |", "| `compiler/zones` | core |"),
    ("`libfmt-dev`", "`libfmt`"),
    ("| `asan` |", "| `msan` |"),
    ("`stave dump page FILE`", "`stave dump card FILE`"),
    ("| `expand` |", "| `unroll` |"),
    ("| 2 | `exit_usage` |", "| 3 | `exit_usage` |"),
]


def main():
    developers, readme = read("DEVELOPERS.md"), read("README.md")
    problems = problems_of(developers, readme)
    for right, wrong in PLANTED:
        if not problems_of(developers.replace(right, wrong), readme):
            problems.append(f"planted, not found: {wrong}")
    print("\n".join([*problems, f"{len(problems)} problems"]))
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main())
