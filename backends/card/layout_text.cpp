#include "backends/card/layout_text.hpp"

#include <algorithm>
#include <cstddef>
#include <type_traits>
#include <utility>

namespace stave::card::layout {

namespace {

void move_down(Primitive& primitive, Centipoints by) {
    std::visit(
        [by](auto& shape) {
            using Shape = std::remove_cvref_t<decltype(shape)>;
            if constexpr (std::is_same_v<Shape, Line>) {
                shape.y1 += by;
                shape.y2 += by;
            } else if constexpr (std::is_same_v<Shape, Triangle>) {
                shape.y1 += by;
                shape.y2 += by;
                shape.y3 += by;
            } else if constexpr (requires { shape.y; }) {
                shape.y += by;
            }
        },
        primitive);
}

Centipoints measure(Fonts& fonts, const TextStyle& style, std::string_view text) {
    return fonts.measure(style.face, style.size, text, style.tracking);
}

bool continues_character(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

// Between the dots along one side of a box.
constexpr Centipoints box_dots = 5;
// Letters in boxes: the least size of every paper that has boxes.
constexpr Centipoints box_letter = points(7);

// Byte length of the longest beginning that fits the width: one character at
// least.
std::size_t fitting_length(Fonts& fonts, const TextStyle& style, std::string_view word,
                           Centipoints width) {
    std::size_t fits = 0;
    for (std::size_t end = 1; end <= word.size(); ++end) {
        if (end < word.size() && continues_character(word[end])) continue;
        if (fits > 0 && measure(fonts, style, word.substr(0, end)) > width) break;
        fits = end;
    }
    return fits;
}

bool is_figure(char c) {
    return c >= '0' && c <= '9';
}

// Every letter beyond ASCII counts; what else is there has no place inside long words.
bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           static_cast<unsigned char>(c) >= 0x80U;
}

// Where a word whose first `most` bytes fit is best cut: behind the last sign among
// them, else before a number, else there.
std::size_t break_within(std::string_view word, std::size_t most) {
    if (most >= word.size()) return word.size();
    for (std::size_t end = most; end > 1; --end) {
        const char before = word[end - 1];
        if (!is_letter(before) && !is_figure(before)) return end;
    }
    std::size_t end = most;
    while (end > 0 && is_figure(word[end - 1]) && is_figure(word[end]))
        --end;
    return end > 0 ? end : most;
}

// Fills lines word by word.
class Wrapper {
public:
    Wrapper(Fonts& fonts, Centipoints width) : fonts_(fonts), width_(width) {}

    void add(const Run& run) {
        std::string_view rest = run.text;
        bool first = true;
        while (!rest.empty()) {
            const std::size_t end = std::min(rest.find(' '), rest.size());
            if (end > 0) add_word(run, rest.substr(0, end), first);
            if (end > 0) first = false;
            rest.remove_prefix(std::min(end + 1, rest.size()));
        }
    }

    TextBlock finish() {
        if (!line_.parts.empty()) block_.lines.push_back(std::move(line_));
        return std::move(block_);
    }

private:
    // `first` begins a run, which stands its gap behind the one before it.
    void add_word(const Run& run, std::string_view word, bool first) {
        if (first && append_part(run.style, word, run.gap)) return;
        if (!first && extend_part(word)) return;
        if (!line_.parts.empty()) break_line();
        while (!append_part(run.style, word, 0)) {
            // A character that is wider than the line is all there is to put there.
            const Centipoints hyphen = run.is_literal ? 0 : measure(fonts_, run.style, "-");
            const std::size_t most = fitting_length(fonts_, run.style, word, width_ - hyphen);
            const std::size_t length = run.is_literal ? most : break_within(word, most);
            std::string beginning(word.substr(0, length));
            const bool parts_letters =
                length < word.size() && is_letter(word[length - 1]) && is_letter(word[length]);
            word.remove_prefix(length);
            const bool hyphenated = parts_letters && !run.is_literal &&
                                    measure(fonts_, run.style, beginning + '-') <= width_;
            put_part(run.style, hyphenated ? beginning + '-' : beginning, 0);
            if (word.empty()) return;
            break_line();
        }
    }

    void break_line() {
        block_.lines.push_back(std::move(line_));
        line_ = {};
    }

    // Starts a part where the line has room for it.
    bool append_part(const TextStyle& style, std::string_view word, Centipoints gap) {
        const Centipoints x = line_.parts.empty() ? 0 : line_.width + gap;
        if (x + measure(fonts_, style, word) > width_) return false;
        put_part(style, word, x);
        return true;
    }

    void put_part(const TextStyle& style, std::string_view word, Centipoints x) {
        line_.parts.push_back({x, style, std::string(word)});
        line_.width = x + measure(fonts_, style, word);
        line_.size = std::max(line_.size, style.size);
    }

    // Adds a word to the last part.
    bool extend_part(std::string_view word) {
        LinePart& part = line_.parts.back();
        const std::string longer = part.text + ' ' + std::string(word);
        const Centipoints width = part.x + measure(fonts_, part.style, longer);
        if (width > width_) return false;
        part.text = longer;
        line_.width = width;
        return true;
    }

