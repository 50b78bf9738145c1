#!/usr/bin/env python3
"""Plural forms, decimal marks and dates of every language are those of Unicode CLDR.

    languages.py FACTS    FACTS is the built language_facts

CLDR is read through python3-babel. Dates are CLDR's full ones with the short weekday.
Ours differ where this says so: English ones have Britain's order and no comma, French
months begin with "1er", and blanks inside a date do not break.
"""

import re
import subprocess
import sys
from datetime import date
from decimal import Decimal
from fractions import Fraction

from babel import Locale
from babel.dates import format_date
from babel.numbers import format_decimal

LANGUAGES = ("en", "pt", "es", "fr", "de", "pl", "el")


def plural(language, number):
    value = Fraction(number)
    if value.denominator == 1:
        return Locale.parse(language).plural_form(value.numerator)
    return Locale.parse(language).plural_form(Decimal(value.numerator) / value.denominator)


def short_date(language, day):
    place = "en_GB" if language == "en" else language
    pattern = Locale.parse(place).date_formats["full"].pattern.replace("EEEE", "EEE")
    text = format_date(day, pattern, locale=place)
    if language == "en":
        text = text.replace(",", "")
    if language == "fr":
        text = re.sub(r"\b1 ", "1er ", text, count=1) if day.day == 1 else text
    return text


def expected(language, kind, given):
    if kind == "plural":
        return plural(language, given)
    if kind == "decimal":
        return format_decimal(Decimal("2.5"), locale=language)
    return short_date(language, date(*map(int, given.split("-"))))


def problems_of(lines):
    problems = []
    seen = {}
    for line in lines:
        language, kind, rest = line.split(" ", 2)
        given, _, said = rest.partition(" ") if kind != "decimal" else ("2.5", " ", rest)
        said = said.replace("\u00a0", " ")
        want = expected(language, kind, given)
        seen[language, kind] = seen.get((language, kind), 0) + 1
        if said != want:
            problems.append(f"{language} {kind} {given}: {said!r}, CLDR has {want!r}")
    counts = {"plural": 201 + 21, "decimal": 1, "date": 365}
    for language in LANGUAGES:
        for kind, count in counts.items():
            if seen.get((language, kind)) != count:
                problems.append(f"{language}: {seen.get((language, kind))} facts of {kind}")
    return problems


def main():
    # Slips that must be found: a wrong plural, decimal mark, month and order.
    planted = ["pl plural 22/1 many", "de decimal 2.5", "el date 2027-5-1 Σάβ 1 Μάιος 2027",
               "de date 2027-5-3 Mo., Mai 3. 2027"]
    missed = [line for line in planted if not problems_of([line])[0].startswith(line[:2] + " ")]
    facts = subprocess.run([sys.argv[1]], capture_output=True, check=True, text=True)
    problems = missed + problems_of(facts.stdout.splitlines())
    print("\n".join([*problems[:40], f"{len(problems)} problems"]))
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main())
