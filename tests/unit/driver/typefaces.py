"""Cards in another typeface: `--font`. DejaVu is that of Debian's fonts-dejavu-core.

usage: typefaces.py STAVE [unittest options]
"""

import os
import shutil
import subprocess
from pathlib import Path

import program
from program import GOOD, InFolder

DEJAVU = Path("/usr/share/fonts/truetype/dejavu")
CARD = "stave-out/cards/session-4-slack-water.pdf"


class Font(InFolder):
    def put(self, *names, folder="sail"):
        (self.folder / folder).mkdir(exist_ok=True)
        for name in names:
            shutil.copy(DEJAVU / name, self.folder / folder)
        self.write("slack.stave", GOOD)

    def refused(self, name, *words, folder="sail"):
        """The command fails for this problem, and nothing is written."""
        told = self.stave("build", "slack.stave", "--font", folder)
        self.assertEqual(told.code, 3, told.err)
        self.assertIn(f"({name})", told.err)
        for word in words:
            self.assertIn(word, told.err)
        self.assertFalse((self.folder / "stave-out").exists())

    def test_makes_cards_feeds_and_pictures_of_it(self):
        self.put("DejaVuSans.ttf", "DejaVuSans-Bold.ttf")
        told = self.stave("build", "slack.stave", "--svg", "--font", "sail")
        self.assertEqual((told.code, told.err), (0, ""))
        # poppler's opinion.
        listed = subprocess.run(["pdffonts", self.folder / CARD], capture_output=True, text=True,
                                check=True).stdout
        self.assertIn("+DejaVuSans-Bold ", listed)
        self.assertIn("+DejaVuSans ", listed)
        self.assertNotIn("Roboto", listed)
        text = subprocess.run(["pdftotext", self.folder / CARD, "-"], capture_output=True,
                              text=True, check=True).stdout
        self.assertIn("Slack water", text)
        again = self.stave("build", "slack.stave", "--svg", "--font", "sail").out
        self.assertIn("pdf (as before)", again)
        self.assertEqual(self.stave("check", "slack.stave", "--font", "sail").code, 0)
        told = self.stave("preview", "slack.stave", "--font", "sail", "--out", "other")
        self.assertEqual((told.code, told.err), (0, ""))
        other = (self.folder / "other/cards/session-4-slack-water.png").read_bytes()
        self.stave("preview", "slack.stave", "--out", "own")
        own = (self.folder / "own/cards/session-4-slack-water.png").read_bytes()
        self.assertNotEqual(other, own)

    def test_notes_which_of_several_is_taken(self):
        self.put("DejaVuSans.ttf", "DejaVuSerif.ttf")
        told = self.stave("build", "slack.stave", "--font", "sail")
        self.assertEqual(told.code, 0)
        self.assertIn("note: Of the typefaces in sail, DejaVu Sans is taken. (font-families)",
                      told.err)
        self.assertTrue((self.folder / CARD).exists())

    def test_names_characters_that_it_lacks(self):
        self.put("DejaVuSans.ttf")
        self.write("slack.stave", "session: Haul ✓\npush-up: 3 x 8\n")
        self.assertEqual(self.stave("check", "slack.stave", "--font", "sail").code, 0)
        self.write("slack.stave", "session: Haul \U0001f6a3\npush-up: 3 x 8\n")
        told = self.stave("check", "slack.stave", "--font", "sail")
        self.assertEqual(told.code, 1)
        self.assertIn("(glyph-missing)", told.err)

    def test_places_signs_in_their_line(self):
        self.put("DejaVuSans.ttf")
        self.write("slack.stave", "session: Haul\npush-up: 3 x 8\n  cue: קו ישר\n")
        # DejaVu has Hebrew letters.
        for words in ([], ["--font", "sail"]):
            told = self.stave("check", "slack.stave", "--diagnostics", "line", *words)
            self.assertEqual(told.code, 1)
            self.assertIn("slack.stave:3:8: ", told.err)
            self.assertIn("[text-right-to-left]", told.err)
        self.write("slack.stave", "session: Haul\npush-up: 3 x 8\n  cue: chest ⚓ first\n")
        told = self.stave("check", "slack.stave", "--diagnostics", "line")
        self.assertIn("slack.stave:3:14: ", told.err)
        self.assertIn("[glyph-missing]", told.err)
        # Marks that turn what is read, and cannot be seen.
        for mark in "\u061c\u200e\u200f\u202e\u2067":
            self.write("slack.stave", f"session: Haul\npush{mark}-up: 3 x 8\n")
            self.assertEqual(self.stave("check", "slack.stave", "--diagnostics", "line").codes(),
                             ["control-character"])

    def test_refuses_folders_without_fonts(self):
        self.put()
        self.refused("font-none", "sail")
        self.refused("font-folder", "nowhere", folder="nowhere")
        self.refused("font-folder", "slack.stave", folder="slack.stave")
        (self.folder / "sail/inner").mkdir()
        shutil.copy(DEJAVU / "DejaVuSans.ttf", self.folder / "sail/inner")
        (self.folder / "sail/folder.ttf").mkdir()
        os.mkfifo(self.folder / "sail/pipe.ttf")
        self.refused("font-none", "sail")
        self.assertEqual(self.stave("build", "slack.stave", "--font", "").code, 2)

    def test_refuses_files_that_are_no_use(self):
        self.put("DejaVuSans.ttf")
        good = (DEJAVU / "DejaVuSans.ttf").read_bytes()
        bad = self.folder / "sail/Bad.TTF"
        for begin, name in ((b"OTTO", "font-outlines"), (b"ttcf", "font-collection"),
                            (b"none", "font-damaged")):
            bad.write_bytes(begin + good[4:])
            self.refused(name, "sail/Bad.TTF")
        bad.write_bytes(good[:1000])
        self.refused("font-damaged", "sail/Bad.TTF", "ends too early")
        bad.unlink()
        (self.folder / "sail/DejaVuSans.ttf").rename(self.folder / "sail/Sail.otf")
        (self.folder / "sail/Sail.otf").write_bytes(b"OTTO" + good[4:])
        self.refused("font-outlines", "sail/Sail.otf")

    def test_bounds_how_much_is_read(self):
        self.put("DejaVuSans.ttf")
        for number in range(100):
            os.symlink(DEJAVU / "DejaVuSans.ttf", self.folder / f"sail/{number}.ttf")
        self.refused("font-too-much", "100", "64 MB")
        for number in range(100):
            (self.folder / f"sail/{number}.ttf").unlink()
        with open(self.folder / "sail/large.ttf", "wb") as large:
            large.truncate(70_000_000)
        self.refused("font-too-much", "64 MB")


if __name__ == "__main__":
    program.main()
