// The four faces of a family, and shaping: text in, glyphs and widths out, by HarfBuzz
// with kerning and tabular figures on and ligatures off.
//
// A Fonts object keeps the shape of every text it has seen. It is not shared
// between threads. Text that a face cannot draw is reported by `first_missing`;
// shape() then uses the face's box glyph for it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "backends/card/family.hpp"
#include "backends/card/page.hpp"

namespace stave::card {

// Advances and offsets in font units, of which `units_per_em` make the size.
struct Glyph {
    std::uint32_t id = 0;
    // Byte offset in the text of the cluster the glyph draws.
    std::uint32_t cluster = 0;
    std::int32_t advance = 0;
    std::int32_t x_offset = 0;
    std::int32_t y_offset = 0;
};

struct ShapedText {
    std::vector<Glyph> glyphs;
    std::int32_t advance = 0;
};

// A glyph's outline, in half font units with y upwards: halves, since the points that a
// TrueType outline leaves out lie in the middle of others. `x`, `y` is where a step ends,
// `x1`.. are the curve's control points.
struct OutlineStep {
    enum class Kind : std::uint8_t { move, line, quadratic, cubic, close };
    Kind kind = Kind::move;
    std::int32_t x = 0, y = 0;
    std::int32_t x1 = 0, y1 = 0;
    std::int32_t x2 = 0, y2 = 0;
};
using Outline = std::vector<OutlineStep>;

class Fonts {
public:
    // With the program's own faces.
    Fonts();
    explicit Fonts(Family family);
    ~Fonts();
    Fonts(const Fonts&) = delete;
    Fonts& operator=(const Fonts&) = delete;

    // The reference stays valid until `forget_shapes`.
    [[nodiscard]] const ShapedText& shape(Face face, std::string_view text);
    // Width on the page, tracking included.
    [[nodiscard]] Centipoints measure(Face face, Centipoints size, std::string_view text,
                                      Centipoints tracking = 0);
    // The first code point of the text that the face has no glyph for.
    [[nodiscard]] std::optional<char32_t> first_missing(Face face, std::string_view text) const;
    // Frees the shapes where more texts than these have been seen: for who makes thousands
    // of cards, between two of them.
    void forget_shapes(std::size_t most);
    // Empty for a blank.
    [[nodiscard]] Outline outline(Face face, std::uint32_t glyph) const;
    [[nodiscard]] int units_per_em(Face face) const;
    [[nodiscard]] const Family& family() const;
    // The font file, for embedding; `name` is its PostScript name.
    [[nodiscard]] std::span<const std::byte> file(Face face) const;
    [[nodiscard]] std::string_view name(Face face) const;

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace stave::card
