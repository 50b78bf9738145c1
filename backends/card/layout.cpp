#include "backends/card/layout.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "backends/card/layout_glyphs.hpp"
#include "backends/card/layout_parts.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card {

namespace {

using namespace layout;

// Between the header, the time bar and the first block.
constexpr double bar_gap = 10;
constexpr Centipoints footer_gap = points(8);
constexpr Centipoints narrow_log = points(62);
// Each step makes everything a twentieth smaller, until cues reach 7 pt.
constexpr std::int32_t step_permille = 950;
constexpr std::int32_t least_permille = 698;
// Type gets smaller, down to a step below this, before any cue is dropped.
constexpr std::int32_t mild_permille = 910;

// White between blocks and inside rows, and the closing that room is kept for.
struct Spacing {
    double block_gap;
    double row_padding;
    Closing closing;
};
constexpr std::array spacings{Spacing{20, 8.5, Closing::full}, Spacing{16, 7, Closing::full},
                              Spacing{12, 5.5, Closing::full}, Spacing{9, 4.5, Closing::full},
                              Spacing{9, 4.5, Closing::row},   Spacing{8, 4, Closing::row},
                              Spacing{8, 4, Closing::none}};
// What is left over goes between the blocks, at most this much each.
constexpr double most_stretch = 9;

// Everything of one attempt but the closing part.
struct Parts {
    Piece header;
    Piece time_bar;
    std::vector<Piece> blocks;
    Piece footer;

    // From the page's top margin to the end of the last block.
    [[nodiscard]] Centipoints height(const Style& style) const {
        Centipoints sum = header.height;
        if (time_bar.height > 0) sum += style.space(bar_gap) + time_bar.height;
        for (const Piece& block : blocks)
            sum += style.block_gap + block.height;
        return sum;
    }

    [[nodiscard]] Centipoints room() const {
        return grid::bottom - footer.height - footer_gap - grid::top;
    }

    [[nodiscard]] std::size_t tallest() const {
        const auto block = std::ranges::max_element(blocks, {}, &Piece::height);
        return static_cast<std::size_t>(block - blocks.begin());
    }
};

class Fitting {
public:
    Fitting(Context context, const CardText& text) : context_(std::move(context)), text_(text) {
        context_.style.without_cues.assign(context_.session.blocks.size(), false);
    }

    // Whether the session fits; the parts and the style are those of the last
    // attempt.
    bool fit() {
        const Style wanted = context_.style;
        set_spacing(spacings.front());
        if (attempt(Closing::full)) return true;
        if (!fits_at_its_smallest()) return false;
        context_.style = wanted;
        for (const Spacing& spacing : spacings) {
            set_spacing(spacing);
            if (attempt(spacing.closing)) return true;
        }
        while (context_.style.permille > mild_permille) {
            shrink();
            if (attempt(Closing::none)) return true;
        }
        while (drop_cues()) {
            if (fits(Closing::none)) return true;
        }
        context_.style.log_width = narrow_log;
        if (attempt(Closing::none)) return true;
        while (context_.style.permille > least_permille) {
            shrink();
            if (attempt(Closing::none)) return true;
        }
        return false;
    }

    [[nodiscard]] const Parts& parts() const { return parts_; }
    [[nodiscard]] const Context& context() const { return context_; }

private:
    void set_spacing(const Spacing& spacing) {
        context_.style.block_gap = context_.style.space(spacing.block_gap);
        context_.style.row_padding = context_.style.space(spacing.row_padding);
    }

    void shrink() {
        context_.style.permille = context_.style.permille * step_permille / 1000;
        set_spacing(spacings.back());
    }

    // The last attempt of all, made early: most of what does not fit a page does
    // not fit by far.
    bool fits_at_its_smallest() {
        Style& style = context_.style;
        style.without_cues.assign(style.without_cues.size(), true);
        style.log_width = narrow_log;
        while (style.permille > least_permille)
            shrink();
        return attempt(Closing::none);
    }

    bool attempt(Closing closing) {
        parts_ = {};
        parts_.header = lay_out_header(context_);
        parts_.time_bar = lay_out_time_bar(context_);
        for (std::uint32_t block_id = 0; block_id < context_.session.blocks.size(); ++block_id) {
            parts_.blocks.push_back(lay_out_block(context_, block_id));
        }
        parts_.footer = lay_out_footer(context_, text_);
        return fits(closing);
    }

    [[nodiscard]] bool fits(Closing closing) const {
        const Style& style = context_.style;
        const Centipoints needed =
            closing == Closing::none ? 0 : style.block_gap + closing_height(style, closing);
        return parts_.height(style) + needed <= parts_.room();
    }

