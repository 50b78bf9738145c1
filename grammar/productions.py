#!/usr/bin/env python3
"""Writes the productions at the end of NOTATION.md from the rules in quantity.hpp and session.hpp.

    grammar/productions.py          writes them
    grammar/productions.py --check  says whether they are what it would write

A rule that only names a word or the end is written where it is used; rules that are
only another name for one rule share a line. Between two parts stand blanks where
the rules let them stand; else ~ is written, and _ where they must. What lexical.hpp
reads is told by hand, in the table behind the productions.
"""

import re
import sys
import textwrap
from pathlib import Path

GRAMMAR = Path(__file__).resolve().parent
NOTATION = GRAMMAR / "NOTATION.md"
FENCE = re.compile(r"(?<=\n```ebnf\n).*?(?=^```$)", re.DOTALL | re.MULTILINE)
WIDTH = 92

# PEGTL's own rules, and the signs that its rules name by their number.
BUILT_IN = {"eof": "end", "alpha": "ascii_letter", "alnum": "ascii_letter_or_digit"}
SIGNS = {"0x425": '"Х"'}
# Words that are listed in keywords.def: the macro, and which argument they are.
LISTED = {"side_words": ("SIDE_WORD", 1), "pattern_words": ("PATTERN", 1)}


class Expression:
    """A call such as seq<a, b>, with its arguments, or a name without any."""

    def __init__(self, name, arguments=()):
        self.name = name
        self.arguments = list(arguments)


def read_expression(tokens):
    name = tokens.pop(0)
    arguments = []
    if tokens and tokens[0] in "<(":
        close = {"<": ">", "(": ")"}[tokens.pop(0)]
        while tokens[0] != close:
            arguments.append(read_expression(tokens))
            if tokens[0] == ",":
                tokens.pop(0)
        tokens.pop(0)
    return Expression(name.removeprefix("utf8::"), arguments)


def read_rules():
    """Every rule's name and expression, in the order of the headers."""
    rules = {}
    for header in ("quantity.hpp", "session.hpp"):
        text = re.sub(r"//[^\n]*", "", (GRAMMAR / header).read_text("utf-8"))
        for name, body in re.findall(r"^struct (\w+)\s*:\s*(.*?)\s*\{\s*\};", text, re.M | re.S):
            rules[name] = read_expression(re.findall(r'"[^"]*"|\'[^\']*\'|[\w:]+|[<>(),]', body))
    return rules


def listed_words(name):
    """The words of a list that a rule compares with, from the headers or keywords.def."""
    if name in LISTED:
        macro, place = LISTED[name]
        keywords = (GRAMMAR / "keywords.def").read_text("utf-8")
        rows = re.findall(rf"^STAVE_{macro}\((.*)\)$", keywords, re.MULTILINE)
        return [row.split(", ")[place] for row in rows]
    for header in ("quantity.hpp", "session.hpp"):
        text = (GRAMMAR / header).read_text("utf-8")
        found = re.search(rf"\b{name} = sorted_words\((.*?)\);", text, re.DOTALL)
        if found:
            return re.findall(r'"[^"]+"', found.group(1))
    raise ValueError(f"{name}: a list of words that nobody knows")


def is_blank(expression):
    plain = expression.name in ("blanks", "blank") and not expression.arguments
    repeats = expression.name in ("plus", "star")
    return plain or (repeats and all(is_blank(part) for part in expression.arguments))


def must_blank(expression):
    return expression.name == "plus" and is_blank(expression)


