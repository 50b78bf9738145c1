#include "compiler/check/unknown_movements.hpp"

#include <algorithm>
#include <bit>
#include <numeric>
#include <string_view>
#include <utility>
#include <vector>

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

std::vector<std::string_view> words_of(std::string_view text) {
    std::vector<std::string_view> words;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        words.push_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return words;
}

// Which of so many words may be kept, a bit for each: most of them first and, of as
// many, those nearest to the end, where a name says what it is.
std::vector<unsigned> choices_of_words(std::size_t count) {
    std::vector<unsigned> choices((1U << count) - 2);
    std::iota(choices.begin(), choices.end(), 1U);
    std::ranges::sort(choices, [](unsigned a, unsigned b) {
        return std::pair(std::popcount(a), a) > std::pair(std::popcount(b), b);
    });
    return choices;
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

std::string UnknownMovements::known_name(const std::string& folded_name) const {
    if (const auto* own = definitions_.find(folded_name)) return own->name;
    return options_.known_movement ? options_.known_movement(folded_name) : std::string();
}

std::string UnknownMovements::name_within(const std::string& folded_name) const {
    constexpr std::size_t most_words = 6;
    // Shorter names mean too much: “lift”, “row”.
    constexpr std::size_t shortest = 5;
    const std::vector<std::string_view> words = words_of(folded_name);
    if (words.size() < 2 || words.size() > most_words) return "";
    for (const unsigned kept : choices_of_words(words.size())) {
        std::string name;
        for (std::size_t i = 0; i < words.size(); ++i) {
            if ((kept >> i & 1U) == 0) continue;
            if (!name.empty()) name += ' ';
            name += words[i];
        }
        if (name.size() < shortest) continue;
        std::string known = known_name(name);
        if (!known.empty()) return known;
    }
    return "";
}

UnknownMovements::Met UnknownMovements::look_up(const std::string& folded_name) const {
    Met met;
    met.near = near_name(folded_name);
    if (met.near.empty() && options_.near_movement) met.within = name_within(folded_name);
    return met;
}

void UnknownMovements::meet(const syntax::Word& name, const std::string& folded_name) {
    if (definitions_.movements.empty() && !options_.near_movement) return;
    // What nobody would read any more is not looked for: that takes a while.
    if (sink_.has_plenty()) return;
    // Of what is allowed nothing is ever dropped.
    constexpr std::size_t most_looked_up = 2000;
    auto found = met_.find(folded_name);
    if (found == met_.end()) {
        Met first = met_.size() < most_looked_up ? look_up(folded_name) : Met{};
        found = met_.emplace(folded_name, std::move(first)).first;
    }
    Met& met = found->second;
    Diagnostic problem{Code::movement_unknown, name.span, {clean_text(name.text)}, {}, {}};
    if (!met.near.empty()) {
        problem.code = Code::near_movement;
        problem.arguments.push_back(met.near);
        problem.fixes.push_back({met.near, {Edit{name.span, met.near}}});
    } else if (options_.near_movement) {
        problem.arguments.push_back(met.within.empty() ? ""
                                                       : ", though " + met.within + " is known");
    } else {
        return;
    }
    // What one session allows is still to be said of the next.
    if (sink_.leaves_out(problem) || met.is_said) return;
    met.is_said = true;
    sink_.report(std::move(problem));
}

}  // namespace stave::check
