"""Published pages in Chromium: what axe-core finds, whether all stands within the screen, pictures.

usage: browser.py STAVE EXAMPLES [unittest options]

axe-core holds them against WCAG 2.0 to 2.2, levels A and AA, and its own best practices. That a
page needs no sideways scrolling on a telephone is WCAG 2.1, success criterion 1.4.10 (320 CSS
pixels), also with text of twice the size (1.4.4). The pictures stay in the build folder: of each
view what a person sees first, and of each page all that is on it, as a telephone of today shows it.
"""

import base64
import io
import pathlib
import shutil
import subprocess
import sys
import tempfile
import unittest

from PIL import Image
from selenium import webdriver
from selenium.webdriver.chrome.service import Service

import npm_packages

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
# Width, height and the size of the root's text, in CSS pixels.
SCREENS = {"telephone": (320, 640, 16), "large-text": (320, 640, 32), "phone": (390, 844, 16),
           "desk": (1280, 800, 16)}
SCHEMES = ("light", "dark")
ATHLETES = ("Inês Prata", "Jonas Feld", "Mara Lindqvist")

# What is for the ear alone has a box of one pixel.
SEEN = """
const isUnseen = element => element !== null
    && (element.getBoundingClientRect().width <= 1 || isUnseen(element.parentElement));
"""
# Whatever sticks out of the page, has text that does, or is wider inside than it is.
STICKING_OUT = SEEN + """
const width = document.documentElement.clientWidth;
const isOut = box => box.width > 0 && (box.left < -0.5 || box.right > width + 0.5);
const textBoxes = element => [...element.childNodes]
    .filter(node => node.nodeType === Node.TEXT_NODE && node.textContent.trim() !== "")
    .flatMap(node => {
      const range = document.createRange();
      range.selectNode(node);
      return [...range.getClientRects()];
    });
return [document.body, ...document.body.querySelectorAll("*")].filter(element =>
  (isOut(element.getBoundingClientRect()) || textBoxes(element).some(isOut)
      || (element.clientWidth > 0 && element.scrollWidth > element.clientWidth + 1))
  && !isUnseen(element)
).map(element => element.outerHTML.slice(0, 120));
"""
# The lines of text that a person sees without scrolling: [left, top, right, bottom, text].
SEEN_LINES = SEEN + """
const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
const lines = [];
for (let node = walker.nextNode(); node; node = walker.nextNode()) {
  if (node.textContent.trim() === "" || isUnseen(node.parentElement)
      || !node.parentElement.checkVisibility({checkVisibilityCSS: true, checkOpacity: true}))
    continue;
  const range = document.createRange();
  range.selectNode(node);
  for (const box of range.getClientRects())
    if (box.width > 2 && box.top >= 0 && box.bottom <= innerHeight)
      lines.push([box.left, box.top, box.right, box.bottom, node.textContent.trim()]);
}
return lines;
"""


