#include "backends/card/pdf/content.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <optional>
#include <string_view>
#include <utility>

#include "backends/card/numbers.hpp"

namespace stave::card {

namespace {

// A quarter circle of radius 1 as a Bézier curve, in ten-thousandths: the usual
// 4/3 * (sqrt(2) - 1), at most 0.03 % off the circle.
constexpr std::int64_t curve_arm = 5523;

constexpr Centipoints arm_of(Centipoints radius) {
    return static_cast<Centipoints>((radius * curve_arm + 5000) / 10000);
}

constexpr int sign(Centipoints value) {
    return value < 0 ? -1 : value > 0 ? 1 : 0;
}

// The operators' own state at a page's start, so that only changes are written.
struct GraphicsState {
    int fill_grey = 0;
    int stroke_grey = 0;
    Centipoints line_width = 100;
    Centipoints dots = 0;
    std::optional<Face> face;
    Centipoints size = 0;
    Centipoints tracking = 0;
    Centipoints rise = 0;
};

class ContentWriter {
public:
    ContentWriter(Centipoints page_height, Fonts& fonts, std::vector<FontSubset>& subsets)
        : bottom_(page_height), fonts_(fonts), subsets_(subsets) {}

    void add(const Sequence& sequence);

    void operator()(const Text& text);
    void operator()(const Line& line);
    void operator()(const Box& box);
    void operator()(const Circle& circle);
    void operator()(const Triangle& triangle);
    void operator()(const Modules& code);
    void operator()(const Link& /*area*/) const {}
    void operator()(const Open& /*mark*/) const {}
    void operator()(const Close& /*mark*/) const {}

    [[nodiscard]] Content take() && { return {std::move(out_), std::move(shown_)}; }

private:
    void number(std::int64_t hundredths) {
        append_hundredths(out_, hundredths);
        out_ += ' ';
    }
    void add_code(Face face, Code code);
    // From the top left, y down, to PDF's bottom left, y up.
    void point(Centipoints x, Centipoints y);
    void op(std::string_view name) { out_.append(name) += '\n'; }

    void move_to(Centipoints x, Centipoints y);
    void line_to(Centipoints x, Centipoints y);
    void curve_to(Centipoints x1, Centipoints y1, Centipoints x2, Centipoints y2, Centipoints x3,
                  Centipoints y3);
    void rounded_path(Centipoints width, Centipoints height, Centipoints radius);
    void paint_rounded(const Box& box, Centipoints radius, std::string_view paint);

    // Writes the operator if the value is not the one in force.
    void set(Centipoints GraphicsState::*field, Centipoints value, std::string_view name);
    void set_stroke(Centipoints width, int grey, Centipoints dots);
    void set_fill(int grey) { set(&GraphicsState::fill_grey, grey, "g"); }
    void set_font(const Text& text);
    void show(const Text& text, const ShapedText& shaped);
    void show_space_before(const Text& next);

