"""Published pages, read by a parser that others wrote and held against what readers need.

usage: pages.py STAVE PAGE_SAMPLE FOLDER... [unittest options]

Each page is parsed as strictly as python3-html5lib can, which knows the errors of the HTML
Living Standard's parsing rules (section 13.2). What a person needs who does not see or point is
read from the tree: WCAG 2.2, success criteria named beside the checks.
"""

import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import unittest
import urllib.parse

import html5lib

BASE = "https://crew.example.org/training/"
LANGUAGES = ("en", "pt", "es", "fr", "de", "pl", "el")
# What could end an element, an attribute or a text; none of it is refused by the notation.
HOSTILE = [
    "<script>alert(1)</script>",
    "</title></style></bdi></h3><img src=x onerror=alert(1)>",
    "\" onmouseover=\"alert(1)\" x='",
    "&lt;b&gt; &amp;amp; &#60;i&#62; &nbsp",
    "<!-- --> ]]> <?php ?> ${x} {{x}} %3Cb%3E",
    "javascript:alert(1)",
]
# What it refuses, since no card could hold it.
WORSE = ["ليلة البحر abc", "\u202eabc\u202d\u2066", "\u200f\u200e", "a\r\nb\x0bc\x7f\x85", "W" * 10_000,
         "\ufdd0\ufffe\U0010ffff", *map(chr, range(1, 32))]


def text_of(element):
    return "".join(element.itertext())


class Page:
    def __init__(self, path, html=None):
        self.path = path
        parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
        self.root = parser.parse(html or path.read_text("utf-8"))
        self.body = self.root.find("body")

    def all(self, tag):
        return list(self.root.iter(tag))


