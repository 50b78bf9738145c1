// Tells when files have been saved, by whatever way an editor does it: written in place,
// renamed onto their places, deleted and made anew.
//
// Folders are watched (Linux's inotify), not files, since a file that is replaced is another
// one. Every folder and link on the way to a file counts, so that links may be turned and
// folders may go and return. SIGINT, SIGTERM and SIGHUP are held back and told as well.
#pragma once

#include <chrono>
#include <expected>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/driver/descriptor.hpp"
#include "compiler/driver/held_signals.hpp"

namespace stave::driver {

class FileWatch {
public:
    // Refuses where the system gives no watcher.
    [[nodiscard]] static std::expected<FileWatch, Diagnostic> open(const std::string& for_path);

    // From now on these are followed and no others; they need not be there. A problem for
    // each whose folder cannot be watched. Links and folders are looked up anew.
    [[nodiscard]] std::vector<Diagnostic> follow(const std::set<std::string>& paths);

    // Takes it that the file has been saved.
    void touch(const std::string& path);

    struct Seen {
        // As they were given to `follow`.
        std::set<std::string> saved;
        // One of the signals came; then nothing else counts.
        bool is_over = false;
    };

    // Waits until files have been saved and nobody is in the middle of saving them, or until
    // a signal comes.
    [[nodiscard]] std::expected<Seen, Diagnostic> wait();

private:
    using Clock = std::chrono::steady_clock;
    using Place = std::pair<int, std::string>;

    FileWatch(Descriptor queue, HeldSignals signals)
        : queue_(std::move(queue)), signals_(std::move(signals)) {}

    [[nodiscard]] int watch(const std::string& folder);
    [[nodiscard]] std::string follow_one(const std::string& path);
    void drop_unused();
    void read_events();
    void note(int folder, unsigned what, const std::string& name);
    [[nodiscard]] int milliseconds_left() const;

    Descriptor queue_;
    HeldSignals signals_;
    std::set<std::string> paths_;
    // Which of the paths lead through a name in a watched folder.
    std::map<Place, std::set<std::string>> ways_;
    std::set<int> folders_;
    // When each saved file will have been left alone for long enough.
    std::map<std::string, Clock::time_point> saved_;
    Clock::time_point first_saved_;
};

}  // namespace stave::driver
