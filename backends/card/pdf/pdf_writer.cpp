#include "backends/card/pdf/pdf_writer.hpp"

#include <fmt/format.h>

#include <vector>

#include "backends/card/pdf/content.hpp"
#include "backends/card/pdf/document.hpp"
#include "backends/card/pdf/font_subset.hpp"
#include "backends/card/pdf/write_failure.hpp"

namespace stave::card {

namespace {

std::vector<FontSubset> empty_subsets(const Fonts& fonts) {
    std::vector<FontSubset> subsets;
    for (int i = 0; i < face_count; ++i) {
        const auto face = static_cast<Face>(i);
        subsets.emplace_back(fonts.name(face), fonts.file(face));
    }
    return subsets;
}

// All contents come first, for the fonts hold what they draw.
std::string write(std::span<const Page> pages, Fonts& fonts, const Made& made) {
    const Structure structure = structure_of(pages);
    std::vector<FontSubset> subsets = empty_subsets(fonts);
    std::vector<std::string> contents;
    for (std::size_t i = 0; i < pages.size(); ++i)
        contents.push_back(content_of(pages[i].height, structure.pages[i], fonts, subsets));

    Document document({pages.front().title, pages.front().language, made});
    for (std::size_t i = 0; i < subsets.size(); ++i) {
        if (subsets[i].used()) {
            document.add_font(fmt::format("F{}", i + 1), subsets[i].embed());
        }
    }
    for (std::size_t i = 0; i < pages.size(); ++i) {
        document.add_page(pages[i].width, pages[i].height, contents[i]);
    }
    document.add_structure(structure);
    return document.save();
}

}  // namespace

std::expected<std::string, WriteError> write_pdf(std::span<const Page> pages, Fonts& fonts,
                                                 const Made& made) {
    if (pages.empty()) return std::unexpected(WriteError{"no pages"});
    try {
        return write(pages, fonts, made);
    } catch (const WriteFailure& failure) {
        return std::unexpected(WriteError{failure.what()});
    }
}

}  // namespace stave::card
