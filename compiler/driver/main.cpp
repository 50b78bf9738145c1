#include <fcntl.h>
#include <poll.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <exception>
#include <iostream>
#include <optional>
#include <string>

#include "compiler/driver/run.hpp"

namespace {

std::optional<std::string> fixed_clock() {
    const char* const text = std::getenv("SOURCE_DATE_EPOCH");
    return text == nullptr ? std::nullopt : std::optional<std::string>(text);
}

std::chrono::sys_seconds now() {
    return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
}

// NO_COLOR, when set to anything, turns colours off (no-color.org convention).
bool shows_colour(int stream) {
    const char* const no_colour = std::getenv("NO_COLOR");
    return ::isatty(stream) == 1 && (no_colour == nullptr || *no_colour == '\0');
}

bool out_is_ready() {
    pollfd out{STDOUT_FILENO, POLLOUT, 0};
    return ::poll(&out, 1, 0) == 1 && (out.revents & POLLOUT) != 0;
}

// As the XDG Base Directory Specification has it: a path that is not absolute counts as none.
std::string cache_folder() {
    const auto folder = [](const char* name) {
        const char* const text = std::getenv(name);
        return text != nullptr && *text == '/' ? std::string(text) : std::string();
    };
    if (const std::string cache = folder("XDG_CACHE_HOME"); !cache.empty()) return cache + "/stave";
    const std::string home = folder("HOME");
    return home.empty() ? home : home + "/.cache/stave";
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
    stave::driver::Environment environment{
        std::cin,      std::cout, std::cerr,     shows_colour(STDERR_FILENO), now,
        std::nullopt,  0,         fixed_clock(), shows_colour(STDOUT_FILENO), out_is_ready,
        cache_folder()};
    try {
        return stave::driver::run({words + 1, words + count}, environment);
    } catch (const std::exception& bug) {
        std::cerr << "stave: a bug, or no memory left: " << bug.what() << "\n";
        return stave::driver::exit_files;
    }
}