    // Takes the cues from the tallest block that has some; false when none has.
    bool drop_cues() {
        std::vector<bool>& without = context_.style.without_cues;
        std::uint32_t densest = 0;
        bool found = false;
        for (std::uint32_t block_id = 0; block_id < without.size(); ++block_id) {
            if (without[block_id] || !has_cues(block_id)) continue;
            if (!found || parts_.blocks[block_id].height > parts_.blocks[densest].height) {
                densest = block_id;
            }
            found = true;
        }
        if (!found) return false;
        without[densest] = true;
        parts_.blocks[densest] = lay_out_block(context_, densest);
        return true;
    }

    [[nodiscard]] bool has_cues(std::uint32_t block_id) const {
        const program::Block& block = context_.session.blocks[block_id];
        return !block.cues.empty() ||
               std::ranges::any_of(block.items, [&](const program::Item& item) {
                   return !cue_words(context_, block_id, item).empty();
               });
    }

    Context context_;
    const CardText& text_;
    Parts parts_;
};

// The richest closing that has room below the blocks.
Closing closing_within(const Style& style, Centipoints room) {
    for (const Closing closing : {Closing::full, Closing::row}) {
        if (style.block_gap + closing_height(style, closing) <= room) return closing;
    }
    return Closing::none;
}

// Adds what is left over to the gaps between the blocks, so that the card ends at
// the foot of the page; lines for notes use it up themselves.
Centipoints stretched_gap(const Parts& parts, const Style& style, Closing closing) {
    const auto gaps =
        static_cast<Centipoints>(parts.blocks.size()) + (closing == Closing::none ? 0 : 1);
    if (closing == Closing::full || gaps == 0) return style.block_gap;
    Centipoints left_over = parts.room() - parts.height(style);
    if (closing == Closing::row) left_over -= style.block_gap + closing_height(style, closing);
    return style.block_gap + std::min(left_over / gaps, style.space(most_stretch));
}

Page assemble(const Fitting& fitting) {
    const Parts& parts = fitting.parts();
    const Style& style = fitting.context().style;
    const Closing closing = closing_within(style, parts.room() - parts.height(style));
    const Centipoints gap = stretched_gap(parts, style, closing);
    Piece all;
    place(all, parts.header, grid::top);
    Centipoints y = grid::top + parts.header.height;
    if (parts.time_bar.height > 0) {
        y += style.space(bar_gap);
        place(all, parts.time_bar, y);
        y += parts.time_bar.height;
    }
    for (const Piece& block : parts.blocks) {
        y += gap;
        place(all, block, y);
        y += block.height;
    }
    y += gap;
    const Centipoints footer_top = grid::bottom - parts.footer.height;
    place(all, lay_out_closing(fitting.context(), closing, footer_top - footer_gap - y), y);
    place(all, parts.footer, footer_top);
    Page page;
    page.width = a4_width;
    page.height = a4_height;
    page.title = title_of(fitting.context().session);
    page.primitives = std::move(all.primitives);
    return page;
}

// Millimetres, rounded up: 1 mm is 72 / 25.4 pt.
std::int64_t millimetres(Centipoints length) {
    return ceil(Ratio(length, 100) * Ratio(254, 720));
}

void report_overflow(const Fitting& fitting, DiagnosticSink& sink) {
    const Parts& parts = fitting.parts();
    const program::Session& session = fitting.context().session;
    const Centipoints excess = parts.height(fitting.context().style) - parts.room();
    std::string fullest = "the head of the card";
    Span span = session.span;
    if (!parts.blocks.empty()) {
        const program::Block& block = session.blocks[parts.tallest()];
        fullest = std::string("block ") + block.letter + ", " + wording::block_name(block);
        span = block.span;
    }
    sink.report(
        {Code::card_overflow, span, {std::to_string(millimetres(excess)), fullest}, {}, {}});
}

// Nothing vanishes in silence.
void report_dropped_cues(const Fitting& fitting, DiagnosticSink& sink) {
    const std::vector<bool>& without = fitting.context().style.without_cues;
    std::vector<const program::Block*> blocks;
    for (std::size_t block_id = 0; block_id < without.size(); ++block_id) {
        if (without[block_id]) blocks.push_back(&fitting.context().session.blocks[block_id]);
    }
    if (blocks.empty()) return;
    std::string names;
    for (std::size_t index = 0; index < blocks.size(); ++index) {
        if (index > 0) names += index + 1 == blocks.size() ? " and " : ", ";
        names += std::string("block ") + blocks[index]->letter;
    }
    sink.report({Code::card_cues_dropped, blocks.front()->span, {names}, {}, {}});
}

}  // namespace

std::optional<Page> lay_out(const program::Program& program, const program::Session& session,
                            const timeline::Timeline& timeline, const CardText& text, Fonts& fonts,
                            DiagnosticSink& sink) {
    const std::size_t errors = sink.errors();
    check_glyphs(program, session, text, fonts, sink);
    if (sink.errors() > errors) return std::nullopt;
    Fitting fitting({program, session, timeline, fonts, {}}, text);
    if (!fitting.fit()) {
        report_overflow(fitting, sink);
        return std::nullopt;
    }
    report_dropped_cues(fitting, sink);
    return assemble(fitting);
}

}  // namespace stave::card
