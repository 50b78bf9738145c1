"""Places that do not take what is written: older cards and feeds stay whole.

usage: bad_places.py STAVE [unittest options]

Some checks need rights that not every machine gives. They then say on standard
error what was left out, and what can be checked without is checked.
"""

import contextlib
import os
import resource
import subprocess
import sys
import unittest

import program
from program import GOOD, OTHER, InFolder

# Debian's `nobody`; any user who owns nothing here will do.
NOBODY = 65534


def leave_out(what, why):
    print(f"left out: {what}: {why}", file=sys.stderr)


class BadPlaces(InFolder):
    def refused(self, *expected, source=OTHER, **more):
        """A build of a changed session that fails and leaves everything as it was."""
        before = self.files()
        self.write("slack.stave", source)
        told = self.lines("build", "slack.stave", **more)
        self.assertEqual((told.code, told.out), (3, ""), told.err)
        self.assertEqual(told.codes(), list(expected), told.err)
        self.assertEqual(self.files(), before)
        return told


class Folders(BadPlaces):
    def test_a_file_where_the_output_folder_should_be(self):
        self.write("stave-out", "kept")
        self.refused("cannot-write")
        self.assertEqual((self.folder / "stave-out").read_text(), "kept")

    def test_a_file_where_a_folder_in_it_should_be(self):
        for name in ["cards", "feeds"]:
            with self.subTest(name=name):
                path = self.write(f"stave-out/{name}", "kept")
                self.refused("cannot-write")
                path.unlink()

    def test_a_folder_where_a_card_or_a_feed_should_be(self):
        for name in ["cards/session-4-slack-water.pdf", "feeds/slack.ics"]:
            with self.subTest(name=name):
                self.write(f"stave-out/{name}/inside", "kept")
                self.refused("cannot-write")
                (self.folder / "stave-out" / name / "inside").unlink()
                (self.folder / "stave-out" / name).rmdir()

    def test_a_pipe_where_a_card_or_a_feed_should_be(self):
        for name in ["cards/session-4-slack-water.pdf", "feeds/slack.ics"]:
            with self.subTest(name=name):
                path = self.folder / "stave-out" / name
                path.parent.mkdir(parents=True, exist_ok=True)
                os.mkfifo(path)
                self.refused("cannot-write")
                path.unlink()

    def test_a_name_too_long_for_the_disk(self):
        self.write("slack.stave", GOOD)
        told = self.lines("build", "slack.stave", "--out", "x" * 300)
        self.assertEqual((told.code, told.out, told.codes()), (3, "", ["cannot-read"]))

    def test_a_link_that_leads_nowhere(self):
        (self.folder / "stave-out").symlink_to("nowhere/at/all")
        self.refused("cannot-write")


class Rights(BadPlaces):
    """As another user, because the administrator's account may read and write all."""

    def as_other_user(self, what):
        """Keywords that run a program without rights; None where that cannot be."""
        if os.geteuid() != 0:
            return {}
        self.folder.chmod(0o755)
        user = {"user": NOBODY, "group": NOBODY, "extra_groups": []}
        try:
            probe = subprocess.run([self.program, "--version"], capture_output=True,
                                   cwd=self.folder, check=False, **user)
        except PermissionError as error:
            return leave_out(what, error)
        return leave_out(what, "the program may not be run") if probe.returncode else user

    def test_a_file_that_may_not_be_read(self):
        self.write("slack.stave", GOOD).chmod(0o000)
        user = self.as_other_user("a file that may not be read")
        if user is None:
            return
        told = self.lines("build", "slack.stave", **user)
        self.assertEqual((told.code, told.out, told.codes()), (3, "", ["cannot-read"]))

    def test_an_output_folder_that_may_not_be_written(self):
        before = self.build_good()
        user = self.as_other_user("a folder that may not be written")
        if user is None:
            return
        folders = [self.folder / "stave-out" / name for name in ("cards", "feeds")]
        for folder in folders:
            folder.chmod(0o555)
        self.write("slack.stave", OTHER)
        told = self.lines("build", "slack.stave", **user)
        self.assertEqual((told.code, told.out, told.codes()), (3, "", ["cannot-write"]))
        self.assertEqual(self.files(), before)
        for folder in folders:
            folder.chmod(0o755)


