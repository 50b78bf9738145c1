"""`stave publish`: what stands in the folder, what goes, what stays secret.

usage: publishing.py STAVE [unittest options]
"""

import base64
import hashlib
import json
import re
import stat
import unittest

import program
from program import GOOD, InFolder

BASE = "https://crew.example.org/training/"
MANIFEST = "site/stave-manifest.json"
SECRET = (GOOD.replace("Slack water", "Quiet cove").replace("Boathouse loft", "Ana's kitchen")
          .replace("session 4", "session 7"))


class Publishing(InFolder):
    def publish(self, *words, code=0, **more):
        env = {"SOURCE_DATE_EPOCH": "1790000000", **more}
        done = self.lines("publish", *words, "--out", "site", env=env)
        self.assertEqual(done.code, code, done.err)
        return done

    def names(self):
        return sorted(name.removeprefix("site/") for name in self.files("site", with_list=True))

    def text(self, name):
        return (self.folder / name).read_text("utf-8")

    def refused(self, code, *words, exit_code=3):
        before = self.files("site", with_list=True)
        told = self.publish(*words, code=exit_code)
        self.assertEqual(told.codes(), [code])
        self.assertEqual(self.files("site", with_list=True), before)
        return told


class Folder(Publishing):
    def test_holds_cards_feeds_pages_and_an_index(self):
        self.write("slack.stave", GOOD)
        self.publish("slack.stave")
        self.assertEqual(self.names(), ["cards/session-4-slack-water.pdf", "feeds/slack.html",
                                        "feeds/slack.ics", "index.html", "stave-manifest.json"])
        self.assertNotIn("webcal", self.text("site/index.html"))
        self.assertNotIn("URL", self.text("site/feeds/slack.ics"))

    def test_says_from_when_and_why_a_day_was_moved(self):
        self.write("crew.stave", "plan Autumn:\n  from: 2026-11-30\n  weeks: 2\n"
                   "  Thursday: 18:30, session 4\n"
                   "  moved: 2026-12-03 to 2026-12-05 19:00, ice & fog\n"
                   "  moved: 2026-12-10 to 2026-12-11\n"
                   "session 4: Slack water\npush-up: 3 x 8, rest 60 s\n")
        said = "Moved (before: Thu 3\u00a0December 2026, 18:30): ice & fog"
        self.publish("crew.stave")
        feed = self.text("site/feeds/autumn.ics").replace("\n ", "").replace("\\", "")
        self.assertIn(f"DESCRIPTION:{said}n", feed)
        self.assertIn("DESCRIPTION:Moved (before: Thu 10\u00a0December 2026, 18:30)n", feed)
        page = self.text("site/feeds/autumn.html")
        self.assertIn(f"<p>{said.replace('&', '&amp;')}</p>", page)
        self.publish("crew.stave", "--lang", "fr")
        self.assertIn("<p>Déplacée (avant\u00a0: ", self.text("site/feeds/autumn.html"))

    def test_is_not_touched_when_nothing_has_changed(self):
        self.write("slack.stave", GOOD)
        self.write("ana.stave", SECRET)
        words = ("slack.stave", "--private", "ana.stave", "--base", BASE, "--svg")
        self.publish(*words)
        before = self.files(".", with_list=True)
        told = self.publish(*words)
        self.assertEqual(self.files(".", with_list=True), before)
        lines = told.out.splitlines()
        self.assertTrue(all("(as before)" in line for line in lines[:-1]), told.out)

    def test_loses_what_is_no_longer_made_and_nothing_else(self):
        self.write("slack.stave", GOOD)
        self.write("winter.stave", SECRET)
        self.publish("slack.stave", "winter.stave", "--svg", "--technique")
        self.write("site/cards/mine.pdf", "mine")
        changed = self.write("site/feeds/winter.html", "changed by hand")
        self.write("slack.stave", GOOD.replace("Slack water", "High water"))
        (self.folder / "winter.stave").unlink()
        told = self.publish("slack.stave")
        self.assertEqual(self.names(), ["cards/mine.pdf", "cards/session-4-high-water.pdf",
                                        "feeds/slack.html", "feeds/slack.ics",
                                        "feeds/winter.html", "index.html",
                                        "stave-manifest.json"])
        self.assertEqual(changed.read_text(), "changed by hand")
        self.assertIn("removed site/cards/session-4-slack-water-2.svg\n", told.out)
        self.assertIn("left site/feeds/winter.html, which somebody has changed\n", told.out)
        self.assertNotIn("winter", self.publish("slack.stave").out)

    def test_keeps_a_card_that_an_entry_leads_to(self):
        # An entry can outlive its session, as a cancelled one does.
        self.write("slack.stave", GOOD)
        self.publish("slack.stave", "--base", BASE)
        card = f"{BASE}cards/session-4-slack-water.pdf"
        self.assertIn(f"URL:{card}", self.text("site/feeds/slack.ics").replace("\n ", ""))
        self.write("slack.stave", GOOD.replace("Slack water", "High water")
                   .replace("place:", f"link: {card}\nplace:"))
        self.publish("slack.stave", "--base", BASE)
        self.assertIn("cards/session-4-slack-water.pdf", self.names())
        self.write("slack.stave", GOOD.replace("Slack water", "High water"))
        self.publish("slack.stave", "--base", BASE)
        self.assertNotIn("cards/session-4-slack-water.pdf", self.names())

    def test_leaves_what_build_made_there(self):
        self.write("slack.stave", GOOD)
        self.write("winter.stave", SECRET)
        self.assertEqual(self.stave("build", "winter.stave", "--out", "site").code, 0)
        self.publish("slack.stave")
        self.publish("slack.stave")
        self.assertIn("feeds/winter.ics", self.names())
        self.assertIn("cards/session-7-quiet-cove.pdf", self.names())

    def test_has_nothing_written_while_a_file_has_an_error(self):
        self.write("slack.stave", GOOD)
        self.write("ana.stave", SECRET)
        self.write("bad.stave", "session: x\nrow: 4\n")
        self.publish("slack.stave", "bad.stave", "--private", "ana.stave", code=1)
        self.assertFalse((self.folder / "site").exists())
        self.assertFalse((self.folder / "ana.addresses").exists())

    def test_is_not_written_over_where_a_page_is_somebody_elses(self):
        self.write("slack.stave", GOOD)
        self.write("site/index.html", "<title>ours</title>")
        self.refused("foreign-file", "slack.stave")
        (self.folder / "site/index.html").unlink()
        self.publish("slack.stave")
        page = self.write("site/index.html", self.text("site/index.html") + "<!-- mine -->")
        self.write("more.stave", SECRET)
        self.refused("foreign-file", "slack.stave", "more.stave")
        page.unlink()
        self.publish("slack.stave", "more.stave")

    def test_lists_cancelled_days_with_their_reason_and_counts_them_not(self):
        plan = ("plan Autumn:\n  from: 2026-11-30\n  weeks: 4\n  zone: Europe/Lisbon\n"
                "  Monday: 18:30, session 9{more}\n\nsession 9: Ebb\npush-up: 3 x 8\n")
        changes = ("\n  cancelled: 2026-12-07, gale & ice\n  cancelled: 2026-12-14"
                   "\n  away: 2026-12-21 to 2026-12-27, leave")
        self.write("season.stave", plan.format(more=""))
        self.publish("season.stave")
        self.assertIn(">4\u00a0sessions<", self.text("site/index.html"))
        self.write("season.stave", plan.format(more=changes))
        self.publish("season.stave")
        self.assertIn(">1\u00a0session<", self.text("site/index.html"))
        page = self.text("site/feeds/autumn.html")
        items = re.findall(r"(?s)<li>\n<span.*?</li>", page)
        self.assertEqual(len(items), 3)
        self.assertIn("Cancelled: gale &amp; ice", items[1])
        self.assertIn("This session does not take place.", items[2])
        self.assertEqual(["cards/" in item for item in items], [True, False, False])
        # Nobody expected a session on leave.
        self.assertNotIn("leave", page)
        # The entry in the calendar gives the same reason.
        self.assertIn("Cancelled: gale & ice", self.text("site/feeds/autumn.ics"))

    def test_reads_its_pages_in_the_language_asked_for(self):
        self.write("slack.stave", GOOD)
        self.publish("slack.stave", "--lang", "el")
        for page in ("site/index.html", "site/feeds/slack.html"):
            self.assertIn('<html lang="el">', self.text(page))
        self.assertIn("Πέμ 3\u00a0Δεκεμβρίου 2026", self.text("site/feeds/slack.html"))


