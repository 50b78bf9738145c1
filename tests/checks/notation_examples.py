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
from pathlib import Path

from markdown_blocks import blocks
from notation_tables import check_tables

NOTATION = Path(__file__).resolve().parent.parent.parent / "grammar" / "NOTATION.md"
HEAD = "session: Example\n"
REFUSED = re.compile(r"^(.*?)\s+# ([a-z-]+)(?: -> (.*))?$")


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


def check_layout(stave, markdown):
    """Each row of the table of layouts: `stave format` writes the second for the first."""
    table = markdown[markdown.index("| instead of | this |") :]
    rows = re.findall(r"^\| `(.*)` \| `(.*)` \|$", table[: table.index("\n\n")], re.MULTILINE)
    problems = [] if rows else ["no row of the table of layouts"]
    for typed, wanted in rows:
        text = f"{HEAD}{typed}\nlunge: 5\n"
        command = [stave, "format", "-"]
        result = subprocess.run(command, input=text, capture_output=True, text=True)
        lines = [re.sub(r"(?<=:) +", " ", line.strip()) for line in result.stdout.splitlines()]
        if wanted not in lines:
            problems.append(f"{typed}: not laid out as {wanted}: {result.stdout}{result.stderr}")
    return problems


def check_conventions(stave, markdown):
    """The table of conventions is what `stave conventions` prints, row by row."""
    section = markdown[markdown.index("\n## 22. Conventions") :]
    rows = re.findall(r"^\| (\d+) \| (.*) \| (.*) \| (.*) \|$", section, re.MULTILINE)
    wanted = ""
    for number, question, choice, matters in rows:
        said = f"{question}\n    {choice}.\n    Why it matters: {matters}.\n".replace("`", "")
        wanted += f"{int(number):2}  {said}"
    printed = subprocess.run([stave, "conventions"], capture_output=True, text=True).stdout
    return [] if rows and printed == wanted else ["the table of conventions is not what is printed"]


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
    problems += check_layout(stave, markdown) + check_conventions(stave, markdown)
    problems += check_tables(markdown)
    print("\n".join([*problems, f"{texts} texts, {len(problems)} problems"]))
    return 1 if problems or not texts else 0


if __name__ == "__main__":
    sys.exit(main())
