#include "compiler/driver/card_outputs.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <stdexcept>
#include <utility>

#include "backends/card/png/png_writer.hpp"
#include "backends/card/svg/svg_writer.hpp"
#include "backends/report/report.hpp"
#include "compiler/driver/outputs.hpp"

namespace stave::driver {

namespace {

// Texts of about a hundred cards, a few megabytes.
constexpr std::size_t most_shapes = 20'000;

// NAME, and NAME-2 for a second page.
std::string page_name(const std::string& name, std::size_t page_id) {
    return page_id == 0 ? name : fmt::format("{}-{}", name, page_id + 1);
}

std::string place(const std::string& folder, const std::string& name) {
    return (std::filesystem::path(folder) / name).string();
}

}  // namespace

CardMaker::CardMaker(const Options& options, const Environment& environment, OutputSet& outputs,
                     std::vector<Diagnostic>& problems)
    : options_(options), outputs_(outputs), problems_(problems), pdfs_(fonts_, environment.made) {}

void CardMaker::make_cards(analysis::Snapshot& snapshot, const std::string& folder,
                           const std::string& lent_link) {
    for (std::size_t i = 0; i < analysis::issue_count(snapshot); ++i) {
        const analysis::Issue issue = analysis::issue(snapshot, i);
        if (!issue.is_held()) continue;
        const auto pages = make_pages(snapshot, issue, options_.card, fonts_, lent_link);
        if (!pages) continue;
        const std::string name = card_name(issue.session());
        const std::string path = place(folder, name + ".pdf");
        auto bytes = pdfs_.write(*pages);
        // A page that was laid out can always be written, memory permitting.
        if (!bytes) throw std::runtime_error(path + ": " + bytes.error().detail);
        add("card", path, std::move(*bytes));
        if (options_.svg) make_pictures(name, *pages, folder);
        summaries_.push_back(report::summary({issue.program(), issue.session(), issue.timeline()}));
        fonts_.forget_shapes(most_shapes);
    }
}

void CardMaker::make_pictures(const std::string& name, const std::vector<card::Page>& pages,
                              const std::string& folder) {
    for (std::size_t page_id = 0; page_id < pages.size(); ++page_id) {
        add("picture", place(folder, page_name(name, page_id) + ".svg"),
            card::write_svg(pages[page_id], fonts_));
    }
}

void CardMaker::make_previews(analysis::Snapshot& snapshot, const std::string& folder) {
    const auto wanted = static_cast<std::size_t>(options_.page);
    for (std::size_t i = 0; i < analysis::issue_count(snapshot); ++i) {
        const analysis::Issue issue = analysis::issue(snapshot, i);
        if (!issue.is_held()) continue;
        const auto pages = make_pages(snapshot, issue, options_.card, fonts_);
        if (!pages) continue;
        const std::string name = card_name(issue.session());
        for (std::size_t page_id = 0; page_id < pages->size(); ++page_id) {
            if (wanted > 0 && page_id + 1 != wanted) continue;
            const std::string path = place(folder, page_name(name, page_id) + ".png");
            auto bytes = card::write_png((*pages)[page_id], fonts_, options_.dots_per_inch);
            // A page that was laid out can always be drawn, memory permitting.
            if (!bytes) throw std::runtime_error(path + ": cairo failed");
            add("picture", path, std::move(*bytes));
        }
        if (wanted > pages->size()) without_page_.push_back(name);
        fonts_.forget_shapes(most_shapes);
    }
}

void CardMaker::add(std::string_view kind, const std::string& path, std::string bytes) {
    if (auto twice = add_output(outputs_, kind, path, std::move(bytes)))
        problems_.push_back(std::move(*twice));
}

}  // namespace stave::driver