class Manifest(Publishing):
    def test_lists_every_file_with_its_sha_256(self):
        self.write("slack.stave", GOOD)
        self.publish("slack.stave")
        listed = json.loads(self.text(MANIFEST))["files"]
        found = {name: [hashlib.sha256((self.folder / "site" / name).read_bytes()).hexdigest()]
                 for name in self.names() if name != "stave-manifest.json"}
        self.assertEqual({name: entry["sha256"] for name, entry in listed.items()}, found)

    def test_that_is_no_whole_list_stops_everything_until_it_is_deleted(self):
        self.write("slack.stave", GOOD)
        self.publish("slack.stave")
        whole = self.text(MANIFEST)
        self.write("slack.stave", GOOD.replace("60 kg", "65 kg"))
        for text in (whole[:-9], "", "[1]", whole.replace("cards/", "../cards/", 1)):
            self.write(MANIFEST, text)
            self.refused("manifest-damaged", "slack.stave")
        self.write(MANIFEST, whole.replace('"version": 1', '"version": 2'))
        self.refused("manifest-newer", "slack.stave")
        (self.folder / MANIFEST).unlink()
        self.publish("slack.stave")
        self.assertIn("65\u00a0kg", self.text("site/feeds/slack.ics"))

    def test_that_names_somebody_elses_file_does_not_harm_it(self):
        self.write("slack.stave", GOOD)
        self.publish("slack.stave")
        other = self.write("site/notes.txt", "mine")
        listed = json.loads(self.text(MANIFEST))
        listed["files"]["notes.txt"] = {"sha256": [hashlib.sha256(b"other").hexdigest()]}
        self.write(MANIFEST, json.dumps(listed))
        self.publish("slack.stave")
        self.assertEqual(other.read_text(), "mine")


