"""The command line as people and editors use it: words, streams, exit codes.

usage: command_line.py STAVE [unittest options]
"""

import json
import os
import pty
import subprocess
import unittest

import program
from program import GOOD, InFolder, clean_environment

COMMANDS = ["build", "check", "explain", "dump", "format", "movements"]


class Words(InFolder):
    def test_version_is_one_line_on_standard_output(self):
        told = self.stave("--version")
        self.assertEqual((told.code, told.err), (0, ""))
        self.assertRegex(told.out, r"\Astave \d+\.\d+\.\d+\n\Z")

    def test_help_names_every_command(self):
        told = self.stave("--help")
        self.assertEqual((told.code, told.err), (0, ""))
        for command in COMMANDS:
            self.assertRegex(told.out, rf"(?m)^  {command} +[A-Z]")

    def test_every_command_has_help_and_every_option_stands_in_it(self):
        options = {"build": ["--out", "--strict"], "check": ["--strict", "--fix"],
                   "explain": ["--json"], "dump": ["FORM"], "format": ["--check"],
                   "movements": ["WORDS", "--file"]}
        for command in COMMANDS:
            with self.subTest(command=command):
                told = self.stave(command, "--help")
                self.assertEqual((told.code, told.err), (0, ""))
                for word in ["FILE", "--help", "--diagnostics", *options[command]]:
                    self.assertIn(word, told.out)

    def test_conventions_need_no_file(self):
        told = self.stave("conventions")
        self.assertEqual((told.code, told.err), (0, ""))
        self.assertTrue(told.out.startswith(" 1  How long is the X of a tempo?\n"), told.out)
        self.assertEqual(self.stave("conventions", "a.stave").code, 2)

    def test_wrong_words_give_exit_code_2_and_say_where_help_is(self):
        self.write("a.stave", GOOD)
        for words in [[], ["frob"], ["build"], ["build", "--nope", "a.stave"],
                      ["build", "a.stave", "--out"], ["build", "a.stave", "--out", ""],
                      ["check", "a.stave", "--diagnostics", "xml"], ["dump", "a.stave"],
                      ["dump", "nothing", "a.stave"], ["check", "a.stave", "--json"],
                      ["build", "a.stave", "--fix"], ["format"], ["format", "a.stave", "--fix"],
                      ["explain", "a.stave", "--strict"], ["movements", "--file"]]:
            with self.subTest(words=words):
                told = self.stave(*words)
                self.assertEqual((told.code, told.out), (2, ""))
                self.assertRegex(told.err, r"\Astave: .+\nTry stave( \w+)? --help\.\n\Z")
                self.assertEqual(self.files(), {})

    def test_a_file_may_bear_a_commands_name_or_start_with_a_hyphen(self):
        self.write("check", GOOD)
        self.write("-x.stave", GOOD)
        self.assertEqual(self.stave("check", "check").code, 0)
        self.assertEqual(self.stave("check", "--", "-x.stave").code, 0)


class Streams(InFolder):
    def test_what_is_right_gives_0_and_says_nothing_on_standard_error(self):
        self.write("a.stave", GOOD)
        for words in [["check"], ["build"], ["explain"], ["explain", "--json"], ["dump", "page"]]:
            with self.subTest(words=words):
                told = self.stave(*words, "a.stave")
                self.assertEqual((told.code, told.err), (0, ""))
                self.assertEqual(told.out == "", words == ["check"])

    def test_what_is_wrong_gives_1_and_stands_on_standard_error(self):
        self.write("bad.stave", GOOD + "  plank: 8-10\n")
        for command in ["check", "build", "explain"]:
            with self.subTest(command=command):
                told = self.lines(command, "bad.stave")
                self.assertEqual((told.code, told.out), (1, ""))
                self.assertEqual(told.err.partition(" error: ")[0], "bad.stave:12:10:")

    def test_what_cannot_be_read_gives_3(self):
        told = self.lines("check", "absent.stave")
        self.assertEqual((told.code, told.out, told.codes()), (3, "", ["cannot-read"]))

    def test_a_good_file_is_not_built_beside_one_with_errors(self):
        self.write("good.stave", GOOD)
        self.write("bad.stave", "plank: 8-10\n")
        told = self.lines("build", "good.stave", "bad.stave")
        self.assertEqual((told.code, told.out, self.files()), (1, "", {}))

    def test_a_hyphen_is_standard_input(self):
        told = self.lines("check", "-", data=b"plank: 8-10\n")
        self.assertTrue(told.err.startswith("standard input:1:"), told.err)
        built = self.stave("build", "-", data=GOOD.encode())
        self.assertEqual((built.code, built.err), (0, ""))
        self.assertEqual(sorted(self.files()), ["stave-out/cards/session-4-slack-water.pdf",
                                                "stave-out/feeds/standard-input.ics"])

    def test_every_form_can_be_dumped(self):
        self.write("a.stave", GOOD)
        for form in ["parse", "syntax", "program", "timeline", "page", "feed"]:
            with self.subTest(form=form):
                told = self.stave("dump", form, "a.stave")
                self.assertEqual((told.code, told.err), (0, ""))
                self.assertIn("Slack water" if form != "timeline" else "work", told.out)


