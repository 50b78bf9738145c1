#include <algorithm>
#include <numeric>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "backends/card/layout_cell_content.hpp"
#include "backends/card/layout_parts.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

using program::Item;

constexpr Centipoints box_gap = points(2);
// More would push the names away: then one stands for all of them.
constexpr std::size_t most_boxes = 5;

TextStyle name_style(const Context& context) {
    return {Face::condensed_bold, context.style.size(context.sheet().type.list_name)};
}

struct Column {
    Centipoints left = 0;
    Centipoints right = 0;
};

// A box for every set or round; gives the x behind them.
Centipoints draw_set_boxes(Piece& piece, const Context& context, const program::Block& block,
                           const Item& item, Centipoints x, Centipoints y) {
    const Centipoints box = context.style.tick_box() * 11 / 13;
    if (box == 0 || item.is_blank()) return x;
    const Centipoints top = y + (line_height(name_style(context).size) - box) / 2;
    const std::size_t sets = item.set_count() <= most_boxes ? item.set_count() : 1;
    const auto draw_pass = [&](Mark mark) {
        for (std::size_t set = 0; set < sets; ++set) {
            tick_box(piece, context.fonts, x, top, box, letter_of(context, mark),
                     is_optional(block, set) ? BoxLine::dotted : BoxLine::solid);
            x += box + box_gap;
        }
    };
    if (!block.by_sides) draw_pass(Mark::none);
    for (const bool first : {true, false}) {
        const Mark side = side_of_pass(block, first);
        if (block.by_sides && is_done_on(item, side)) draw_pass(side);
    }
    return x;
}

// The name and, at the column's right where there is room, the dose; else below.
Centipoints draw_name(Piece& piece, const Context& context, const program::Block& block,
                      const Item& item, Column column, Centipoints y) {
    const TextStyle dose_style = context.style.load();
    const std::string dose = wording::work(context.language, block, item);
    const Centipoints dose_width = context.fonts.measure(dose_style.face, dose_style.size, dose);
    const Centipoints width = column.right - column.left;
    const std::vector<Run> words{{name_style(context), wording::display_name(item)}};
    const TextBlock across = wrap(context.fonts, words, width);
    const Centipoints narrow_width = std::max(width - dose_width - points(6), width / 2);
    const TextBlock narrow = wrap(context.fonts, words, narrow_width);
    const bool beside =
        dose_width <= width * 45 / 100 && narrow.lines.size() == across.lines.size();
    const TextBlock& name = beside ? narrow : across;
    const Centipoints baseline = y + ascent(name_style(context).size);
    y = draw(piece, column.left, y, name);
    if (beside) {
        draw(piece, column.right - dose_width, baseline, dose_style, dose);
        return y;
    }
    return draw(piece, column.left, y, wrap(context.fonts, {{dose_style, dose}}, width));
}

// One movement with its details and remarks; gives the bottom.
Centipoints draw_entry(Piece& piece, const Context& context, std::uint32_t block_id,
                       std::size_t item_id, Column column, Centipoints y) {
    const program::Block& block = context.session.blocks[block_id];
    const Item& item = block.items[item_id];
    open(piece, Role::item);
    draw(piece, column.left, y + ascent(name_style(context).size), context.style.label(),
         block.letter + std::to_string(item_id + 1));
    column.left += context.grid().name - context.grid().label;
    const Centipoints boxes_end = draw_set_boxes(piece, context, block, item, column.left, y);
    if (boxes_end > column.left) column.left = boxes_end + points(4);
    y = draw_name(piece, context, block, item, column, y);
    std::vector<std::vector<Run>> paragraphs = detail_words(context, block, item);
    paragraphs.push_back(cue_words(context, block_id, item));
    for (std::vector<Run>& remark : remarks(context, block, item)) {
        paragraphs.push_back(std::move(remark));
    }
    for (const std::vector<Run>& paragraph : paragraphs) {
        y = draw(piece, column.left, y, wrap(context.fonts, paragraph, column.right - column.left));
    }
    close(piece);
    return y;
}

// Heights of entries that stand under one another.
std::vector<Centipoints> entry_heights(const Context& context, std::uint32_t block_id,
                                       std::size_t begin, std::size_t end, Column column) {
    std::vector<Centipoints> heights;
    for (std::size_t item_id = begin; item_id < end; ++item_id) {
        Piece unseen;
        heights.push_back(draw_entry(unseen, context, block_id, item_id, column, 0));
    }
    return heights;
}

Centipoints sum(const std::vector<Centipoints>& heights) {
    return std::accumulate(heights.begin(), heights.end(), Centipoints{0});
}

// Makes the rows of both columns equally high where that costs next to nothing.
void align(const Context& context, std::vector<Centipoints>& left,
           std::vector<Centipoints>& right) {
    std::vector<Centipoints> rows = left;
    for (std::size_t row = 0; row < right.size(); ++row)
        rows[row] = std::max(rows[row], right[row]);
    const Centipoints little = context.style.space(4);
    if (sum(rows) > std::max(sum(left), sum(right)) + little) return;
    left = rows;
    rows.resize(right.size());
    right = rows;
}

// One entry for each height; gives the bottom.
Centipoints draw_column(Piece& piece, const Context& context, std::uint32_t block_id,
                        std::size_t begin, const std::vector<Centipoints>& heights, Column column) {
    const Centipoints padding = context.style.row_padding * 45 / 100;
    Centipoints y = 0;
    for (std::size_t row = 0; row < heights.size(); ++row) {
        if (row > 0) rule(piece, column.left, column.right, y, points(0.4), grey::rule);
        draw_entry(piece, context, block_id, begin + row, column, y + padding);
        y += heights[row] + 2 * padding;
    }
    return y;
}

}  // namespace

Piece lay_out_list(const Context& context, std::uint32_t block_id) {
    const std::size_t items = context.session.blocks[block_id].items.size();
    const Grid& grid = context.grid();
    const Centipoints width = (grid.right - grid.label) / 2 - grid.gutter;
    const std::size_t half = (items + 1) / 2;
    const Column left{grid.label, grid.label + width};
    const Column right{grid.right - width, grid.right};
    std::vector<Centipoints> left_heights = entry_heights(context, block_id, 0, half, left);
    std::vector<Centipoints> right_heights = entry_heights(context, block_id, half, items, right);
    align(context, left_heights, right_heights);
    Piece piece;
    open(piece, Role::list);
    const Centipoints first = draw_column(piece, context, block_id, 0, left_heights, left);
    const Centipoints second = draw_column(piece, context, block_id, half, right_heights, right);
    close(piece);
    piece.height = std::max(first, second);
    return piece;
}

}  // namespace stave::card::layout
