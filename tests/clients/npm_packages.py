"""The packages of tests/clients/npm, installed once into the build folder.

The lock file names each with the hash of its content, and no scripts of theirs are run.
"""

import fcntl
import pathlib
import shutil
import subprocess

SOURCES = pathlib.Path(__file__).resolve().parent / "npm"
LOCK = "package-lock.json"


def installed(program):
    """The folder with node_modules and our own scripts; `program` is one of the build's own."""
    folder = pathlib.Path(program).resolve().parent.parent / "npm"
    folder.mkdir(exist_ok=True)
    with open(folder / "lock", "w", encoding="utf-8") as lock:
        # Tests run side by side.
        fcntl.flock(lock, fcntl.LOCK_EX)
        is_there = ((folder / "done").exists()
                    and (folder / LOCK).read_bytes() == (SOURCES / LOCK).read_bytes())
        for path in SOURCES.iterdir():
            shutil.copy(path, folder)
        if not is_there:
            subprocess.run(["npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund",
                            "--cache", str(folder / "cache")], cwd=folder, check=True)
            (folder / "done").touch()
    return folder
