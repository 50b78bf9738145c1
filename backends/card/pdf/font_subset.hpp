// One face of one document: which glyphs the pages draw, and from them the font
// to embed.
//
// A code is what a content stream shows, a CID of the font. There is one for each pair of
// glyph and text, so that a glyph drawn for two texts (a space and a no-break space) still
// copies as each was typed. Codes are given in order of first use and put into the order
// of the glyphs at the end, so that the same letters make the same font in whatever order
// pages have them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace stave::card {

using Code = std::uint16_t;

// Lengths are thousandths of the em, as PDF counts them.
struct FontMetrics {
    int x_min = 0, y_min = 0, x_max = 0, y_max = 0;
    int ascent = 0;
    int descent = 0;
    int cap_height = 0;
    int stem_width = 0;
};

struct EmbeddedFont {
    // With the tag of six capitals that PDF wants before a subset's name.
    std::string name;
    // TrueType: the outlines of the glyphs drawn, nothing to shape with.
    std::string file;
    // Indexed by code. The glyphs are big-endian words, as PDF maps codes to glyphs; empty
    // where each code is its glyph.
    std::string glyphs;
    std::vector<int> widths;
    // A CMap from codes to the text they draw.
    std::string to_unicode;
    // The three compressed, since a writer may embed them often.
    std::string packed_file;
    std::string packed_glyphs;
    std::string packed_to_unicode;
    FontMetrics metrics;
};

// A font file, opened once for the subsets of many documents.
class FontSource {
public:
    // `file` must outlive the object; `name` is its PostScript name.
    FontSource(std::string_view name, std::span<const std::byte> file);
    ~FontSource();
    FontSource(FontSource&&) noexcept;
    FontSource& operator=(FontSource&&) = delete;

private:
    friend class FontSubset;
    struct State;
    std::unique_ptr<State> state_;
};

class FontSubset {
public:
    // `source` must outlive the object.
    explicit FontSubset(const FontSource& source);
    ~FontSubset();
    FontSubset(FontSubset&&) noexcept;
    FontSubset& operator=(FontSubset&&) = delete;

    // `text` is empty for every glyph of a cluster but its first.
    [[nodiscard]] Code code(std::uint32_t glyph, std::string_view text);
    // How far a viewer moves on after the code, unkerned.
    [[nodiscard]] int width(Code code) const;
    [[nodiscard]] bool used() const;
    // Gives all codes anew, once, when no glyph is to come; what follows speaks of these.
    void arrange();
    // The new one of a code that was given before.
    [[nodiscard]] Code arranged(Code code) const;
    // Two subsets of a source with equal keys embed alike.
    [[nodiscard]] std::string key() const;
    // Throws WriteFailure.
    [[nodiscard]] EmbeddedFont embed() const;

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace stave::card
