#include "backends/card/page.hpp"

#include <fmt/format.h>

#include <iterator>
#include <string_view>

namespace stave::card {

namespace {

std::string_view name_of(Face face) {
    switch (face) {
        case Face::condensed_bold:
            return "condensed_bold";
        case Face::condensed_regular:
            return "condensed_regular";
        case Face::regular:
            return "regular";
        case Face::medium:
            return "medium";
    }
    return "unknown";
}

// Keeps the dump at one line a primitive.
std::string quoted(std::string_view text) {
    std::string result = "\"";
    for (const char c : text) {
        if (c == '\n') {
            result += "\\n";
            continue;
        }
        if (c == '"' || c == '\\') result += '\\';
        result += c;
    }
    result += '"';
    return result;
}

struct Dumper {
    std::string& out;

    void operator()(const Text& text) const {
        add("text {} {} {} {} grey {} tracking {} {}\n", text.x, text.y, name_of(text.face),
            text.size, text.grey, text.tracking, quoted(text.text));
    }
    void operator()(const Line& line) const {
        add("line {} {} {} {} width {} grey {} dots {}\n", line.x1, line.y1, line.x2, line.y2,
            line.width, line.grey, line.dots);
    }
    void operator()(const Box& box) const {
        add("box {} {} {} {} radius {} fill {} stroke {} grey {}\n", box.x, box.y, box.width,
            box.height, box.radius, box.fill_grey, box.stroke_width, box.stroke_grey);
    }
    void operator()(const Circle& circle) const {
        add("circle {} {} {} stroke {} grey {}\n", circle.x, circle.y, circle.radius,
            circle.stroke_width, circle.grey);
    }
    void operator()(const Triangle& triangle) const {
        add("triangle {} {} {} {} {} {} grey {}\n", triangle.x1, triangle.y1, triangle.x2,
            triangle.y2, triangle.x3, triangle.y3, triangle.grey);
    }

private:
    template <class... Values>
    void add(fmt::format_string<Values...> format, Values&&... values) const {
        fmt::format_to(std::back_inserter(out), format, std::forward<Values>(values)...);
    }
};

}  // namespace

std::string dump(const Page& page) {
    std::string out;
    for (const Primitive& primitive : page.primitives)
        std::visit(Dumper{out}, primitive);
    return out;
}

}  // namespace stave::card
