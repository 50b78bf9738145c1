#!/usr/bin/env python3
"""README.md and DEVELOPERS.md show what Stave does, and name what there is.

    readme_blocks.py STAVE    STAVE is the built command

Blocks, by the words behind their fence:

    stave               a whole file: neither error nor warning. Blocks below it
                        call it session.stave
    stave error CODE    refused with that code alone
    text                right behind an error: what `stave check` prints of it
    console             lines `$ stave ...`, run in a copy of examples/, each with what
                        it prints; a line `...` stands for any number of lines
    sh                  commands that are not run; the files, presets, targets,
                        options and package groups they name must exist
    cpp                 lines that stand so in the grammar

README.md's first block is examples/slack-water.stave. Links, pictures and paths
in the text lead somewhere.
"""

import json
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from markdown_blocks import Block, blocks, code_spans, without_blocks
from tree import ROOT, files, is_made

DOCUMENTS = ["README.md", "DEVELOPERS.md"]
SAMPLE = "examples/slack-water.stave"
SESSION = "session.stave"
LARGEST_PICTURE = 150_000
PLACEHOLDERS = re.compile(r"\b(?:NAME|FILE|FORM|DIR|SESSION|PRESET|TARGET)\b")


def read(path):
    return (ROOT / path).read_text("utf-8")


class Stave:
    """The built command, in a copy of the examples."""

    def __init__(self, program, folder):
        self.program = program
        self.folder = Path(folder) / "examples"
        shutil.copytree(ROOT / "examples", self.folder)

    def run(self, words):
        """Exit code, and all that was printed."""
        kept = {name: os.environ[name] for name in ("PATH",) if name in os.environ}
        result = subprocess.run(
            [self.program, *words],
            cwd=self.folder,
            env=kept,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            timeout=60,
        )
        return result.returncode, result.stdout

    def check(self, text):
        (self.folder / SESSION).write_text(text, "utf-8")
        said = self.run(["check", "--diagnostics", "line", SESSION])[1]
        return said, set(re.findall(r"\[([a-z-]+)\]$", said, re.MULTILINE))


def matches(shown, printed):
    """Whether what is printed is what is shown, `...` for any lines, no-break spaces as blanks."""
    parts = [
        r"(?:.*\n)*" if line == "..." else re.escape(line) + r"\n" for line in shown.splitlines()
    ]
    return re.fullmatch("".join(parts), printed.replace("\u00a0", " ")) is not None


def console_problems(stave, block):
    """`$ command`, then what it prints up to the next one."""
    commands = re.split(r"^\$ ", block.text, flags=re.MULTILINE)
    if commands[0] or len(commands) < 2:
        yield "begins with no command"
    for part in commands[1:]:
        line, _, shown = part.partition("\n")
        program, *words = shlex.split(line)
        if program != "stave":
            yield f"is run by no test: {line}"
            continue
        code, printed = stave.run(words)
        wanted = 1 if re.search(r"^error: ", shown, re.MULTILINE) else 0
        if code != wanted:
            yield f"{line} left with {code}"
        if not matches(shown, printed):
            yield f"{line} prints\n{printed}"


def stave_problems(stave, block):
    said, codes = stave.check(block.text)
    wanted = set(block.info[2:])
    if codes != wanted or (not wanted and said):
        yield f"says {said or 'nothing'}"


def text_problems(stave, block, before):
    if before is not None and before.info[:2] == ("stave", "error"):
        printed = stave.run(["check", SESSION])[1]
        if printed != block.text:
            yield f"Stave prints\n{printed}"
    elif block.text.startswith(("error: ", "warning: ")):
        yield "stands behind no error"


def presets(kind):
    found = json.loads(read("CMakePresets.json"))[f"{kind}Presets"]
    return {preset["name"] for preset in found if not preset.get("hidden")}


def cmake_sources():
    paths = [path for path in files() if path.name == "CMakeLists.txt" or path.suffix == ".cmake"]
    return "".join(read(path) for path in paths)


def is_target(name):
    pattern = rf"^\s*(?:add_executable|add_custom_target|stave_test|stave_library)\({name}\b"
    return re.search(pattern, cmake_sources(), re.MULTILINE) is not None


def is_option(name):
    own = re.search(rf"^option\({name}\b", cmake_sources(), re.MULTILINE)
    return own is not None or name.startswith(("CMAKE_", "BUILD_"))


def path_problems(word):
    """Of a path inside the repository; of one in build/, its preset and program."""
    parts = Path(word).parts
    if not is_made(parts[0]):
        return [] if (ROOT / word).exists() else [f"no {word}"]
    if len(parts) > 1 and parts[1] not in presets("configure") | {"fuzz"}:
        return [f"no preset for {word}"]
    if len(parts) > 3 and parts[2] == "bin" and not is_target(parts[3]):
        return [f"no program {parts[3]}"]
    return []


def preset_problems(kind, words):
    if "--preset" not in words:
        return []
    name = words[words.index("--preset") + 1]
    return [] if name in presets(kind) else [f"no {kind} preset {name}"]


def cmake_problems(words):
    kind = "build" if "--build" in words else "configure"
    problems = preset_problems(kind, words)
    for before, word in zip(words, words[1:]):
        if before == "--target" and not is_target(word):
            problems.append(f"no target {word}")
        if before in ("--build", "--install") and not word.startswith("-"):
            problems += path_problems(word)
    options = re.findall(r"-D(\w+)=", " ".join(words))
    return problems + [f"no option {name}" for name in options if not is_option(name)]