class FullDisk(BadPlaces):
    def with_largest_file(self, size):
        """Files end at `size` bytes, as on a disk with no more room: SIGXFSZ, then EFBIG."""
        return {"preexec_fn": lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))}

    def test_no_room_for_the_first_build(self):
        self.refused("cannot-write", **self.with_largest_file(0))
        self.refused("cannot-write", **self.with_largest_file(4096))

    def test_no_room_for_a_changed_card(self):
        self.build_good()
        for size in [0, 1, 100, 2000, 8000]:
            with self.subTest(size=size):
                self.refused("cannot-write", **self.with_largest_file(size))

    def test_room_for_the_feed_but_not_for_the_card(self):
        before = self.build_good()
        sizes = sorted(len(content) for content, _ in before.values())
        self.refused("cannot-write", **self.with_largest_file(sizes[0] + 500))

    def test_a_disk_of_a_few_blocks(self):
        small = self.folder / "stave-out"
        small.mkdir()
        mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=56k", "none", str(small)],
                                 capture_output=True, check=False)
        if mounted.returncode:
            leave_out("a full disk of its own", mounted.stderr.decode().strip())
            return
        self.addCleanup(subprocess.run, ["umount", str(small)], check=True)
        self.build_good()
        with contextlib.suppress(OSError):
            with open(small / "filling", "wb", buffering=0) as filling:
                while filling.write(b"\0" * 4096):
                    pass
        told = self.refused("cannot-write")
        self.assertIn("No space left", told.err)
        (small / "filling").unlink()
        self.assertEqual(self.stave("build", "slack.stave").code, 0)


class StandardOutput(BadPlaces):
    def run_into(self, stdout, *words):
        run = subprocess.run([self.program, *words, "--diagnostics", "line"], stdout=stdout,
                             stderr=subprocess.PIPE, cwd=self.folder, timeout=program.SECONDS,
                             check=False)
        return program.Result(run.returncode, "", run.stderr.decode())

    def test_a_full_device(self):
        self.write("slack.stave", GOOD)
        for words in [["build", "slack.stave"], ["explain", "slack.stave"],
                      ["explain", "--json", "slack.stave"], ["dump", "page", "slack.stave"]]:
            with open("/dev/full", "wb") as full:
                told = self.run_into(full, *words)
            self.assertEqual((told.code, told.codes()), (3, ["cannot-write"]), words)

    def test_a_reader_who_has_gone(self):
        self.write("slack.stave", GOOD)
        theirs, ours = os.pipe()
        os.close(theirs)
        with os.fdopen(ours, "wb") as broken:
            told = self.run_into(broken, "explain", "slack.stave")
        self.assertEqual((told.code, told.codes()), (3, ["cannot-write"]))

    def test_closed(self):
        before = self.build_good()
        told = self.lines("explain", "slack.stave", preexec_fn=lambda: os.close(1))
        self.assertEqual((told.code, told.codes()), (3, ["cannot-write"]))
        self.assertEqual(self.lines("check", "slack.stave", preexec_fn=lambda: os.close(1)).code, 0)
        self.assertEqual(self.files(), before)

    def test_closed_streams_never_let_words_run_into_a_file(self):
        expected = self.build_good()
        for streams in [(0,), (1,), (2,), (0, 1), (1, 2), (0, 1, 2)]:
            for path in (self.folder / "stave-out").rglob("*.*"):
                path.unlink()
            self.stave("build", "slack.stave", env={"SOURCE_DATE_EPOCH": "0"},
                       preexec_fn=lambda closed=streams: [os.close(stream) for stream in closed])
            self.assertEqual(set(self.files()), set(expected))
            for name, (content, _) in self.files().items():
                self.assertEqual(content[:5], b"%PDF-" if name.endswith("pdf") else b"BEGIN")
                ending = b"%%EOF\n" if name.endswith("pdf") else b"END:VCALENDAR\r\n"
                self.assertEqual(content[-len(ending):], ending)


