// Test inputs with their expectations inside: remark lines below the line that
// they speak of.
//
//   #^ CODE "WORDS"   one diagnostic with this code, placed on these words
//   #= LINE           the line (blanks at its ends aside) after its first fix
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace stave::tests {

struct Expectation {
    // From 1; the line above the remark that is no expectation itself.
    std::uint32_t line = 0;
    std::string code;
    std::string words;
    // Empty where no fix is expected to be looked at.
    std::string mended;

    friend bool operator==(const Expectation&, const Expectation&) = default;
};

[[nodiscard]] std::vector<Expectation> read_expectations(const std::string& text);

[[nodiscard]] std::string read_text(const std::filesystem::path& path);

// All *.stave files of a folder below tests/files, sorted.
[[nodiscard]] std::vector<std::filesystem::path> test_files(const std::string& folder);

// Compares with the file's text; with STAVE_UPDATE=1 in the environment writes it
// instead. Answers with what is wrong, or "".
[[nodiscard]] std::string compare_golden(const std::filesystem::path& path,
                                         const std::string& text);

}  // namespace stave::tests
