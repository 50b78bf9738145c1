#include "compiler/driver/build.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <span>
#include <utility>

#include "backends/calendar/feed.hpp"
#include "backends/card/fonts.hpp"
#include "backends/card/pdf/pdf_writer.hpp"
#include "backends/report/report.hpp"
#include "compiler/driver/files.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/driver/run.hpp"

namespace stave::driver {

namespace {

class Builder {
public:
    Builder(const Options& options, Loaded& loaded, zones::ZoneLoader& zones,
            Environment& environment)
        : options_(options), loaded_(loaded), zones_(zones), environment_(environment) {}

    int run() {
        make_all();
        say_problems(loaded_, options_.diagnostics, environment_);
        if (loaded_.exit_code() != exit_done) return loaded_.exit_code();
        if (!write_all()) return exit_files;
        for (const std::string& summary : summaries_)
            environment_.out << summary;
        return exit_done;
    }

private:
    void make_all() {
        for (std::size_t i = 0; i < loaded_.snapshots.size(); ++i) {
            analysis::Snapshot& snapshot = loaded_.snapshots[i];
            if (snapshot.sink.has_errors()) continue;
            make_cards(snapshot);
            make_feed(snapshot);
        }
    }

    void make_cards(analysis::Snapshot& snapshot) {
        for (std::size_t i = 0; i < snapshot.program.sessions.size(); ++i) {
            const program::Session& session = snapshot.program.sessions[i];
            const auto page = make_page(snapshot, i, fonts_);
            if (!page) continue;
            const std::string path = fmt::format("{}/cards/{}.pdf", options_.out, session.slug);
            auto bytes = card::write_pdf(std::span(&*page, 1), fonts_);
            if (!bytes) {
                problem({Code::pdf_failed, {}, {path, bytes.error().detail}, {}, {}});
                continue;
            }
            add_output("card", path, std::move(*bytes));
            summaries_.push_back(report::summary({session, snapshot.timelines[i]}));
        }
    }

    void make_feed(const analysis::Snapshot& snapshot) {
        const auto feed = driver::make_feed(snapshot, zones_);
        if (!feed) return;
        const std::string path = fmt::format("{}/feeds/{}.ics", options_.out, feed->name);
        auto previous = read_if_there(path);
        if (!previous) return problem(std::move(previous.error()));
        const std::string before = previous->value_or("");
        if (!before.empty() && !calendar::is_own_feed(before)) {
            return problem({Code::foreign_feed, {}, {path}, {}, {}});
        }
        add_output("feed", path,
                   calendar::write(*feed, calendar::read_previous(before), environment_.now()));
    }

    void add_output(std::string_view kind, const std::string& path, std::string bytes) {
        const auto [place, added] = outputs_.emplace(path, Output{kind, std::move(bytes)});
        if (!added) problem({Code::same_output, {}, {path}, {}, {}});
    }

    void problem(Diagnostic diagnostic) { loaded_.file_problems.push_back(std::move(diagnostic)); }

    // Writes what has changed and says so, a line for each file.
    bool write_all() {
        for (const std::string_view folder : {"cards", "feeds"}) {
            if (const auto failed = make_folder(fmt::format("{}/{}", options_.out, folder))) {
                return fail(*failed);
            }
        }
        for (const auto& [path, output] : outputs_) {
            const auto before = read_if_there(path);
            const bool same = before && *before && **before == output.bytes;
            if (!same) {
                if (const auto failed = write_file(path, output.bytes)) return fail(*failed);
            }
            environment_.out << fmt::format("{} {}{}\n", output.kind, path,
                                            same ? " (as before)" : "");
        }
        return true;
    }

    bool fail(const Diagnostic& diagnostic) {
        Loaded only;
        only.file_problems.push_back(diagnostic);
        say_problems(only, options_.diagnostics, environment_);
        return false;
    }

    struct Output {
        std::string_view kind;
        std::string bytes;
    };

    const Options& options_;
    Loaded& loaded_;
    zones::ZoneLoader& zones_;
    Environment& environment_;
    card::Fonts fonts_;
    std::map<std::string, Output> outputs_;
    std::vector<std::string> summaries_;
};

}  // namespace

int build(const Options& options, Loaded& loaded, zones::ZoneLoader& zones,
          Environment& environment) {
    return Builder(options, loaded, zones, environment).run();
}

}  // namespace stave::driver