class Pages(unittest.TestCase):
    stave = ""
    sample = ""
    sources = ()

    def setUp(self):
        holder = tempfile.TemporaryDirectory()
        self.addCleanup(holder.cleanup)
        self.folder = pathlib.Path(holder.name)

    def publish(self, *words):
        done = subprocess.run([self.stave, "publish", "--out", str(self.folder / "site"), "--svg",
                               *map(str, words)], capture_output=True, text=True, check=False)
        self.assertEqual(done.returncode, 0, done.stderr)
        return [Page(path) for path in sorted((self.folder / "site").rglob("*.html"))]

    def hostile(self):
        text = "".join(
            f"session {number}: {title}\nwhen: 2026-12-{number + 1:02} 18:30\n"
            f"place: {title}\n\nsets:\n  row: 500 m\n\n"
            for number, title in enumerate(HOSTILE, start=1))
        path = self.folder / "<b>&\"' x.stave"
        path.write_text(text, "utf-8")
        return path

    def check_structure(self, page):
        name = page.path.name
        # 3.1.1, 2.4.2
        self.assertIn(page.root.get("lang"), LANGUAGES, name)
        self.assertEqual([len(page.all(tag)) for tag in ("title", "h1", "main", "header", "footer")],
                         [1, 1, 1, 1, 1], name)
        self.assertTrue(text_of(page.all("title")[0]).strip(), name)
        # 1.3.1: headings go down one step at a time.
        levels = [int(element.tag[1]) for element in page.body.iter()
                  if isinstance(element.tag, str) and re.fullmatch("h[1-6]", element.tag)]
        self.assertTrue(all(b <= a + 1 for a, b in zip(levels, levels[1:])), (name, levels))
        # 4.1.2: names that are referred to are there, once.
        names = [element.get("id") for element in page.root.iter() if element.get("id")]
        self.assertEqual(len(names), len(set(names)), name)
        for element in page.root.iter():
            for part in (element.get("aria-labelledby") or "").split():
                self.assertIn(part, names, name)
        # 2.4.4: no link without words; those of different places sound different.
        told = {}
        for link in page.all("a"):
            words = " ".join(text_of(link).split())
            self.assertTrue(words, name)
            self.assertEqual(told.setdefault(words, link.get("href")), link.get("href"), words)
        # 1.4.4: a page may be made larger.
        viewport = [meta for meta in page.all("meta") if meta.get("name") == "viewport"]
        self.assertNotRegex(viewport[0].get("content"), "maximum|user-scalable")

    def check_inert(self, page):
        elements = [element for element in page.root.iter() if isinstance(element.tag, str)]
        self.assertEqual([element.tag for element in elements
                          if element.tag in {"script", "img", "iframe", "object", "form", "link"}],
                         [], page.path.name)
        for element in elements:
            self.assertFalse([name for name in element.attrib if name.startswith("on")])
            self.assertFalse(element.get("style"))

    def check_links(self, page):
        site = (self.folder / "site").resolve()
        for link in page.all("a"):
            parts = urllib.parse.urlsplit(link.get("href"))
            if parts.scheme == "webcal":
                parts = urllib.parse.urlsplit(link.get("href").replace("webcal:", "https:", 1))
                self.assertTrue(parts.geturl().startswith(BASE))
                target = site / parts.geturl().removeprefix(BASE)
            elif parts.scheme:
                self.assertEqual(parts.scheme, "https")
                continue
            else:
                target = page.path.parent / urllib.parse.unquote(parts.path)
            self.assertTrue(target.resolve().is_file(), f"{link.get('href')} in {page.path}")
            self.assertTrue(target.resolve().is_relative_to(site))

    def check(self, pages):
        for page in pages:
            with self.subTest(page.path.name):
                self.check_structure(page)
                self.check_inert(page)
                self.check_links(page)

    def test_of_the_examples_in_every_language(self):
        for language in LANGUAGES:
            pages = self.publish("--lang", language, "--base", BASE, *self.sources)
            # A page of an athlete speaks the language of the athlete.
            public = [page for page in pages if "private" not in page.path.parts]
            self.assertEqual({page.root.get("lang") for page in public}, {language})
            self.check(pages)

    def test_without_an_address_lead_to_files_alone(self):
        # Its address is kept beside it.
        personal = shutil.copy(self.sources[3], self.folder)
        pages = self.publish(*self.sources[:3], "--private", personal)
        self.assertEqual(len(pages), 5)
        self.check(pages)
        for page in pages:
            self.assertNotIn("https:", "".join(link.get("href") for link in page.all("a")))

    def test_are_not_broken_by_what_is_typed(self):
        pages = self.publish(self.hostile(), "--base", BASE)
        self.check(pages)
        page = next(page for page in pages if page.path.parent.name == "feeds")
        shown = [text_of(heading) for heading in page.all("h3")]
        self.assertEqual(shown, [f"Session {number}: {title}"
                                 for number, title in enumerate(HOSTILE, start=1)])

    def test_are_not_broken_by_what_the_notation_refuses(self):
        titles = [*HOSTILE, *WORSE]
        data = b"".join(title.encode() + b"\0" for title in titles) + b"\xff\xc0\xaf\0"
        html = subprocess.run([self.sample], input=data, capture_output=True, check=True).stdout
        page = Page(pathlib.Path("sample"), html.decode("utf-8"))
        self.check_inert(page)
        shown = [text_of(heading) for heading in page.all("h3")]
        self.assertEqual(len(shown), len(titles) + 1)
        self.assertEqual(shown[:len(HOSTILE)], HOSTILE)
        # UAX 9: nothing is left that turns the direction of what follows.
        self.assertNotRegex(html.decode("utf-8"), "[\u202a-\u202e\u2066-\u2069]")

    def test_are_what_the_code_of_a_card_leads_to(self):
        """As zbar reads it from a picture by poppler."""
        source = self.folder / "quay.stave"
        for link, address in (("", f"{BASE}feeds/quay.html"),
                              ("link: https://a.example/own\n", "https://a.example/own")):
            source.write_text(f"session 1: Quay\n{link}sets:\n  row: 500 m\n", "utf-8")
            self.publish(source, "--base", BASE)
            subprocess.run(["pdftoppm", "-r", "150", "-png", "-singlefile",
                            self.folder / "site/cards/session-1-quay.pdf", self.folder / "card"],
                           check=True)
            read = subprocess.run(["zbarimg", "--quiet", "--raw", self.folder / "card.png"],
                                  capture_output=True, text=True, check=True)
            self.assertEqual(read.stdout.strip(), address)

    def test_have_contrast_in_light_and_dark_and_print(self):
        """WCAG 2.2, 1.4.3 asks for 4.5 : 1, 1.4.11 for 3 : 1 of what is no text; ours is 7."""
        style = text_of(self.publish(self.sources[0])[0].all("style")[0])
        colours = [dict(re.findall(r"--(\w+): (#\w+);", block))
                   for block in re.findall(r":root \{([^}]*)\}", style)]
        self.assertEqual(len(colours), 3)
        for each in colours:
            for name in ("ink", "soft", "link"):
                self.assertGreaterEqual(contrast(each[name], each["paper"]), 7, (name, each))
        # No other colour is set for text or behind it.
        others = set(re.findall(r"#[0-9a-f]{3,6}\b", re.sub(r":root \{[^}]*\}", "", style)))
        self.assertEqual(others, {"#000"})


def contrast(one, other):
    """WCAG 2.2, definitions of relative luminance and contrast ratio."""
    def luminance(colour):
        digits = colour[1:] if len(colour) == 7 else "".join(2 * digit for digit in colour[1:])
        parts = [int(digits[i:i + 2], 16) / 255 for i in (0, 2, 4)]
        linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
                  for part in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def main():
    Pages.stave = str(pathlib.Path(sys.argv.pop(1)).resolve())
    Pages.sample = str(pathlib.Path(sys.argv.pop(1)).resolve())
    folders = []
    while len(sys.argv) > 1 and pathlib.Path(sys.argv[1]).is_dir():
        folders.append(pathlib.Path(sys.argv.pop(1)))
    Pages.sources = sorted(path for folder in folders for path in folder.glob("*.stave"))
    unittest.main()


if __name__ == "__main__":
    main()
