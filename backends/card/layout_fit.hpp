// Fits a session's parts on its pages: gaps shrink, then the room for notes, then type by
// a twelfth, then the effort scale goes, then cues block by block from the tallest, then
// the log gets narrower, then all sizes go down by twentieths to the paper's least. What is
// over makes type larger where the paper asks for it, and goes between the blocks.
#pragma once

#include <cstddef>
#include <vector>

#include "backends/card/layout_parts.hpp"

namespace stave::card::layout {

// Everything of one attempt but the closing part.
struct Parts {
    Piece header;
    Piece time_bar;
    // In place of header and time bar on every page but the first.
    Piece running_head;
    std::vector<Piece> blocks;
    Piece footer;
};

// The blocks of one page, from `first` to before `end`.
struct PageBlocks {
    std::size_t first = 0;
    std::size_t end = 0;
};

struct Fitted {
    // Its style is that of the last attempt.
    Context context;
    Parts parts;
    std::vector<PageBlocks> pages;
    // By how much the last attempt was too long for its page; 0 where all fits.
    Centipoints excess = 0;
    Closing closing = Closing::none;
};

// White between a page's last block and its footer.
inline constexpr Centipoints footer_gap = points(8);

// Between the header and the time bar.
[[nodiscard]] Centipoints bar_gap(const Style& style);

[[nodiscard]] Fitted fit(const Context& context, const CardText& text);

// From the top margin to the end of the page's last block, and the room there is for it.
[[nodiscard]] Centipoints page_height(const Fitted& fitted, const PageBlocks& page);
[[nodiscard]] Centipoints page_room(const Fitted& fitted);

}  // namespace stave::card::layout
