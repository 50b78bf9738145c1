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

std::string_view name_of(Role role) {
    switch (role) {
        case Role::heading1:
            return "heading1";
        case Role::heading2:
            return "heading2";
        case Role::section:
            return "section";
        case Role::paragraph:
            return "paragraph";
        case Role::list:
            return "list";
        case Role::item:
            return "item";
        case Role::figure:
            return "figure";
        case Role::link:
            return "link";
        case Role::artifact:
            return "artifact";
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
    void operator()(const Modules& code) const {
        add("modules {} {} module {} side {} dark", code.x, code.y, code.module, code.side);
        for (const Modules::Rectangle& part : code.dark)
            add(" {},{},{},{}", part.x, part.y, part.width, part.height);
        out += '\n';
    }
    void operator()(const Link& link) const {
        add("link {} {} {} {} {}\n", link.x, link.y, link.width, link.height, quoted(link.uri));
    }
    void operator()(const Open& open) const {
        add("open {}", name_of(open.role));
        if (!open.alternative.empty()) add(" {}", quoted(open.alternative));
        out += '\n';
    }
    void operator()(const Close& /*mark*/) const { out += "close\n"; }

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
