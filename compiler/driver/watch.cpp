#include "compiler/driver/watch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <iterator>
#include <map>
#include <set>
#include <sstream>
#include <system_error>
#include <utility>

#include "compiler/analysis/known_fits.hpp"
#include "compiler/driver/build.hpp"
#include "compiler/driver/feed_keeper.hpp"
#include "compiler/driver/file_watch.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/run.hpp"

namespace stave::driver {

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;
using Paths = std::set<std::string>;

Diagnostic cannot_watch(const std::string& path, std::string why) {
    return {Code::cannot_watch, {}, {path, std::move(why)}, {}, {}};
}

// A pipe gives its text once, and would be waited for.
bool is_plain(const std::string& path) {
    std::error_code problem;
    const fs::file_type type = fs::status(path, problem).type();
    return type == fs::file_type::regular || type == fs::file_type::directory ||
           type == fs::file_type::not_found || type == fs::file_type::none;
}

bool is_saved_since(const std::string& path, fs::file_time_type moment) {
    // The times of files go by the ticks of the system's clock.
    constexpr auto tick = std::chrono::milliseconds(20);
    std::error_code problem;
    const fs::file_time_type saved = fs::last_write_time(path, problem);
    return !problem && saved >= moment - tick;
}

bool is_there(const std::string& path) {
    std::error_code unknown;
    return fs::exists(fs::symlink_status(path, unknown));
}

std::string names_of(const Paths& files) {
    constexpr std::size_t most_named = 3;
    if (files.size() > most_named) return fmt::format("{} files", files.size());
    return fmt::format("{}", fmt::join(files, ", "));
}

std::string summary_of(const std::optional<Built>& built) {
    if (!built) return "nothing written";
    const auto as_before = std::ranges::count_if(
        built->outputs, [](const auto& output) { return output.second.as_before; });
    std::string text =
        fmt::format("{} written, {} as before",
                    static_cast<std::ptrdiff_t>(built->outputs.size()) - as_before, as_before);
    if (const std::size_t count = built->cleared.removed.size(); count > 0)
        text += fmt::format(", {} removed", count);
    if (const std::size_t count = built->cleared.left.size(); count > 0)
        text += fmt::format(", {} left, which somebody has changed", count);
    return text;
}

// Of one of the files that were named.
struct Watched {
    // Itself and what it takes in, whether or not it is there.
    Paths needs;
    // Of its last good build.
    Paths outputs;
    // Of what it said last.
    analysis::KnownFits fits;
    // What it says now has not been built.
    bool is_due = true;
};

class Watch {
public:
    Watch(const Options& options, const card::ChosenFamily& chosen, Environment& environment)
        : options_(options), chosen_(chosen), environment_(environment) {
        for (const std::string& file : options.files)
            files_[file].needs = {file};
    }

    int run() {
        auto opened = FileWatch::open(options_.files.front());
        if (!opened) return fail({std::move(opened.error())});
        FileWatch& disk = *opened;
        if (auto problems = refused(disk); !problems.empty()) return fail(std::move(problems));
        notes_ = chosen_.notes;
        while (true) {
            if (!build_due()) return exit_files;
            if (auto problems = follow_needs(disk); !problems.empty())
                static_cast<void>(fail(std::move(problems)));
            auto seen = next(disk);
            if (!seen) return fail({std::move(seen.error())});
            if (seen->is_over) return exit_done;
        }
    }

private:
    int fail(std::vector<Diagnostic> problems) {
        Loaded nothing;
        nothing.file_problems = std::move(problems);
        say_problems(nothing, options_.diagnostics, environment_);
        return exit_files;
    }

    // What cannot be watched from the start.
    std::vector<Diagnostic> refused(FileWatch& disk) {
        std::vector<Diagnostic> problems;
        for (const std::string& file : options_.files) {
            if (file == "-") {
                problems.push_back(
                    cannot_watch(std::string(standard_input), "it can be read once only"));
            } else if (!is_plain(file)) {
                problems.push_back(cannot_watch(file, "it is no plain file"));
            }
        }
        return problems.empty() ? disk.follow(all_needs()) : problems;
    }

    [[nodiscard]] Paths all_needs() const {
        Paths all;
        for (const auto& [file, watched] : files_)
            all.insert(watched.needs.begin(), watched.needs.end());
        return all;
    }

