#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "compiler/wording/joining.hpp"
#include "compiler/wording/rests.hpp"
#include "compiler/wording/wording.hpp"
#include "compiler/wording/words.hpp"

namespace stave::wording {

namespace {

// A phase of the tempo: "3 s down", "fast up", or "" for none.
std::string tempo_phase(Language language, program::TempoPhase phase, Word timed, Word fast) {
    if (phase.explosive) return std::string(word(language, fast));
    if (phase.seconds == 0) return "";
    return said(language, timed, {beside(std::to_string(phase.seconds), "s")});
}

// An end of the arc: "10° in", "45°".
std::string arc_end(Language language, Quantity angle, std::string_view label) {
    std::string text = quantity(language, angle);
    append(text, " ", label);
    return text;
}

bool is_in(Unit unit, const std::vector<Quantity>& masses) {
    return std::ranges::all_of(masses, [&](const Quantity& one) { return one.unit == unit; });
}

// "25 + 10 + 2.5 kg"; units stand once where they are one, and not at all where they are `said`.
std::string plates_of(Language language, const std::vector<Quantity>& side,
                      std::optional<Unit> said) {
    if (side.empty()) return std::string(word(language, Word::empty_bar));
    const bool is_said = said && is_in(*said, side);
    const bool is_of_one_unit = is_in(side.front().unit, side);
    std::string text;
    for (std::size_t i = 0; i < side.size(); ++i) {
        const bool with_unit = !is_said && (!is_of_one_unit || i + 1 == side.size());
        // The plates of one side stay together on a line.
        append(text, "\u00A0+\u00A0",
               with_unit ? quantity(language, side[i]) : decimal(language, side[i].value));
    }
    return text;
}

struct DetailWords {
    Language language;

