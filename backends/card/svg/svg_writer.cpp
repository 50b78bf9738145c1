#include "backends/card/svg/svg_writer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <string_view>
#include <utility>

#include "backends/card/numbers.hpp"
#include "backends/card/xml.hpp"

namespace stave::card {

namespace {

// The texts in reading order, a line for each part; figures by their alternatives.
std::string description(const Page& page) {
    std::string words;
    std::size_t figures = 0;
    std::size_t depth = 0;
    bool begins = false;
    for (const Primitive& primitive : page.primitives) {
        if (const auto* open = std::get_if<Open>(&primitive)) {
            ++depth;
            begins = true;
            if (figures == 0 && open->role == Role::figure) {
                words += (words.empty() ? "" : "\n") + open->alternative;
                figures = depth;
            }
        } else if (std::holds_alternative<Close>(primitive)) {
            if (depth == figures) figures = 0;
            if (depth > 0) --depth;
            begins = true;
        } else if (const auto* text = std::get_if<Text>(&primitive); text && figures == 0) {
            if (!words.empty()) words += begins ? '\n' : ' ';
            words += text->text;
            begins = false;
        }
    }
    return words;
}

// "b36": a letter for the face, then the glyph; another family's mark comes behind. The
// same glyph has the same name in every picture, so pictures may stand on one page of a
// browser.
std::string glyph_name(const Family& family, Face face, std::uint32_t glyph) {
    return fmt::format("{}{}{}{}", static_cast<char>('a' + static_cast<int>(face)), glyph,
                       family.is_own() ? "" : "-", family.mark());
}

// In font units, y upwards; outlines come in halves of them.
std::string path_of(const Outline& outline) {
    std::string path;
    const auto add = [&](char command, std::initializer_list<std::int32_t> halves) {
        path += command;
        bool first = true;
        for (const std::int32_t half : halves) {
            if (!first && half >= 0) path += ' ';
            append_hundredths(path, std::int64_t{half} * 50);
            first = false;
        }
    };
    for (const OutlineStep& step : outline) {
        switch (step.kind) {
            case OutlineStep::Kind::move:
                add('M', {step.x, step.y});
                break;
            case OutlineStep::Kind::line:
                add('L', {step.x, step.y});
                break;
            case OutlineStep::Kind::quadratic:
                add('Q', {step.x1, step.y1, step.x, step.y});
                break;
            case OutlineStep::Kind::cubic:
                add('C', {step.x1, step.y1, step.x2, step.y2, step.x, step.y});
                break;
            case OutlineStep::Kind::close:
                path += 'Z';
                break;
        }
    }
    return path;
}

class SvgWriter {
public:
    explicit SvgWriter(Fonts& fonts) : fonts_(fonts) {}

    void operator()(const Text& text);
    void operator()(const Line& line);
    void operator()(const Box& box);
    void operator()(const Circle& circle);
    void operator()(const Triangle& triangle);
    void operator()(const Modules& code);
    void operator()(const Link& link);
    void operator()(const Open& /*mark*/) {}
    void operator()(const Close& /*mark*/) {}

    [[nodiscard]] std::string run(const Page& page);

private:
    // ` x="1.5"`
    void attribute(std::string_view name, std::int64_t hundredths) {
        out_.append(" ").append(name) += "=\"";
        append_hundredths(out_, hundredths);
        out_ += '"';
    }
    void colour(std::string_view name, int grey) {
        const int level = (grey * 255 + 50) / 100;
        fmt::format_to(std::back_inserter(out_), " {}=\"#{:02x}{:02x}{:02x}\"", name, level, level,
                       level);
    }
    void stroke(Centipoints width, int grey) {
        out_ += " fill=\"none\"";
        colour("stroke", grey);
        attribute("stroke-width", width);
    }
    void head(const Page& page);
    void glyphs();

