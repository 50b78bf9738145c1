#include "compiler/check/unknown_movements.hpp"

#include <algorithm>
#include <utility>

#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

// One letter more, less or different; a hyphen for a blank is that too.
bool is_near(std::string_view left, std::string_view right) {
    if (left.size() < 4 || right.size() < 4) return false;
    if (left.size() > right.size()) std::swap(left, right);
    if (right.size() - left.size() > 1) return false;
    const auto [here, there] = std::ranges::mismatch(left, right);
    const std::string_view left_rest(here, left.end());
    const std::string_view right_rest(there, right.end());
    if (left.size() == right.size()) return left_rest.substr(1) == right_rest.substr(1);
    return left_rest == right_rest.substr(1);
}

}  // namespace

std::string UnknownMovements::near_name(const std::string& folded_name) const {
    // Long lists are not searched.
    constexpr std::size_t most_searched = 500;
    if (definitions_.movements.size() <= most_searched) {
        for (std::size_t i = 0; i < definitions_.movements.size(); ++i) {
            if (is_near(folded_name, definitions_.folded_names[i])) {
                return definitions_.movements[i].name;
            }
        }
    }
    return options_.near_movement ? options_.near_movement(folded_name) : std::string();
}

void UnknownMovements::meet(const syntax::Word& name, const std::string& folded_name) {
    if (definitions_.movements.empty() && !options_.near_movement) return;
    // What nobody would read any more is not looked for: that takes a while.
    if (sink_.dropped() > 0) return;
    if (!met_.insert(folded_name).second) return;
    const std::string near = near_name(folded_name);
    if (!near.empty()) {
        sink_.report({Code::near_movement,
                      name.span,
                      {clean_text(name.text), near},
                      {{near, {Edit{name.span, near}}}},
                      {}});
    } else if (options_.near_movement) {
        sink_.report({Code::movement_unknown, name.span, {clean_text(name.text)}, {}, {}});
    }
}

}  // namespace stave::check
