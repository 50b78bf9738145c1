"""What is said when the packages of npm cannot be installed: what failed, and what to do.

usage: npm_trouble.py [unittest options]
"""

import os
import pathlib
import tempfile
import unittest
from unittest import mock

import npm_packages

SCRIPT = """#!/bin/sh
echo "$@" >> "{folder}/asked"
{does}
"""


class Trouble(unittest.TestCase):
    def setUp(self):
        holder = tempfile.TemporaryDirectory(prefix="npm trouble ")
        self.addCleanup(holder.cleanup)
        self.folder = pathlib.Path(holder.name)
        (self.folder / "bin").mkdir()
        # As if it were a program of the build's.
        self.program = self.folder / "bin/stave"
        patch = mock.patch.dict(os.environ, PATH=f"{self.folder}/bin:/usr/bin:/bin")
        patch.start()
        self.addCleanup(patch.stop)

    def npm(self, does):
        path = self.folder / "bin/npm"
        path.write_text(SCRIPT.format(folder=self.folder, does=does), "utf-8")
        path.chmod(0o755)

    def refused(self):
        with self.assertRaises(npm_packages.NotInstalled) as caught:
            npm_packages.installed(self.program)
        self.assertFalse((self.folder / "npm/done").exists())
        return str(caught.exception)

    def check_says_what_to_do(self, told):
        for part in ("package-lock.json", "npm ci --ignore-scripts", str(self.folder / "npm"),
                     "ical.js", "axe-core", "run the tests again"):
            self.assertIn(part, told)

    def test_without_a_network_its_own_words_are_told(self):
        self.npm("for i in $(seq 500); do echo line $i; done; echo 'npm ERR! code ENOTFOUND' >&2; "
                 "exit 7")
        told = self.refused()
        self.check_says_what_to_do(told)
        self.assertIn("exit code 7", told)
        self.assertIn("npm ERR! code ENOTFOUND", told)
        self.assertLess(len(told.splitlines()), 25)

    def test_where_there_is_no_npm_its_package_is_named(self):
        os.environ["PATH"] = f"{self.folder}/bin"
        told = self.refused()
        self.check_says_what_to_do(told)
        self.assertIn("No such file or directory: npm", told)
        self.assertIn(".cmake/packages.txt", told)

    def test_what_is_mended_is_installed_by_the_next_run_and_only_once(self):
        self.npm("exit 1")
        self.refused()
        self.npm("mkdir -p node_modules/ical.js")
        for _ in range(3):
            folder = npm_packages.installed(self.program)
        self.assertTrue((folder / "node_modules/ical.js").is_dir())
        asked = (self.folder / "asked").read_text("utf-8").splitlines()
        self.assertEqual(len(asked), 2)
        self.assertTrue(all(line.startswith("ci --ignore-scripts") for line in asked))

    def test_another_lock_file_is_installed_anew(self):
        self.npm("exit 0")
        folder = npm_packages.installed(self.program)
        (folder / "package-lock.json").write_text("{}", "utf-8")
        self.npm("exit 1")
        self.refused()


if __name__ == "__main__":
    unittest.main()
