#include "compiler/wording/rests.hpp"

#include <fmt/format.h>

#include "compiler/wording/joining.hpp"
#include "compiler/wording/wording.hpp"

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
    return fmt::format("{} to {}", quantity(language, rest.low), quantity(language, rest.high));
}

// How long, without what is said of it besides.
std::string length_words(Language language, const Rest& rest) {
    switch (rest.kind) {
        case RestKind::timed:
            return rest_time(language, rest);
        case RestKind::as_needed:
            return "as needed";
        case RestKind::as_the_work:
            return "as long as the work";
        case RestKind::walk_back:
            return "walk back";
        case RestKind::distance:
            break;
    }
    return fmt::format("{} {}", rest_time(language, rest), rest.doing);
}

// What is usual, and what fills it.
std::string besides(Language language, const Rest& rest) {
    std::string text;
    if (rest.kind == RestKind::as_needed && rest.high.value != Ratio(0)) {
        text = "about " + rest_time(language, rest);
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
std::string_view place_of_set_rest(Language, const Block& block) {
    const bool between = block.rest_between_movements || block.items.size() == 1;
    return between ? "between sets" : "after every set";
}

}  // namespace

std::string rest(Language language, const Rest& rest) {
    std::string text = length_words(language, rest);
    append(text, ", ", besides(language, rest));
    return text;
}

std::string with_rest(Language language, const Rest& pause) {
    return (pause.kind == RestKind::walk_back ? "rest: " : "rest ") + rest(language, pause);
}

std::string rest_at(Language language, const std::optional<Rest>& pause, std::string_view place) {
    if (!pause) return "";
    std::string text = pause->kind == RestKind::walk_back
                           ? fmt::format("rest {}: {}", place, length_words(language, *pause))
                           : fmt::format("rest {} {}", length_words(language, *pause), place);
    append(text, ", ", besides(language, *pause));
    return text;
}

std::string block_rests(Language language, const Block& block) {
    const bool stations = block.kind == program::BlockKind::stations;
    std::string text =
        rest_at(language, block.rest_between_sets, place_of_set_rest(language, block));
    if (block.rest_between_rounds) {
        append(text, ", ",
               (has_intervals(block) ? "on top of that " : "") +
                   rest_at(language, block.rest_between_rounds, "between rounds"));
    }
    append(text, ", ",
           rest_at(language, block.rest_between_movements,
                   stations ? "between stations" : "between movements"));
    append(text, ", ", rest_at(language, block.rest_between_sides, "between sides"));
    if (block.rest_after) {
        append(text, ", ", "then " + rest_at(language, block.rest_after, "before the next block"));
    }
    return text;
}

std::string own_rests(Language language, const Block& block, const Item& item) {
    std::string text;
    if (item.rest && !is_replaced(block, item)) text = with_rest(language, *item.rest);
    append(text, ", ", rest_at(language, item.rest_between_sides, "between sides"));
    return text;
}

std::string rest_behind(Language language, const Block& block, const Item& item) {
    if (!item.rest_after || is_replaced(block, item)) return "";
    const bool once = block.by_rounds || item.set_count() == 1;
    return (once ? "then " : "after the last set: ") + with_rest(language, *item.rest_after);
}

}  // namespace stave::wording