def command_problems(line):
    words = [word for word in shlex.split(line) if not re.match(r"[A-Z_]+=", word)]
    if words[0] == "sudo":
        words = words[1:]
    match words:
        case [".cmake/install_packages.sh", *groups]:
            known = set(re.findall(r"^(\w+) ", read(".cmake/packages.txt"), re.MULTILINE))
            unknown = [name for name in groups if name not in known]
            return path_problems(words[0]) + [f"no group {name}" for name in unknown]
        case ["bash", script]:
            return path_problems(script)
        case ["cmake", *rest]:
            return cmake_problems(rest)
        case ["ctest", *rest]:
            return preset_problems("test", rest)
        case ["git", "diff", *paths] | ["mkdir", "-p", *paths]:
            return [problem for path in paths for problem in path_problems(path)]
        case [program, *rest] if "/" in program:
            paths = [program, *(word for word in rest if not word.startswith("-"))]
            return [problem for path in paths for problem in path_problems(path)]
    return ["no known command"]


def shell_problems(block):
    for line in block.text.splitlines():
        for problem in command_problems(line):
            yield f"{line}: {problem}"


def source_problems(block):
    grammar = "".join(read(path) for path in files() if path.parts[0] == "grammar")
    for line in filter(str.strip, block.text.splitlines()):
        if line.strip() not in grammar:
            yield f"not in the grammar: {line}"


def block_problems(stave, block, before):
    match block.info:
        case ("stave",) | ("stave", "error", _):
            return stave_problems(stave, block)
        case ("text",):
            return text_problems(stave, block, before)
        case ("console",):
            return console_problems(stave, block)
        case ("sh",):
            return shell_problems(block)
        case ("cpp",):
            return source_problems(block)
    return [f"no kind of block: {' '.join(block.info)}"]


def anchor(heading):
    """As the places that show Markdown make it of a heading."""
    return re.sub(r"[^\w\- ]", "", heading.strip().lower()).replace(" ", "-")


def link_problems(name, markdown):
    for picture, target in re.findall(r"(!?)\[[^\]]*\]\(([^)]+)\)", without_blocks(markdown)):
        path, _, place = target.partition("#")
        file = ROOT / (path or name)
        if not file.exists():
            yield f"{target} leads nowhere"
        elif place:
            headings = re.findall(r"^#+ (.*)$", file.read_text("utf-8"), re.MULTILINE)
            if place not in map(anchor, headings):
                yield f"{target} leads to no heading"
        elif picture and file.stat().st_size > LARGEST_PICTURE:
            yield f"{target} has {file.stat().st_size} bytes"


def span_problems(markdown):
    """Paths in code spans, from the top folder, or the name of a file anywhere."""
    names = {path.name for path in files()}
    tops = {path.parts[0] for path in files()}
    for span in code_spans(markdown):
        if " " in span or PLACEHOLDERS.search(span):
            continue
        if "/" in span and Path(span).parts[0] in tops:
            if not any(ROOT.glob(f"{span}*")) and not any(ROOT.glob(span)):
                yield f"no {span}"
        elif re.fullmatch(r"[A-Za-z_]+\.(?:hpp|cpp|py|def|cmake|txt|json|md)", span):
            if span not in names:
                yield f"no file {span}"


def document_problems(stave, name, markdown):
    found = blocks(markdown)
    problems = []
    for before, block in zip([None, *found], found):
        problems += [
            f"line {block.line}: {problem}" for problem in block_problems(stave, block, before)
        ]
    if name == "README.md" and found[0] != Block(("stave",), read(SAMPLE), found[0].line):
        problems.append(f"the first block is not {SAMPLE}")
    problems += [*link_problems(name, markdown), *span_problems(markdown)]
    return [f"{name}: {problem}" for problem in problems]


# Each of these must be found wanting, so that a slip in this test shows.
PLANTED = [
    "```stave\nsession: A\npush-up: 8-10\n```\n",
    "```stave error amount-zero\nsession: A\npush-up: 8\n```\n",
    "```stave error rising-pair\nsession: A\npush-up: 8-10\n```\n```text\nerror: No.\n```\n",
    "```text\nerror: Something else. (else)\n```\n",
    "```console\n$ stave check missing.stave\n```\n",
    "```console\n$ stave explain pocket.stave\n...\nnothing of the kind\n...\n```\n",
    "```console\n$ ls\n```\n",
    "```sh\nbash examples/walk\n```\n",
    "```sh\ncmake --preset fast\n```\n",
    "```sh\ncmake --build --preset dev --target unit_none\n```\n",
    "```sh\n.cmake/install_packages.sh everything\n```\n",
    "```sh\nrm -r build\n```\n",
    "```cpp\nstruct hold : anything {};\n```\n",
    "```\n```\n",
    "[there](examples/none.stave)\n",
    "[there](DEVELOPERS.md#none)\n",
    "`compiler/none/`\n",
    "`none.hpp`\n",
]


def main():
    program = str(Path(sys.argv[1]).resolve())
    problems, count = [], 0
    with tempfile.TemporaryDirectory() as folder:
        stave = Stave(program, folder)
        for text in PLANTED:
            if not document_problems(stave, "planted", text):
                problems.append(f"planted, not found: {text!r}")
        for name in DOCUMENTS:
            markdown = read(name)
            count += len(blocks(markdown))
            problems += document_problems(stave, name, markdown)
    print("\n".join([*problems, f"{count} blocks, {len(problems)} problems"]))
    return 1 if problems or not count else 0


if __name__ == "__main__":
    sys.exit(main())
