#!/usr/bin/env python3
"""Colours lines with the editors' grammars, and holds them to one another.

editors_samples.txt says by hand what each character is: below each line stands a letter for
each character (remark, field, opener, movement, number, unit, tempo, word), or a full stop
where it is plain. The TextMate grammar, run here with Python's own regular expressions, and
Vim itself, without a window, must both colour them so, and must agree on every line of the
repository's *.stave files. Every word of keywords.def stands in some line in a colour.
"""

import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / "editors"))

import generate  # noqa: E402, found beside the editors' files

SAMPLES = Path(__file__).resolve().with_name("editors_samples.txt")
TEXTMATE = ROOT / "editors" / "vscode" / "syntaxes" / "stave.tmLanguage.json"

WORDS = ["WORD", "FREE_WORD", "SIDE_WORD"]
LETTERS = {"remark": "r", "field": "f", "opener": "o", "movement": "m"}
LETTERS |= {"number": "n", "unit": "u", "tempo": "t", "word": "w"}
SCOPES = {
    "comment.line": "r",
    "keyword.other.field": "f",
    "entity.name.section": "o",
    "entity.name.function": "m",
    "constant.numeric": "n",
    "keyword.other.unit": "u",
    "constant.other.tempo": "t",
    "keyword.control": "w",
}


def scope_letter(scope):
    return next(letter for start, letter in SCOPES.items() if scope.startswith(start))


class TextMate:
    """What of TextMate's rules our grammar uses: heads with bodies that end with the line."""

    def __init__(self, grammar):
        self.repository = grammar["repository"]
        self.rules = grammar["patterns"]

    def rules_of(self, patterns):
        for rule in patterns:
            if "include" not in rule:
                yield rule
                continue
            included = self.repository[rule["include"][1:]]
            yield from self.rules_of(included["patterns"] if "patterns" in included else [included])

    def colours(self, line):
        letters = ["."] * len(line)
        position, patterns = 0, self.rules
        while True:
            found = []
            for rule in self.rules_of(patterns):
                match = re.compile(rule.get("begin") or rule["match"]).search(line, position)
                if match:
                    found.append((match, rule))
            if not found:
                return "".join(letters)
            match, rule = min(found, key=lambda pair: pair[0].start())
            captures = rule.get("captures") or rule.get("beginCaptures") or {"0": rule}
            for group, style in captures.items():
                start, end = match.span(int(group))
                letters[start:end] = scope_letter(style["name"]) * (end - start)
            patterns = rule.get("patterns", patterns)
            position = match.end() if match.end() > match.start() else match.end() + 1


VIM_SCRIPT = r"""
let &runtimepath = $STAVE_VIM .. ',' .. &runtimepath
filetype plugin on
syntax on
for path in readfile($STAVE_LIST)
  execute 'edit ++enc=utf-8 ++ff=unix' fnameescape(path)
  if &filetype !=# 'stave' || &commentstring !=# '# %s'
    cquit
  endif
  let dump = []
  for line in range(1, line('$'))
    let names = []
    let column = 1
    for character in split(getline(line), '\zs')
      call add(names, synIDattr(synID(line, column, 1), 'name'))
      let column += len(character)
    endfor
    call add(dump, join(names, ','))
  endfor
  call writefile(dump, $STAVE_DUMP, 'a')
endfor
qall!
"""


def vim_letter(group):
    kind = re.search(r"[A-Z][a-z]+$", group.removesuffix("Line"))
    return LETTERS.get(kind[0].lower(), ".") if kind else "."


