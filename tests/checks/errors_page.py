#!/usr/bin/env python3
"""grammar/ERRORS.md is what the catalogue and the examples give, and each example is true.

    errors_page.py STAVE    STAVE is the built command
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent.parent / "grammar"))

import errors  # noqa: E402, found beside the grammar

# Extras that must be found wanting, so that a slip in the generator shows.
PLANTED = {
    "load-unit": errors.Extra(example="squat: 5 @ 60 kg\n", mended="squat: 5 @ 60 lb\n"),
    "full-stop": errors.Extra(example="squat: 5.\n", mended="squat: 5,\n"),
}


def main():
    stave = str(Path(sys.argv[1]).resolve())
    problems = []
    for code, extra in PLANTED.items():
        examples = errors.Examples(stave)
        examples.sentences(code, extra)
        if len(examples.problems) != 1:
            problems.append(f"planted {code}: {examples.problems}")
    page, found = errors.write_page(stave)
    problems += found
    if errors.PAGE.read_text("utf-8") != page:
        problems.append(f"{errors.PAGE.name}: stale; run grammar/errors.py STAVE")
    print("\n".join([*problems, f"{len(problems)} problems"]))
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main())
