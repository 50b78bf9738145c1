#include "compiler/wording/rests.hpp"

#include "compiler/wording/joining.hpp"
#include "compiler/wording/wording.hpp"
#include "compiler/wording/words.hpp"

namespace stave::wording {

namespace {

using program::Block;
using program::Item;
using program::Rest;
using program::RestKind;

std::string rest_time(Language language, const Rest& rest) {
    if (rest.low == rest.high) return quantity(language, rest.low);
    if (rest.low.unit == rest.high.unit) {
        return amount(language, {program::AmountForm::range, rest.low, rest.high});
    }
    return said(language, Word::from_to,
                {quantity(language, rest.low), quantity(language, rest.high)});
}

// How long, without what is said of it besides.
std::string length_words(Language language, const Rest& rest) {
    switch (rest.kind) {
        case RestKind::timed:
            return rest_time(language, rest);
        case RestKind::as_needed:
            return std::string(word(language, Word::as_needed));
        case RestKind::as_the_work:
            return std::string(word(language, Word::as_the_work));
        case RestKind::walk_back:
            return std::string(word(language, Word::walk_back));
        case RestKind::distance:
            break;
    }
    return rest_time(language, rest) + ' ' + rest.doing;
}

// What is usual, and what fills it.
std::string besides(Language language, const Rest& rest) {
    std::string text;
    if (rest.kind == RestKind::as_needed && rest.high.value != Ratio(0)) {
        text = said(language, Word::about, {rest_time(language, rest)});
    }
    if (rest.kind != RestKind::distance) append(text, ", ", rest.doing);
    return text;
}

// At the end of a round the block's rest stands in the place of the last item's,
// which is one of the block's own: a copy of it is not.
bool is_replaced(const Block& block, const Item& item) {
    const bool is_last = !block.items.empty() && &item == &block.items.back();
    return is_last && block.by_rounds && block.rest_between_rounds;
}

bool has_intervals(const Block& block) {
    return block.run == program::RunKind::every_next || block.run == program::RunKind::every_all;
}

// The block's rest falls before the next movement too, where nothing else does.
Word place_of_set_rest(const Block& block) {
    const bool between = block.rest_between_movements || block.items.size() == 1;
    return between ? Word::between_sets : Word::after_every_set;
}

}  // namespace

std::string rest(Language language, const Rest& rest) {
    std::string text = length_words(language, rest);
    append(text, ", ", besides(language, rest));
    return text;
}

std::string with_rest(Language language, const Rest& pause) {
    return said(language, pause.kind == RestKind::walk_back ? Word::rest_doing : Word::rest,
                {rest(language, pause)});
}

std::string rest_at(Language language, const std::optional<Rest>& pause, Word place) {
    if (!pause) return "";
    const bool is_walk = pause->kind == RestKind::walk_back;
    std::string text = said(language, is_walk ? Word::rest_at_doing : Word::rest_at,
                            {length_words(language, *pause), word(language, place)});
    append(text, ", ", besides(language, *pause));
    return text;
}

std::string block_rests(Language language, const Block& block) {
    const bool stations = block.kind == program::BlockKind::stations;
    std::string text = rest_at(language, block.rest_between_sets, place_of_set_rest(block));
    if (block.rest_between_rounds) {
        const std::string rest = rest_at(language, block.rest_between_rounds, Word::between_rounds);
        append(text, ", ", has_intervals(block) ? said(language, Word::on_top, {rest}) : rest);
    }
    append(text, ", ",
           rest_at(language, block.rest_between_movements,
                   stations ? Word::between_stations : Word::between_movements));
    append(text, ", ", rest_at(language, block.rest_between_sides, Word::between_sides));
    if (block.rest_after) {
        append(text, ", ",
               said(language, Word::then,
                    {rest_at(language, block.rest_after, Word::before_next_block)}));
    }
    return text;
}

std::string own_rests(Language language, const Block& block, const Item& item) {
    std::string text;
    if (item.rest && !is_replaced(block, item)) text = with_rest(language, *item.rest);
    append(text, ", ", rest_at(language, item.rest_between_sides, Word::between_sides));
    return text;
}

std::string rest_behind(Language language, const Block& block, const Item& item) {
    if (!item.rest_after || is_replaced(block, item)) return "";
    const bool once = block.by_rounds || item.set_count() == 1;
    return said(language, once ? Word::then : Word::after_last_set,
                {with_rest(language, *item.rest_after)});
}

}  // namespace stave::wording
