#include "compiler/driver/build.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <map>
#include <span>
#include <stdexcept>
#include <utility>

#include "backends/calendar/feed.hpp"
#include "backends/card/fonts.hpp"
#include "backends/card/pdf/pdf_writer.hpp"
#include "backends/card/png/png_writer.hpp"
#include "backends/card/svg/svg_writer.hpp"
#include "backends/report/report.hpp"
#include "compiler/driver/files.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/driver/run.hpp"

namespace stave::driver {

namespace {

// Texts of about a hundred cards, a few megabytes.
constexpr std::size_t most_shapes = 20'000;

class Builder {
public:
    Builder(const Options& options, Loaded& loaded, zones::ZoneLoader& zones,
            Environment& environment)
        : options_(options), loaded_(loaded), zones_(zones), environment_(environment) {}

    void run() {
        make_all();
        if (loaded_.exit_code() != exit_done) return;
        if (auto failed = write_all()) return problem(std::move(*failed));
        say_results();
    }

private:
    void make_all() {
        for (analysis::Snapshot& snapshot : loaded_.snapshots) {
            if (snapshot.sink.has_errors()) continue;
            if (options_.command == Command::preview) {
                make_previews(snapshot);
                continue;
            }
            make_cards(snapshot);
            make_feed(snapshot);
        }
    }

    void make_cards(analysis::Snapshot& snapshot) {
        for (std::size_t i = 0; i < snapshot.program.sessions.size(); ++i) {
            const program::Session& session = snapshot.program.sessions[i];
            const auto pages = make_pages(snapshot, i, options_.card, fonts_);
            if (!pages) continue;
            const std::string path = place("cards", session.slug + ".pdf");
            auto bytes = pdfs_.write(*pages);
            // A page that was laid out can always be written, memory permitting.
            if (!bytes) throw std::runtime_error(path + ": " + bytes.error().detail);
            add_output("card", path, std::move(*bytes));
            if (options_.svg) make_pictures(session.slug, *pages);
            summaries_.push_back(
                report::summary({snapshot.program, session, snapshot.timelines[i]}));
            fonts_.forget_shapes(most_shapes);
        }
    }

    void make_pictures(const std::string& name, const std::vector<card::Page>& pages) {
        for (std::size_t page_id = 0; page_id < pages.size(); ++page_id) {
            add_output("picture", place("cards", page_name(name, page_id) + ".svg"),
                       card::write_svg(pages[page_id], fonts_));
        }
    }

    // Pictures of the cards and nothing else. A card that has no such page has no picture.
    void make_previews(analysis::Snapshot& snapshot) {
        const auto wanted = static_cast<std::size_t>(options_.page);
        for (std::size_t i = 0; i < snapshot.program.sessions.size(); ++i) {
            const auto pages = make_pages(snapshot, i, options_.card, fonts_);
            if (!pages) continue;
            const std::string& name = snapshot.program.sessions[i].slug;
            for (std::size_t page_id = 0; page_id < pages->size(); ++page_id) {
                if (wanted > 0 && page_id + 1 != wanted) continue;
                const std::string path = place("cards", page_name(name, page_id) + ".png");
                auto bytes = card::write_png((*pages)[page_id], fonts_, options_.dots_per_inch);
                // A page that was laid out can always be drawn, memory permitting.
                if (!bytes) throw std::runtime_error(path + ": cairo failed");
                add_output("picture", path, std::move(*bytes));
            }
            if (wanted > pages->size()) without_page_.push_back(name);
            fonts_.forget_shapes(most_shapes);
        }
    }

    // NAME, and NAME-2 for a second page.
    [[nodiscard]] static std::string page_name(const std::string& name, std::size_t page_id) {
        return page_id == 0 ? name : fmt::format("{}-{}", name, page_id + 1);
    }

    void make_feed(const analysis::Snapshot& snapshot) {
        const auto feed = driver::make_feed(snapshot, zones_, options_.card.language);
        if (!feed) return;
        const std::string path = place("feeds", feed->name + ".ics");
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
        const auto [place, added] = outputs_.emplace(path, Output{kind, std::move(bytes), false});
        if (!added) problem({Code::same_output, {}, {path}, {}, {}});
    }

    void problem(Diagnostic diagnostic) { loaded_.file_problems.push_back(std::move(diagnostic)); }

    // Writes what has changed.
    std::optional<Diagnostic> write_all() {
        for (const std::string_view name : {"cards", "feeds"}) {
            if (options_.command == Command::preview && name == "feeds") continue;
            const std::string folder = place(name, "");
            if (auto failed = make_folder(folder)) return failed;
            remove_leftovers(folder);
        }
        FileBatch batch;
        for (auto& [path, output] : outputs_) {
            auto before = read_if_there(path);
            // A card that cannot be read can still be replaced.
            if (!before && before.error().code == Code::cannot_write) return before.error();
            output.as_before = before && *before && **before == output.bytes;
            if (output.as_before) continue;
            if (auto failed = batch.add(path, output.bytes)) return failed;
        }
        return batch.put_in_place();
    }

    // A line for each file, then the sessions.
    void say_results() {
        for (const auto& [path, output] : outputs_) {
            environment_.out << fmt::format("{} {}{}\n", output.kind, path,
                                            output.as_before ? " (as before)" : "");
        }
        for (const analysis::Snapshot& snapshot : loaded_.snapshots) {
            if (!snapshot.program.sessions.empty()) continue;
            environment_.out << fmt::format("{} holds no session\n", snapshot.source->path());
        }
        for (const std::string& name : without_page_)
            environment_.out << fmt::format("{} has no page {}\n", name, options_.page);
        for (const std::string& summary : summaries_)
            environment_.out << summary;
    }

    [[nodiscard]] std::string place(std::string_view folder, const std::string& name) const {
        return (std::filesystem::path(options_.out) / folder / name).string();
    }

    struct Output {
        std::string_view kind;
        std::string bytes;
        bool as_before = false;
    };

    const Options& options_;
    Loaded& loaded_;
    zones::ZoneLoader& zones_;
    Environment& environment_;
    card::Fonts fonts_;
    card::PdfWriter pdfs_{fonts_, environment_.made};
    std::map<std::string, Output> outputs_;
    std::vector<std::string> summaries_;
    // Cards that lack the page that a preview shall show.
    std::vector<std::string> without_page_;
};

}  // namespace

void build(const Options& options, Loaded& loaded, zones::ZoneLoader& zones,
           Environment& environment) {
    Builder(options, loaded, zones, environment).run();
}

}  // namespace stave::driver
