// Every form of a line prints in its canonical form, and that prints itself.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "tests/unit/format/formatted.hpp"

namespace stave::tests {
namespace {

struct Case {
    std::string typed;
    std::string canonical;
};

std::string unescaped(const std::string& text) {
    return nlohmann::json::parse('"' + text + '"').get<std::string>();
}

std::string trimmed(const std::string& text) {
    const std::size_t first = text.find_first_not_of(' ');
    if (first == std::string::npos) return "";
    return text.substr(first, text.find_last_not_of(" \n") + 1 - first);
}

std::vector<Case> cases() {
    std::vector<Case> all;
    std::ifstream in(std::string(STAVE_SOURCE_DIR) + "/tests/files/lines/ok.tsv");
    std::size_t header = 2;
    for (std::string line; std::getline(in, line);) {
        if (header > 0) {
            --header;
            continue;
        }
        const std::size_t tab = line.find('\t');
        Case& one = all.emplace_back();
        one.typed = unescaped(line.substr(0, tab));
        one.canonical = unescaped(line.substr(tab + 1));
        if (one.canonical.empty()) one.canonical = one.typed;
    }
    return all;
}

TEST(FormatLine, prints_each_line_in_its_canonical_form) {
    const std::vector<Case> all = cases();
    ASSERT_GE(all.size(), 110U);
    for (const auto& [typed, canonical] : all) {
        const Formatted result = formatted(typed + '\n');
        EXPECT_EQ(trimmed(result.text), trimmed(canonical))
            << "of \"" << typed << "\" " << result.problems;
    }
}

TEST(FormatLine, prints_each_canonical_form_as_itself) {
    for (const auto& [typed, canonical] : cases()) {
        const Formatted result = formatted(canonical + '\n');
        EXPECT_EQ(trimmed(result.text), trimmed(canonical)) << result.problems;
        EXPECT_EQ(result.meaning, formatted(typed + '\n').meaning) << typed;
    }
}

}  // namespace
}  // namespace stave::tests
