#include "compiler/driver/folder_lock.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>

#include <cerrno>
#include <chrono>
#include <filesystem>
#include <system_error>
#include <thread>
#include <utility>

#include "compiler/driver/files.hpp"
#include "compiler/driver/run.hpp"

namespace stave::driver {

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

// A large season takes longer, but whoever waits for one should know of it.
constexpr std::chrono::seconds longest_wait{5};
constexpr std::chrono::milliseconds pause{20};

// Those on the way to the folder that are not there yet, and itself, the innermost first.
std::vector<std::string> missing_folders(const std::string& folder) {
    std::vector<std::string> missing;
    std::error_code problem;
    fs::path place = fs::absolute(folder, problem).lexically_normal();
    if (!place.has_filename()) place = place.parent_path();
    while (!problem && place.has_relative_path() && !fs::exists(place, problem)) {
        missing.push_back(place.string());
        place = place.parent_path();
    }
    return missing;
}

// Whether the folder at the path is the one that is open: another run may have taken away the
// one that it had made.
bool is_there(const Descriptor& open, const std::string& folder) {
    struct stat one {};
    struct stat other {};
    return ::fstat(open.number(), &one) == 0 && ::stat(folder.c_str(), &other) == 0 &&
           one.st_dev == other.st_dev && one.st_ino == other.st_ino;
}

}  // namespace

std::expected<FolderLock, Diagnostic> FolderLock::take(const std::string& folder) {
    const auto until = Clock::now() + longest_wait;
    std::vector<std::string> made = missing_folders(folder);
    while (true) {
        // Whoever reads there or writes says what is wrong.
        if (make_folder(folder)) return FolderLock(Descriptor(), std::move(made));
        Descriptor open(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
        const bool is_gone = !open.is_open() && errno == ENOENT;
        if (!open.is_open() && !is_gone) return FolderLock(Descriptor(), std::move(made));
        const bool is_locked = open.is_open() && ::flock(open.number(), LOCK_EX | LOCK_NB) == 0;
        if (is_locked && is_there(open, folder))
            return FolderLock(std::move(open), std::move(made));
        const bool is_busy = is_gone || is_locked || errno == EWOULDBLOCK || errno == EINTR;
        if (!is_busy) return FolderLock(Descriptor(), std::move(made));
        if (Clock::now() >= until)
            return std::unexpected(Diagnostic{Code::folder_busy, {}, {folder}, {}, {}});
        std::this_thread::sleep_for(pause);
    }
}

FolderLock::~FolderLock() {
    for (const std::string& folder : made_) {
        // It stays where there is something in it.
        if (::rmdir(folder.c_str()) != 0) return;
    }
}

std::expected<std::optional<FolderLock>, Diagnostic> lock_for(const std::string& folder,
                                                              const Loaded& loaded) {
    if (loaded.exit_code() != exit_done) return std::nullopt;
    auto lock = FolderLock::take(folder);
    if (!lock) return std::unexpected(std::move(lock.error()));
    return std::optional<FolderLock>(std::move(*lock));
}

bool is_held(const std::optional<FolderLock>& lock) {
    return lock && lock->is_held();
}

}  // namespace stave::driver