    // Until something is due or all is over.
    std::expected<FileWatch::Seen, Diagnostic> next(FileWatch& disk) {
        while (true) {
            auto seen = disk.wait();
            if (!seen || seen->is_over) return seen;
            bool is_due = false;
            for (auto& [file, watched] : files_) {
                const bool is_saved = std::ranges::any_of(
                    watched.needs, [&](const auto& path) { return seen->saved.contains(path); });
                watched.is_due = watched.is_due || is_saved;
                is_due = is_due || is_saved;
            }
            // A folder that has come back is watched before what is in it is read.
            if (is_due) {
                static_cast<void>(disk.follow(all_needs()));
                return seen;
            }
        }
    }

    // Also what has been named in the last build. Problems that were told are not told again.
    std::vector<Diagnostic> follow_needs(FileWatch& disk) {
        const Paths needs = all_needs();
        std::vector<Diagnostic> problems = disk.follow(needs);
        std::erase_if(problems, [this](const Diagnostic& problem) {
            return !told_.insert(problem.arguments.front()).second;
        });
        // It may have been saved between being read and being watched.
        for (const std::string& path : needs) {
            if (!followed_.contains(path) && is_saved_since(path, began_)) disk.touch(path);
        }
        followed_ = needs;
        return problems;
    }

    // Reads those that are due, and notes what they need.
    Loaded load_due(const Paths& due) {
        Loaded all;
        all.strict = options_.strict;
        all.family = chosen_.family;
        for (const std::string& file : due) {
            if (!is_plain(file)) {
                all.file_problems.push_back(cannot_watch(file, "it is no plain file"));
                continue;
            }
            Paths needs{file};
            const auto included = [&needs](std::string_view from, std::string_view path) {
                needs.insert(included_path(from, path));
                return read_included(from, path);
            };
            Options one = options_;
            one.files = {file};
            Loaded loaded = load(one, zones_, library_, environment_, included, &files_[file].fits);
            std::ranges::move(loaded.snapshots, std::back_inserter(all.snapshots));
            std::ranges::move(loaded.file_problems, std::back_inserter(all.file_problems));
            files_[file].needs = std::move(needs);
        }
        return all;
    }

    // Also what somebody has taken away is made again.
    [[nodiscard]] Paths due_files() const {
        Paths due;
        for (const auto& [file, watched] : files_) {
            if (watched.is_due || !std::ranges::all_of(watched.outputs, is_there)) due.insert(file);
        }
        return due;
    }

    // Whether somebody could be told.
    bool build_due() {
        const auto start = Clock::now();
        began_ = fs::file_time_type::clock::now();
        const Paths due = due_files();
        rebuild_.taken.clear();
        for (const auto& [file, watched] : files_) {
            if (!due.contains(file))
                rebuild_.taken.insert(watched.outputs.begin(), watched.outputs.end());
        }
        Loaded loaded = load_due(due);
        std::ranges::move(std::exchange(notes_, {}), std::back_inserter(loaded.file_problems));
        std::ostringstream unsaid;
        Environment quiet{environment_.in,      unsaid,
                          environment_.err,     environment_.colour,
                          environment_.now,     environment_.made,
                          environment_.threads, environment_.fixed_clock};
        const auto built = stave::driver::build(options_, loaded, zones_, quiet, &rebuild_);
        if (built) keep(due, *built);
        const auto taken = std::chrono::ceil<std::chrono::milliseconds>(Clock::now() - start);
        say_problems(loaded, options_.diagnostics, environment_);
        environment_.err.flush();
        environment_.out << fmt::format("{}: {}, {} ms\n", names_of(due), summary_of(built),
                                        taken.count());
        Loaded told;
        check_results_written(told, environment_);
        if (told.file_problems.empty()) return true;
        say_problems(told, options_.diagnostics, environment_);
        return false;
    }

    void keep(const Paths& due, const Built& built) {
        std::map<std::string, Paths> by_source;
        for (const auto& [path, output] : built.outputs)
            by_source[output.source].insert(path);
        for (const std::string& file : due) {
            Watched& watched = files_[file];
            watched.is_due = false;
            watched.outputs = std::move(by_source[origin_of(options_.out, file)]);
        }
    }

    const Options& options_;
    const card::ChosenFamily& chosen_;
    Environment& environment_;
    zones::ZoneLoader zones_;
    movements::Library library_;
    Rebuild rebuild_;
    std::map<std::string, Watched> files_;
    Paths followed_;
    // Whose problem with being watched was told.
    Paths told_;
    // To be told with the next build.
    std::vector<Diagnostic> notes_;
    // When the last build began to read.
    fs::file_time_type began_;
};

}  // namespace

int watch(const Options& options, const card::ChosenFamily& chosen, Environment& environment) {
    return Watch(options, chosen, environment).run();
}

}  // namespace stave::driver
