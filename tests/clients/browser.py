"""Published pages in Chromium: what axe-core finds, whether all stands within the screen, pictures.

usage: browser.py STAVE EXAMPLES [unittest options]

axe-core holds them against WCAG 2.0 and 2.1, levels A and AA, and its own best practices. That a
page needs no sideways scrolling on a telephone is WCAG 2.1, success criterion 1.4.10 (320 CSS
pixels), also with text of twice the size (1.4.4). The pictures stay in the build folder.
"""

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

TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice"]
# Width, height and the size of the root's text, in CSS pixels.
SCREENS = {"telephone": (320, 640, 16), "large-text": (320, 640, 32), "desk": (1280, 800, 16)}
SCHEMES = ("light", "dark")

# Texts whose boxes stick out of the page; those for the ear alone have a box of one pixel.
STICKING_OUT = """
const isUnseen = element => element !== null
    && (element.getBoundingClientRect().width <= 1 || isUnseen(element.parentElement));
return [...document.body.querySelectorAll("*")].filter(element => {
  const box = element.getBoundingClientRect();
  return element.childElementCount === 0 && element.textContent.trim() !== ""
      && (box.left < -0.5 || box.right > document.documentElement.clientWidth + 0.5)
      && !isUnseen(element);
}).map(element => element.outerHTML.slice(0, 120));
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
                        "pocket.stave", "--out", "site", "--base", "https://crew.example.org/"],
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
        return pages

    def every_view(self):
        for number, page in enumerate(self.pages()):
            for screen in SCREENS:
                for scheme in SCHEMES:
                    self.show(page, screen, scheme)
                    yield f"{number}-{page.stem}-{screen}-{scheme}"

    def test_axe_finds_nothing(self):
        for name in self.every_view():
            self.driver.execute_script(self.axe)
            found = self.driver.execute_async_script(
                "const done = arguments[1];"
                "axe.run(document, {runOnly: arguments[0]}).then(done, e => done(String(e)));", TAGS)
            self.assertIsInstance(found, dict, found)
            self.assertGreater(len(found["passes"]), 10)
            self.assertEqual([(one["id"], one["nodes"][0]["html"]) for one in found["violations"]],
                             [], name)

    def test_all_stands_within_the_screen(self):
        for name in self.every_view():
            widths = self.driver.execute_script(
                "const page = document.documentElement; return [page.scrollWidth, page.clientWidth]")
            self.assertLessEqual(*widths, name)
            self.assertEqual(self.driver.execute_script(STICKING_OUT), [], name)

    def test_a_page_has_something_on_it_in_both_schemes(self):
        for name in self.every_view():
            picture = self.pictures / f"{name}.png"
            self.assertTrue(self.driver.save_screenshot(str(picture)))
            with Image.open(picture) as shown:
                colours = shown.convert("L").getcolors(256)
            levels = [level for _, level in colours]
            most = max(colours)[1]
            self.assertGreater(max(levels) - min(levels), 150)
            self.assertEqual(most > 127, "light" in name, f"{name}: its ground has level {most}")


if __name__ == "__main__":
    Browser.stave = str(pathlib.Path(sys.argv.pop(1)).resolve())
    Browser.examples = pathlib.Path(sys.argv.pop(1)).resolve()
    unittest.main()
