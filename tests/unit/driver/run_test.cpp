#include "compiler/driver/run.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "tests/unit/driver/temporary_folder.hpp"

namespace stave::driver {
namespace {

using stave::testing::TemporaryFolder;
using namespace std::chrono_literals;

constexpr std::string_view good =
    "session 4: Slack water\n"
    "when: 2026-12-03 18:30\n"
    "sets:\n"
    "  deadlift: 4 x 5 @ 60 kg\n";

struct Told {
    int code = -1;
    std::string out;
    std::string err;
};

Told tell(const std::vector<std::string>& words, const std::string& input = "",
          std::chrono::sys_seconds now = std::chrono::sys_days(2026y / 11 / 1)) {
    std::istringstream in(input);
    std::ostringstream out;
    std::ostringstream err;
    Environment environment{in, out, err, false, [now] { return now; }};
    const int code = run(words, environment);
    return {code, out.str(), err.str()};
}

TEST(Run, stamps_new_entries_with_the_clock_it_is_handed) {
    const TemporaryFolder folder;
    const std::string source = folder.write("a.stave", good);
    const auto noon = std::chrono::sys_days(2026y / 11 / 2) + 12h;
    EXPECT_EQ(tell({"build", source, "--out", folder.path("out")}, "", noon).code, exit_done);
    EXPECT_NE(folder.read("out/feeds/a.ics").find("DTSTAMP:20261102T120000Z\r\n"),
              std::string::npos);
}

TEST(Run, a_second_build_keeps_the_stamps_however_late_it_is) {
    const TemporaryFolder folder;
    const std::string source = folder.write("a.stave", good);
    const std::vector<std::string> words{"build", source, "--out", folder.path("out")};
    EXPECT_EQ(tell(words).code, exit_done);
    const std::string feed = folder.read("out/feeds/a.ics");
    const std::string card = folder.read("out/cards/session-4-slack-water.pdf");
    const Told told = tell(words, "", std::chrono::sys_days(2030y / 1 / 1));
    EXPECT_EQ(told.code, exit_done);
    EXPECT_NE(told.out.find("a.ics (as before)\n"), std::string::npos);
    EXPECT_EQ(folder.read("out/feeds/a.ics"), feed);
    EXPECT_EQ(folder.read("out/cards/session-4-slack-water.pdf"), card);
}

TEST(Run, a_session_without_a_date_has_a_card_and_no_feed) {
    const TemporaryFolder folder;
    const std::string source = folder.write("a.stave", "session: Row\nsets:\nrow: 500 m\n");
    const Told told = tell({"build", source, "--out", folder.path("out")});
    EXPECT_EQ(told.code, exit_done);
    // With the source, and the list of what was written.
    EXPECT_EQ(folder.file_count(), 3U);
    EXPECT_NE(told.out.find("no date, so no calendar entry"), std::string::npos);
}

TEST(Run, explains_two_files_as_two_sessions) {
    const TemporaryFolder folder;
    const std::string first = folder.write("a.stave", "session: Row\nsets:\nrow: 500 m\n");
    const std::string second = folder.write("b.stave", "session: Ride\nsets:\nride: 2 km\n");
    const Told told = tell({"explain", first, second});
    EXPECT_EQ(told.code, exit_done);
    EXPECT_LT(told.out.find("Row\n"), told.out.find("Ride\n"));
}

TEST(Run, the_worst_problem_gives_the_exit_code) {
    const TemporaryFolder folder;
    const std::string bad = folder.write("bad.stave", "session: A\nplank: 8-10\n");
    EXPECT_EQ(tell({"check", bad}).code, exit_source_errors);
    EXPECT_EQ(tell({"check", bad, folder.path("absent")}).code, exit_files);
    EXPECT_EQ(tell({"check"}).code, exit_usage);
}

TEST(Run, a_warning_fails_nothing) {
    const std::string text =
        "movement push-up:\n  counted in: reps\nsession: A\nsets:\npush-ip: 3 x 8\n";
    const Told told = tell({"check", "-", "--diagnostics", "line"}, text);
    EXPECT_EQ(told.code, exit_done);
    EXPECT_NE(told.err.find(": warning: "), std::string::npos) << told.err;
}

TEST(Run, says_when_results_could_not_be_written) {
    std::istringstream in{std::string(good)};
    std::ostringstream out;
    std::ostringstream err;
    out.setstate(std::ios::badbit);
    Environment environment{in, out, err, false, [] { return std::chrono::sys_seconds{}; }};
    EXPECT_EQ(run({"explain", "-", "--diagnostics", "line"}, environment), exit_files);
    EXPECT_EQ(err.str(),
              "stave: error: standard output cannot be written: it is closed or full. "
              "[cannot-write]\n");
}

}  // namespace
}  // namespace stave::driver
