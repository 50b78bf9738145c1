#include "compiler/driver/file_watch.hpp"

#include <poll.h>
#include <sys/inotify.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <deque>
#include <filesystem>
#include <system_error>
#include <utility>

namespace stave::driver {

namespace {

namespace fs = std::filesystem;
using namespace std::chrono_literals;

// Long enough for an editor that writes, renames and sets rights in turn, and little beside
// the time of a build.
constexpr auto settling = 5ms;
// A file that was emptied, is being written, or has gone from its place: its editor has more
// to do, and says so when it has. Most take less than a tenth of this.
constexpr auto patience = 150ms;
// However often it is saved, sooner or later it is read.
constexpr auto longest = 500ms;
// As many as the system follows itself (path_resolution(7)).
constexpr int most_links = 40;

constexpr unsigned done = IN_CLOSE_WRITE | IN_MOVED_TO | IN_ATTRIB;
constexpr unsigned in_between = IN_MODIFY | IN_CREATE | IN_DELETE | IN_MOVED_FROM;

Diagnostic cannot_watch(const std::string& path, std::string why) {
    return {Code::cannot_watch, {}, {path, std::move(why)}, {}, {}};
}

std::string reason(int number) {
    // The system calls it a full disk.
    if (number == ENOSPC) return "no more folders can be watched on this machine";
    return std::generic_category().message(number);
}

// In front of what is still to be walked.
void put_before(std::deque<std::string>& left, const fs::path& path) {
    std::vector<std::string> names;
    for (const fs::path& part : path.relative_path()) {
        if (!part.empty() && part != ".") names.push_back(part.string());
    }
    left.insert(left.begin(), names.begin(), names.end());
}

}  // namespace

std::expected<FileWatch, Diagnostic> FileWatch::open(const std::string& for_path) {
    Descriptor queue(::inotify_init1(IN_CLOEXEC | IN_NONBLOCK));
    if (queue.number() < 0) return std::unexpected(cannot_watch(for_path, reason(errno)));
    auto signals = HeldSignals::hold();
    if (!signals) return std::unexpected(cannot_watch(for_path, signals.error()));
    return FileWatch(std::move(queue), std::move(*signals));
}

std::vector<Diagnostic> FileWatch::follow(const std::set<std::string>& paths) {
    std::vector<Diagnostic> problems;
    paths_ = paths;
    ways_.clear();
    for (const std::string& path : paths) {
        if (std::string why = follow_one(path); !why.empty())
            problems.push_back(cannot_watch(path, std::move(why)));
    }
    drop_unused();
    return problems;
}

// The number of the folder's watch, or -1 with `errno`.
int FileWatch::watch(const std::string& folder) {
    const int number = ::inotify_add_watch(queue_.number(), folder.c_str(),
                                           done | in_between | IN_ONLYDIR | IN_EXCL_UNLINK);
    if (number >= 0) folders_.insert(number);
    return number;
}

// Walks from the root, each folder watched before its next name is looked up, so that no
// change falls between. Gives why it cannot be watched, or nothing.
std::string FileWatch::follow_one(const std::string& path) {
    std::error_code problem;
    const fs::path absolute = fs::absolute(path, problem);
    if (problem) return problem.message();
    std::deque<std::string> left;
    put_before(left, absolute);
    fs::path folder = "/";
    int links = 0;
    while (!left.empty()) {
        const std::string name = std::move(left.front());
        left.pop_front();
        if (name == "..") {
            folder = folder.parent_path();
            continue;
        }
        const int number = watch(folder.string());
        // Folders on the way may be closed to us; they seldom change.
        if (number < 0 && left.empty() && errno != ENOENT) return reason(errno);
        if (number >= 0) ways_[{number, name}].insert(path);
        const fs::path next = folder / name;
        const fs::file_type type = fs::symlink_status(next, problem).type();
        if (type == fs::file_type::symlink && links++ < most_links) {
            const fs::path target = fs::read_symlink(next, problem);
            if (target.is_absolute()) folder = "/";
            put_before(left, target);
        } else if (type == fs::file_type::directory) {
            folder = next;
        } else {
            // The file, or nothing yet.
            return number < 0 && errno == ENOSPC ? reason(ENOSPC) : std::string();
        }
    }
    return {};
}

void FileWatch::drop_unused() {
    std::erase_if(folders_, [this](int number) {
        const auto way = ways_.lower_bound({number, {}});
        if (way != ways_.end() && way->first.first == number) return false;
        // Fails for one whose folder is gone, which needs no dropping.
        ::inotify_rm_watch(queue_.number(), number);
        return true;
    });
}

void FileWatch::touch(const std::string& path) {
    if (saved_.empty()) first_saved_ = Clock::now();
    saved_[path] = Clock::now() + settling;
}

void FileWatch::note(int folder, unsigned what, const std::string& name) {
    if ((what & IN_Q_OVERFLOW) != 0) {
        for (const std::string& path : paths_)
            touch(path);
        return;
    }
    const auto way = ways_.find({folder, name});
    if (way == ways_.end() || (what & (done | in_between)) == 0) return;
    for (const std::string& path : way->second) {
        touch(path);
        // A folder that is made is no file that is half written.
        if ((what & in_between) != 0 && (what & IN_ISDIR) == 0)
            saved_[path] = Clock::now() + patience;
    }
}

void FileWatch::read_events() {
    alignas(inotify_event) std::array<char, 16384> bytes;
    ssize_t size = 0;
    while ((size = ::read(queue_.number(), bytes.data(), bytes.size())) > 0) {
        for (std::size_t at = 0; at < static_cast<std::size_t>(size);) {
            inotify_event event;
            std::memcpy(&event, bytes.data() + at, sizeof event);
            // The name is filled up with zeros.
            const char* const name = bytes.data() + at + sizeof event;
            note(event.wd, event.mask, event.len > 0 ? std::string(name) : std::string());
            at += sizeof event + event.len;
        }
    }
}

// Until all that was saved may be read; -1: for ever.
int FileWatch::milliseconds_left() const {
    if (saved_.empty()) return -1;
    Clock::time_point until = first_saved_;
    for (const auto& [path, moment] : saved_)
        until = std::max(until, moment);
    until = std::min(until, first_saved_ + longest);
    const auto left = std::chrono::ceil<std::chrono::milliseconds>(until - Clock::now());
    return static_cast<int>(std::max<std::int64_t>(left.count(), 0));
}

std::expected<FileWatch::Seen, Diagnostic> FileWatch::wait() {
    while (true) {
        std::array<pollfd, 2> sources{
            {{queue_.number(), POLLIN, 0}, {signals_.number(), POLLIN, 0}}};
        const int milliseconds = milliseconds_left();
        const int ready = ::poll(sources.data(), sources.size(), milliseconds);
        if (ready < 0 && errno != EINTR)
            return std::unexpected(cannot_watch(*paths_.begin(), reason(errno)));
        if (sources[1].revents != 0) return Seen{{}, true};
        read_events();
        if (milliseconds_left() != 0) continue;
        Seen seen;
        for (const auto& [path, moment] : std::exchange(saved_, {}))
            seen.saved.insert(path);
        return seen;
    }
}

}  // namespace stave::driver