class Diagnostics(InFolder):
    # Letters of two, three and four bytes before the place: ö, 北, 🚣.
    WIDE = "session: Übung 北 🚣\n\nsets:\n  Kniebeuge größer 北 🚣: 8-10\n"

    def test_the_line_format_counts_characters(self):
        told = self.lines("check", "-", data=self.WIDE.encode())
        column = len("  Kniebeuge größer 北 🚣: ") + 1
        self.assertTrue(told.err.startswith(f"standard input:4:{column}: error: "), told.err)
        self.assertEqual(told.codes(), ["rising-pair"])

    def test_json_has_lines_columns_in_characters_and_offsets_in_bytes(self):
        told = self.stave("check", "-", "--diagnostics", "json", data=self.WIDE.encode())
        (found,) = json.loads(told.err)
        at = self.WIDE.index("8-10")
        column = at - self.WIDE.rindex("\n", 0, at)
        offset = len(self.WIDE[:at].encode())
        self.assertEqual(found["begin"], {"line": 4, "column": column, "offset": offset})
        self.assertEqual(found["end"], {"line": 4, "column": column + 4, "offset": offset + 4})
        self.assertEqual((found["code"], found["severity"]), ("rising-pair", "error"))
        self.assertEqual(found["file"], "standard input")
        for sentence in ["what", "why", "mend"]:
            self.assertRegex(found[sentence], r"\S")

    def test_json_edits_put_into_the_text_mend_it(self):
        told = self.stave("check", "-", "--diagnostics", "json", data=self.WIDE.encode())
        (found,) = json.loads(told.err)
        self.assertEqual(len(found["fixes"]), 2)
        for fix in found["fixes"]:
            text = self.WIDE.encode()
            for edit in sorted(fix["edits"], key=lambda edit: -edit["begin"]["offset"]):
                text = (text[:edit["begin"]["offset"]] + edit["text"].encode()
                        + text[edit["end"]["offset"]:])
            # What is left is that the card's typeface lacks two of the signs, and that nobody
            # knows the movement.
            mended = self.stave("check", "-", "--diagnostics", "json", data=text)
            codes = {problem["code"] for problem in json.loads(mended.err)}
            self.assertEqual(codes, {"glyph-missing", "movement-unknown"}, text.decode())

    def test_json_is_one_list_over_all_files_also_with_problems_of_files(self):
        self.write("bad.stave", "session: A\nplank: 8-10\n")
        self.write("good.stave", GOOD)
        told = self.stave("build", "bad.stave", "absent.stave", "good.stave", "--diagnostics",
                          "json")
        self.assertEqual(told.code, 3)
        self.assertEqual({found["code"] for found in json.loads(told.err)},
                         {"cannot-read", "rising-pair"})
        self.write("stave-out", "a file where the folder should be")
        told = self.stave("build", "good.stave", "--diagnostics", "json")
        self.assertEqual([found["code"] for found in json.loads(told.err)], ["cannot-write"])

    def test_a_routines_line_is_found_where_it_was_typed(self):
        self.write("a.stave", "routine Pair: reps 8-10\n  swing: [reps]\n\nsession: A\n"
                   "circuit:\nuse Pair:\n")
        told = self.stave("check", "a.stave", "--diagnostics", "json")
        (found,) = [one for one in json.loads(told.err) if one["code"] == "rising-pair"]
        self.assertEqual((found["file"], found["begin"], found["end"], found["fixes"]),
                         ("a.stave", {"line": 2, "column": 3, "offset": 26},
                          {"line": 2, "column": 16, "offset": 39}, []))
        self.assertEqual([(one["file"], one["begin"]["line"]) for one in found["related"]],
                         [("a.stave", 6)])
        line = self.stave("check", "a.stave", "--diagnostics", "line").err
        self.assertTrue(line.startswith("a.stave:2:3: error: "), line)
        text = self.stave("check", "a.stave").err
        self.assertIn("a.stave, routine Pair as used in line 6, line 2, column 10", text)
        self.assertIn("2 |   swing: 8-10", text)

    def test_problems_beyond_the_limit_are_counted_in_every_form(self):
        self.write("a.stave", "session: A\n" + "press: 8-10\n" * 205)
        told = self.stave("check", "a.stave", "--diagnostics", "json")
        problems = json.loads(told.err)
        self.assertEqual(len(problems), 201)
        self.assertEqual((problems[-1]["code"], problems[-1]["file"]),
                         ("more-problems", "a.stave"))
        for form in ("text", "line"):
            told = self.stave("check", "a.stave", "--diagnostics", form)
            self.assertIn("more problems in a.stave are not listed", told.err)

    def test_a_file_that_is_named_twice_is_one(self):
        self.write("good.stave", GOOD)
        told = self.stave("build", "good.stave", "good.stave")
        self.assertEqual((told.code, told.err), (0, ""))

    def test_help_that_cannot_be_written_is_a_problem(self):
        with open("/dev/full", "wb") as full:
            run = subprocess.run([self.program, "--help"], stdout=full, stderr=subprocess.PIPE,
                                 timeout=program.SECONDS, check=False)
        self.assertEqual(run.returncode, 3)
        self.assertIn(b"cannot-write", run.stderr)

    def test_json_of_a_file_without_problems_is_an_empty_list(self):
        self.write("good.stave", GOOD)
        self.assertEqual(json.loads(self.stave("check", "good.stave", "--diagnostics", "json").err),
                         [])

    def test_json_takes_a_path_that_is_no_text(self):
        path = os.path.join(os.fsencode(self.folder), b"a\xff\x80.stave")
        with open(path, "wb") as file:
            file.write(b"plank: 8-10\n")
        run = subprocess.run([self.program, "check", path, "--diagnostics", "json"],
                             capture_output=True, timeout=program.SECONDS, check=False)
        self.assertEqual(run.returncode, 1)
        json.loads(run.stderr.decode("utf-8"))

    def test_the_text_format_shows_the_line_and_the_reason(self):
        told = self.stave("check", "-", data=self.WIDE.encode())
        self.assertIn("Kniebeuge größer 北 🚣: 8-10", told.err)
        self.assertIn("^^^^", told.err)
        for label in ["error", "why: ", "mend: ", "(rising-pair)"]:
            self.assertIn(label, told.err)

    def test_bytes_that_steer_a_terminal_never_come_through(self):
        nasty = "session: A\n\x1b[31mfoo\x9b: 3 x \x1b]0;owned\x07\nbar\u202e: 8-10\x08\n"
        for form in ["text", "line", "json"]:
            told = self.stave("check", "-", "--diagnostics", form, data=nasty.encode())
            self.assertEqual(told.code, 1)
            self.assertNotRegex(told.err, "[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e]")