    std::string operator()(const program::LowerOnly& lower) const {
        return said(language, Word::lower_only, {quantity(language, lower.time)});
    }
    std::string operator()(const program::Breath& breath) const {
        return said(language, Word::breathe,
                    {quantity(language, breath.in), quantity(language, breath.out)});
    }
    std::string operator()(const program::Pause& pause) const {
        std::string text = said(language, Word::pause, {quantity(language, pause.time)});
        append(text, " ", pause.where);
        return text;
    }
    std::string operator()(const program::HoldAt& hold) const {
        return said(language, Word::hold_at, {quantity(language, hold.angle)});
    }
    std::string operator()(const program::Height& height) const {
        return said(language, height.over ? Word::over : Word::from_height,
                    {quantity(language, height.height)});
    }
    std::string operator()(const program::Incline& incline) const {
        std::vector<std::string> words;
        for (const Quantity& value : incline.values)
            words.push_back(decimal(language, value.value));
        const std::string unit = incline.values.front().unit == Unit::degree ? "°" : "%";
        const std::string numbers = join(words, incline.is_range ? "–" : "-");
        return said(language, Word::incline,
                    {unit == "°" ? numbers + unit : beside(numbers, unit)});
    }
    std::string operator()(const program::SwapHands& swap) const {
        return said(language, Word::swap_hands, {quantity(language, swap.every)});
    }
    std::string operator()(const program::LoadChange& change) const {
        return std::string(word(language, change.rises ? Word::load_rises : Word::load_falls));
    }
    std::string operator()(const program::Within& within) const {
        return said(language, Word::within, {quantity(language, within.time)});
    }
    std::string operator()(const program::Pieces& split) const {
        return split.rest
                   ? said(language, Word::rest_between_parts, {quantity(language, *split.rest)})
                   : std::string(word(language, Word::all_in_one_set));
    }
    // Of several loads each has its own before its plates, so that every set finds them.
    std::string operator()(const program::Plates& plates) const {
        if (plates.loads.size() == 1) {
            return said(language, Word::plates_each_side,
                        {plates_of(language, plates.loads.front().side, {})});
        }
        std::string text;
        for (const program::LoadedBar& load : plates.loads) {
            const std::string colon = std::string(word(language, Word::colon)).append(nbsp);
            append(text, " · ",
                   quantity(language, load.mass) + colon +
                       plates_of(language, load.side, load.mass.unit));
        }
        return said(language, Word::plates_each_side, {text});
    }
    std::string operator()(const program::Effort& effort) const {
        return load(language, effort.term);
    }
};

}  // namespace

std::string tempo(Language language, const program::Tempo& tempo) {
    const auto phase = [&](std::size_t id, Word timed, Word fast) {
        return tempo_phase(language, tempo.phases[id], timed, fast);
    };
    std::string text = phase(0, Word::tempo_down, Word::fast_down);
    append(text, ", ", phase(1, Word::tempo_pause, Word::brief_pause));
    append(text, ", ", phase(2, Word::tempo_up, Word::fast_up));
    append(text, ", ", phase(3, Word::tempo_pause, Word::brief_pause));
    return text;
}

std::string hold(Language language, const program::Hold& hold) {
    std::string text = said(language, Word::hold, {quantity(language, hold.time)});
    append(text, " ", hold.where);
    return text;
}

std::string arc(Language language, const program::Arc& arc) {
    std::string ends = arc_end(language, arc.first, arc.first_label);
    if (arc.second) {
        ends =
            said(language, Word::from_to, {ends, arc_end(language, *arc.second, arc.second_label)});
    }
    return said(language, Word::arc, {ends});
}

std::string details(Language language, const program::Block& block, const program::Item& item) {
    std::string text;
    if (item.tempo) append(text, ", ", tempo(language, *item.tempo));
    if (item.hold) append(text, ", ", hold(language, *item.hold));
    if (item.arc) append(text, ", ", arc(language, *item.arc));
    for (const program::Detail& detail : item.details)
        append(text, ", ", std::visit(DetailWords{language}, detail));
    // A block on one side first says itself which one that is.
    if (item.sides.first_is_said && !block.by_sides) {
        append(text, ", ",
               word(language, item.sides.right_first ? Word::right_first : Word::left_first));
    }
    if (item.sides.rule == program::SideRule::swapped && !item.is_blank())
        append(text, ", ", word(language, Word::hands_swapped));
    append(text, ", ", own_rests(language, block, item));
    return text;
}

std::string directions(Language language, const program::Program& program,
                       const program::Item& item) {
    std::string text;
    for (const program::Part& part : item.parts) {
        if (!part.definition || part.amounts.front().low.unit != Unit::reps) continue;
        const program::MovementDefinition& definition = program.movements[*part.definition];
        if (definition.directions == 1) continue;
        const std::string where = definition.direction_names.empty()
                                      ? counted(language, Noun::directions, definition.directions)
                                      : join(definition.direction_names, ", ");
        const std::string each = item.parts.size() == 1
                                     ? std::string(word(language, Word::each_rep))
                                     : said(language, Word::each_of, {part.name});
        append(text, break_between(language), labelled(language, each, where));
    }
    return text;
}

std::string_view kind(Language language, program::BlockKind kind) {
    switch (kind) {
        case program::BlockKind::warm_up:
            return word(language, Word::warm_up);
        case program::BlockKind::sets:
            return word(language, Word::sets);
        case program::BlockKind::superset:
            return word(language, Word::superset);
        case program::BlockKind::circuit:
            return word(language, Word::circuit);
        case program::BlockKind::stations:
            return word(language, Word::stations);
        case program::BlockKind::cool_down:
            break;
    }
    return word(language, Word::cool_down);
}

std::string block_name(Language language, const program::Block& block) {
    std::string text(kind(language, block.kind));
    append(text, " ", block.title);
    return text;
}

// "3 rounds", "3–4 rounds".
static std::string rounds_words(Language language, const program::Block& block) {
    if (block.least_rounds == 0) return counted(language, Noun::rounds, block.rounds);
    return beside(fmt::format("{}–{}", block.least_rounds, block.rounds),
                  noun(language, Noun::rounds, plural_of_range(language, block.rounds)));
}

static std::string for_time_words(Language language, const program::Block& block) {
    std::string text = block.rounds == 1 ? "" : rounds_words(language, block);
    append(text, " ", word(language, Word::for_time));
    if (block.time.value != Ratio(0)) {
        append(text, ", ", said(language, Word::at_most, {quantity(language, block.time)}));
    }
    return text;
}

// How often and how long: "3 rounds", "as many rounds as possible in 8 min".
static std::string run_words(Language language, const program::Block& block) {
    const std::string rounds = rounds_words(language, block);
    const std::string time = quantity(language, block.time);
    const bool one = block.items.size() <= 1;
    switch (block.run) {
        case program::RunKind::in_turn:
            return block.by_rounds ? rounds : "";
        case program::RunKind::rounds:
            return rounds;
        case program::RunKind::as_many:
            return said(language, Word::as_many, {time});
        case program::RunKind::for_time:
            return for_time_words(language, block);
        case program::RunKind::every_next:
            return said(language, one ? Word::every : Word::every_next, {time, rounds});
        case program::RunKind::every_all:
            return said(language, one ? Word::every : Word::every_all, {time, rounds});
        case program::RunKind::intervals:
            break;
    }
    return said(language, Word::on_off, {time, quantity(language, block.off), rounds});
}

static std::string people_words(Language language, const program::Block& block) {
    std::string text;
    if (block.people > 0) text = counted(language, Noun::people, block.people);
    constexpr Word groups[] = {Word::in_pairs, Word::in_threes, Word::in_fours};
    if (block.group_size > 0) {
        append(text, " ", word(language, groups[static_cast<std::size_t>(block.group_size - 2)]));
    }
    return text;
}

std::string format(Language language, const program::Block& block) {
    std::string text = run_words(language, block);
    if (block.by_sides) {
        append(text, ", ",
               word(language,
                    block.right_first ? Word::block_right_then_left : Word::block_left_then_right));
    }
    append(text, ", ", people_words(language, block));
    append(text, ", ", block_rests(language, block));
    return text;
}

}  // namespace stave::wording