    Fonts& fonts_;
    Centipoints width_;
    TextBlock block_;
    TextLine line_;
};

bool starts_with_digit(std::string_view word) {
    return !word.empty() && is_figure(word.front());
}

}  // namespace

void place(Piece& to, const Piece& from, Centipoints y) {
    for (const Primitive& primitive : from.primitives) {
        to.primitives.push_back(primitive);
        move_down(to.primitives.back(), y);
    }
    to.height = std::max(to.height, y + from.height);
}

void place_artifact(Piece& to, const Piece& from, Centipoints y) {
    open(to, Role::artifact);
    place(to, from, y);
    close(to);
}

Centipoints TextBlock::height() const {
    Centipoints sum = 0;
    for (const TextLine& line : lines)
        sum += line_height(line.size);
    return sum;
}

TextBlock wrap(Fonts& fonts, const std::vector<Run>& runs, Centipoints width) {
    Wrapper wrapper(fonts, width);
    for (const Run& run : runs)
        wrapper.add(run);
    return wrapper.finish();
}

Centipoints blank(Fonts& fonts, const TextStyle& style) {
    return measure(fonts, style, " ");
}

void add_words(std::vector<Run>& runs, Fonts& fonts, std::string_view text, const TextStyle& plain,
               const TextStyle& number, Centipoints gap) {
    bool numeric = false;
    bool first = true;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        const std::string_view word = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        if (word.empty()) continue;
        if (first || starts_with_digit(word) != numeric) {
            numeric = starts_with_digit(word);
            runs.push_back(
                {numeric ? number : plain, std::string(word), first ? gap : blank(fonts, plain)});
            first = false;
        } else {
            runs.back().text += ' ';
            runs.back().text += word;
        }
    }
}

std::vector<Run> breaking_behind(std::string_view signs, const TextStyle& style,
                                 std::string_view text) {
    std::vector<Run> runs;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find_first_of(signs), text.size() - 1) + 1;
        runs.push_back({style, std::string(text.substr(0, end))});
        text.remove_prefix(end);
    }
    return runs;
}

std::string unbroken(Fonts& fonts, const TextStyle& style, std::string_view text,
                     Centipoints width) {
    std::string joined;
    for (const char c : text) {
        if (c == ' ') {
            joined += "\u00A0";
        } else {
            joined += c;
        }
    }
    return measure(fonts, style, joined) <= width ? joined : std::string(text);
}

void draw(Piece& piece, Centipoints x, Centipoints baseline, const TextStyle& style,
          std::string_view text) {
    piece.primitives.emplace_back(
        Text{x, baseline, style.face, style.size, style.grey, style.tracking, std::string(text)});
}

void draw_right(Piece& piece, Fonts& fonts, Centipoints right, Centipoints baseline,
                const TextStyle& style, std::string_view text) {
    draw(piece, right - measure(fonts, style, text), baseline, style, text);
}

void draw_centred(Piece& piece, Fonts& fonts, Centipoints centre, Centipoints baseline,
                  const TextStyle& style, std::string_view text) {
    draw(piece, centre - measure(fonts, style, text) / 2, baseline, style, text);
}

void open(Piece& piece, Role role, std::string alternative) {
    piece.primitives.emplace_back(Open{role, std::move(alternative)});
}

void close(Piece& piece) {
    piece.primitives.emplace_back(Close{});
}

Centipoints draw(Piece& piece, Centipoints x, Centipoints y, const TextBlock& block) {
    for (const TextLine& line : block.lines) {
        for (const LinePart& part : line.parts) {
            draw(piece, x + part.x, y + ascent(line.size), part.style, part.text);
        }
        y += line_height(line.size);
    }
    return y;
}

void rule(Piece& piece, Centipoints x1, Centipoints x2, Centipoints y, Centipoints width,
          int grey_level) {
    piece.primitives.emplace_back(Line{x1, y, x2, y, width, grey_level, 0});
}

void dotted(Piece& piece, Centipoints x1, Centipoints x2, Centipoints y) {
    if (x2 <= x1) return;
    piece.primitives.emplace_back(Line{x1, y, x2, y, points(0.8), grey::dots, points(3)});
}

void tick_box(Piece& piece, Fonts& fonts, Centipoints x, Centipoints y, Centipoints size,
              std::string_view letter, BoxLine line) {
    const Centipoints stroke = points(0.9);
    const Centipoints left = x + stroke / 2;
    const Centipoints top = y + stroke / 2;
    const Centipoints side = size - stroke;
    if (line == BoxLine::solid) {
        piece.primitives.emplace_back(
            Box{left, top, side, side, points(1.5), -1, stroke, grey::black});
    } else {
        for (const Centipoints edge : {top, top + side})
            piece.primitives.emplace_back(
                Line{left, edge, left + side, edge, stroke, grey::black, side / box_dots});
        for (const Centipoints edge : {left, left + side})
            piece.primitives.emplace_back(
                Line{edge, top, edge, top + side, stroke, grey::black, side / box_dots});
    }
    if (letter.empty()) return;
    const TextStyle style{Face::medium, box_letter, grey::label};
    draw_centred(piece, fonts, x + size / 2, y + (size + capital_height(style.size)) / 2, style,
                 letter);
}

}  // namespace stave::card::layout
