"""Pictures of cards: `stave build --svg`.

usage: pictures.py STAVE [unittest options]
"""

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


if __name__ == "__main__":
    program.main()