    std::string out_;
    std::vector<Content::Shown> shown_;
    GraphicsState state_;
    // The y of PDF's 0.
    Centipoints bottom_;
    // From where the next text of a text object is moved to its place.
    Centipoints text_x_ = 0;
    Centipoints text_y_ = 0;
    // The text before it in the same sequence.
    const Text* last_ = nullptr;
    Fonts& fonts_;
    std::vector<FontSubset>& subsets_;
};

void ContentWriter::point(Centipoints x, Centipoints y) {
    number(x);
    number(std::int64_t{bottom_} - y);
}

void ContentWriter::move_to(Centipoints x, Centipoints y) {
    point(x, y);
    op("m");
}

void ContentWriter::line_to(Centipoints x, Centipoints y) {
    point(x, y);
    op("l");
}

void ContentWriter::curve_to(Centipoints x1, Centipoints y1, Centipoints x2, Centipoints y2,
                             Centipoints x3, Centipoints y3) {
    point(x1, y1);
    point(x2, y2);
    point(x3, y3);
    op("c");
}

void ContentWriter::set(Centipoints GraphicsState::*field, Centipoints value,
                        std::string_view name) {
    if (state_.*field == value) return;
    state_.*field = value;
    number(value);
    op(name);
}

void ContentWriter::set_stroke(Centipoints width, int grey, Centipoints dots) {
    set(&GraphicsState::stroke_grey, grey, "G");
    set(&GraphicsState::line_width, width, "w");
    if (state_.dots == dots) return;
    // Dashes of no length with round caps are round dots.
    if (dots > 0) {
        out_ += "1 J [0 ";
        number(dots);
        op("] 0 d");
    } else {
        op("0 J [] 0 d");
    }
    state_.dots = dots;
}

void ContentWriter::operator()(const Line& line) {
    if (line.width <= 0) return;
    set_stroke(line.width, line.grey, std::max(line.dots, 0));
    move_to(line.x1, line.y1);
    if (line.dots > 0) {
        // A dot at the very end is left out by some viewers (poppler 22 is one),
        // so the path goes on by a hundredth of a point.
        line_to(line.x2 + sign(line.x2 - line.x1), line.y2 + sign(line.y2 - line.y1));
    } else {
        line_to(line.x2, line.y2);
    }
    op("S");
}

// With its top left corner at 0, 0.
void ContentWriter::rounded_path(Centipoints right, Centipoints bottom, Centipoints radius) {
    constexpr Centipoints left = 0;
    constexpr Centipoints top = 0;
    // From a corner's two ends to its control points.
    const Centipoints near = radius - arm_of(radius);
    move_to(left + radius, top);
    line_to(right - radius, top);
    curve_to(right - near, top, right, top + near, right, top + radius);
    line_to(right, bottom - radius);
    curve_to(right, bottom - near, right - near, bottom, right - radius, bottom);
    line_to(left + radius, bottom);
    curve_to(left + near, bottom, left, bottom - near, left, bottom - radius);
    line_to(left, top + radius);
    curve_to(left, top + near, left + near, top, left + radius, top);
    op("h");
}

// The origin is moved to the box, so that boxes of one size are written alike: a card
// has dozens of them, and that is what compression lives on.
void ContentWriter::paint_rounded(const Box& box, Centipoints radius, std::string_view paint) {
    out_ += "q 1 0 0 1 ";
    point(box.x, box.y);
    op("cm");
    const Centipoints bottom = std::exchange(bottom_, 0);
    rounded_path(box.width, box.height, radius);
    bottom_ = bottom;
    out_.append(paint) += " Q\n";
}

void ContentWriter::operator()(const Box& box) {
    const bool filled = box.fill_grey >= 0;
    const bool stroked = box.stroke_width > 0;
    if (!filled && !stroked) return;
    if (filled) set_fill(box.fill_grey);
    if (stroked) set_stroke(box.stroke_width, box.stroke_grey, 0);

    const Centipoints radius = std::min({box.radius, box.width / 2, box.height / 2});
    const std::string_view paint = filled && stroked ? "B" : filled ? "f" : "S";
    if (radius > 0) return paint_rounded(box, radius, paint);
    point(box.x, box.y + box.height);
    number(box.width);
    number(box.height);
    op("re");
    op(paint);
}

void ContentWriter::operator()(const Circle& circle) {
    if (circle.stroke_width <= 0) return;
    set_stroke(circle.stroke_width, circle.grey, 0);
    const Centipoints diameter = 2 * circle.radius;
    paint_rounded({circle.x - circle.radius, circle.y - circle.radius, diameter, diameter},
                  circle.radius, "S");
}

void ContentWriter::operator()(const Triangle& triangle) {
    set_fill(triangle.grey);
    move_to(triangle.x1, triangle.y1);
    line_to(triangle.x2, triangle.y2);
    line_to(triangle.x3, triangle.y3);
    op("h f");
}

// One fill, so that no viewer shows seams between the modules.
void ContentWriter::operator()(const Modules& code) {
    if (code.dark.empty()) return;
    set_fill(0);
    for (const Modules::Rectangle& part : code.dark) {
        point(code.x + part.x * code.module, code.y + (part.y + part.height) * code.module);
        number(part.width * code.module);
        number(part.height * code.module);
        op("re");
    }
    op("f");
}

void ContentWriter::set_font(const Text& text) {
    if (state_.face == text.face && state_.size == text.size) return;
    state_.face = text.face;
    state_.size = text.size;
    fmt::format_to(std::back_inserter(out_), "/F{} ", static_cast<int>(text.face) + 1);
    number(text.size);
    op("Tf");
}

void ContentWriter::add_code(Face face, Code code) {
    shown_.push_back({out_.size(), face, code});
    out_.append(4, '0');
}

void ContentWriter::operator()(const Text& text) {
    const ShapedText& shaped = fonts_.shape(text.face, text.text);
    if (shaped.glyphs.empty()) return;
    show_space_before(text);
    last_ = &text;
    set_fill(text.grey);
    set_font(text);
    set(&GraphicsState::tracking, text.tracking, "Tc");
    number(std::int64_t{text.x} - text_x_);
    number(std::int64_t{text_y_} - text.y);
    op("Td");
    text_x_ = text.x;
    text_y_ = text.y;
    show(text, shaped);
}

// Programs that read the structure and not the places of words would run texts together
// that stand apart. The blank is drawn in the face in force, behind the last text.
void ContentWriter::show_space_before(const Text& next) {
    if (last_ == nullptr || !state_.face) return;
    const Centipoints end =
        last_->x + fonts_.measure(last_->face, last_->size, last_->text, last_->tracking);
    const bool adjoins = next.y == last_->y && next.x >= last_->x && next.x - end < next.size / 20;
    const ShapedText& blank = fonts_.shape(*state_.face, " ");
    if (adjoins || blank.glyphs.empty()) return;
    FontSubset& subset = subsets_[static_cast<std::size_t>(*state_.face)];
    out_ += '<';
    add_code(*state_.face, subset.code(blank.glyphs.front().id, " "));
    op("> Tj");
}

void ContentWriter::add(const Sequence& sequence) {
    if (sequence.number) {
        fmt::format_to(std::back_inserter(out_), "/{} <</MCID {}>> BDC\n", name_of(sequence.tag),
                       *sequence.number);
    } else {
        op("/Artifact BMC");
    }
    const bool has_texts = std::holds_alternative<Text>(*sequence.primitives.front());
    if (has_texts) op("BT");
    text_x_ = 0;
    text_y_ = bottom_;
    last_ = nullptr;
    for (const Primitive* primitive : sequence.primitives)
        std::visit(*this, *primitive);
    if (has_texts) op("ET");
    op("EMC");
}

// The text that the glyph at `index` draws: its cluster's for the first glyph of
// a cluster, nothing for the others.
std::string_view text_of(const ShapedText& shaped, std::size_t index, std::string_view text) {
    const std::size_t begin = shaped.glyphs[index].cluster;
    if (index > 0 && shaped.glyphs[index - 1].cluster == begin) return {};
    std::size_t next = index + 1;
    while (next < shaped.glyphs.size() && shaped.glyphs[next].cluster == begin)
        ++next;
    const std::size_t end = next < shaped.glyphs.size() ? shaped.glyphs[next].cluster : text.size();
    return text.substr(begin, end - begin);
}

// A viewer moves on by whole thousandths of the em. Where that leaves it a
// thousandth or more from where shaping puts the next glyph (kerning, mostly), a
// number in the TJ array moves it there, so errors never add up.
void ContentWriter::show(const Text& text, const ShapedText& shaped) {
    FontSubset& subset = subsets_[static_cast<std::size_t>(text.face)];
    const std::int64_t units_per_em = fonts_.units_per_em(text.face);
    // Pen of the shaped text in font units, of the viewer in thousandths.
    std::int64_t pen = 0;
    std::int64_t viewer_pen = 0;
    out_ += "[<";
    for (std::size_t i = 0; i < shaped.glyphs.size(); ++i) {
        const Glyph& glyph = shaped.glyphs[i];
        const auto rise =
            static_cast<Centipoints>(std::int64_t{glyph.y_offset} * text.size / units_per_em);
        if (rise != state_.rise) {
            op(">] TJ");
            set(&GraphicsState::rise, rise, "Ts");
            out_ += "[<";
        }
        const std::int64_t off = (pen + glyph.x_offset) * 1000 - viewer_pen * units_per_em;
        if (off >= units_per_em || off <= -units_per_em) {
            const std::int64_t half = off < 0 ? -units_per_em / 2 : units_per_em / 2;
            const std::int64_t move = (off + half) / units_per_em;
            fmt::format_to(std::back_inserter(out_), ">{}<", -move);
            viewer_pen += move;
        }
        const Code code = subset.code(glyph.id, text_of(shaped, i, text.text));
        add_code(text.face, code);
        pen += glyph.advance;
        viewer_pen += subset.width(code);
    }
    op(">] TJ");
    set(&GraphicsState::rise, 0, "Ts");
}

}  // namespace

Content content_of(Centipoints page_height, const PageStructure& structure, Fonts& fonts,
                   std::vector<FontSubset>& subsets) {
    ContentWriter writer(page_height, fonts, subsets);
    for (const auto* sequences : {&structure.shapes, &structure.texts}) {
        for (const Sequence& sequence : *sequences)
            writer.add(sequence);
    }
    return std::move(writer).take();
}

}  // namespace stave::card
