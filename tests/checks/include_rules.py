#!/usr/bin/env python3
"""Holds every #include, and every use of clock, disk, locale and terminal, to the house rules.

RULES is the one table of who may include whom; each folder's CMake links follow
it. Before the sources are read, violations planted in a made-up tree must all
be found.
"""

import re
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
TOPS = ("grammar", "compiler", "backends")

# Folder or file -> folders or files it may include, besides its own folder and
# the standard library. The longest entry that a file's path starts with counts.
WORDS = ["grammar/keywords.def", "grammar/vocabulary.hpp"]
CORE = ["compiler/source", "compiler/quantity", "compiler/civil", "compiler/diagnostics"]
PASSES = ["compiler/parse", "compiler/compose", "compiler/syntax", "compiler/check"]
FORMS = ["compiler/program", "compiler/timeline", "compiler/wording"]
RULES = {
    "grammar": [],
    "compiler/source": [],
    "compiler/names": ["compiler/source"],
    "compiler/quantity": WORDS,
    "compiler/civil": [],
    "compiler/zones": ["compiler/civil"],
    "compiler/diagnostics": ["compiler/source"],
    "compiler/parse": ["grammar", "compiler/source", "compiler/names", "compiler/diagnostics"],
    "compiler/compose": [*WORDS, *CORE, "compiler/names", "compiler/parse"],
    "compiler/movements": ["compiler/names"],
    "compiler/syntax": [*WORDS, *CORE, "compiler/parse"],
    "compiler/syntax/document": [*WORDS, *CORE],
    "compiler/format": [*WORDS, *CORE, "compiler/parse", "compiler/syntax/document"],
    "compiler/program": [*WORDS, "compiler/source/span.hpp", "compiler/source/wide_hash.hpp", "compiler/quantity", "compiler/civil"],
    "compiler/check": [*WORDS, *CORE, "compiler/names", "compiler/syntax/document", "compiler/program", "compiler/loads"],
    "compiler/timeline": [*WORDS, "compiler/quantity", "compiler/program"],
    "compiler/schedule": [*WORDS, *CORE, "compiler/names", "compiler/program"],
    "compiler/loads": ["compiler/quantity"],
    "compiler/fit": [*WORDS, *CORE, "compiler/names", "compiler/program", "compiler/loads", "compiler/schedule/groups.hpp"],
    "compiler/floor": [*WORDS, "compiler/quantity", "compiler/names", "compiler/program", "compiler/timeline"],
    "compiler/wording": [*WORDS, "compiler/source/utf8.hpp", "compiler/quantity", "compiler/program", "compiler/timeline"],
    "compiler/analysis": ["grammar", *CORE, "compiler/names", "compiler/schedule", "compiler/fit", *PASSES, *FORMS],
    "compiler/driver": TOPS,
    "backends/codes": [],
    "backends/card": [*CORE, *FORMS, "backends/codes"],
    "backends/card/pdf": [*CORE, *FORMS, "backends/card"],
    "backends/card/svg": [*CORE, *FORMS, "backends/card"],
    "backends/card/png": [*CORE, *FORMS, "backends/card"],
    "backends/calendar": [*CORE, *FORMS],
    "backends/site": [*CORE, *FORMS],
    "backends/server": ["compiler/wording"],
    "backends/report": [*WORDS, *CORE, *FORMS, "compiler/schedule", "compiler/loads", "compiler/fit", "compiler/floor"],
}

