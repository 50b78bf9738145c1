"""Texts of a source that would break out of a feed, a page or a card: refused with a name, or
harmless in all three.

usage: hostile_titles.py STAVE [unittest options]

Feeds are read by five readers, pages by html5lib, cards by poppler and qpdf, pictures by expat.
What must not come through: RFC 5545, sections 3.1 and 3.3.11; the HTML Living Standard's parsing
rules; actions of ISO 32000-1, section 12.6.
"""

import pathlib
import re
import subprocess
import sys
import tempfile
import unicodedata
import unittest
import xml.etree.ElementTree

import html5lib

import readers
import strict_feed

ERRORS_PAGE = pathlib.Path(__file__).resolve().parents[2] / "grammar/ERRORS.md"
BASE = "https://crew.example.org/"
SVG = "{http://www.w3.org/2000/svg}"

TEXTS = [
    # Feeds.
    "BEGIN:VEVENT", "END:VCALENDAR", "\\nEND:VCALENDAR", "a\\nEND:VEVENT\\nBEGIN:VEVENT\\nUID:x",
    "\\", "a\\", "\\\\n \\, \\; \\N", ";,:;,:", '"; x="y', "ATTENDEE;X=1:mailto:x@example.org",
    "DTSTART:19700101T000000Z", "^n^'^^", "é" * 150, "x" * 64 + "é" * 40,
    # Pages and pictures.
    "<script>alert(1)</script>", "</title></style></bdi></h3><img src=x onerror=alert(1)>",
    "\" onmouseover=\"alert(1)\" x='", "&lt;b&gt; &amp;amp; &#60;i&#62; &nbsp", "<!-- --> ]]> <?php ?>",
    "javascript:alert(1)", "${x} {{x}} {0} %s %n %41",
    # Cards.
    "(x) Tj ET endstream endobj", "<< /S /JavaScript /JS (app.alert(1)) >>", "\\(\\)\\051\\000",
    "%%EOF", "/../../etc/passwd", "..", "CON.pdf", "-rf",
    # Marks and controls.
    *(f"a{chr(value)}b" for value in (*range(0x0a), *range(0x0b, 0x20), *range(0x7f, 0xa0))),
    "a\u2028END:VEVENT", "a\u2029b", "a\u0085END:VEVENT", "a\u200fb", "a\u200eb", "a\u202eb\u202c",
    "a\u2066b\u2069", "a\u061cb", "\ufeffBEGIN:VEVENT", "a\u200bb\u200db\u2060c", "שלום (12)", "ليلة",
    "潮", "🚣", "\ufdd0\uffff", "\U0010ffff", "\U000e0041", "\ufff9a\ufffab\ufffb", "\ud800",
]
# Lines that end a text by themselves; what comes behind them is a line of its own.
LINES = ["a\rEND:VEVENT", "a\r\nEND:VCALENDAR", "a\nBEGIN:VEVENT"]


def catalogued():
    """The names of all problems that Stave can find."""
    return set(re.findall(r"(?m)^#+ ([a-z0-9-]+)$", ERRORS_PAGE.read_text("utf-8")))


def as_told(text):
    """As the notation says that a text is read: composed, blanks are one, nothing unseen."""
    text = re.sub("[\u200b-\u200d\u2060\ufeff]", "", unicodedata.normalize("NFC", text))
    return " ".join(text.split())


def source_of(number, text):
    return (f"session {number}: {text}\n"
            f"when: 2026-12-{1 + number % 28:02} 18:30\n"
            f"place: {text}\nnote: {text}\n\nsets:\n  row: 500 m\n    cue: {text}\n\n")


def bare(text):
    """Without blanks, as lines are broken where there is room."""
    return re.sub(r"\s", "", text)


