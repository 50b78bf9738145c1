#include "tests/unit/card/page_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "backends/card/paper.hpp"

namespace stave::card::test {

namespace {

// 10 mm, which office printers never clip; 7 mm on a pocket's card, which is cut out.
Centipoints margin_of(const Page& page) {
    return page.width < size_of(Paper::a5).width ? points(19.8) : points(28.3);
}

Centipoints least_size_of(const Page& page) {
    return page.width > size_of(Paper::letter).width ? points(12) : points(7);
}

struct Area {
    Centipoints left = 0, top = 0, right = 0, bottom = 0;

    [[nodiscard]] bool meets(const Area& other) const {
        return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
    }
    [[nodiscard]] bool holds(const Area& other) const {
        return left <= other.left && other.right <= right && top <= other.top &&
               other.bottom <= bottom;
    }
};

// From capitals' height to the descenders of Roboto (1456 and 434 of 2048 units).
Area area_of(const Text& text, Fonts& fonts) {
    const Centipoints width = fonts.measure(text.face, text.size, text.text, text.tracking);
    return {text.x, text.y - text.size * 71 / 100, text.x + width, text.y + text.size * 21 / 100};
}

Area area_of(const Line& line) {
    const Centipoints half = line.width / 2;
    return {std::min(line.x1, line.x2), std::min(line.y1, line.y2) - half,
            std::max(line.x1, line.x2), std::max(line.y1, line.y2) + half};
}

Area area_of(const Box& box) {
    const Centipoints half = box.stroke_width / 2;
    return {box.x - half, box.y - half, box.x + box.width + half, box.y + box.height + half};
}

Area area_of(const Circle& circle) {
    const Centipoints reach = circle.radius + circle.stroke_width / 2;
    return {circle.x - reach, circle.y - reach, circle.x + reach, circle.y + reach};
}

Area area_of(const Triangle& shape) {
    return {std::min({shape.x1, shape.x2, shape.x3}), std::min({shape.y1, shape.y2, shape.y3}),
            std::max({shape.x1, shape.x2, shape.x3}), std::max({shape.y1, shape.y2, shape.y3})};
}

// With its quiet zone: four modules all round (ISO/IEC 18004).
Area area_of(const Modules& code) {
    const Centipoints quiet = 4 * code.module;
    const Centipoints side = code.side * code.module;
    return {code.x - quiet, code.y - quiet, code.x + side + quiet, code.y + side + quiet};
}

// WCAG 2.1, "relative luminance" and "contrast ratio", for a grey on white.
double contrast_on_white(int grey) {
    const double value = grey / 100.0;
    const double luminance =
        value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
    return 1.05 / (luminance + 0.05);
}

struct Shapes {
    std::vector<Text> texts;
    std::vector<Area> text_areas;
    std::vector<Area> lines;
    // Boxes that are filled black, boxes to tick, circles.
    std::vector<Area> black;
    std::vector<Area> frames;
    std::vector<Area> codes;
};

Shapes sort_out(const Page& page, Fonts& fonts) {
    Shapes shapes;
    for (const Primitive& primitive : page.primitives) {
        if (const auto* text = std::get_if<Text>(&primitive)) {
            shapes.texts.push_back(*text);
            shapes.text_areas.push_back(area_of(*text, fonts));
        } else if (const auto* line = std::get_if<Line>(&primitive)) {
            shapes.lines.push_back(area_of(*line));
        } else if (const auto* box = std::get_if<Box>(&primitive)) {
            (box->fill_grey >= 0 ? shapes.black : shapes.frames).push_back(area_of(*box));
        } else if (const auto* circle = std::get_if<Circle>(&primitive)) {
            shapes.frames.push_back(area_of(*circle));
        } else if (const auto* triangle = std::get_if<Triangle>(&primitive)) {
            shapes.frames.push_back(area_of(*triangle));
        } else if (const auto* code = std::get_if<Modules>(&primitive)) {
            shapes.codes.push_back(area_of(*code));
        }
    }
    return shapes;
}

void check_margins(const Page& page, const std::vector<Area>& areas, std::string_view what,
                   std::vector<std::string>& faults) {
    const Centipoints margin = margin_of(page);
    const Area paper{margin, margin, page.width - margin, page.height - margin};
    for (const Area& area : areas) {
        if (paper.holds(area)) continue;
        faults.push_back(fmt::format("{} at {}, {} to {}, {} is outside the margins", what,
                                     area.left, area.top, area.right, area.bottom));
    }
}

void check_type(const Shapes& shapes, Centipoints least, std::vector<std::string>& faults) {
    for (std::size_t id = 0; id < shapes.texts.size(); ++id) {
        const Text& text = shapes.texts[id];
        if (text.text.empty()) faults.emplace_back("an empty text");
        if (text.size < least) faults.push_back("too small: " + text.text);
        const bool on_black = std::ranges::any_of(
            shapes.black, [&](const Area& area) { return area.holds(shapes.text_areas[id]); });
        if (on_black ? text.grey != 100 : contrast_on_white(text.grey) < 7.0) {
            faults.push_back("too pale: " + text.text);
        }
    }
}

void check_texts(const Shapes& shapes, std::vector<std::string>& faults) {
    for (std::size_t id = 0; id < shapes.texts.size(); ++id) {
        const Area& area = shapes.text_areas[id];
        const std::string& text = shapes.texts[id].text;
        for (std::size_t other = id + 1; other < shapes.texts.size(); ++other) {
            if (!area.meets(shapes.text_areas[other])) continue;
            faults.push_back(fmt::format("'{}' touches '{}'", text, shapes.texts[other].text));
        }
        for (const Area& line : shapes.lines) {
            if (area.meets(line)) faults.push_back(fmt::format("a line through '{}'", text));
        }
        for (const auto* boxes : {&shapes.black, &shapes.frames}) {
            for (const Area& box : *boxes) {
                if (!area.meets(box) || box.holds(area)) continue;
                faults.push_back(fmt::format("'{}' lies on an edge", text));
            }
        }
    }
}

void check_codes(const Page& page, const Shapes& shapes, std::vector<std::string>& faults) {
    const Area paper{0, 0, page.width, page.height};
    for (const Area& code : shapes.codes) {
        if (!paper.holds(code)) faults.emplace_back("a code at the paper's edge");
        for (const auto* areas :
             {&shapes.text_areas, &shapes.lines, &shapes.black, &shapes.frames}) {
            if (std::ranges::any_of(*areas, [&](const Area& area) { return area.meets(code); }))
                faults.emplace_back("something in a code's quiet zone");
        }
    }
}

void check_frames(const Shapes& shapes, std::vector<std::string>& faults) {
    for (std::size_t id = 0; id < shapes.frames.size(); ++id) {
        for (std::size_t other = id + 1; other < shapes.frames.size(); ++other) {
            if (shapes.frames[id].meets(shapes.frames[other])) {
                faults.emplace_back("two boxes overlap");
            }
        }
    }
}

}  // namespace

std::vector<std::string> faults_of(const Page& page, Fonts& fonts) {
    const Shapes shapes = sort_out(page, fonts);
    std::vector<std::string> faults;
    check_margins(page, shapes.text_areas, "text", faults);
    check_margins(page, shapes.lines, "a line", faults);
    check_margins(page, shapes.black, "a box", faults);
    check_margins(page, shapes.frames, "a frame", faults);
    check_type(shapes, least_size_of(page), faults);
    check_texts(shapes, faults);
    check_frames(shapes, faults);
    check_codes(page, shapes, faults);
    return faults;
}

std::string packed(const std::string& text) {
    std::string result;
    for (std::size_t at = 0; at < text.size();) {
        if (text.compare(at, 2, "\u00A0") == 0) {
            at += 2;
        } else if (text[at] == ' ' || text[at] == '\n') {
            ++at;
        } else {
            result += text[at++];
        }
    }
    return result;
}

std::string packed_text(const Page& page) {
    std::string result;
    for (const Primitive& primitive : page.primitives) {
        if (const auto* text = std::get_if<Text>(&primitive)) result += packed(text->text);
    }
    return result;
}

}  // namespace stave::card::test