class Browser(unittest.TestCase):
    stave = ""
    examples = pathlib.Path()

    @classmethod
    def setUpClass(cls):
        holder = tempfile.TemporaryDirectory()
        cls.addClassCleanup(holder.cleanup)
        cls.site = pathlib.Path(holder.name) / "site"
        sources = ["skerry-point-crew", "skerry-point-autumn", "pocket"]
        for name in sources:
            shutil.copy(cls.examples / f"{name}.stave", holder.name)
        subprocess.run([cls.stave, "publish", *(f"{name}.stave" for name in sources), "--private",
                        "pocket.stave", "--out", "site", "--base", "https://crew.example.org/",
                        "--now", "2026-11-20T12:00:00Z"],
                       cwd=holder.name, check=True, capture_output=True)
        packages = npm_packages.installed(cls.stave)
        cls.axe = (packages / "node_modules/axe-core/axe.min.js").read_text("utf-8")
        cls.pictures = packages.parent / "pictures"
        cls.pictures.mkdir(exist_ok=True)
        options = webdriver.ChromeOptions()
        options.binary_location = "/usr/bin/chromium"
        # Tests run as root in containers, where the sandbox and the shared memory are lacking.
        for word in ("--headless=new", "--no-sandbox", "--disable-dev-shm-usage", "--disable-gpu",
                     "--hide-scrollbars", f"--user-data-dir={holder.name}/profile"):
            options.add_argument(word)
        cls.driver = webdriver.Chrome(service=Service("/usr/bin/chromedriver"), options=options)
        cls.addClassCleanup(cls.driver.quit)

    def show(self, page, screen, scheme):
        width, height, text = SCREENS[screen]
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {
            "width": width, "height": height, "deviceScaleFactor": 1, "mobile": False})
        self.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {
            "features": [{"name": "prefers-color-scheme", "value": scheme}]})
        self.driver.get(page.as_uri())
        self.driver.execute_script("document.documentElement.style.fontSize = arguments[0]",
                                   f"{text}px")

    def pages(self):
        pages = sorted(self.site.rglob("*.html"))
        kinds = {str(page.relative_to(self.site)).split("/")[0] for page in pages}
        self.assertEqual(kinds, {"index.html", "feeds", "private"})
        # The sessions kept private, and a page of each person's own.
        self.assertEqual(len([page for page in pages if "private" in page.parts]),
                         1 + len(ATHLETES))
        return pages

    def page_of(self, name):
        """Of a person, at the address that is kept beside the source."""
        kept = (self.site.parent / "skerry-point-crew.addresses").read_text("utf-8")
        tokens = dict(line.split(": ") for line in kept.splitlines() if ": " in line)
        return self.site / "private" / tokens[f"athlete {name}"] / "index.html"

    def every_view(self):
        for number, page in enumerate(self.pages()):
            for screen in SCREENS:
                for scheme in SCHEMES:
                    self.show(page, screen, scheme)
                    yield f"{number}-{page.stem}-{screen}-{scheme}"

    def test_each_view_can_be_read_by_everybody(self):
        for name in self.every_view():
            with self.subTest(view=name):
                self.check_width()
                self.check_picture(name)
                self.check_by_axe()

    def check_by_axe(self):
        self.driver.execute_script(self.axe)
        found = self.driver.execute_async_script(
            "const done = arguments[1];"
            "axe.run(document, {runOnly: arguments[0]}).then(done, e => done(String(e)));", TAGS)
        self.assertIsInstance(found, dict, found)
        self.assertGreater(len(found["passes"]), 10)
        self.assertEqual([(one["id"], one["nodes"][0]["html"]) for one in found["violations"]], [])

    def check_width(self):
        widths = self.driver.execute_script(
            "const page = document.documentElement; return [page.scrollWidth, page.clientWidth]")
        self.assertLessEqual(*widths)
        self.assertEqual(self.driver.execute_script(STICKING_OUT), [])

    def check_picture(self, name):
        picture = self.pictures / f"{name}.png"
        self.assertTrue(self.driver.save_screenshot(str(picture)))
        with Image.open(picture) as shown:
            grey = shown.convert("L")
        levels = dict(reversed(pair) for pair in grey.getcolors(256))
        ground = max(levels, key=levels.get)
        self.assertEqual(ground > 127, "light" in name, f"its ground has level {ground}")
        self.check_ink(name, grey)

    def check_ink(self, name, grey):
        """Each line of text that should be seen is, against what lies around it."""
        lines = self.driver.execute_script(SEEN_LINES)
        self.assertGreater(len(lines), 3 if "large-text" in name else 8)
        for left, top, right, bottom, text in lines:
            box = grey.crop((int(left), int(top), int(right) + 1, int(bottom) + 1))
            levels = box.getcolors(256)
            _, around = max(levels)
            ink = sum(count for count, level in levels if abs(level - around) > 100)
            self.assertGreater(ink / (box.width * box.height), 0.01, f"{text} is not seen")

    def test_the_checks_find_faults(self):
        page = self.site.parent / "fault.html"
        text = "<p>Ebb and flood</p>" * 9
        for fault, check in (
                # Not the innermost element, and text of an element that has others too.
                ("<div style='width: 2000px'><p style='width: 9px'>a</p></div>", "width"),
                ("<p style='white-space: nowrap'>" + "tide " * 99 + "<b>b</b></p>", "width"),
                ("<p style='color: #fff'>unseen</p>", "picture"),
                ("<style>body { visibility: hidden }</style>", "picture"),
                ("<style>:root { background: #000; color: #fff }</style>", "picture"),
                # WCAG 2.2, 2.5.8: targets of less than 24 CSS pixels side by side.
                (2 * "<button style='display: block; width: 9px; height: 9px; padding: 0'>a</button>",
                 "axe")):
            page.write_text(f"<!DOCTYPE html><html lang=en><meta charset=utf-8><title>Tides</title>"
                            f"<main><h1>Tides</h1>{text}{fault}</main>", "utf-8")
            self.show(page, "phone", "light")
            checks = {"width": self.check_width, "axe": self.check_by_axe,
                      "picture": lambda: self.check_picture("fault-light")}
            with self.subTest(fault=fault), self.assertRaises(AssertionError):
                checks[check]()

    def test_a_persons_own_page_is_theirs(self):
        for name in ATHLETES:
            page = self.page_of(name)
            for scheme in SCHEMES:
                self.show(page, "phone", scheme)
                text = self.driver.find_element("tag name", "body").text
                self.assertIn(name.split()[0], self.driver.find_element("tag name", "h1").text)
                self.assertIn("2026", text)
                for other in ATHLETES:
                    self.assertEqual(other in text, other == name, f"{other} on the page of {name}")
                # Their card and their feed are where the page says.
                links = [link.get_attribute("href") for link in
                         self.driver.find_elements("css selector", "a[href]")]
                for ending in (".pdf", ".ics"):
                    self.assertTrue(any(link.endswith(ending) for link in links), links)

    def test_what_is_folded_away_shows_that_it_can_be_opened(self):
        """The triangle of HTML's own: Living Standard, section 15.5.6."""
        folded = 0
        for page in self.pages():
            self.show(page, "phone", "light")
            for summary in self.driver.find_elements("css selector", "summary"):
                folded += 1
                self.assertEqual(summary.value_of_css_property("display"), "list-item")
                self.assertIn("disclosure", summary.value_of_css_property("list-style-type"))
                # WCAG 2.2, 2.5.8: 24 CSS pixels.
                self.assertGreaterEqual(summary.size["height"], 24)
        self.assertGreater(folded, 0)

    def test_pages_end_where_their_text_does(self):
        """Pictures of whole pages, for people to look at."""
        for number, page in enumerate(self.pages()):
            for scheme in SCHEMES:
                self.show(page, "phone", scheme)
                shot = self.driver.execute_cdp_cmd("Page.captureScreenshot", {
                    "format": "png", "captureBeyondViewport": True})
                data = base64.b64decode(shot["data"])
                (self.pictures / f"{number}-{page.stem}-whole-{scheme}.png").write_bytes(data)
                with Image.open(io.BytesIO(data)) as shown:
                    grey = shown.convert("L")
                self.assertEqual(grey.width, SCREENS["phone"][0])
                height = self.driver.execute_script("return document.documentElement.scrollHeight")
                self.assertEqual(grey.height, height)
                # No stretch of more than half a screen without anything on it.
                rows = [max(row) - min(row) > 60 for row in
                        (grey.crop((0, y, grey.width, y + 1)).getdata() for y in range(height))]
                longest = max(len(part) for part in
                              "".join("x" if row else " " for row in rows).split("x"))
                self.assertLess(longest, SCREENS["phone"][1] // 2, page.name)


if __name__ == "__main__":
    Browser.stave = str(pathlib.Path(sys.argv.pop(1)).resolve())
    Browser.examples = pathlib.Path(sys.argv.pop(1)).resolve()
    unittest.main()
