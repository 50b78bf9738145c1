// Pieces of a page and the text in them: runs of words in several faces, broken
// into lines of a width.
//
// Lines break at blanks, never at a no-break space; a word that is wider than the line
// breaks behind a sign, else between characters, with a hyphen where those are letters,
// and inside a number only where it fills the line. A Piece has its own origin and is moved to
// its place when its height is known.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "backends/card/fonts.hpp"
#include "backends/card/layout_style.hpp"
#include "backends/card/page.hpp"

namespace stave::card::layout {

struct Piece {
    std::vector<Primitive> primitives;
    Centipoints height = 0;
};

// Adds `from`, moved down by `y`.
void place(Piece& to, const Piece& from, Centipoints y);
// The same for what stands on every page and is read once.
void place_artifact(Piece& to, const Piece& from, Centipoints y);

// Words in one style. `gap` is the blank to the run before it on the same line. Where a
// word is wider than the line it gets a hyphen between two letters, unless its signs
// count one by one, as those of an address do.
struct Run {
    TextStyle style;
    std::string text;
    Centipoints gap = 0;
    bool is_literal = false;
};

// Words on one line with their x from the line's start.
struct LinePart {
    Centipoints x = 0;
    TextStyle style;
    std::string text;
};

struct TextLine {
    std::vector<LinePart> parts;
    Centipoints width = 0;
    // Largest size on the line.
    Centipoints size = 0;
};

struct TextBlock {
    std::vector<TextLine> lines;

    [[nodiscard]] Centipoints height() const;
};

[[nodiscard]] TextBlock wrap(Fonts& fonts, const std::vector<Run>& runs, Centipoints width);

// A blank's width in a style.
[[nodiscard]] Centipoints blank(Fonts& fonts, const TextStyle& style);

// Words whose numbers stand out: "3 rounds, rest 60 s between rounds".
// The first run gets `gap`.
void add_words(std::vector<Run>& runs, Fonts& fonts, std::string_view text, const TextStyle& plain,
               const TextStyle& number, Centipoints gap);

// The text with no-break spaces for its blanks, where it fits the width at all.
[[nodiscard]] std::string unbroken(Fonts& fonts, const TextStyle& style, std::string_view text,
                                   Centipoints width);

// Runs that may break behind each of these signs: "12-" "10-" "8" behind "-".
[[nodiscard]] std::vector<Run> breaking_behind(std::string_view signs, const TextStyle& style,
                                               std::string_view text);

void draw(Piece& piece, Centipoints x, Centipoints baseline, const TextStyle& style,
          std::string_view text);
void draw_right(Piece& piece, Fonts& fonts, Centipoints right, Centipoints baseline,
                const TextStyle& style, std::string_view text);
void draw_centred(Piece& piece, Fonts& fonts, Centipoints centre, Centipoints baseline,
                  const TextStyle& style, std::string_view text);
// From `y`, the block's top; gives its bottom.
Centipoints draw(Piece& piece, Centipoints x, Centipoints y, const TextBlock& block);
// What is drawn between the two is one part of this role.
void open(Piece& piece, Role role, std::string alternative = {});
void close(Piece& piece);
// A horizontal rule, and one of dots to write on.
void rule(Piece& piece, Centipoints x1, Centipoints x2, Centipoints y, Centipoints width,
          int grey_level);
void dotted(Piece& piece, Centipoints x1, Centipoints x2, Centipoints y);
// A tick box with its top left corner at x, y; `letter` is "", "L", "R" or a figure.
// What may be left out has a dotted one.
enum class BoxLine : std::uint8_t { solid, dotted };
void tick_box(Piece& piece, Fonts& fonts, Centipoints x, Centipoints y, Centipoints size,
              std::string_view letter, BoxLine line = BoxLine::solid);

}  // namespace stave::card::layout
