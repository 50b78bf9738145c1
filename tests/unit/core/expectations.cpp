#include "tests/unit/core/expectations.hpp"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <sstream>

namespace stave::tests {

namespace {

// "CODE "WORDS"" after the mark.
Expectation read_mark(const std::string& line, std::uint32_t number) {
    Expectation expectation;
    expectation.line = number;
    const std::size_t quote = line.find('"');
    expectation.code = line.substr(3, quote - 4);
    expectation.words = line.substr(quote + 1, line.size() - quote - 2);
    return expectation;
}

}  // namespace

std::vector<Expectation> read_expectations(const std::string& text) {
    std::vector<Expectation> expectations;
    std::istringstream lines(text);
    std::uint32_t number = 0;
    std::uint32_t spoken_of = 0;
    for (std::string line; std::getline(lines, line);) {
        ++number;
        if (line.starts_with("#^ ")) {
            expectations.push_back(read_mark(line, spoken_of));
        } else if (line.starts_with("#= ")) {
            expectations.back().mended = line.substr(3);
        } else {
            spoken_of = number;
        }
    }
    return expectations;
}

std::string read_text(const std::filesystem::path& path) {
    const std::ifstream in(path, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

std::vector<std::filesystem::path> test_files(const std::string& folder) {
    std::vector<std::filesystem::path> files;
    const std::filesystem::path root = std::filesystem::path(STAVE_SOURCE_DIR) / folder;
    for (const auto& entry : std::filesystem::directory_iterator(root)) {
        if (entry.path().extension() == ".stave") files.push_back(entry.path());
    }
    std::ranges::sort(files);
    return files;
}

std::string compare_golden(const std::filesystem::path& path, const std::string& text) {
    if (std::getenv("STAVE_UPDATE") != nullptr) {
        std::ofstream(path, std::ios::binary) << text;
        return "";
    }
    if (!std::filesystem::exists(path)) {
        return path.string() + " is missing; run the test with STAVE_UPDATE=1";
    }
    const std::string expected = read_text(path);
    if (expected == text) return "";
    const auto [here, there] = std::ranges::mismatch(expected, text);
    const auto line = std::count(expected.begin(), here, '\n') + 1;
    return path.string() + " differs from line " + std::to_string(line) +
           " on; look at it, then run with STAVE_UPDATE=1 if the new text is right:\n" + text;
}

}  // namespace stave::tests
