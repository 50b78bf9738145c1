#!/usr/bin/env python3
"""The top folder holds what DEVELOPERS.md's map names, and dotfiles."""

import sys

from tree import ROOT, is_made

AGREED = {
    "CMakeLists.txt",
    "CMakePresets.json",
    "README.md",
    "DEVELOPERS.md",
    "LICENSE",
    "grammar",
    "compiler",
    "backends",
    "examples",
    "tests",
    "editors",
}


def main():
    names = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    problems = [f"{name}: not agreed" for name in sorted(names - AGREED) if not is_made(name)]
    problems += [f"{name}: missing" for name in sorted(AGREED - names)]
    print("\n".join([*problems, f"{len(names)} names, {len(problems)} problems"]))
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main())