class Base(Publishing):
    def test_makes_addresses_whole(self):
        self.write("slack.stave", GOOD)
        self.publish("slack.stave", "--base", BASE.removesuffix("/"))
        feed = self.text("site/feeds/slack.ics").replace("\n ", "")
        # RFC 7986, sections 5.5 and 5.8; RFC 5545, section 3.8.4.6.
        self.assertIn(f"URL;VALUE=URI:{BASE}feeds/slack.html\n", feed)
        self.assertIn(f"SOURCE;VALUE=URI:{BASE}feeds/slack.ics\n", feed)
        self.assertIn(f"URL:{BASE}cards/session-4-slack-water.pdf\n", feed)
        for page in ("site/index.html", "site/feeds/slack.html"):
            self.assertIn('href="webcal://crew.example.org/training/feeds/slack.ics"',
                          self.text(page))

    def test_leaves_a_link_that_a_session_has(self):
        self.write("slack.stave", GOOD.replace("place:", "link: https://a.example/b\nplace:"))
        self.publish("slack.stave", "--base", BASE)
        feed = self.text("site/feeds/slack.ics").replace("\n ", "")
        self.assertIn("URL:https://a.example/b\n", feed)
        self.assertEqual(feed.count("URL:"), 1)
        self.assertIn(f"\\n\\nCard (PDF): {BASE}cards/session-4-slack-water.pdf\n", feed)
        self.assertIn('href="https://a.example/b"', self.text("site/feeds/slack.html"))

    def test_that_is_no_address_is_refused(self):
        self.write("slack.stave", GOOD)
        for base in ("http://a.example/", "https://", "a.example", "https://a b.example/",
                     "https://a.example/?x", "https://a.example/#x", "https://me@a.example/",
                     "https://a.example/%", "https://ä.example/", "ftp://a.example/",
                     "https://a.example/" + 300 * "a"):
            self.refused("base-address", "slack.stave", "--base", base, exit_code=2)
        self.assertFalse((self.folder / "site").exists())