class HostileTitles(unittest.TestCase):
    stave = ""

    def setUp(self):
        holder = tempfile.TemporaryDirectory()
        self.addCleanup(holder.cleanup)
        self.folder = pathlib.Path(holder.name)

    def run_stave(self, command, source, *words):
        (self.folder / "crew.stave").write_bytes(source.encode("utf-8", "surrogatepass"))
        return subprocess.run([self.stave, command, "crew.stave", *words, "--diagnostics", "line"],
                              cwd=self.folder, capture_output=True, text=True, check=False)

    def is_refused(self, text):
        """Whether it is, by name and with nothing written."""
        done = self.run_stave("publish", source_of(1, text), "--out", "refused", "--svg")
        codes = set(re.findall(r"(?m) error: .* \[([a-z0-9-]+)\]$", done.stderr))
        self.assertEqual(done.returncode, 1 if codes else 0, (text, done.stderr))
        if not codes:
            return False
        self.assertLessEqual(codes, catalogued(), text)
        # A refusal is no way out either.
        self.assertNotRegex(done.stderr, r"[\x00-\x09\x0b-\x1f\x7f-\x9f\u202e\u2028\ud800]")
        return True

    def test_what_ends_a_line_makes_a_line_that_is_none(self):
        for text in LINES:
            self.assertTrue(self.is_refused(text), text)
            self.assertFalse((self.folder / "refused").exists())

    def test_all_others_are_refused_or_harmless(self):
        accepted = []
        for text in TEXTS:
            if not self.is_refused(text):
                accepted.append(text)
        # Both are there.
        self.assertGreater(len(accepted), 30)
        self.assertGreater(len(TEXTS) - len(accepted), 60)
        for unseen in ("a\0b", "a\x1bb", "a\u202eb\u202c", "a\u200fb", "\ud800", "潮"):
            self.assertNotIn(unseen, accepted)
        source = "".join(source_of(number, text) for number, text in enumerate(accepted, 1))
        done = self.run_stave("publish", source, "--out", "site", "--svg", "--base", BASE)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual(sorted(path.name for path in self.folder.iterdir()
                                if path.name != "refused"), ["crew.stave", "site"])
        titles = {f"Session {number}: {as_told(text)}": as_told(text)
                  for number, text in enumerate(accepted, 1)}
        self.check_feed(titles)
        self.check_pages(titles)
        self.check_cards(titles)

    def check_feed(self, titles):
        feed = (self.folder / "site/feeds/crew.ics").read_bytes()
        self.assertEqual(strict_feed.check(self.without_addresses(feed)), [])
        for name, reader in readers.readers_of(self.stave).items():
            found = dict(reader(feed))
            self.assertEqual(len(found), len(titles), name)
            if name in readers.READS_BACKSLASHES:
                self.assertEqual({each["summary"]: each["location"] for each in found.values()},
                                 titles, name)
            self.assertEqual({each["status"] for each in found.values()}, {"CONFIRMED"}, name)

    @staticmethod
    def without_addresses(feed):
        """The strict reader knows the anatomy of feeds that say not where they come from."""
        return re.sub(rb"(?m)^(URL|SOURCE);VALUE=URI:.*\r\n(?: .*\r\n)*", b"", feed)

    def check_pages(self, titles):
        for path in sorted((self.folder / "site").rglob("*.html")):
            parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
            root = parser.parse(path.read_text("utf-8"))
            elements = [element for element in root.iter() if isinstance(element.tag, str)]
            self.assertEqual({element.tag for element in elements}
                             & {"script", "img", "iframe", "object", "form", "link"}, set())
            for element in elements:
                self.assertFalse([name for name in element.attrib if name.startswith("on")])
                self.assertNotRegex(element.get("href", ""), r"^(javascript|data):")
        root = html5lib.parse((self.folder / "site/feeds/crew.html").read_text("utf-8"),
                              namespaceHTMLElements=False)
        shown = {" ".join("".join(heading.itertext()).split()) for heading in root.iter("h3")}
        self.assertEqual(shown, set(titles))

    def check_cards(self, titles):
        cards = sorted((self.folder / "site/cards").glob("*.pdf"))
        self.assertEqual(len(cards), len(titles))
        shown = set()
        for card in cards:
            self.assertRegex(card.name, r"^session-\d+[a-z0-9-]*\.pdf$")
            # Warnings have an exit code of their own.
            subprocess.run(["qpdf", "--check", card], check=True, capture_output=True)
            plain = subprocess.run(["qpdf", "--qdf", "--object-streams=disable", card, "-"],
                                   check=True, capture_output=True).stdout
            outside = re.sub(rb"(?s)stream\n.*?\nendstream|\((?:[^\\()]|\\.)*\)|<[0-9a-f]*>", b"",
                             plain)
            self.assertNotRegex(outside, rb"/(JavaScript|JS|OpenAction|AA|Launch|EmbeddedFile)\b")
            told = subprocess.run(["pdftotext", "-raw", card, "-"], check=True, capture_output=True)
            text = bare(told.stdout.decode("utf-8"))
            number = re.match(r"session-(\d+)", card.name).group(1)
            wanted = [place for title, place in titles.items()
                      if title.startswith(f"Session {number}:")]
            shown.update(each for each in wanted if bare(each) in text)
            svg = xml.etree.ElementTree.parse(card.with_suffix(".svg")).getroot()
            self.assertEqual({element.tag for element in svg.iter()}
                             & {SVG + name for name in ("script", "foreignObject", "image")}, set())
            for element in svg.iter():
                links = [value for name, value in element.attrib.items() if name.endswith("href")]
                self.assertTrue(all(link.startswith((BASE, "#")) for link in links), links)
                self.assertFalse([name for name in element.attrib if name.startswith("on")])
        # What is longer is broken or cut.
        self.assertEqual({text for text in titles.values() if len(text) < 60} - shown, set())


if __name__ == "__main__":
    HostileTitles.stave = str(pathlib.Path(sys.argv.pop(1)).resolve())
    unittest.main()
