"""Pictures of cards: `stave build --svg`, `stave preview`.

usage: pictures.py STAVE [unittest options]
"""

import struct
from xml.etree import ElementTree

import program
from program import GOOD, InFolder

SVG = "{http://www.w3.org/2000/svg}"


class Svg(InFolder):
    def test_stands_beside_the_card_a_file_for_each_page(self):
        self.write("slack.stave", GOOD)
        told = self.stave("build", "slack.stave", "--svg", "--technique")
        self.assertEqual((told.code, told.err), (0, ""))
        self.assertIn("picture stave-out/cards/session-4-slack-water.svg\n", told.out)
        names = sorted(path.name for path in (self.folder / "stave-out/cards").iterdir())
        self.assertEqual(names, ["session-4-slack-water-2.svg", "session-4-slack-water.pdf",
                                 "session-4-slack-water.svg"])
        for name in names:
            if name.endswith(".svg"):
                root = ElementTree.parse(self.folder / "stave-out/cards" / name).getroot()
                self.assertEqual(root.tag, SVG + "svg")
                self.assertEqual(root.find(SVG + "title").text, "Slack water")
                self.assertIn("Slack water", root.find(SVG + "desc").text)
        before = self.files()
        self.assertIn("svg (as before)", self.stave("build", "slack.stave", "--svg",
                                                    "--technique").out)
        self.assertEqual(self.files(), before)

    def test_is_made_only_when_asked_for(self):
        self.build_good()


class Preview(InFolder):
    def pictures(self):
        return sorted(path.name for path in (self.folder / "stave-out/cards").iterdir())

    def size(self, name):
        """A PNG begins with eight bytes, then its head: length, "IHDR", width, height."""
        head = (self.folder / "stave-out/cards" / name).read_bytes()[:24]
        self.assertEqual(head[:16], b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR")
        return struct.unpack(">II", head[16:])

    def test_draws_every_page_and_nothing_else(self):
        self.write("slack.stave", GOOD)
        told = self.stave("preview", "slack.stave", "--technique", "--dpi", "72")
        self.assertEqual((told.code, told.err), (0, ""))
        self.assertEqual(self.pictures(),
                         ["session-4-slack-water-2.png", "session-4-slack-water.png"])
        self.assertFalse((self.folder / "stave-out/feeds").exists())
        self.assertEqual(self.size("session-4-slack-water.png"), (595, 842))
        before = self.files()
        told = self.stave("preview", "slack.stave", "--technique", "--dpi", "72")
        self.assertIn("png (as before)", told.out)
        self.assertEqual(self.files(), before)

    def test_draws_one_page_as_finely_as_asked(self):
        self.write("slack.stave", GOOD)
        self.stave("preview", "slack.stave", "--technique", "--page", "2", "--dpi", "144")
        self.assertEqual(self.pictures(), ["session-4-slack-water-2.png"])
        self.assertEqual(self.size("session-4-slack-water-2.png"), (1191, 1684))

    def test_says_when_there_is_no_such_page(self):
        self.write("slack.stave", GOOD)
        told = self.stave("preview", "slack.stave", "--page", "2")
        self.assertEqual((told.code, told.out), (0, "session-4-slack-water has no page 2\n"))
        self.assertEqual(self.files(), {})

    def test_refuses_sizes_that_are_no_use(self):
        self.write("slack.stave", GOOD)
        for words in (["--dpi", "0"], ["--dpi", "100000"], ["--page", "0"]):
            self.assertEqual(self.stave("preview", "slack.stave", *words).code, 2, words)


if __name__ == "__main__":
    program.main()
