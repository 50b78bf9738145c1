#include "compiler/driver/card_outputs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <map>
#include <memory>
#include <span>
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

// Cards that are made before they are put away, in their order: enough for all threads, and
// about ten megabytes.
constexpr std::size_t most_at_once = 512;

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
    std::optional<Recalled> recalled;

    [[nodiscard]] const MadeMemory::Kept* before() const {
        return recalled ? recalled->before : nullptr;
    }
};

// Of one thread: texts are shaped once for all of its cards.
struct CardTools::Set {
    card::Fonts fonts;
    card::PdfWriter pdfs;

    Set(const card::Family& family, const Environment& environment)
        : fonts(family), pdfs(fonts, environment.made) {}
};

CardTools::CardTools() = default;
CardTools::~CardTools() = default;

std::shared_ptr<CardMaker::Tools> CardMaker::tools() const {
    std::unique_ptr<Tools> own;
    {
        const std::scoped_lock lock(tools_->mutex_);
        if (!tools_->idle_.empty()) {
            own = std::move(tools_->idle_.back());
            tools_->idle_.pop_back();
        }
    }
    if (!own) own = std::make_unique<Tools>(family_, environment_);
    return {own.release(), [kept = tools_](Tools* used) {
                std::unique_ptr<Tools> idle(used);
                const std::scoped_lock lock(kept->mutex_);
                kept->idle_.push_back(std::move(idle));
            }};
}

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
    make(places, draw, [this](Made& card) {
        if (card.before() != nullptr) summaries_.push_back(card.before()->made.summary);
        if (card.page_count > 0) summaries_.push_back(std::move(card.summary));
    });
}

// A session of one snapshot with all its places.
struct CardMaker::Stack {
    std::size_t issue_id = 0;
    std::vector<const CardPlace*> places;
    // Without a folder and an ending.
    std::string name;
    std::string bytes;
    std::optional<Recalled> recalled;
};

// In the order in which sessions and places come.
std::vector<CardMaker::Stack> CardMaker::to_stacks(const std::vector<CardPlace>& places) {
    std::map<std::pair<const analysis::Snapshot*, std::size_t>, std::size_t> known;
    std::vector<Stack> stacks;
    for (const CardPlace& place : places) {
        for (const std::size_t id : issues_for(*place.snapshot, place.reader)) {
            const auto [found, is_new] =
                known.emplace(std::pair(place.snapshot, id), stacks.size());
            if (is_new) stacks.push_back({id, {}, {}, {}, {}});
            stacks[found->second].places.push_back(&place);
        }
    }
    return stacks;
}

void CardMaker::make_together(const std::vector<CardPlace>& places, const std::string& folder) {
    std::vector<Stack> stacks = to_stacks(places);
    for (std::span<Stack> left(stacks); !left.empty();) {
        std::size_t count = 0;
        for (std::size_t cards = 0; count < left.size() && cards < most_at_once; ++count)
            cards += left[count].places.size();
        make_stacks(left.first(count), folder);
        left = left.subspan(count);
    }
}

void CardMaker::make_stacks(std::span<Stack> stacks, const std::string& folder) {
    const std::size_t threads =
        environment_.threads > 0 ? environment_.threads : threads_for(stacks.size());
    share_work(stacks.size(), threads, [&]() -> Work {
        const auto tools = this->tools();
        return [&, tools](std::size_t id) { make_stack(stacks[id], *tools); };
    });
    for (Stack& stack : stacks) {
        if (stack.recalled && stack.recalled->before != nullptr) add(*stack.recalled->before);
        if (stack.bytes.empty()) continue;
        const std::string path = (std::filesystem::path(folder) / stack.name).string() + ".pdf";
        const CardPlace& place = *stack.places.front();
        add({"cards", path, std::exchange(stack.bytes, {})}, place);
        if (stack.recalled) recall_->memory.note(stack.recalled->key, {place.source, {path}, ""});
    }
}

void CardMaker::make_stack(Stack& stack, Tools& tools) const {
    if (recall_ != nullptr)
        stack.recalled = recall_->find(recall_->keys.together(stack.places, stack.issue_id));
    if (stack.recalled && stack.recalled->before != nullptr) return;
    std::vector<card::Page> pages;
    for (const CardPlace* place : stack.places) {
        Made one{place, stack.issue_id, "", "", 0, 0, {}, DiagnosticSink(), {}};
        auto own = lay_out(one, tools);
        std::ranges::move(own, std::back_inserter(pages));
        stack.name = one.name;
    }
    if (pages.empty()) return;
    auto bytes = tools.pdfs.write(pages);
    // Pages that were laid out can always be written, memory permitting.
    if (!bytes) throw std::runtime_error(stack.name + ": " + bytes.error().detail);
    stack.bytes = std::move(*bytes);
    tools.fonts.forget_shapes(most_shapes);
}