class Colour(InFolder):
    def on_terminal(self, **environment):
        """Standard error as a terminal would receive it."""
        ours, theirs = pty.openpty()
        with os.fdopen(ours, "rb", buffering=0) as terminal:
            run = subprocess.run([self.program, "check", "-"], input=b"plank: 8-10\n",
                                 stdout=subprocess.PIPE, stderr=theirs,
                                 env=clean_environment(TERM="xterm", **environment),
                                 timeout=program.SECONDS, check=False)
            os.close(theirs)
            told = b""
            try:
                while chunk := terminal.read(65536):
                    told += chunk
            except OSError:
                # Linux tells the end of a terminal so.
                self.assertTrue(told)
        self.assertEqual(run.returncode, 1)
        return told

    def test_none_in_a_pipe(self):
        self.assertNotIn("\x1b", self.stave("check", "-", data=b"plank: 8-10\n").err)

    def test_some_on_a_terminal(self):
        self.assertIn(b"\x1b[1;31merror\x1b[0m", self.on_terminal())

    def test_no_color_is_honoured(self):
        # https://no-color.org: set and not empty.
        self.assertNotIn(b"\x1b", self.on_terminal(NO_COLOR="1"))
        self.assertIn(b"\x1b", self.on_terminal(NO_COLOR=""))

    def test_colours_change_nothing_but_colours(self):
        coloured = self.on_terminal().replace(b"\r\n", b"\n")
        for code in [b"\x1b[1;31m", b"\x1b[1m", b"\x1b[2m", b"\x1b[0m"]:
            coloured = coloured.replace(code, b"")
        plain = self.stave("check", "-", data=b"plank: 8-10\n").err
        self.assertEqual(coloured.decode(), plain)