class Private(Publishing):
    def setUp(self):
        super().setUp()
        self.write("slack.stave", GOOD)
        self.write("ana.stave", SECRET)
        self.words = ("slack.stave", "--private", "ana.stave", "--base", BASE)

    def token(self):
        return self.text("ana.addresses").rstrip().rpartition(": ")[2]

    def test_stands_at_an_address_of_128_bits_that_its_owner_alone_can_read(self):
        told = self.publish(*self.words)
        token = self.token()
        # RFC 4648, section 6, as Python reads it: 16 bytes.
        self.assertEqual(len(base64.b32decode(token.upper() + "======")), 16)
        rights = (self.folder / "ana.addresses").stat().st_mode
        self.assertEqual(stat.S_IMODE(rights), 0o600)
        self.assertEqual([name for name in self.names() if "private" in name],
                         [f"private/{token}/{name}" for name in
                          ("ana.ics", "cards/session-7-quiet-cove.pdf", "index.html")])
        self.assertIn(f"{BASE}private/{token}/index.html\n", told.out)
        page = self.text(f"site/private/{token}/index.html")
        self.assertIn('<meta name="robots" content="noindex, nofollow, noarchive">', page)
        self.assertNotIn("slack", page)

    def test_keeps_its_address_when_its_plan_is_called_otherwise(self):
        plan = ("plan {name}:\n  from: 2026-11-30\n  weeks: 2\n  Monday: 18:30, session 7\n"
                "session 7: Quiet cove\nwalk: 20 min\n")
        self.write("ana.stave", plan.format(name="Autumn"))
        self.publish(*self.words)
        before = self.text("ana.addresses")
        self.write("ana.stave", plan.format(name="Winter"))
        self.publish(*self.words)
        self.assertEqual(self.text("ana.addresses"), before)

    def test_is_named_nowhere_else(self):
        self.publish(*self.words, "--svg")
        secrets = ["private/", self.token(), "ana", "Quiet", "quiet-cove", "kitchen"]
        for name, (content, _) in self.files("site", with_list=True).items():
            if "/private/" in name:
                continue
            text = content.decode("utf-8", "replace")
            if name.endswith("manifest.json"):
                text = re.sub(r"private:[0-9a-f]{64}", "", text)
            for secret in secrets:
                self.assertIsNone(re.search(rf"\b{secret}", text), f"{secret} in {name}")
        # Nor do the hashes tell whether somebody has guessed what the card says.
        for path in (self.folder / "site/private").rglob("*"):
            if path.is_file():
                self.assertNotIn(hashlib.sha256(path.read_bytes()).hexdigest(),
                                 self.text(MANIFEST))

    def test_moves_when_its_line_is_deleted(self):
        self.publish(*self.words)
        old = self.token()
        text = self.text("ana.addresses")
        self.write("ana.addresses", "\n".join(text.splitlines()[:-1]))
        self.publish(*self.words)
        self.assertNotEqual(self.token(), old)
        self.assertEqual([path.name for path in (self.folder / "site/private").iterdir()],
                         [self.token()])

    def mend(self, *words):
        told = self.stave("publish", *words, "--out", "site")
        self.assertEqual(told.code, 3)
        return told.err

    def test_is_never_shown_to_all_by_an_option_that_was_forgotten(self):
        self.publish(*self.words)
        before = self.files("site", with_list=True)
        self.refused("was-private", "slack.stave", "ana.stave")
        self.assertIn("Add --private ana.stave;", self.mend("slack.stave", "ana.stave"))
        self.assertEqual(self.files("site", with_list=True), before)
        # Of another plan or session, it is still the same file.
        self.write("ana.stave", SECRET.replace("Ana", "Bo"))
        self.refused("was-private", "slack.stave", "ana.stave")

    def test_is_not_shown_to_all_under_another_name(self):
        self.publish(*self.words)
        (self.folder / "ana.stave").rename(self.folder / "bo.stave")
        self.refused("addresses-alone", "slack.stave", "bo.stave")
        self.refused("addresses-alone", "slack.stave")
        self.assertIn("Rename ana.addresses along with its file;", self.mend("slack.stave"))
        (self.folder / "ana.addresses").rename(self.folder / "bo.addresses")
        self.refused("was-private", "slack.stave", "bo.stave")
        (self.folder / "bo.addresses").unlink()
        self.publish("slack.stave", "bo.stave")
        self.assertIn("feeds/bo.ics", self.names())

    def test_becomes_public_when_its_line_is_deleted(self):
        self.publish(*self.words)
        token = self.token()
        text = self.text("ana.addresses")
        name = text.splitlines()[-1].rsplit(":", 1)[0]
        self.assertIn(f"delete the line of {name} in ana.addresses",
                      self.mend("slack.stave", "ana.stave"))
        self.write("ana.addresses", "".join(text.splitlines(True)[:-1]))
        self.publish("slack.stave", "ana.stave")
        self.assertEqual(list((self.folder / "site/private").iterdir()), [])
        self.assertIn("feeds/ana.ics", self.names())
        self.publish(*self.words)
        self.assertNotIn("feeds/ana.ics", self.names())
        self.assertNotEqual(self.token(), token)

    def test_stays_public_where_only_its_athletes_have_addresses(self):
        self.write("crew.stave", "athlete Mara:\nathlete Jonas:\n\n" + SECRET)
        self.publish("slack.stave", "crew.stave")
        self.assertIn("athlete Mara: ", self.text("crew.addresses"))
        self.publish("slack.stave", "crew.stave")
        self.assertIn("feeds/crew.ics", self.names())

    def test_is_refused_for_all_while_its_addresses_are_damaged(self):
        self.publish(*self.words)
        self.write("ana.addresses", self.text("ana.addresses").replace(": ", " "))
        self.refused("addresses-damaged", "slack.stave", "ana.stave")

    def test_is_private_however_its_path_is_written(self):
        whole = str(self.folder / "ana.stave")
        told = self.publish("slack.stave", "ana.stave", "--private", whole, code=3)
        self.assertEqual(set(told.codes()), {"same-output"})
        self.publish("slack.stave", "./ana.stave", "--private", "./ana.stave")
        self.assertNotIn("feeds/ana.ics", self.names())

    def test_needs_a_place_for_its_address_that_is_not_served(self):
        told = self.stave("publish", "--private", "-", "--out", "site", "--diagnostics", "line",
                          data=SECRET.encode())
        self.assertEqual((told.code, told.codes()), (3, ["addresses-nowhere"]))
        self.write("site/bo.stave", SECRET)
        self.refused("addresses-served", "--private", "site/bo.stave")

    def test_is_not_moved_by_a_slip_in_the_file_of_addresses(self):
        self.publish(*self.words)
        self.write("ana.addresses", self.text("ana.addresses").replace(": ", " "))
        self.refused("addresses-damaged", *self.words)

    def test_may_be_all_there_is(self):
        self.publish("--private", "ana.stave")
        self.assertIn("No calendar is listed here.", self.text("site/index.html"))


if __name__ == "__main__":
    program.main()