void CardMaker::only_lay_out(const std::vector<CardPlace>& places) {
    const auto draw = [](const std::string&, const std::vector<card::Page>&, Tools&) {
        return std::vector<File>();
    };
    make(places, draw, [](const Made&) {});
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
    make(places, draw, [&](const Made& card) {
        if (card.page_count > 0 && wanted > card.page_count) without_page_.push_back(card.name);
    });
}

void CardMaker::make(const std::vector<CardPlace>& places, const Draw& draw, const Taken& taken) {
    std::vector<Made> cards;
    const auto make_these = [&] {
        make_at_once(cards, draw);
        for (Made& card : cards) {
            take(card);
            taken(card);
        }
        cards.clear();
    };
    for (const CardPlace& place : places) {
        for (const std::size_t id : issues_for(*place.snapshot, place.reader)) {
            cards.push_back({&place, id, "", "", 0, 0, {}, DiagnosticSink(), {}});
            if (cards.size() == most_at_once) make_these();
        }
    }
    make_these();
}

void CardMaker::make_at_once(std::vector<Made>& cards, const Draw& draw) const {
    const std::size_t threads =
        environment_.threads > 0 ? environment_.threads : threads_for(cards.size());
    share_work(cards.size(), threads, [&]() -> Work {
        const auto tools = this->tools();
        return [&, tools](std::size_t id) { make_one(cards[id], draw, *tools); };
    });
}

// The card's pages; none where it is refused.
std::vector<card::Page> CardMaker::lay_out(Made& made, Tools& tools) const {
    const CardPlace& place = *made.place;
    card::CardText text = options_.card;
    text.language = language_for(*place.snapshot, place.reader, text.language);
    const analysis::Issue issue =
        issue_for(*place.snapshot, made.issue_id, place.reader, text.language);
    made.head_begin = issue.session().span.begin;
    made.name = card_name(issue.session());
    auto pages = make_pages(*place.snapshot, issue, text, tools.fonts, made.sink, place.lent_link);
    if (!pages) return {};
    made.page_count = pages->size();
    const program::Athlete* const athlete = issue.athlete();
    made.summary = report::summary({issue.program(), issue.session(), issue.timeline()},
                                   athlete == nullptr ? "" : std::string_view(athlete->name));
    return std::move(*pages);
}

void CardMaker::make_one(Made& made, const Draw& draw, Tools& tools) const {
    if (recall_ != nullptr)
        made.recalled = recall_->find(recall_->keys.card(*made.place, made.issue_id));
    if (made.before() != nullptr) return;
    const std::vector<card::Page> pages = lay_out(made, tools);
    if (pages.empty()) return;
    const std::string path = (std::filesystem::path(made.place->folder) / made.name).string();
    made.files = draw(path, pages, tools);
    tools.fonts.forget_shapes(most_shapes);
}

void CardMaker::take(Made& made) {
    if (made.before() != nullptr) return add(*made.before());
    report(made);
    MadeMemory::Made noted{made.place->source, {}, made.summary};
    for (File& file : std::exchange(made.files, {})) {
        noted.paths.push_back(file.path);
        add(std::move(file), *made.place);
    }
    // What there is to say of a card has its places in the text, which move.
    const bool says_nothing = made.sink.kept() == 0 && made.sink.dropped() == 0;
    if (made.recalled && says_nothing) recall_->memory.note(made.recalled->key, std::move(noted));
}

void CardMaker::add(const MadeMemory::Kept& before) {
    if (auto twice = add_standing(outputs_, before)) problems_.push_back(std::move(*twice));
}

void CardMaker::add(File file, const CardPlace& place) {
    if (auto twice = add_output(outputs_, file.kind, file.path, std::move(file.bytes))) {
        problems_.push_back(std::move(*twice));
    } else {
        outputs_.at(file.path).source = place.source;
    }
}

// In the order of the cards, whichever was made first.
void CardMaker::report(const Made& made) const {
    analysis::Snapshot& snapshot = *made.place->snapshot;
    if (made.sink.dropped() > 0) {
        // Too many to have been kept: they are found again, and counted as all others.
        card::Fonts fonts(family_);
        const analysis::Issue issue =
            issue_for(snapshot, made.issue_id, made.place->reader, options_.card.language);
        static_cast<void>(make_pages(snapshot, issue, options_.card, fonts));
        return;
    }
    snapshot.sink.enter_session(made.head_begin);
    for (Diagnostic& diagnostic : made.sink.sorted())
        snapshot.sink.report(std::move(diagnostic));
    snapshot.sink.enter_session(std::nullopt);
}

}  // namespace stave::driver
