// What zbarimg reads from these lines, tests/clients/home_server.py shows.
#include "backends/codes/terminal.hpp"

#include <gtest/gtest.h>

#include <sstream>

namespace stave::codes {
namespace {

// The rows of modules that lines of half blocks show, '#' for a dark one.
std::vector<std::string> rows_of(const std::string& text) {
    std::vector<std::string> rows;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        std::string upper, lower;
        for (std::size_t at = line.find('m') + 1; at < line.find("\x1b[0m");) {
            if (line[at] == ' ') {
                upper += ' ';
                lower += ' ';
                ++at;
                continue;
            }
            const std::string block = line.substr(at, 3);
            upper += block == "▄" ? ' ' : '#';
            lower += block == "▀" ? ' ' : '#';
            at += 3;
        }
        rows.push_back(upper);
        rows.push_back(lower);
    }
    return rows;
}

TEST(TerminalLines, show_every_module_within_a_quiet_zone) {
    const SquareCode code = square_code("http://192.168.1.20:7828/").value();
    const std::vector<std::string> rows = rows_of(terminal_lines(code));
    // ISO/IEC 18004: version 2 has 25 modules a side and 26 bytes at level M.
    ASSERT_EQ(code.side, 25);
    ASSERT_EQ(rows.size(), 34U);
    for (int y = 0; y < 34; ++y) {
        const std::string& row = rows[static_cast<std::size_t>(y)];
        ASSERT_EQ(row.size(), 33U);
        for (int x = 0; x < 33; ++x)
            EXPECT_EQ(row[static_cast<std::size_t>(x)] == '#', code.is_dark(x - 4, y - 4));
    }
}

// Whoever scrolls back sees their own colours again.
TEST(TerminalLines, leave_the_terminal_as_it_was) {
    std::istringstream lines(terminal_lines(square_code("a").value()));
    for (std::string line; std::getline(lines, line);) {
        EXPECT_TRUE(line.starts_with("\x1b[38;5;16;48;5;231m"));
        EXPECT_TRUE(line.ends_with("\x1b[0m"));
    }
}

}  // namespace
}  // namespace stave::codes
