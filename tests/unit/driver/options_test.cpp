#include "compiler/driver/options.hpp"

#include <gtest/gtest.h>

namespace stave::driver {
namespace {

using Words = std::vector<std::string>;

Options parsed(const Words& words) {
    auto options = parse_options(words);
    EXPECT_TRUE(options.has_value()) << (options ? "" : options.error().text);
    return options.value_or(Options{});
}

TEST(Options, are_the_documented_defaults_when_only_a_file_is_given) {
    const Options options = parsed({"build", "a.stave"});
    EXPECT_EQ(options.command, Command::build);
    EXPECT_EQ(options.files, Words{"a.stave"});
    EXPECT_EQ(options.out, "stave-out");
    EXPECT_EQ(options.diagnostics, DiagnosticFormat::text);
    EXPECT_FALSE(options.json);
}

TEST(Options, stand_before_or_behind_the_files) {
    const Options before = parsed({"build", "--out", "o", "a", "b"});
    const Options behind = parsed({"build", "a", "b", "--out=o"});
    EXPECT_EQ(before.files, (Words{"a", "b"}));
    EXPECT_EQ(behind.files, before.files);
    EXPECT_EQ(before.out, "o");
    EXPECT_EQ(behind.out, "o");
}

TEST(Options, know_every_command_format_and_form) {
    EXPECT_EQ(parsed({"check", "a"}).command, Command::check);
    EXPECT_EQ(parsed({"explain", "a"}).command, Command::explain);
    EXPECT_TRUE(parsed({"explain", "--json", "a"}).json);
    EXPECT_EQ(parsed({"check", "--diagnostics", "text", "a"}).diagnostics, DiagnosticFormat::text);
    EXPECT_EQ(parsed({"check", "--diagnostics", "line", "a"}).diagnostics, DiagnosticFormat::line);
    EXPECT_EQ(parsed({"check", "--diagnostics", "json", "a"}).diagnostics, DiagnosticFormat::json);
    EXPECT_EQ(parsed({"dump", "parse", "a"}).form, Form::parse);
    EXPECT_EQ(parsed({"dump", "syntax", "a"}).form, Form::syntax);
    EXPECT_EQ(parsed({"dump", "program", "a"}).form, Form::program);
    EXPECT_EQ(parsed({"dump", "timeline", "a"}).form, Form::timeline);
    EXPECT_EQ(parsed({"dump", "page", "a"}).form, Form::page);
    EXPECT_EQ(parsed({"dump", "feed", "a"}).form, Form::feed);
}

TEST(Options, know_every_language_of_cards_and_feeds) {
    using wording::Language;
    EXPECT_EQ(parsed({"build", "a"}).card.language, Language::english);
    EXPECT_EQ(parsed({"build", "--lang", "de", "a"}).card.language, Language::german);
    EXPECT_EQ(parsed({"check", "--lang=el", "a"}).card.language, Language::greek);
    EXPECT_EQ(parsed({"dump", "page", "--lang", "pl", "a"}).card.language, Language::polish);
}

TEST(Options, keep_files_in_the_order_given_each_once) {
    EXPECT_EQ(parsed({"check", "z", "-", "a", "z"}).files, (Words{"z", "-", "a"}));
}

TEST(Options, take_a_word_with_a_hyphen_as_a_file_behind_two_hyphens) {
    EXPECT_EQ(parsed({"check", "--", "--json"}).files, Words{"--json"});
}

TEST(Options, take_a_number_of_people_or_the_name_of_a_squad) {
    EXPECT_EQ(parsed({"explain", "a"}).people, 0);
    EXPECT_EQ(parsed({"explain", "--floor", "8", "a"}).people, 8);
    EXPECT_EQ(parsed({"explain", "--floor=60", "a"}).people, 60);
    const Options squad =
        parsed({"explain", "--floor", "Inshore crew", "--day", "2026-12-03", "a"});
    EXPECT_EQ(squad.people, 0);
    EXPECT_EQ(squad.squad, "Inshore crew");
    EXPECT_EQ(squad.day, "2026-12-03");
    EXPECT_EQ(parsed({"explain", "--floor", "8 oars", "a"}).squad, "8 oars");
    EXPECT_FALSE(squad.wall);
    const Options wall = parsed({"explain", "--floor", "8", "--wall", "--out", "o", "a"});
    EXPECT_TRUE(wall.wall);
    EXPECT_EQ(wall.out, "o");
}

TEST(Options, help_and_version_are_no_errors) {
    for (const Words& words : {Words{"--help"}, Words{"-h"}, Words{"build", "--help"},
                               Words{"--version"}, Words{"dump", "-h"}}) {
        const auto told = parse_options(words);
        ASSERT_FALSE(told.has_value());
        EXPECT_FALSE(told.error().is_error);
        EXPECT_FALSE(told.error().text.empty());
    }
}

TEST(Options, say_in_one_sentence_what_is_wrong_with_the_words) {
    const auto problem = [](const Words& words) {
        const auto told = parse_options(words);
        EXPECT_FALSE(told.has_value());
        EXPECT_TRUE(told.has_value() || told.error().is_error);
        return told ? "" : told.error().text.substr(0, told.error().text.find('\n'));
    };
    EXPECT_EQ(problem({}), "stave: a command is missing");
    EXPECT_EQ(problem({"frob"}), "stave: frob is no command");
    EXPECT_EQ(problem({"build"}), "stave: FILE is required");
    EXPECT_EQ(problem({"check", "a", "--diagnostics", "xml"}),
              "stave: xml is not one of text, line and json");
    EXPECT_EQ(problem({"dump", "frob", "a"}),
              "stave: frob is not one of parse, syntax, program, timeline, page and feed");
    EXPECT_EQ(problem({"build", "--lang", "tlh", "a"}),
              "stave: tlh is not one of en, pt, es, fr, de, pl and el");
    EXPECT_EQ(problem({"build", "a", "--out", ""}), "stave: --out: the folder's name is empty");
    EXPECT_EQ(problem({"explain", "--floor", "0", "a"}),
              "stave: --floor: 0 people are not 1 to 60");
    EXPECT_EQ(problem({"explain", "--floor", "61", "a"}),
              "stave: --floor: 61 people are not 1 to 60");
    EXPECT_EQ(problem({"explain", "--floor", "99999999999", "a"}),
              "stave: --floor: 99999999999 people are not 1 to 60");
    EXPECT_EQ(problem({"explain", "--floor", "-1", "a"}),
              "stave: --floor: -1 people are not 1 to 60");
    EXPECT_EQ(problem({"explain", "--wall", "a"}), "stave: --wall requires --floor");
    EXPECT_EQ(problem({"explain", "--day", "2026-12-03", "a"}), "stave: --day requires --floor");
    EXPECT_EQ(problem({"explain", "--floor", "8", "--loads", "a"}),
              "stave: --loads excludes --floor");
}

}  // namespace
}  // namespace stave::driver