    std::string out_;
    Fonts& fonts_;
    // Those drawn, in a set order.
    std::map<std::pair<Face, std::uint32_t>, std::string> glyphs_;
};

void SvgWriter::operator()(const Line& line) {
    if (line.width <= 0) return;
    out_ += "<line";
    attribute("x1", line.x1);
    attribute("y1", line.y1);
    attribute("x2", line.x2);
    attribute("y2", line.y2);
    stroke(line.width, line.grey);
    if (line.dots > 0) {
        // Dashes of no length with round caps are round dots.
        out_ += " stroke-linecap=\"round\" stroke-dasharray=\"0 ";
        append_hundredths(out_, line.dots);
        out_ += '"';
    }
    out_ += "/>\n";
}

void SvgWriter::operator()(const Box& box) {
    const bool filled = box.fill_grey >= 0;
    const bool stroked = box.stroke_width > 0;
    if (!filled && !stroked) return;
    out_ += "<rect";
    attribute("x", box.x);
    attribute("y", box.y);
    attribute("width", box.width);
    attribute("height", box.height);
    const Centipoints radius = std::min({box.radius, box.width / 2, box.height / 2});
    if (radius > 0) attribute("rx", radius);
    if (filled) {
        colour("fill", box.fill_grey);
    } else {
        out_ += " fill=\"none\"";
    }
    if (stroked) {
        colour("stroke", box.stroke_grey);
        attribute("stroke-width", box.stroke_width);
    }
    out_ += "/>\n";
}

void SvgWriter::operator()(const Circle& circle) {
    if (circle.stroke_width <= 0) return;
    out_ += "<circle";
    attribute("cx", circle.x);
    attribute("cy", circle.y);
    attribute("r", circle.radius);
    stroke(circle.stroke_width, circle.grey);
    out_ += "/>\n";
}

void SvgWriter::operator()(const Triangle& triangle) {
    out_ += "<polygon points=\"";
    bool first = true;
    for (const Centipoints number :
         {triangle.x1, triangle.y1, triangle.x2, triangle.y2, triangle.x3, triangle.y3}) {
        if (!first) out_ += ' ';
        append_hundredths(out_, number);
        first = false;
    }
    out_ += '"';
    colour("fill", triangle.grey);
    out_ += "/>\n";
}

// One path, so that no program shows seams between the modules.
void SvgWriter::operator()(const Modules& code) {
    if (code.dark.empty()) return;
    out_ += "<path d=\"";
    for (const Modules::Rectangle& part : code.dark) {
        out_ += 'M';
        append_hundredths(out_, code.x + std::int64_t{part.x} * code.module);
        out_ += ' ';
        append_hundredths(out_, code.y + std::int64_t{part.y} * code.module);
        for (const auto& [command, length] :
             {std::pair{'h', part.width}, std::pair{'v', part.height},
              std::pair{'h', -part.width}}) {
            out_ += command;
            append_hundredths(out_, std::int64_t{length} * code.module);
        }
        out_ += 'z';
    }
    out_ += "\" fill=\"#000000\"/>\n";
}

void SvgWriter::operator()(const Link& link) {
    out_ += "<a href=\"" + xml_escaped(link.uri) + "\"><rect";
    attribute("x", link.x);
    attribute("y", link.y);
    attribute("width", link.width);
    attribute("height", link.height);
    out_ += " fill=\"none\" pointer-events=\"all\"/></a>\n";
}

// A group in font units with the baseline's start at its origin.
void SvgWriter::operator()(const Text& text) {
    const ShapedText& shaped = fonts_.shape(text.face, text.text);
    const std::int64_t units = fonts_.units_per_em(text.face);
    // Points for a font unit, in thousand-millionths.
    const std::int64_t scale = std::int64_t{text.size} * 10'000'000 / units;
    fmt::format_to(std::back_inserter(out_), "<g transform=\"translate(");
    append_hundredths(out_, text.x);
    out_ += ' ';
    append_hundredths(out_, text.y);
    fmt::format_to(std::back_inserter(out_), ") scale({0}.{1:09} -{0}.{1:09})\"",
                   scale / 1'000'000'000, scale % 1'000'000'000);
    if (text.grey != 0) colour("fill", text.grey);
    out_ += '>';
    std::int64_t pen = 0;
    for (std::size_t i = 0; i < shaped.glyphs.size(); ++i) {
        const Glyph& glyph = shaped.glyphs[i];
        auto [known, added] = glyphs_.try_emplace({text.face, glyph.id});
        if (added) known->second = path_of(fonts_.outline(text.face, glyph.id));
        if (!known->second.empty()) {
            const std::int64_t tracking =
                text.size == 0 ? 0
                               : static_cast<std::int64_t>(i) * text.tracking * units / text.size;
            fmt::format_to(std::back_inserter(out_), "<use href=\"#{}\"",
                           glyph_name(fonts_.family(), text.face, glyph.id));
            if (pen + glyph.x_offset + tracking != 0) {
                attribute("x", (pen + glyph.x_offset + tracking) * 100);
            }
            if (glyph.y_offset != 0) attribute("y", std::int64_t{glyph.y_offset} * 100);
            out_ += "/>";
        }
        pen += glyph.advance;
    }
    out_ += "</g>\n";
}

void SvgWriter::head(const Page& page) {
    const std::string language = xml_escaped(page.language);
    out_ +=
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-labelledby=\"title\" "
        "aria-describedby=\"text\"";
    fmt::format_to(std::back_inserter(out_), " lang=\"{0}\" xml:lang=\"{0}\" width=\"", language);
    append_hundredths(out_, page.width);
    out_ += "pt\" height=\"";
    append_hundredths(out_, page.height);
    out_ += "pt\" viewBox=\"0 0 ";
    append_hundredths(out_, page.width);
    out_ += ' ';
    append_hundredths(out_, page.height);
    fmt::format_to(std::back_inserter(out_),
                   "\">\n<title id=\"title\">{}</title>\n<desc id=\"text\">{}</desc>\n",
                   xml_escaped(page.title), xml_escaped(description(page)));
}

void SvgWriter::glyphs() {
    out_ += "<defs>\n";
    for (const auto& [glyph, path] : glyphs_) {
        if (path.empty()) continue;
        fmt::format_to(std::back_inserter(out_), "<path id=\"{}\" d=\"{}\"/>\n",
                       glyph_name(fonts_.family(), glyph.first, glyph.second), path);
    }
    out_ += "</defs>\n";
}

std::string SvgWriter::run(const Page& page) {
    for (const bool texts : {false, true}) {
        for (const Primitive& primitive : page.primitives) {
            if (std::holds_alternative<Text>(primitive) == texts) std::visit(*this, primitive);
        }
    }
    const std::string drawn = std::exchange(out_, {});
    head(page);
    glyphs();
    // White paper, whatever the page of a browser is.
    out_ += "<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n";
    out_ += drawn;
    out_ += "</svg>\n";
    return std::move(out_);
}

}  // namespace

std::string write_svg(const Page& page, Fonts& fonts) {
    return SvgWriter(fonts).run(page);
}

}  // namespace stave::card
