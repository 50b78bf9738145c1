#include "backends/card/pdf/pdf_writer.hpp"

#include <fmt/format.h>

#include <unordered_map>
#include <vector>

#include "backends/card/pdf/content.hpp"
#include "backends/card/pdf/document.hpp"
#include "backends/card/pdf/font_subset.hpp"
#include "backends/card/pdf/packer.hpp"
#include "backends/card/pdf/write_failure.hpp"

namespace stave::card {

// Fonts by what they draw.
struct PdfWriter::State {
    // Of each face; a few dozen kilobytes.
    static constexpr std::size_t most_remembered = 32;
    using Remembered = std::unordered_map<std::string, EmbeddedFont>;

    Fonts& fonts;
    Made made;
    Packer packer;
    std::vector<FontSource> sources;
    std::vector<Remembered> remembered{face_count};

    const EmbeddedFont& embedded(std::size_t face, const FontSubset& subset);
    std::string write(std::span<const Page> pages);
};

const EmbeddedFont& PdfWriter::State::embedded(std::size_t face, const FontSubset& subset) {
    Remembered& known = remembered[face];
    const std::string key = subset.key();
    if (const auto found = known.find(key); found != known.end()) return found->second;
    if (known.size() >= most_remembered) known.clear();
    EmbeddedFont font = subset.embed();
    font.packed_file = packer.packed(font.file);
    if (!font.glyphs.empty()) font.packed_glyphs = packer.packed(font.glyphs);
    font.packed_to_unicode = packer.packed(font.to_unicode);
    return known.emplace(key, std::move(font)).first->second;
}

// All contents come first, for the fonts hold what they draw; then codes get their order.
std::string PdfWriter::State::write(std::span<const Page> pages) {
    const Structure structure = structure_of(pages);
    std::vector<FontSubset> subsets;
    for (const FontSource& source : sources)
        subsets.emplace_back(source);
    std::vector<Content> contents;
    for (std::size_t i = 0; i < pages.size(); ++i)
        contents.push_back(content_of(pages[i].height, structure.pages[i], fonts, subsets));

    for (FontSubset& subset : subsets)
        subset.arrange();
    for (Content& content : contents)
        arrange_codes(content, subsets);

    Document document({pages.front().title, pages.front().language, made}, packer);
    for (std::size_t i = 0; i < subsets.size(); ++i) {
        if (subsets[i].used()) {
            document.add_font(fmt::format("F{}", i + 1), embedded(i, subsets[i]));
        }
    }
    for (std::size_t i = 0; i < pages.size(); ++i) {
        document.add_page(pages[i].width, pages[i].height, contents[i].operators);
    }
    document.add_structure(structure);
    return document.save();
}

PdfWriter::PdfWriter(Fonts& fonts, const Made& made)
    : state_(std::make_unique<State>(State{fonts, made, {}, {}})) {
    for (int i = 0; i < face_count; ++i) {
        const auto face = static_cast<Face>(i);
        state_->sources.emplace_back(fonts.name(face), fonts.file(face));
    }
}

PdfWriter::~PdfWriter() = default;

std::expected<std::string, WriteError> PdfWriter::write(std::span<const Page> pages) {
    if (pages.empty()) return std::unexpected(WriteError{"no pages"});
    try {
        return state_->write(pages);
    } catch (const WriteFailure& failure) {
        return std::unexpected(WriteError{failure.what()});
    }
}

std::expected<std::string, WriteError> write_pdf(std::span<const Page> pages, Fonts& fonts,
                                                 const Made& made) {
    return PdfWriter(fonts, made).write(pages);
}

}  // namespace stave::card