class Explain(InFolder):
    def test_json_tells_every_set_and_rest_and_the_sums(self):
        self.write("a.stave", GOOD)
        told = self.stave("explain", "--json", "a.stave")
        self.assertEqual((told.code, told.err), (0, ""))
        (session,) = json.loads(told.out)
        self.assertEqual([session[key] for key in ["number", "title", "date", "time", "zone"]],
                         ["4", "Slack water", "2026-12-03", "18:30", "Europe/Lisbon"])
        entries = session["entries"]
        end = 0
        for entry in entries:
            self.assertEqual(entry["start_seconds"], end)
            end += entry["length_seconds"]
        self.assertEqual(session["total_seconds"], end)
        self.assertEqual(session["minutes"], -(-end // 60))
        work = sum(entry["length_seconds"] for entry in entries if entry["kind"] == "work")
        self.assertEqual(session["work_seconds"], work)
        self.assertEqual([block["letter"] for block in session["blocks"]], ["A", "B"])
        self.assertEqual(sum(block["length_seconds"] for block in session["blocks"]), end)
        # 4 sets of 5 at 60 kg; 3 rounds of 10 a side with two of 8 kg.
        sums = {movement["movement"]: movement for movement in session["movements"]}
        self.assertEqual(sums["deadlift"]["moved_kg"], 4 * 5 * 60)
        self.assertEqual(sums["step-up"]["moved_kg"], 3 * 2 * 10 * 2 * 8)
        self.assertEqual([sums["step-up"][side] for side in ["left", "right"]], [30, 30])
        volume = session["volume"]
        self.assertEqual(volume["kilograms"], 1200 + 960)
        self.assertEqual(volume["as_written"], [{"amount": 2160, "unit": "kg"}])
        rows = {row["movement"]: row for row in volume["movements"]}
        self.assertEqual([rows["step-up"][side] for side in ["both", "left", "right"]],
                         [0, 480, 480])
        self.assertEqual(rows["deadlift"]["kilograms_per_rep"], "60")

    # The rows of table 1, "training variables and monitoring equations", of a review in BMJ
    # Military Health: 3 x 8 x 65 = 1560 kg, and 10 x 55 + 8 x 65 + 6 x 75 = 1520 kg with a mean of
    # 1520 / 24 = 63.33.
    def test_text_tells_the_published_volume_load(self):
        for dose, wanted in [("3 x 8 @ 65 kg", "24 reps  1560 kg  65 kg a rep"),
                             ("10-8-6 @ 55-65-75 kg", "24 reps  1520 kg  63.33 kg a rep")]:
            text = f"session: A\nsets:\nsquat: {dose}\n"
            told = self.stave("explain", "-", data=text.encode())
            self.assertIn(wanted, told.out)

    # 5 x 100 + 5 x 225 x 0.45359237 = 1010.29 kg (NIST SP 811, appendix B).
    def test_loads_in_two_units_stay_in_both(self):
        text = b"session: A\nsets:\nsquat: 5 x 1 @ 100 kg\nsquat: 5 x 1 @ 225 lb\n"
        told = self.stave("explain", "-", data=text)
        self.assertRegex(told.out, r"10 reps  1010\.29 kg .* = 500 kg \+ 1125 lb")

    def test_athletes_have_a_volume_load_of_their_own(self):
        text = ("athlete Mara:\n  test squat: 1 @ 100 kg on 2026-11-02\n"
                "athlete Jonas:\n  test squat: 1 @ 60 kg on 2026-11-02\n"
                "session: A\nwhen: 2026-12-03 18:30\nwarm-up:\n  skip: 5 min\n"
                "sets: rest 2 min\n  squat: 3 x 5 @ 75 %\n")
        told = self.stave("explain", "--json", "-", data=text.encode())
        (session,) = json.loads(told.out)
        self.assertEqual(session["volume"]["kilograms"], 0)
        self.assertEqual([(one["athlete"], one["kilograms"])
                          for one in session["volume"]["athletes"]],
                         [("Mara", 15 * 75), ("Jonas", 15 * 45)])
        told = self.stave("explain", "-", data=text.encode())
        self.assertIn("    Mara   1125 kg\n    Jonas  675 kg\n", told.out)

    def test_json_of_files_with_errors_is_an_empty_list(self):
        told = self.stave("explain", "--json", "-", data=b"plank: 8-10\n")
        self.assertEqual((told.code, json.loads(told.out)), (1, []))


if __name__ == "__main__":
    program.main()