# Library -> how its headers start, and the folders or files that may see them.
LIBRARIES = {
    "PEGTL": (r"tao/", ["grammar", "compiler/parse"]),
    "fmt": (r"fmt/", ["compiler", "backends"]),
    "utf8proc": (r"utf8proc\.h$", ["compiler", "backends"]),
    "date": (r"date/", ["compiler/zones"]),
    "HarfBuzz": (r"hb(-\w+)?\.h$", ["backends/card"]),
    "libharu": (r"hpdf", ["backends/card/pdf"]),
    "libdeflate": (r"libdeflate", ["backends/card/pdf/packer", "compiler/driver/gzip"]),
    "cairo": (r"cairo", ["backends/card/png"]),
    "libqrencode": (r"qrencode", ["backends/codes/square_code"]),
    "libmicrohttpd": (r"microhttpd", ["compiler/driver/http_host"]),
    "libsodium": (r"sodium", ["compiler/driver/hashes.cpp"]),
    "CLI11": (r"CLI/", ["compiler/driver"]),
    "JSON": (
        r"nlohmann/",
        ["compiler/driver", "compiler/diagnostics/render_json.cpp", "backends/report"],
    ),
}
# PEGTL is slow to compile, so other folders may not reach it through headers either.
HIDDEN = (r"tao/", ["grammar", "compiler/parse"])

