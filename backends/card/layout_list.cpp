#include <string>

#include "backends/card/layout_parts.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

using program::Item;

constexpr Centipoints list_gutter = points(24);
constexpr Centipoints box_gap = points(2);

struct Column {
    Centipoints left = 0;
    Centipoints right = 0;
};

// Boxes, name and, where there is room, the dose at the column's right; details
// and remarks below. Gives the bottom.
Centipoints draw_entry(Piece& piece, const Context& context, std::uint32_t block_id,
                       const Item& item, Column column, Centipoints y) {
    const Style& style = context.style;
    const program::Block& block = context.session.blocks[block_id];
    const TextStyle name_style{Face::condensed_bold, style.size(12.5)};
    const TextStyle dose_style = style.load();
    const Centipoints box = style.space(11);
    const Centipoints top = y + (line_height(name_style.size) - box) / 2;
    Centipoints x = column.left;
    for (std::int64_t round = 0; round < block.rounds; ++round) {
        tick_box(piece, context.fonts, x, top, box, "");
        x += box + box_gap;
    }
    x = std::max(x + points(4), column.left + grid::name - grid::label);
    const std::string dose = wording::work(block, item);
    const Centipoints dose_width = context.fonts.measure(dose_style.face, dose_style.size, dose);
    const Centipoints width = column.right - x;
    const bool beside = dose_width <= width * 45 / 100;
    const TextBlock name = wrap(context.fonts, {{name_style, wording::name(item)}},
                                beside ? width - dose_width - points(8) : width);
    const Centipoints baseline = y + ascent(name_style.size);
    y = draw(piece, x, y, name);
    if (beside) {
        draw(piece, column.right - dose_width, baseline, dose_style, dose);
    } else {
        y = draw(piece, x, y, wrap(context.fonts, {{dose_style, dose}}, width));
    }
    std::vector<Run> details;
    add_words(details, context.fonts, wording::details(item), style.plain(), style.number(), 0);
    y = draw(piece, x, y, wrap(context.fonts, details, width));
    y = draw(piece, x, y, wrap(context.fonts, cue_words(context, block_id, item), width));
    for (const std::vector<Run>& paragraph : remarks(context, block, item)) {
        y = draw(piece, x, y, wrap(context.fonts, paragraph, width));
    }
    return y;
}

Centipoints draw_column(Piece& piece, const Context& context, std::uint32_t block_id,
                        std::size_t begin, std::size_t end, Column column) {
    const std::vector<Item>& items = context.session.blocks[block_id].items;
    const Centipoints padding = context.style.row_padding * 45 / 100;
    Centipoints y = 0;
    for (std::size_t item_id = begin; item_id < end; ++item_id) {
        if (item_id > begin) {
            rule(piece, column.left, column.right, y, points(0.4), grey::rule);
        }
        y = draw_entry(piece, context, block_id, items[item_id], column, y + padding) + padding;
    }
    return y;
}

}  // namespace

Piece lay_out_list(const Context& context, std::uint32_t block_id) {
    const std::vector<Item>& items = context.session.blocks[block_id].items;
    const Centipoints width = (grid::right - grid::label - list_gutter) / 2;
    const std::size_t half = (items.size() + 1) / 2;
    Piece piece;
    const Centipoints first =
        draw_column(piece, context, block_id, 0, half, {grid::label, grid::label + width});
    const Centipoints second = draw_column(piece, context, block_id, half, items.size(),
                                           {grid::right - width, grid::right});
    piece.height = std::max(first, second);
    return piece;
}

}  // namespace stave::card::layout
