"""Every source on every paper, built by the real program and read back by others.

usage: papers.py STAVE SOURCES_FOLDER... [unittest options]

poppler (pdfinfo, pdffonts, pdftotext, pdftoppm), mutool and zbarimg.
"""

import collections
import functools
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest
from xml.etree import ElementTree

from cards import run

# Millimetres: ISO 216, and ANSI's letter of 8.5 by 11 inches.
PAPERS = {"a3": (297, 420), "a4": (210, 297), "a5": (148, 210), "a6": (105, 148),
          "letter": (215.9, 279.4)}
POINTS = 72 / 25.4


def contrast_on_white(colour):
    """WCAG 2.1, "contrast ratio", of "#rrggbb" on white."""
    levels = [int(colour[at:at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [level / 12.92 if level <= 0.04045 else ((level + 0.055) / 1.055) ** 2.4
              for level in levels]
    luminance = sum(part * level for part, level in zip((0.2126, 0.7152, 0.0722), linear))
    return 1.05 / (luminance + 0.05)


class Word:
    """A word of pdftotext's with its box; lines touch where nothing of a letter is."""

    def __init__(self, element):
        self.text = element.text
        self.left, self.top, self.right, self.bottom = (
            float(element.get(side)) for side in ("xMin", "yMin", "xMax", "yMax"))
        # From ascent to descent of the face; capitals and figures take the middle of it.
        spare = (self.bottom - self.top) * 0.2
        self.top, self.bottom = self.top + spare, self.bottom - spare

    def meets(self, other):
        return (self.left + 0.05 < other.right and other.left + 0.05 < self.right
                and self.top < other.bottom and other.top < self.bottom)


def for_each_paper(test):
    """Runs a test for every card on every paper, on after a failure."""

    @functools.wraps(test)
    def run_all(self):
        for paper, cards in self.cards.items():
            for card in cards:
                with self.subTest(paper=paper, card=card.name):
                    test(self, paper, card)

    return run_all


class Papers(unittest.TestCase):
    """Every source on every paper; one that is too long for a paper says so."""

    program = ""
    sources = []
    too_long = {"card-overflow", "pages-overflow"}

    @classmethod
    def setUpClass(cls):
        holder = tempfile.TemporaryDirectory(prefix="stave-papers-")
        cls.addClassCleanup(holder.cleanup)
        cls.holder = pathlib.Path(holder.name)
        cls.cards = {}
        cls.refused = {}
        for paper in PAPERS:
            out = cls.holder / paper
            cls.refused[paper] = [source for source in cls.sources
                                  if not cls.built(source, paper, out)]
            cls.cards[paper] = sorted((out / "cards").glob("*.pdf"))

    @classmethod
    def built(cls, source, paper, out):
        done = subprocess.run(
            [cls.program, "build", str(source), "--paper", paper, "--out", str(out),
             "--diagnostics", "line"], capture_output=True, timeout=120, check=False)
        errors = [line for line in done.stderr.decode().splitlines() if ": error: " in line]
        codes = {line.rpartition("[")[2].removesuffix("]") for line in errors}
        if done.returncode == 0:
            return True
        if done.returncode != 1 or not codes or codes - cls.too_long:
            raise AssertionError(f"{source} on {paper}: {done.stderr.decode()}")
        return False

    def test_all_sources_fit_large_papers_and_some_fit_a_pocket(self):
        for paper in ("a3", "a4", "letter"):
            self.assertEqual(self.refused[paper], [])
        for paper, refused in self.refused.items():
            self.assertLess(len(refused), len(self.sources), paper)

    @for_each_paper
    def test_pages_have_the_papers_size_and_are_few(self, paper, card):
        told = run("pdfinfo", "-l", "9", card)
        sizes = re.findall(r"(?m)^Page +\d+ size: +([\d.]+) x ([\d.]+) pts", told)
        self.assertIn(len(sizes), (1, 2))
        for size in sizes:
            for found, wanted in zip(size, PAPERS[paper]):
                self.assertAlmostEqual(float(found), wanted * POINTS, delta=0.01)

    @for_each_paper
    def test_every_font_is_inside(self, _, card):
        for row in run("pdffonts", card).splitlines()[2:]:
            self.assertRegex(row, r"^[A-Z]{6}\+\S+ .* yes +yes +yes +\d+ +0$")

    @for_each_paper
    def test_no_two_words_touch(self, _, card):
        tree = ElementTree.fromstring(run("pdftotext", "-bbox", card, "-"))
        for page in tree.findall(".//{*}page"):
            words = [Word(element) for element in page.findall("{*}word")]
            touching = [(word.text, other.text) for at, word in enumerate(words)
                        for other in words[at + 1:] if word.meets(other)]
            self.assertEqual(touching, [])

    @for_each_paper
    def test_the_margins_are_white(self, paper, card):
        # 7 mm on a pocket's card, which is cut out.
        edge = int((7 if paper == "a6" else 10) * POINTS)
        run("pdftoppm", "-gray", "-r", "72", card, self.holder / "page")
        for picture in sorted(self.holder.glob("page*.pgm")):
            _, size, _, pixels = picture.read_bytes().split(b"\n", 3)
            picture.unlink()
            width, height = map(int, size.split())
            rows = [pixels[row * width:(row + 1) * width] for row in range(height)]
            self.assertEqual(set(rows[:edge] + rows[-edge:]), {b"\xff" * width})
            self.assertEqual({row[:edge] + row[-edge:] for row in rows},
                             {b"\xff" * (2 * edge)})

    @for_each_paper
    def test_the_code_leads_where_the_link_does(self, paper, card):
        links = re.findall(r"(?m)^ *1 +\S+ +(https?://\S+)$", run("pdfinfo", "-url", card))
        for link in links:
            # What a cheap camera sees of the whole page, and a good one.
            for dots in ("100", "300"):
                run("pdftoppm", "-png", "-singlefile", "-r", dots, card, self.holder / "seen")
                read = run("zbarimg", "--nodbus", "--quiet", "--raw", self.holder / "seen.png")
                self.assertEqual(read.split(), [link])

    @for_each_paper
    def test_mutool_and_poppler_read_the_same_characters(self, _, card):
        ours = collections.Counter("".join(run("pdftotext", "-raw", card, "-").split()))
        theirs = collections.Counter(
            "".join(run("mutool", "draw", "-F", "text", card).split()))
        self.assertEqual(ours, theirs)

    @for_each_paper
    def test_letters_are_large_and_dark_enough(self, paper, card):
        tree = ElementTree.fromstring(run("mutool", "draw", "-F", "stext", card))
        fonts = tree.findall(".//font")
        self.assertGreater(len(fonts), 10)
        least = 12 if paper == "a3" else 7
        self.assertGreaterEqual(min(float(font.get("size")) for font in fonts), least - 0.01)
        colours = {letter.get("color") for letter in tree.findall(".//char")}
        # White stands on black alone: unit_card_layout holds that.
        pale = [colour for colour in colours - {"#ffffff"} if contrast_on_white(colour) < 7]
        self.assertEqual(pale, [])


if __name__ == "__main__":
    Papers.program = str(pathlib.Path(sys.argv.pop(1)).resolve())
    while len(sys.argv) > 1 and pathlib.Path(sys.argv[1]).is_dir():
        Papers.sources += sorted(pathlib.Path(sys.argv.pop(1)).glob("*.stave"))
    unittest.main()
