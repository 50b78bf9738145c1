#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "backends/card/layout_parts.hpp"
#include "backends/card/qr.hpp"
#include "backends/codes/square_code.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

constexpr Centipoints top = points(5);

Centipoints rule_width(const Style& style) {
    return style.across(0.4);
}

// Words of the footer; condensed where it is as narrow as a pocket.
TextStyle footer_words(const Context& context) {
    TextStyle style = context.style.small();
    if (!context.sheet().has_rail) style.face = Face::condensed_regular;
    return style;
}

TextBlock cautions(const Context& context, Centipoints width) {
    const TextStyle strong{Face::medium, context.style.smallest()};
    const TextStyle plain = footer_words(context);
    const Centipoints gap = blank(context.fonts, plain);
    std::vector<Run> runs{{strong, std::string(wording::stop_heading(context.language))},
                          {plain, std::string(wording::stop_signs(context.language)), gap},
                          {plain, std::string(context.word(wording::Word::clearance)), gap}};
    if (context.session.methods) {
        runs.push_back({plain, wording::methods(context.language, *context.session.methods), gap});
    }
    return wrap(context.fonts, runs, width);
}

// The session's address as a square code in the bottom right corner, which leads there
// on a screen too.
class Code {
public:
    explicit Code(const Context& context) : context_(context), code_(context.code) {}

    // With its quiet zone left of it; right of it is the page's margin.
    [[nodiscard]] Centipoints width() const { return code_ != nullptr ? side() + quiet() : 0; }
    // From the footer's top.
    [[nodiscard]] Centipoints height() const {
        return code_ != nullptr ? below_rule() + side() : 0;
    }

    void draw(Piece& piece) const {
        if (code_ == nullptr) return;
        const Centipoints x = context_.grid().right - side();
        Modules modules = *code_;
        modules.x = x;
        modules.y = below_rule();
        open(piece, Role::link);
        piece.primitives.emplace_back(Link{x, below_rule(), side(), side(), context_.session.link});
        open(piece, Role::figure,
             wording::said(context_.language, wording::Word::square_code, {context_.session.link}));
        piece.primitives.emplace_back(std::move(modules));
        close(piece);
        close(piece);
    }

private:
    [[nodiscard]] Centipoints side() const { return code_->side * code_->module; }
    [[nodiscard]] Centipoints quiet() const { return codes::quiet_modules * code_->module; }

    [[nodiscard]] Centipoints below_rule() const { return quiet() + rule_width(context_.style); }

    const Context& context_;
    const Modules* code_;
};

// The session's name among the outputs, and what it was made from.
std::vector<Run> source_words(const Context& context, const CardText& text) {
    const TextStyle strong{Face::medium, context.style.smallest()};
    std::vector<Run> source = breaking_behind("-", strong, context.session.slug);
    if (!text.revision.empty()) {
        source.push_back({footer_words(context),
                          wording::said(context.language, wording::Word::revision, {text.revision}),
                          points(5)});
    }
    return source;
}

// The session's address for those who type it: without its scheme, and broken before its
// signs, so that no line ends in a hyphen that might be none of its own.
std::vector<Run> address_words(const Context& context) {
    std::string_view address = context.session.link;
    const std::size_t scheme_end = address.find("//");
    if (scheme_end == std::string_view::npos) return {};
    address.remove_prefix(scheme_end + 2);
    std::vector<Run> runs;
    while (!address.empty()) {
        const std::size_t end = std::min(address.find_first_of("/.-?&=#", 1), address.size());
        runs.push_back({footer_words(context), std::string(address.substr(0, end)), 0, true});
        address.remove_prefix(end);
    }
    return runs;
}

Centipoints draw_at_right(Piece& piece, const TextBlock& lines, Centipoints right, Centipoints y) {
    for (const TextLine& line : lines.lines) {
        const Centipoints shift = right - line.width;
        for (const LinePart& part : line.parts) {
            draw(piece, shift + part.x, y + ascent(line.size), part.style, part.text);
        }
        y += line_height(line.size);
    }
    return y;
}

}  // namespace

Piece lay_out_footer(const Context& context, const CardText& text) {
    const Grid& grid = context.grid();
    const Code code(context);
    const Centipoints right = grid.right - code.width();
    Piece piece;
    rule(piece, grid.left, grid.right, rule_width(context.style) / 2, rule_width(context.style),
         grey::rule);
    const Centipoints beside = grid.right - grid.left - context.sheet().cautions_width;
    const bool has_room_beside = beside > 2 * grid.gutter;
    const Centipoints cautions_width = context.sheet().cautions_width - code.width();
    const Centipoints words_bottom = draw(piece, grid.left, top, cautions(context, cautions_width));
    const Centipoints width = has_room_beside ? beside - 2 * grid.gutter : right - grid.left;
    Centipoints y = has_room_beside ? top : words_bottom;
    for (const std::vector<Run>& words : {source_words(context, text), address_words(context)})
        y = draw_at_right(piece, wrap(context.fonts, words, width), right, y);
    piece.height = std::max(words_bottom, y);
    code.draw(piece);
    piece.height = std::max(piece.height, code.height());
    return piece;
}

}  // namespace stave::card::layout
