#include "backends/report/session_rows.hpp"

#include <fmt/format.h>

#include "compiler/wording/wording.hpp"

namespace stave::report {

namespace {

constexpr wording::Language english = wording::Language::english;

std::string_view side_word(timeline::Side side) {
    switch (side) {
        case timeline::Side::left:
            return "left";
        case timeline::Side::right:
            return "right";
        case timeline::Side::both:
            break;
    }
    return "";
}

std::string_view rest_word(timeline::RestPlace place) {
    switch (place) {
        case timeline::RestPlace::sets:
            return "rest between sets";
        case timeline::RestPlace::rounds:
            return "rest between rounds";
        case timeline::RestPlace::movements:
            return "rest before the next movement";
        case timeline::RestPlace::sides:
            return "rest between sides";
        case timeline::RestPlace::blocks:
            return "rest before the next block";
        case timeline::RestPlace::interval:
            return "rest until the next interval";
    }
    return "";
}

// Turning has ways, not sides.
std::string side_text(const program::Item& item, timeline::Side side) {
    if (item.sides.rule == program::SideRule::swapped) {
        return side == timeline::Side::left ? "first" : "swapped";
    }
    const bool way =
        item.sides.rule == program::SideRule::each && item.sides.word == grammar::SideWord::way;
    if (!way || side == timeline::Side::both) return std::string(side_word(side));
    return side == timeline::Side::left ? "one way" : "other way";
}

}  // namespace

Row make_row(const program::Session& session, const timeline::Entry& entry) {
    const program::Block& block = session.blocks[entry.block_id];
    const program::Item& item = block.items[entry.item_id];
    Row row;
    row.entry = &entry;
    if (entry.kind == timeline::EntryKind::more_rounds) {
        row.name = "more rounds until the time is up";
        row.dose = wording::duration(english, entry.length_seconds);
        return row;
    }
    if (entry.kind == timeline::EntryKind::rest) {
        row.name = rest_word(entry.rest_place);
        row.dose = wording::duration(english, entry.length_seconds);
        return row;
    }
    row.label = fmt::format("{}{}", block.letter, entry.item_id + 1);
    if (item.set_count() > 1) {
        row.turn = fmt::format("{} {} of {}", block.by_rounds ? "round" : "set", entry.set + 1,
                               item.set_count());
    }
    const program::Part& part = item.parts[entry.part_id];
    row.name = part.name;
    row.side = side_text(item, entry.side);
    row.dose = wording::amount(english, part.amounts[entry.set]);
    if (item.parts.size() == 1) row.dose = wording::set_amount(english, item, entry.set);
    if (item.sides.rule == program::SideRule::alternating) row.dose += " alternating";
    if (!item.loads.empty()) {
        row.load = wording::load(english, item.loads[item.loads.size() == 1 ? 0 : entry.set]);
    }
    return row;
}

std::string clock_text(Ratio seconds) {
    constexpr std::int64_t minute = 60;
    constexpr std::int64_t hour = 3600;
    const std::int64_t whole = floor(seconds);
    if (whole < hour) return fmt::format("{}:{:02}", whole / minute, whole % minute);
    return fmt::format("{}:{:02}:{:02}", whole / hour, whole % hour / minute, whole % minute);
}

std::string with_plain_blanks(std::string text) {
    constexpr std::string_view no_break = "\u00A0";
    for (std::size_t at = text.find(no_break); at != std::string::npos;
         at = text.find(no_break, at)) {
        text.replace(at, no_break.size(), " ");
    }
    return text;
}

}  // namespace stave::report