class Writer:
    def __init__(self, rules):
        self.rules = rules

    def edge(self, expression, last):
        """Whether blanks may stand at the end (else at the beginning) of what it matches."""
        name, inner = expression.name, expression.arguments
        if is_blank(expression):
            return True
        if name in ("seq", "opt", "star", "plus", "must") and inner:
            # A look-ahead takes nothing, so what is behind it counts.
            taken = [part for part in inner if part.name not in ("not_at", "at")] or inner
            return self.edge(taken[-1 if last else 0], last)
        if name in self.rules:
            return self.edge(self.rules[name], last)
        return name == "sor" and any(self.edge(part, last) for part in inner)

    def inlined(self, name):
        """What stands for a rule that is no more than a word, a sign or the end, or None."""
        body = self.rules.get(name)
        if body is None:
            return BUILT_IN.get(name)
        if body.name in ("STAVE_KEYWORD", "eof"):
            return self.one(body)
        return None

    def alias_of(self, name):
        """The rule that `name` is another name for, or None."""
        body = self.rules[name]
        return body.name if not body.arguments and self.inlined(name) is None else None

    def one(self, expression, grouped=False):
        """The expression; in brackets where it stands beside others and must be."""
        name, inner = expression.name, expression.arguments
        if name in ("STAVE_KEYWORD", "TAO_PEGTL_STRING"):
            return inner[0].name
        if name == "must":
            return self.sequence(inner, grouped)
        if name == "seq":
            return self.sequence(inner, grouped)
        if name == "sor":
            text = " | ".join(self.one(part) for part in inner)
            return f"( {text} )" if grouped and len(inner) > 1 else text
        if name == "opt":
            return f"[ {self.sequence(inner)} ]"
        if name == "star":
            return f"{{ {self.sequence(inner)} }}"
        if name == "plus":
            return f"{{ {self.sequence(inner)} }}+"
        if name == "list":
            item, between = self.one(inner[0], True), inner[1]
            sign = "_" if must_blank(between) else self.one(between, True)
            return f"{item} {{ {sign} {item} }}"
        if name == "rep":
            return " ~ ".join([self.one(inner[1], True)] * int(inner[0].name))
        if name in ("not_at", "at"):
            return f"{'!' if name == 'not_at' else '&'}{self.sequence(inner, True)}"
        if name in ("one", "not_one"):
            signs = [SIGNS.get(sign.name, f'"{sign.name[1:-1]}"') for sign in inner]
            text = " | ".join(signs)
            several = len(signs) > 1 and (grouped or name == "not_one")
            text = f"( {text} )" if several else text
            return text if name == "one" else f"!{text} any"
        if name == "word_of":
            text = " | ".join(listed_words(inner[0].name))
            return f"( {text} )" if grouped else text
        if name == "any":
            return "any"
        return self.inlined(name) or name

    def sequence(self, parts, grouped=False):
        """Parts in a row, with the signs that say whether blanks stand between them."""
        written, gap, last = "", "", None
        taken = [part for part in parts if not is_blank(part)]
        for part in parts:
            if is_blank(part):
                gap = "_" if must_blank(part) else " "
                continue
            text = self.one(part, grouped or len(taken) > 1)
            if last is not None:
                ahead = last.name in ("not_at", "at") or part.name in ("not_at", "at")
                loose = gap == " " or self.edge(last, True) or self.edge(part, False) or ahead
                sign = " _ " if gap == "_" else " " if loose else " ~ "
                written += sign
            elif gap == "_":
                written += "_ "
            written += text
            gap, last = "", part
        if gap == "_":
            written += " _"
        several = len(taken) > 1
        return f"( {written} )" if grouped and several else written


def wrapped(name, text):
    """`name = text` in lines of the page's width; a bracket stays with what it holds."""
    glued = re.sub(r"([\[({]) ", "\\1\0", re.sub(r" ([\])}])", "\0\\1", text))
    lines, line = [], f"{name:<17} ="
    for word in glued.split(" "):
        word = word.replace("\0", " ")
        if len(line) + 1 + len(word) > WIDTH:
            lines.append(line)
            line = " " * 19
        line += f" {word}"
    return [*lines, line]


def productions():
    rules = read_rules()
    writer = Writer(rules)
    aliases = {}
    for name in rules:
        target = writer.alias_of(name)
        if target:
            aliases.setdefault(target, []).append(name)
    lines = []
    for name, body in rules.items():
        if writer.inlined(name) is not None or writer.alias_of(name):
            continue
        lines += wrapped(name, writer.one(body))
    lines.append("")
    for target, names in aliases.items():
        lines += textwrap.wrap(f"{', '.join(names)} = {target}", WIDTH)
    return "\n".join(lines) + "\n"


def main():
    page = NOTATION.read_text("utf-8")
    if not FENCE.search(page):
        print(f"{NOTATION.name}: no block marked ebnf")
        return 1
    wanted = FENCE.sub(lambda _: productions(), page)
    if wanted == page:
        return 0
    if "--check" in sys.argv[1:]:
        print(f"{NOTATION.name}: not the rules of the headers; run grammar/productions.py")
        return 1
    NOTATION.write_text(wanted, "utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
