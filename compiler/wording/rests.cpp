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

std::string rest_time(const Rest& rest) {
    if (rest.low == rest.high) return quantity(rest.low);
    if (rest.low.unit == rest.high.unit) {
        return amount({program::AmountForm::range, rest.low, rest.high});
    }
    return fmt::format("{} to {}", quantity(rest.low), quantity(rest.high));
}

// How long, without what is said of it besides.
std::string length_words(const Rest& rest) {
    switch (rest.kind) {
        case RestKind::timed:
            return rest_time(rest);
        case RestKind::as_needed:
            return "as needed";
        case RestKind::as_the_work:
            return "as long as the work";
        case RestKind::walk_back:
            return "walk back";
        case RestKind::distance:
            break;
    }
    return fmt::format("{} {}", rest_time(rest), rest.doing);
}

// What is usual, and what fills it.
std::string besides(const Rest& rest) {
    std::string text;
    if (rest.kind == RestKind::as_needed && rest.high.value != Ratio(0)) {
        text = "about " + rest_time(rest);
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
std::string_view place_of_set_rest(const Block& block) {
    const bool between = block.rest_between_movements || block.items.size() == 1;
    return between ? "between sets" : "after every set";
}

}  // namespace

std::string rest(const Rest& rest) {
    std::string text = length_words(rest);
    append(text, ", ", besides(rest));
    return text;
}

std::string with_rest(const Rest& pause) {
    return (pause.kind == RestKind::walk_back ? "rest: " : "rest ") + rest(pause);
}

std::string rest_at(const std::optional<Rest>& pause, std::string_view place) {
    if (!pause) return "";
    std::string text = pause->kind == RestKind::walk_back
                           ? fmt::format("rest {}: {}", place, length_words(*pause))
                           : fmt::format("rest {} {}", length_words(*pause), place);
    append(text, ", ", besides(*pause));
    return text;
}

std::string block_rests(const Block& block) {
    const bool stations = block.kind == program::BlockKind::stations;
    std::string text = rest_at(block.rest_between_sets, place_of_set_rest(block));
    if (block.rest_between_rounds) {
        append(text, ", ",
               (has_intervals(block) ? "on top of that " : "") +
                   rest_at(block.rest_between_rounds, "between rounds"));
    }
    append(
        text, ", ",
        rest_at(block.rest_between_movements, stations ? "between stations" : "between movements"));
    append(text, ", ", rest_at(block.rest_between_sides, "between sides"));
    if (block.rest_after) {
        append(text, ", ", "then " + rest_at(block.rest_after, "before the next block"));
    }
    return text;
}

std::string own_rests(const Block& block, const Item& item) {
    std::string text;
    if (item.rest && !is_replaced(block, item)) text = with_rest(*item.rest);
    append(text, ", ", rest_at(item.rest_between_sides, "between sides"));
    return text;
}

std::string rest_behind(const Block& block, const Item& item) {
    if (!item.rest_after || is_replaced(block, item)) return "";
    const bool once = block.by_rounds || item.set_count() == 1;
    return (once ? "then " : "after the last set: ") + with_rest(*item.rest_after);
}

}  // namespace stave::wording
