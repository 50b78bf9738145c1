// One printed page as a closed list of primitives: what `lay_out` gives and
// what every writer takes. Nothing here knows sessions or libharu.
//
// Lengths are whole hundredths of a point (1 pt = 1/72 inch), so that a page
// dumps and compares exactly. x runs right, y runs down from the top left.
// Greys run from 0 (black) to 100 (white). Shapes are drawn first, then texts, each
// in list order, which is also the reading order. Marks that draw nothing (Open and Close) say
// what the primitives between them are, for readers who cannot see the page.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace stave::card {

using Centipoints = std::int32_t;
[[nodiscard]] constexpr Centipoints points(double value) {
    return static_cast<Centipoints>(value * 100.0 + (value < 0 ? -0.5 : 0.5));
}

enum class Face : std::uint8_t { condensed_bold, condensed_regular, regular, medium };
inline constexpr int face_count = 4;

// A line of text, drawn from `x` on the baseline `y`. `tracking` is added after
// every glyph.
struct Text {
    Centipoints x = 0;
    Centipoints y = 0;
    Face face = Face::regular;
    Centipoints size = 0;
    int grey = 0;
    Centipoints tracking = 0;
    std::string text;
};

// A straight line; dots > 0 draws round dots that far apart instead.
struct Line {
    Centipoints x1 = 0, y1 = 0, x2 = 0, y2 = 0;
    Centipoints width = 0;
    int grey = 0;
    Centipoints dots = 0;
};

// A rectangle with rounded corners, filled (fill_grey 0..100) or not (-1),
// stroked (stroke_width > 0) in stroke_grey or not.
struct Box {
    Centipoints x = 0, y = 0, width = 0, height = 0;
    Centipoints radius = 0;
    int fill_grey = -1;
    Centipoints stroke_width = 0;
    int stroke_grey = 0;
};

struct Circle {
    Centipoints x = 0, y = 0, radius = 0;
    Centipoints stroke_width = 0;
    int grey = 0;
};

// A filled polygon of three points: arrowheads.
struct Triangle {
    Centipoints x1 = 0, y1 = 0, x2 = 0, y2 = 0, x3 = 0, y3 = 0;
    int grey = 0;
};

// A black square code of `side` by `side` modules, each a square of the size
// `module`: the dark ones as rectangles that do not overlap, counted in modules
// from the top left. x and y are those of the first module; the quiet zone around
// the code is no part of it.
struct Modules {
    struct Rectangle {
        std::int32_t x = 0, y = 0, width = 0, height = 0;
        bool operator==(const Rectangle&) const = default;
    };
    Centipoints x = 0, y = 0;
    Centipoints module = 0;
    std::int32_t side = 0;
    std::vector<Rectangle> dark;
};

// An area that leads to a URI; draws nothing.
struct Link {
    Centipoints x = 0, y = 0, width = 0, height = 0;
    std::string uri;
};

// What a part of the page is. Texts that stand in no paragraph, heading, item or link
// make a paragraph of their own. Lines and boxes outside figures are decoration, and so
// is everything in an artifact: what stands on every page, as a running head.
enum class Role : std::uint8_t {
    heading1,
    heading2,
    section,
    paragraph,
    list,
    item,
    figure,
    link,
    artifact,
};

// Begins a part that ends at its Close; parts nest, and end on the page they begin on.
// `alternative` stands for what a figure shows; others have none.
struct Open {
    Role role = Role::paragraph;
    std::string alternative;
};
struct Close {};

using Primitive = std::variant<Text, Line, Box, Circle, Triangle, Modules, Link, Open, Close>;

struct Page {
    Centipoints width = 0;
    Centipoints height = 0;
    std::string title;
    // BCP 47, for the document's language.
    std::string language = "en";
    std::vector<Primitive> primitives;
};

// One line for each primitive, in order, for golden tests and bug reports.
[[nodiscard]] std::string dump(const Page& page);

}  // namespace stave::card