OUTSIDE = ["compiler/driver", "compiler/zones"]
OUTSIDE_HEADERS = {"filesystem", "fstream", "iostream", "locale", "clocale", "cstdio", "ctime"}
OUTSIDE_NAMES = re.compile(
    r"\b(?:(?:system|steady|high_resolution|utc|file)_clock\s*::\s*now|(?:secure_)?getenv"
    r"|setlocale|std\s*::\s*locale|std\s*::\s*time|fopen|random_device)\b"
)
INCLUDE = re.compile(r'^\s*#\s*include\s*(?:"([^"]+)"|<([^>]+)>)', re.MULTILINE)
COMMENT_OR_TEXT = re.compile(r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"', re.DOTALL)


def starts_with(path, entry):
    """Whether a path is the entry, in it, or a file of that name: lower.cpp, lower_dose.cpp."""
    return path == entry or path.startswith((f"{entry}/", f"{entry}.", f"{entry}_"))


def rule_of(path):
    entries = [entry for entry in RULES if starts_with(path, entry)]
    return max(entries, key=len) if entries else None


def quoted_include(root, path, included):
    rule = rule_of(path)
    if rule is None:
        return f"stands in a folder that {Path(__file__).name} has no rule for"
    if not (root / included).is_file():
        return f'includes "{included}", which is no path from the top folder'
    if rule_of(included) == rule or Path(included).parent == Path(path).parent:
        return None
    if any(starts_with(included, entry) for entry in RULES[rule]):
        return None
    return f"includes {included}, which {rule} may not see"


def bracket_include(path, included):
    for name, (pattern, allowed) in LIBRARIES.items():
        if re.match(pattern, included):
            allowed_here = any(starts_with(path, entry) for entry in allowed)
            return None if allowed_here else f"includes {name}"
    if included in OUTSIDE_HEADERS and not any(starts_with(path, entry) for entry in OUTSIDE):
        return f"includes <{included}>: disk, clock, terminal and locale belong to the driver"
    if re.fullmatch(r"[a-z0-9_]+", included) or starts_with(path, "compiler/driver"):
        return None
    return f"includes <{included}>, which is neither C++'s own nor a library of the table"


def problems_of(root, path, text):
    for quoted, bracketed in INCLUDE.findall(text):
        problem = quoted_include(root, path, quoted) if quoted else bracket_include(path, bracketed)
        if problem:
            yield problem
    if not any(starts_with(path, entry) for entry in OUTSIDE):
        for found in OUTSIDE_NAMES.findall(COMMENT_OR_TEXT.sub(" ", text)):
            yield f"uses {found}: it comes in as a value from the driver"


def hidden_library(texts, path):
    """A path of headers from a file to a hidden library, or nothing."""
    pattern, allowed = HIDDEN
    trails, seen = [[path]], {path}
    while trails and not any(starts_with(path, entry) for entry in allowed):
        trail = trails.pop()
        for quoted, bracketed in INCLUDE.findall(texts[trail[-1]]):
            if re.match(pattern, bracketed):
                return f"reaches <{bracketed}> through {' -> '.join(trail[1:])}"
            if quoted in texts and quoted not in seen:
                seen.add(quoted)
                trails.append([*trail, quoted])
    return None


def check(root):
    """Every problem as "path: what", and the number of files read."""
    texts = {
        path.relative_to(root).as_posix(): path.read_text("utf-8")
        for top in TOPS
        for path in sorted((root / top).rglob("*"))
        if path.suffix in {".hpp", ".cpp", ".h", ".c", ".def"}
    }
    problems = []
    for path, text in texts.items():
        found = [*problems_of(root, path, text), hidden_library(texts, path)]
        problems += [f"{path}: {what}" for what in filter(None, found)]
    return problems, len(texts)


# Path, text, whether it breaks a rule.
PLANTED = [
    ("compiler/source/span.hpp", "#include <cstdint>\n", False),
    ("compiler/quantity/ratio.hpp", '#include "compiler/source/span.hpp"\n', True),
    ("compiler/program/program.hpp", '#include "compiler/source/span.hpp"\n', False),
    ("compiler/program/other.hpp", '#include "compiler/source/source_file.hpp"\n', True),
    ("compiler/source/source_file.hpp", "#include <filesystem>\n", True),
    ("compiler/parse/rules.hpp", "#include <tao/pegtl.hpp>\n", False),
    ("compiler/parse/tree.hpp", '#include "compiler/source/span.hpp"\n', False),
    ("compiler/syntax/document.hpp", '#include "compiler/parse/tree.hpp"\n', True),
    ("compiler/syntax/lower.cpp", '#include "compiler/parse/tree.hpp"\n', False),
    ("compiler/syntax/numbers.cpp", '#include "compiler/parse/rules.hpp"\n', True),
    ("compiler/check/check.hpp", '#include "compiler/syntax/document.hpp"\n', False),
    ("compiler/check/lists.hpp", '#include "compiler/syntax/lower.hpp"\n', True),
    ("compiler/syntax/lower.hpp", "#include <vector>\n", False),
    ("compiler/check/check.cpp", "auto t = std::chrono::system_clock::now();\n", True),
    ("compiler/check/words.cpp", '// system_clock::now\nauto t = "getenv";\n', False),
    ("compiler/driver/main.cpp", '#include <fstream>\n#include "backends/card/page.hpp"\n', False),
    ("backends/card/page.hpp", "#include <string>\n", False),
    ("backends/card/fonts.cpp", "#include <hb.h>\n#include <hb-ot.h>\n", False),
    ("backends/card/layout.cpp", "#include <hpdf.h>\n", True),
    ("backends/card/pdf/pdf.cpp", '#include <hpdf.h>\n#include "backends/card/page.hpp"\n', False),
    ("backends/calendar/feed.cpp", '#include "backends/card/page.hpp"\n', True),
    ("backends/calendar/zone.cpp", '#include "compiler/check/check.hpp"\n', True),
    ("backends/calendar/tz.cpp", "#include <date/tz.h>\n", True),
    ("backends/other/file.cpp", '#include "compiler/source/span.hpp"\n', True),
    ("grammar/lexical.hpp", "#include <tao/pegtl.hpp>\n", False),
    ("grammar/quantity.hpp", '#include "compiler/source/span.hpp"\n', True),
    ("compiler/wording/words.cpp", 'auto t = std::getenv("TZ");\n', True),
]


def self_test():
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        for path, text, _ in PLANTED:
            (root / path).parent.mkdir(parents=True, exist_ok=True)
            (root / path).write_text(text, "utf-8")
        found = {problem.split(":", 1)[0] for problem in check(root)[0]}
    expected = {path for path, _, breaks in PLANTED if breaks}
    return [f"planted {path}: not judged as it should be" for path in sorted(found ^ expected)]


def main():
    problems, count = check(ROOT)
    problems = self_test() + problems
    print("\n".join([*problems, f"{count} files, {len(problems)} problems"]))
    return 1 if problems or not count else 0


if __name__ == "__main__":
    sys.exit(main())
