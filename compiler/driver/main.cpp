#include <fcntl.h>
#include <unistd.h>

#include <charconv>
#include <csignal>
#include <cstdlib>
#include <exception>
#include <iostream>
#include <optional>
#include <string_view>

#include "compiler/driver/run.hpp"

namespace {

// SOURCE_DATE_EPOCH fixes the clock for builds that must be repeatable
// (reproducible-builds.org specification).
std::optional<std::chrono::sys_seconds> fixed_clock() {
    const char* const text = std::getenv("SOURCE_DATE_EPOCH");
    if (text == nullptr) return std::nullopt;
    const std::string_view digits(text);
    std::int64_t seconds = 0;
    const auto [end, problem] =
        std::from_chars(digits.data(), digits.data() + digits.size(), seconds);
    // The last second of the year 9999, as far as RFC 5545 can write.
    constexpr std::int64_t last_second = 253'402'300'799;
    const bool whole = problem == std::errc() && end == digits.data() + digits.size();
    if (!whole || seconds < 0 || seconds > last_second) return std::nullopt;
    return std::chrono::sys_seconds(std::chrono::seconds(seconds));
}

std::chrono::sys_seconds now() {
    if (const auto fixed = fixed_clock()) return *fixed;
    return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
}

// NO_COLOR, when set to anything, turns colours off (no-color.org convention).
bool shows_colour() {
    const char* const no_colour = std::getenv("NO_COLOR");
    return ::isatty(STDERR_FILENO) == 1 && (no_colour == nullptr || *no_colour == '\0');
}

// A file opened later must not take the number of a standard stream that was closed
// before the start: results and problems would go into it. What fills the gap
// fails when used, as the closed stream would.
void occupy_standard_streams() {
    for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
        if (::fcntl(stream, F_GETFD) != -1) continue;
        ::open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY);
    }
}

}  // namespace

int main(int count, char** words) {
    occupy_standard_streams();
    // A full disk or a closed pipe shall be an error that is reported, not a death.
    std::signal(SIGXFSZ, SIG_IGN);
    std::signal(SIGPIPE, SIG_IGN);
    std::ios::sync_with_stdio(false);
    stave::driver::Environment environment{std::cin,       std::cout, std::cerr,
                                           shows_colour(), now,       fixed_clock()};
    try {
        return stave::driver::run({words + 1, words + count}, environment);
    } catch (const std::exception& bug) {
        std::cerr << "stave: a bug, or no memory left: " << bug.what() << "\n";
        return stave::driver::exit_files;
    }
}