class OlderFiles(BadPlaces):
    FOREIGN = (b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Skerry Point//Rota//EN\r\n"
               b"BEGIN:VEVENT\r\nUID:1\r\nDTSTAMP:20260101T000000Z\r\nDTSTART:20260101T000000Z\r\n"
               b"END:VEVENT\r\nEND:VCALENDAR\r\n")

    def test_somebody_elses_calendar_is_refused(self):
        for content in [self.FOREIGN, b"notes of the coxswain\n", b"\0" * 5000, b"\n"]:
            with self.subTest(content=content[:20]):
                self.write("stave-out/feeds/slack.ics", content)
                self.refused("foreign-feed")

    def test_a_damaged_feed_of_our_own_is_refused(self):
        self.build_good()
        feed = self.folder / "stave-out/feeds/slack.ics"
        whole = feed.read_bytes()
        damaged = [whole[:len(whole) * part // 16] for part in range(1, 16)]
        damaged += [whole.replace(b"UID:", b"UXD:"), whole.replace(b"SEQUENCE:0", b"SEQUENCE:x"),
                    whole + whole, whole.replace(b"END:VEVENT\r\n", b"")]
        for content in damaged:
            feed.write_bytes(content)
            # Cut before the line that says whose it is, it is nobody's.
            self.refused("damaged-feed" if b"\r\nPRODID:-//Stave//Session calendar feed//EN\r\n" in content
                         else "foreign-feed")
        feed.write_bytes(whole)
        self.assertEqual(self.stave("build", "slack.stave").code, 0)

    def test_a_link_in_the_place_of_a_file_is_not_written_through_nor_replaced(self):
        self.build_good()
        for name in ("feeds/slack.ics", "cards/session-4-slack-water.pdf"):
            with self.subTest(name=name):
                place = self.folder / "stave-out" / name
                target = self.folder / "elsewhere" / place.name
                target.parent.mkdir(exist_ok=True)
                place.rename(target)
                place.symlink_to(target)
                whole = target.read_bytes()
                # Nothing new: nothing to write.
                self.write("slack.stave", GOOD)
                self.assertEqual(self.stave("build", "slack.stave").code, 0)
                told = self.refused("output-link")
                self.assertIn(name, told.err)
                self.assertEqual(target.read_bytes(), whole)
                self.assertTrue(place.is_symlink())
                place.unlink()
                target.rename(place)
        place.unlink()
        place.symlink_to("nowhere.pdf")
        self.refused("output-link")

    def test_an_emptied_feed_is_damaged_where_the_list_has_it(self):
        self.build_good()
        feed = self.folder / "stave-out/feeds/slack.ics"
        whole = feed.read_bytes()
        feed.write_bytes(b"")
        told = self.refused("damaged-feed")
        self.assertIn("is a feed of Stave that is not whole", told.err)
        # A copy in its place, and all goes on.
        feed.write_bytes(whole)
        self.assertEqual(self.stave("build", "slack.stave").code, 0)
        self.assertIn(b"SEQUENCE:1\r\n", feed.read_bytes())

    def test_an_older_copy_in_the_place_of_a_damaged_feed_goes_on(self):
        self.build_good()
        feed = self.folder / "stave-out/feeds/slack.ics"
        copy = feed.read_bytes()
        self.write("slack.stave", OTHER)
        self.assertEqual(self.stave("build", "slack.stave").code, 0)
        feed.write_bytes(b"")
        self.refused("damaged-feed", source=GOOD)
        feed.write_bytes(copy)
        self.write("slack.stave", OTHER)
        self.assertEqual(self.stave("build", "slack.stave").code, 0)
        self.assertIn(b"SEQUENCE:1\r\n", feed.read_bytes())

    def test_a_feed_of_a_later_version_is_refused(self):
        self.build_good()
        feed = self.folder / "stave-out/feeds/slack.ics"
        feed.write_bytes(feed.read_bytes().replace(b"X-STAVE-FORMAT:1\r\n", b"X-STAVE-FORMAT:2\r\n"))
        self.refused("newer-feed")

    def test_a_time_that_is_none_is_refused(self):
        self.write("slack.stave", OTHER)
        for words, env in [([], {"SOURCE_DATE_EPOCH": "yesterday"}),
                           (["--now", "2026-13-01T00:00:00Z"], {}), (["--now", "2026-12-01"], {})]:
            told = self.lines("build", "slack.stave", *words, env=env)
            self.assertEqual((told.code, told.out, told.codes()), (2, "", ["odd-clock"]))

    def test_an_empty_file_in_the_feeds_place_holds_nothing_to_lose(self):
        self.write("stave-out/feeds/slack.ics", "")
        self.build_good()

    def test_an_unchanged_session_leaves_its_files_alone(self):
        before = self.build_good()
        told = self.stave("build", "slack.stave")
        self.assertEqual((told.code, told.err), (0, ""))
        self.assertEqual(self.files(), before)
        self.assertEqual(told.out.count(" (as before)\n"), 2)

    def test_a_changed_session_changes_its_files_and_says_so(self):
        before = self.build_good()
        self.write("slack.stave", OTHER)
        told = self.stave("build", "slack.stave")
        self.assertEqual(told.code, 0)
        self.assertNotIn("as before", told.out)
        after = self.files()
        self.assertEqual(set(after), set(before))
        self.assertFalse([name for name in before if before[name][0] == after[name][0]])

    def test_what_killed_builds_left_is_cleared_away_at_once(self):
        """Where there are no locks it stays for an hour: kills.py."""
        before = self.build_good()
        place = self.folder / "stave-out/cards"
        old = [place / "session-4-slack-water.pdf.71.part", place / "gone.ics.4711.part"]
        fresh = place / "session-5.pdf.72.part"
        own = [place / name for name in ["notes.part", "a.pdf.part", "a.pdf.7x.part", "a.7.part"]]
        for path in [*old, fresh, *own]:
            path.write_bytes(b"half")
            if path != fresh:
                os.utime(path, (1_000_000_000, 1_000_000_000))
        self.assertEqual(self.stave("build", "slack.stave").code, 0)
        kept = {str(path.relative_to(self.folder)) for path in own}
        self.assertEqual(set(self.files()), set(before) | kept)


if __name__ == "__main__":
    program.main()
