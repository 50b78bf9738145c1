// Builds with several threads: what is written and what is said are those of one.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <sstream>
#include <string>

#include "compiler/driver/run.hpp"
#include "tests/unit/driver/temporary_folder.hpp"

namespace stave::driver {
namespace {

using stave::testing::TemporaryFolder;
using namespace std::chrono_literals;

struct Told {
    int code = -1;
    std::string out;
    std::string err;
    bool operator==(const Told&) const = default;
};

Told tell(const std::vector<std::string>& words, std::size_t threads) {
    std::istringstream in;
    std::ostringstream out;
    std::ostringstream err;
    Environment environment{in, out, err, false,
                            [] { return std::chrono::sys_days(2026y / 11 / 1); }};
    environment.threads = threads;
    const int code = run(words, environment);
    return {code, out.str(), err.str()};
}

std::string many_sessions() {
    std::string text;
    for (int number = 1; number <= 60; ++number) {
        const std::string said = std::to_string(number);
        text += "session " + said + ": Haul number " + said + "\nsets Pull: rest 2 min\n";
        text += "  deadlift: 4 x 5 @ " + std::to_string(40 + number) + " kg\n    cue: go ";
        text += static_cast<char>('a' + number % 26);
        text += "\ncircuit: 3 rounds, rest 60 s\n  push-up: 12-10-8\n  row: " + said + "0 m\n";
    }
    return text;
}

std::map<std::string, std::string> files_in(const std::filesystem::path& folder) {
    std::map<std::string, std::string> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
        if (!entry.is_regular_file()) continue;
        std::ifstream file(entry.path(), std::ios::binary);
        files[std::filesystem::relative(entry.path(), folder)] = {
            std::istreambuf_iterator<char>(file), {}};
    }
    return files;
}

TEST(Threads, write_and_say_what_one_would) {
    const TemporaryFolder folder;
    const std::string first = folder.write("a.stave", many_sessions());
    const std::string second = folder.write("b.stave", "session: Row\nsets:\nrow: 500 m\n");
    std::map<std::string, std::string> files;
    Told told;
    for (const std::size_t threads : {1U, 2U, 5U}) {
        const std::string out = folder.path("out" + std::to_string(threads));
        Told now = tell({"build", first, second, "--svg", "--out", out}, threads);
        EXPECT_EQ(now.code, exit_done) << now.err;
        for (std::size_t at = 0; (at = now.out.find(out, at)) != std::string::npos;)
            now.out.replace(at, out.size(), "out");
        if (threads == 1) {
            told = now;
            files = files_in(out);
            EXPECT_GT(files.size(), 120U);
        }
        EXPECT_EQ(now, told);
        EXPECT_TRUE(files_in(out) == files) << threads;
    }
}

TEST(Threads, find_the_same_problems_in_the_same_order) {
    const TemporaryFolder folder;
    std::string text;
    for (int number = 1; number <= 40; ++number) {
        text +=
            "session " + std::to_string(number) + ": Haul\nsets:\npush-up: 8\ncue: hold \u2693\n";
        // More problems than are kept of one file.
        if (number != 20) continue;
        for (int line = 0; line < 240; ++line) {
            if (line % 20 == 0) text += "sets:\n";
            text += "push-up: 8\ncue: \u2693 " + std::to_string(line) + "\n";
        }
    }
    const std::string source = folder.write("a.stave", text);
    const Told told = tell({"build", source, "--out", folder.path("out")}, 1);
    EXPECT_EQ(told.code, exit_source_errors);
    EXPECT_NE(told.err.find("(glyph-missing)"), std::string::npos);
    EXPECT_NE(told.err.find("(more-problems)"), std::string::npos);
    for (const std::size_t threads : {2U, 5U}) {
        EXPECT_EQ(tell({"build", source, "--out", folder.path("out")}, threads), told);
        EXPECT_EQ(tell({"check", source}, threads), told);
    }
    EXPECT_FALSE(std::filesystem::exists(folder.path("out")));
}

TEST(Threads, draw_the_same_previews) {
    const TemporaryFolder folder;
    const std::string source = folder.write("a.stave", many_sessions());
    const std::vector<std::string> words{"preview", source, "--dpi", "36", "--out"};
    std::map<std::string, std::string> files;
    for (const std::size_t threads : {1U, 3U}) {
        const std::string out = folder.path("out" + std::to_string(threads));
        std::vector<std::string> now = words;
        now.push_back(out);
        EXPECT_EQ(tell(now, threads).code, exit_done);
        if (threads == 1) files = files_in(out);
        EXPECT_TRUE(files_in(out) == files);
    }
    EXPECT_GE(files.size(), 60U);
}

}  // namespace
}  // namespace stave::driver
