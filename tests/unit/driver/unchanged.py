"""A build, or a publishing, of what has not changed says the same again without work; whatever
has, is made anew.

usage: unchanged.py STAVE [unittest options]

That no work was done shows in what is said: a word is put into what the last build keeps, and
comes back. The cache's place is that of the XDG Base Directory Specification.
"""

import json
import os
import unittest

import program
from program import GOOD, OTHER, InFolder

WARNED = GOOD.replace("4 x 5 @ 60 kg", "4 x 12 @ 90 %")
DAY = "1795700000"
NEXT_DAY = "1795800000"


class Remembering(InFolder):
    command = "build"

    def setUp(self):
        super().setUp()
        self.cache = self.folder / "cache"
        self.write("slack.stave", WARNED)
        self.first = self.build()

    def build(self, *words, day=DAY, cache=None):
        out = () if "--out" in words else ("--out", "stave-out")
        done = self.stave(self.command, "slack.stave", *out, *words,
                          env={"SOURCE_DATE_EPOCH": day, "XDG_CACHE_HOME": str(cache or self.cache)})
        self.assertEqual(done.code, 0, done.err)
        return done

    def kept(self):
        return sorted((self.cache / "stave").glob("*.json"))

    def mark(self):
        """What is kept says so from now on."""
        for path in self.kept():
            build = json.loads(path.read_text())
            build["summaries"] = "from memory\n"
            path.write_text(json.dumps(build))

    def is_remembered(self, *words, **more):
        return "from memory" in self.build(*words, **more).out

    def card(self):
        return self.folder / "stave-out/cards/session-4-slack-water.pdf"

    def is_noticed(self, path):
        """That a file is gone, longer or other; it is made again as it was."""
        text = path.read_bytes()
        for spoil in (lambda: path.unlink(), lambda: path.write_bytes(text + b" "),
                      lambda: path.write_bytes(text[:-1] + b" ")):
            self.mark()
            spoil()
            self.assertFalse(self.is_remembered(), path)
            self.assertEqual(path.read_bytes(), text)


class Unchanged(Remembering):
    def test_says_the_same_as_a_build_that_looks_at_everything(self):
        again = self.build()
        self.assertEqual(again.out.count("(as before)"), 2)
        self.assertIn("reps-over-table", again.err)
        looked = self.build(cache=self.folder / "elsewhere")
        self.assertEqual((again.out, again.err), (looked.out, looked.err))
        self.mark()
        self.assertTrue(self.is_remembered())

    def test_a_source_that_is_saved_is_read(self):
        self.mark()
        stat = os.stat(self.folder / "slack.stave")
        self.write("slack.stave", WARNED.replace("3 x max", "2 x max"))
        os.utime(self.folder / "slack.stave", ns=(stat.st_atime_ns, stat.st_mtime_ns))
        self.assertFalse(self.is_remembered())

    def test_a_file_that_is_taken_in_is_read(self):
        self.write("other.stave", OTHER.replace("session 4", "session 5"))
        self.write("slack.stave", "include: other.stave\n" + GOOD)
        self.build()
        self.mark()
        self.assertTrue(self.is_remembered())
        self.write("other.stave", OTHER.replace("session 4", "session 6"))
        self.assertFalse(self.is_remembered())

    def test_an_output_that_is_gone_or_changed_is_made_again(self):
        self.is_noticed(self.card())

    def test_the_list_of_the_folder_counts_as_an_output(self):
        self.mark()
        (self.folder / "stave-out" / program.LIST).unlink()
        self.assertFalse(self.is_remembered())

    def test_other_words_and_another_day_are_another_build(self):
        self.mark()
        for words in (["--svg"], ["--paper", "letter"], ["--lang", "pt"]):
            self.assertFalse(self.is_remembered(*words), words)
        self.assertFalse(self.is_remembered(day=NEXT_DAY))

    def test_a_damaged_memory_is_none(self):
        for text in ("", "{", "[]", '{"sources": 3}', '{"sources": {}, "outputs": [[1]]}'):
            for path in self.kept():
                path.write_text(text)
            self.assertEqual(self.build().out, self.build(cache=self.folder / "new").out)

    def test_nothing_is_kept_of_a_build_that_failed(self):
        for path in self.kept():
            path.unlink()
        self.write("slack.stave", GOOD.replace("60 kg", "60 miles"))
        failed = self.stave("build", "slack.stave", env={"XDG_CACHE_HOME": str(self.cache)})
        self.assertNotEqual(failed.code, 0)
        self.assertEqual(self.kept(), [])

    def test_only_its_owner_reads_what_is_kept_and_it_does_not_pile_up(self):
        self.assertEqual((self.cache / "stave").stat().st_mode & 0o777, 0o700)
        for number in range(40):
            self.build("--out", f"out-{number}")
        self.assertEqual(len(self.kept()), 32)

    def test_does_without_a_place_to_keep_it(self):
        (self.folder / "file").write_text("")
        for cache in (self.folder / "file", "relative"):
            self.assertIn("(as before)", self.build(cache=cache).out)
        self.assertFalse((self.folder / "relative").exists())


class UnchangedPublishing(Remembering):
    command = "publish"
    SECRET = ("--private", "slack.stave")

    def test_says_the_same_as_one_that_looks_at_everything(self):
        # What has a private address is not published for all again.
        for words in ((), ("--base", "https://crew.example.org/", "--svg"), self.SECRET):
            self.build(*words)
            again = self.build(*words)
            looked = self.build(*words, cache=self.folder / "elsewhere")
            self.assertEqual((again.out, again.err), (looked.out, looked.err))
            self.mark()
            self.assertTrue(self.is_remembered(*words), words)
        self.assertFalse(self.is_remembered("--lang", "pt", *self.SECRET))
        self.assertFalse(self.is_remembered(*self.SECRET, day=NEXT_DAY))

    def test_a_source_that_is_saved_is_read(self):
        self.mark()
        self.write("slack.stave", WARNED.replace("3 x max", "2 x max"))
        self.assertFalse(self.is_remembered())

    def test_an_output_that_is_gone_or_changed_is_made_again(self):
        self.is_noticed(self.card())
        self.mark()
        (self.folder / "stave-out/feeds/slack.html").unlink()
        self.assertFalse(self.is_remembered())
        self.assertTrue((self.folder / "stave-out/feeds/slack.html").exists())
        self.mark()
        (self.folder / "stave-out" / program.LIST).unlink()
        self.assertFalse(self.is_remembered())

    def test_an_address_that_is_revoked_is_noticed(self):
        # The first takes the public feed away; of such a run nothing is kept.
        self.assertIn("feed-dropped", self.build(*self.SECRET).err)
        self.build(*self.SECRET)
        self.mark()
        self.assertTrue(self.is_remembered(*self.SECRET))
        addresses = self.folder / "slack.addresses"
        before = addresses.read_text()
        addresses.write_text("")
        self.assertFalse(self.is_remembered(*self.SECRET))
        self.assertNotEqual(addresses.read_text(), before)
        self.mark()
        addresses.unlink()
        self.assertFalse(self.is_remembered(*self.SECRET))

    def test_a_build_into_the_same_folder_is_another_run(self):
        self.mark()
        self.command = "build"
        self.assertFalse(self.is_remembered())


if __name__ == "__main__":
    program.main()
