// Whole files mean the same when formatted, and format to themselves.
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>

#include "compiler/check/check.hpp"
#include "compiler/program/dump.hpp"
#include "tests/fuzz/varied_sessions.hpp"
#include "tests/unit/format/formatted.hpp"

namespace stave::tests {
namespace {

namespace fs = std::filesystem;

const fs::path root = STAVE_SOURCE_DIR;

std::string program_of(const std::string& text) {
    const SourceFile source("main.stave", text);
    DiagnosticSink sink;
    const parse::ParseTree tree = parse::parse(source, sink);
    const syntax::Document document = syntax::lower(tree, source, sink);
    return program::dump(check::check(document, {}, sink));
}

// Remarks in order, blanks around them aside.
std::vector<std::string> remarks_of(const std::string& text) {
    const SourceFile source("main.stave", text);
    DiagnosticSink sink;
    std::vector<std::string> remarks;
    for (const parse::Line& line : parse::parse(source, sink).lines) {
        std::string remark(source.text(line.remark));
        while (remark.ends_with(' ') || remark.ends_with('\t'))
            remark.pop_back();
        if (remark.size() > 1) remarks.push_back(remark);
    }
    return remarks;
}

void expect_same(const std::string& text, const std::string& name) {
    const Formatted once = formatted(text);
    ASSERT_FALSE(once.text.empty()) << name << "\n" << once.problems;
    const Formatted twice = formatted(once.text);
    EXPECT_EQ(twice.text, once.text) << name;
    EXPECT_EQ(twice.meaning, once.meaning) << name;
    EXPECT_EQ(program_of(once.text), program_of(text)) << name;
    EXPECT_EQ(remarks_of(once.text), remarks_of(text)) << name;
}

std::vector<fs::path> stave_files(const fs::path& folder) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::recursive_directory_iterator(root / folder)) {
        if (entry.path().extension() == ".stave") files.push_back(entry.path());
    }
    std::ranges::sort(files);
    return files;
}

class Folder : public ::testing::TestWithParam<const char*> {};

TEST_P(Folder, keeps_its_meaning) {
    const std::vector<fs::path> files = stave_files(GetParam());
    ASSERT_FALSE(files.empty());
    for (const fs::path& path : files)
        expect_same(file_text(path), path.string());
}

INSTANTIATE_TEST_SUITE_P(Files, Folder,
                         ::testing::Values("tests/files/forms", "tests/files/build", "examples",
                                           "compiler/movements"),
                         [](const auto& folder) {
                             std::string name = folder.param;
                             std::ranges::replace(name, '/', '_');
                             return name;
                         });

TEST(Notation, examples_keep_their_meaning) {
    std::istringstream lines(file_text(root / "grammar" / "NOTATION.md"));
    std::size_t tried = 0;
    std::string block;
    bool inside = false;
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("```")) {
            if (inside) {
                expect_same(block, block);
                ++tried;
            }
            inside = !inside && (line == "```stave" || line == "```stave fragment" ||
                                 line.starts_with("```stave file "));
            block.clear();
        } else if (inside) {
            block += line + '\n';
        }
    }
    EXPECT_GT(tried, 35U);
}

TEST(MadeUp, sessions_keep_their_meaning) {
    stave::testing::Chance chance(23);
    for (int number = 1; number <= 500; ++number)
        expect_same(stave::testing::session(chance, number), "session " + std::to_string(number));
}

TEST(MadeUp, sessions_of_ten_megabytes_are_formatted_in_a_moment) {
    constexpr std::size_t size = 10'000'000;
    const std::string text = stave::testing::sessions(5, size);
    const auto begun = std::chrono::steady_clock::now();
    const Formatted result = formatted(text);
    EXPECT_GT(result.text.size(), size / 2);
    // About a second in a release build.
    EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(90));
}

TEST(MadeUp, columns_of_one_long_block_are_found_in_a_moment) {
    std::string text = "session: A\nsets:\n";
    for (int i = 0; i < 200'000; ++i)
        text += "squat: 5   # a remark\n  cue: tall\n";
    const auto begun = std::chrono::steady_clock::now();
    EXPECT_FALSE(formatted(text).text.empty());
    EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(60));
}

}  // namespace
}  // namespace stave::tests
