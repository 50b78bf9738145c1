#include "compiler/check/lines.hpp"

#include <algorithm>

#include "compiler/names/names.hpp"

namespace stave::check {

Span said_span(const syntax::Line& line) {
    return {line.head.span.begin, std::max(line.head.span.end, line.body_span.end)};
}

program::Sides to_sides(const syntax::Side& side) {
    program::Sides sides;
    sides.word = side.word;
    switch (side.rule) {
        case syntax::SideRule::each:
            sides.rule = program::SideRule::each;
            break;
        case syntax::SideRule::alternating:
            sides.rule = program::SideRule::alternating;
            break;
        case syntax::SideRule::there_and_back:
            sides.rule = program::SideRule::there_and_back;
            break;
        case syntax::SideRule::left:
            sides.rule = program::SideRule::left;
            break;
        case syntax::SideRule::right:
            sides.rule = program::SideRule::right;
            break;
    }
    return sides;
}

std::string side_text(const program::Sides& sides) {
    constexpr std::string_view words[] = {
#define STAVE_SIDE_WORD(id, word) word,
#include "grammar/keywords.def"
    };
    switch (sides.rule) {
        case program::SideRule::each:
            return "each " + std::string(words[static_cast<std::size_t>(sides.word)]);
        case program::SideRule::alternating:
            return "alternating";
        case program::SideRule::there_and_back:
            return "there and back";
        case program::SideRule::swapped:
            return "then swapped";
        case program::SideRule::left:
            return "left";
        case program::SideRule::right:
            return "right";
        case program::SideRule::unsided:
            break;
    }
    return "";
}

std::string unit_list(const std::vector<Unit>& units) {
    std::string text;
    for (const Unit unit : units) {
        if (!text.empty()) text += ", ";
        text += plural(unit);
    }
    return text;
}

program::Rest to_rest(const syntax::Rest& rest) {
    constexpr program::RestKind kinds[] = {
        program::RestKind::timed, program::RestKind::as_needed, program::RestKind::as_the_work,
        program::RestKind::walk_back, program::RestKind::distance};
    program::Rest result{rest.low.quantity, rest.high.quantity, clean_text(rest.doing),
                         kinds[static_cast<std::size_t>(rest.kind)]};
    if (!rest.has_time) result.low = result.high = {Ratio(0), Unit::second};
    return result;
}

}  // namespace stave::check
