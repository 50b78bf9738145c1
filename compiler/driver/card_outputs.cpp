#include "compiler/driver/card_outputs.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <memory>
#include <stdexcept>
#include <utility>

#include "backends/card/fonts.hpp"
#include "backends/card/pdf/pdf_writer.hpp"
#include "backends/card/png/png_writer.hpp"
#include "backends/card/svg/svg_writer.hpp"
#include "backends/report/report.hpp"
#include "compiler/analysis/issues.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/driver/shared_work.hpp"

namespace stave::driver {

namespace {

// Texts of about a hundred cards, a few megabytes.
constexpr std::size_t most_shapes = 20'000;

// PATH, and PATH-2 for a second page.
std::string page_path(const std::string& path, std::size_t page_id) {
    return page_id == 0 ? path : fmt::format("{}-{}", path, page_id + 1);
}

}  // namespace

// A session that is held, and what its card came to.
struct CardMaker::Made {
    const CardPlace* place = nullptr;
    std::size_t issue_id = 0;
    // Of its card.
    std::string name;
    std::string summary;
    // Where its head begins.
    std::uint32_t head_begin = 0;
    // 0 where the card is refused.
    std::size_t page_count = 0;
    std::vector<File> files;
    DiagnosticSink sink;
};

// Of one thread: texts are shaped once for all of its cards.
struct CardMaker::Tools {
    card::Fonts fonts;
    card::PdfWriter pdfs;

    Tools(const card::Family& family, const Environment& environment)
        : fonts(family), pdfs(fonts, environment.made) {}
};

CardMaker::CardMaker(const Options& options, const card::Family& family,
                     const Environment& environment, OutputSet& outputs,
                     std::vector<Diagnostic>& problems)
    : options_(options),
      family_(family),
      environment_(environment),
      outputs_(outputs),
      problems_(problems) {}

void CardMaker::make_cards(const std::vector<CardPlace>& places) {
    const auto draw = [&](const std::string& path, const std::vector<card::Page>& pages,
                          Tools& tools) {
        std::vector<File> files;
        auto bytes = tools.pdfs.write(pages);
        // A page that was laid out can always be written, memory permitting.
        if (!bytes) throw std::runtime_error(path + ": " + bytes.error().detail);
        files.push_back({"card", path + ".pdf", std::move(*bytes)});
        for (std::size_t page_id = 0; options_.svg && page_id < pages.size(); ++page_id) {
            files.push_back({"picture", page_path(path, page_id) + ".svg",
                             card::write_svg(pages[page_id], tools.fonts)});
        }
        return files;
    };
    for (Made& card : make(places, draw)) {
        if (card.page_count > 0) summaries_.push_back(std::move(card.summary));
    }
}

void CardMaker::only_lay_out(const std::vector<CardPlace>& places) {
    make(places, [](const std::string&, const std::vector<card::Page>&, Tools&) {
        return std::vector<File>();
    });
}

void CardMaker::make_previews(const std::vector<CardPlace>& places) {
    const auto wanted = static_cast<std::size_t>(options_.page);
    const auto draw = [&](const std::string& path, const std::vector<card::Page>& pages,
                          Tools& tools) {
        std::vector<File> files;
        for (std::size_t page_id = 0; page_id < pages.size(); ++page_id) {
            if (wanted > 0 && page_id + 1 != wanted) continue;
            auto bytes = card::write_png(pages[page_id], tools.fonts, options_.dots_per_inch);
            // A page that was laid out can always be drawn, memory permitting.
            if (!bytes) throw std::runtime_error(path + ": cairo failed");
            files.push_back({"picture", page_path(path, page_id) + ".png", std::move(*bytes)});
        }
        return files;
    };
    for (const Made& card : make(places, draw)) {
        if (card.page_count > 0 && wanted > card.page_count) without_page_.push_back(card.name);
    }
}

std::vector<CardMaker::Made> CardMaker::make(const std::vector<CardPlace>& places,
                                             const Draw& draw) {
    std::vector<Made> cards;
    for (const CardPlace& place : places) {
        for (const std::size_t id : analysis::held_issues(*place.snapshot))
            cards.push_back({&place, id, "", "", 0, 0, {}, DiagnosticSink()});
    }
    const std::size_t threads =
        environment_.threads > 0 ? environment_.threads : threads_for(cards.size());
    share_work(cards.size(), threads, [&]() -> Work {
        const auto tools = std::make_shared<Tools>(family_, environment_);
        return [&, tools](std::size_t id) { make_one(cards[id], draw, *tools); };
    });
    for (Made& card : cards)
        take(card);
    return cards;
}

void CardMaker::make_one(Made& made, const Draw& draw, Tools& tools) const {
    const CardPlace& place = *made.place;
    const analysis::Issue issue = analysis::issue(*place.snapshot, made.issue_id);
    made.head_begin = issue.session().span.begin;
    made.name = card_name(issue.session());
    const auto pages =
        make_pages(*place.snapshot, issue, options_.card, tools.fonts, made.sink, place.lent_link);
    if (!pages) return;
    made.page_count = pages->size();
    made.summary = report::summary({issue.program(), issue.session(), issue.timeline()});
    made.files = draw((std::filesystem::path(place.folder) / made.name).string(), *pages, tools);
    tools.fonts.forget_shapes(most_shapes);
}

void CardMaker::take(Made& made) {
    report(made);
    for (File& file : std::exchange(made.files, {})) {
        if (auto twice = add_output(outputs_, file.kind, file.path, std::move(file.bytes))) {
            problems_.push_back(std::move(*twice));
        } else {
            outputs_.at(file.path).source = made.place->source;
        }
    }
}

// In the order of the cards, whichever was made first.
void CardMaker::report(const Made& made) const {
    analysis::Snapshot& snapshot = *made.place->snapshot;
    if (made.sink.dropped() > 0) {
        // Too many to have been kept: they are found again, and counted as all others.
        card::Fonts fonts(family_);
        const analysis::Issue issue = analysis::issue(snapshot, made.issue_id);
        static_cast<void>(make_pages(snapshot, issue, options_.card, fonts));
        return;
    }
    snapshot.sink.enter_session(made.head_begin);
    for (Diagnostic& diagnostic : made.sink.sorted())
        snapshot.sink.report(std::move(diagnostic));
    snapshot.sink.enter_session(std::nullopt);
}

}  // namespace stave::driver
