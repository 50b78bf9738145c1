"""The packages of tests/clients/npm, installed once into the build folder.

The lock file names each with the hash of its content, and no scripts of theirs are run.
"""

import fcntl
import pathlib
import shutil
import subprocess

SOURCES = pathlib.Path(__file__).resolve().parent / "npm"
LOCK = "package-lock.json"
COMMAND = ("npm", "ci", "--ignore-scripts", "--no-audit", "--no-fund")
# The end of what npm says; the rest is in a log that it names.
MOST_LINES = 12


class NotInstalled(Exception):
    """What failed, and what to do about it."""

    def __init__(self, folder, reason):
        super().__init__(
            f"The packages that {SOURCES / LOCK} names could not be installed.\n"
            f"  {' '.join(COMMAND)}\n  in {folder} failed: {reason}\n"
            "Tests that read calendars with ical.js, or pages with axe-core, need them, and with"
            " them npm and the network, once. Mend what is said above and run the tests again; to"
            " begin anew, delete that folder.")


def install(folder):
    """Throws NotInstalled."""
    try:
        run = subprocess.run([*COMMAND, "--cache", str(folder / "cache")], cwd=folder, check=False,
                             stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    except OSError as error:
        raise NotInstalled(folder, f"{error.strerror}: {error.filename}. .cmake/packages.txt lists"
                           " npm among the packages for tests.") from error
    if run.returncode:
        told = run.stdout.decode("utf-8", "replace").splitlines()[-MOST_LINES:]
        raise NotInstalled(folder, "\n".join([f"exit code {run.returncode}", *told]))


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
            # A run that is broken off leaves no packages that pass for these.
            (folder / "done").unlink(missing_ok=True)
            install(folder)
            (folder / "done").touch()
    return folder
