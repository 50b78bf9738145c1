"""The repository's own files, without what builds and tools put beside them."""

import fnmatch
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
# As in .gitignore.
MADE = ["build*", "stave-out", "node_modules", "__pycache__"]


def is_made(name):
    return any(fnmatch.fnmatch(name, pattern) for pattern in MADE)


def files():
    """Every file, as a path relative to ROOT."""
    found = []
    folders = [ROOT]
    while folders:
        for path in folders.pop().iterdir():
            if is_made(path.name) or path.name == ".git":
                continue
            if path.is_dir():
                folders.append(path)
            else:
                found.append(path.relative_to(ROOT))
    return sorted(found)