def vim_colours(texts):
    """The colours Vim gives each line of each text."""
    with tempfile.TemporaryDirectory() as folder:
        paths = [Path(folder) / f"{i}.stave" for i in range(len(texts))]
        for path, text in zip(paths, texts):
            path.write_text(text, "utf-8", newline="")
        script, names, dump = (Path(folder) / name for name in ("dump.vim", "list", "dump"))
        script.write_text(VIM_SCRIPT, "utf-8")
        names.write_text("".join(f"{path}\n" for path in paths), "utf-8")
        command = ["vim", "-N", "-u", "NONE", "-i", "NONE", "-n", "-es"]
        command += ["--cmd", "set encoding=utf-8", "-S", str(script)]
        environment = {"PATH": "/usr/bin:/bin", "HOME": folder, "TERM": "dumb"}
        environment |= {"STAVE_VIM": str(ROOT / "editors" / "vim")}
        environment |= {"STAVE_LIST": str(names), "STAVE_DUMP": str(dump)}
        subprocess.run(command, env=environment, check=True, timeout=120, stdin=subprocess.DEVNULL)
        lines = dump.read_text("utf-8").split("\n")[:-1]
    return ["".join(map(vim_letter, line.split(","))) if line else "" for line in lines]


def plain_lines():
    """Each field, each opener and each word of a list in a line of its own, with its colours."""
    rows = [("f", words, ":") for _, words, _ in generate.read_keywords("FIELD")]
    rows += [("o", word, " 2:") for _, word, _ in generate.read_keywords("OPENER")]
    rows += [("o", words, ":") for _, words in generate.read_keywords("OPENER_SPELLING")]
    for letter, words, rest in rows:
        yield words + rest, letter * len(words + rest)
    for field, table in generate.LISTS.items():
        for row in generate.read_keywords(table):
            letter = "u" if table == "UNIT" else "w"
            word = row[3] if table == "UNIT" else row[1]
            yield f"{field}: {word}", "f" * len(field) + "f." + letter * len(word)


def missing_words(samples, colours):
    """Words of amounts, loads, details and formats that no sample shows in colour."""
    shown = [
        "".join(c if letter in "uw" else "," for c, letter in zip(line.lower(), letters))
        for line, letters in zip(samples, colours)
    ]
    words = [row[-1] for kind in WORDS for row in generate.read_keywords(kind)]
    return [
        word
        for word in words
        if not any(re.search(rf"(?<![\w-]){word.lower()}(?![\w-])", text) for text in shown)
    ]


def report(where, line, expected, found):
    print(f"{where}\n  line      {line}\n  expected  {expected}\n  found     {found}")
    return 1


def main():
    rows = SAMPLES.read_text("utf-8").removesuffix("\n").split("\n")
    samples, expected = rows[::2], rows[1::2]
    for line, letters in plain_lines():
        samples.append(line)
        expected.append(letters)
    tops = ("compiler", "examples", "tests")
    paths = sorted(path for top in tops for path in (ROOT / top).rglob("*.stave"))
    texts = ["\n".join(samples) + "\n"]
    sources = [("sample", line) for line in samples]
    for path in paths:
        # A lone CR or bytes that are no UTF-8 are the compiler's business.
        text = path.read_bytes().decode("utf-8", "replace").replace("\r\n", "\n").replace("\r", " ")
        text = text.replace("\0", " ").removeprefix("\ufeff")
        lines = text.split("\n")[:-1] if text.endswith("\n") else text.split("\n")
        texts.append("\n".join(lines) + "\n")
        name = path.relative_to(ROOT)
        sources += [(f"{name}:{i}", line) for i, line in enumerate(lines, start=1)]

    textmate = TextMate(json.loads(TEXTMATE.read_text("utf-8")))
    ours = [textmate.colours(line) for _, line in sources]
    vims = vim_colours(texts)
    failures = 0
    for line, letters, found in zip(samples, expected, ours):
        if found != letters:
            failures += report("TextMate", line, letters, found)
    for word in missing_words(samples, ours):
        failures += report("no sample shows", word, "a colour", "none")
    if len(vims) != len(ours):
        failures += report("Vim", "number of lines", len(ours), len(vims))
    for (where, line), letters, found in zip(sources, ours, vims):
        if found != letters:
            failures += report(f"Vim against TextMate, {where}", line, letters, found)
    print(f"{len(sources)} lines coloured, {failures} differ")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
