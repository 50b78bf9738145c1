#include <fmt/format.h>

#include "compiler/wording/joining.hpp"
#include "compiler/wording/rests.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::wording {

namespace {

// A movement of the tempo: "3 s down", "fast up", or "" for none.
std::string tempo_move(Language, program::TempoPhase phase, std::string_view way) {
    if (phase.explosive) return fmt::format("fast {}", way);
    if (phase.seconds == 0) return "";
    return fmt::format("{}{}s {}", phase.seconds, nbsp, way);
}

std::string tempo_pause(Language, program::TempoPhase phase) {
    if (phase.explosive) return "brief pause";
    if (phase.seconds == 0) return "";
    return fmt::format("{}{}s pause", phase.seconds, nbsp);
}

// An end of the arc: "10° in", "45°".
std::string arc_end(Language language, Quantity angle, std::string_view label) {
    std::string text = quantity(language, angle);
    append(text, " ", label);
    return text;
}

struct DetailWords {
    Language language;

    std::string operator()(const program::LowerOnly& lower) const {
        return "lower only, " + quantity(language, lower.time);
    }
    std::string operator()(const program::Breath& breath) const {
        return fmt::format("breathe in {}, out {}", quantity(language, breath.in),
                           quantity(language, breath.out));
    }
    std::string operator()(const program::Pause& pause) const {
        std::string text = "pause " + quantity(language, pause.time);
        append(text, " ", pause.where);
        return text;
    }
    std::string operator()(const program::HoldAt& hold) const {
        return "hold at " + quantity(language, hold.angle);
    }
    std::string operator()(const program::Height& height) const {
        return (height.over ? "over " : "from ") + quantity(language, height.height);
    }
    std::string operator()(const program::Incline& incline) const {
        std::vector<std::string> words;
        for (const Quantity& value : incline.values)
            words.push_back(to_decimal(value.value));
        const std::string unit = incline.values.front().unit == Unit::degree ? "°" : "%";
        const std::string numbers = join(words, incline.is_range ? "–" : "-");
        return "incline " + (unit == "°" ? numbers + unit : beside(numbers, unit));
    }
    std::string operator()(const program::SwapHands& swap) const {
        return "swap hands every " + quantity(language, swap.every);
    }
    std::string operator()(const program::LoadChange& change) const {
        return change.rises ? "heavier as the sets get shorter" : "lighter as the sets get longer";
    }
    std::string operator()(const program::Within& within) const {
        return "in " + quantity(language, within.time);
    }
    std::string operator()(const program::Pieces& split) const {
        return split.rest
                   ? fmt::format("{} rest between the parts", quantity(language, *split.rest))
                   : std::string("all in one set");
    }
    std::string operator()(const program::Effort& effort) const {
        return load(language, effort.term);
    }
};

}  // namespace

std::string tempo(Language language, const program::Tempo& tempo) {
    std::string text = tempo_move(language, tempo.phases[0], "down");
    append(text, ", ", tempo_pause(language, tempo.phases[1]));
    append(text, ", ", tempo_move(language, tempo.phases[2], "up"));
    append(text, ", ", tempo_pause(language, tempo.phases[3]));
    return text;
}

std::string hold(Language language, const program::Hold& hold) {
    std::string text = "hold " + quantity(language, hold.time);
    append(text, " ", hold.where);
    return text;
}

std::string arc(Language language, const program::Arc& arc) {
    const std::string first = "arc " + arc_end(language, arc.first, arc.first_label);
    return arc.second
               ? fmt::format("{} to {}", first, arc_end(language, *arc.second, arc.second_label))
               : first;
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
        append(text, ", ", item.sides.right_first ? "right first" : "left first");
    }
    if (item.sides.rule == program::SideRule::swapped) append(text, ", ", "then hands swapped");
    append(text, ", ", own_rests(language, block, item));
    return text;
}

std::string directions(Language, const program::Program& program, const program::Item& item) {
    std::string text;
    for (const program::Part& part : item.parts) {
        if (!part.definition || part.amounts.front().low.unit != Unit::reps) continue;
        const program::MovementDefinition& definition = program.movements[*part.definition];
        if (definition.directions == 1) continue;
        const std::string where = definition.direction_names.empty()
                                      ? fmt::format("{}{}directions", definition.directions, nbsp)
                                      : join(definition.direction_names, ", ");
        append(text, "; ",
               fmt::format("each {}: {}", item.parts.size() == 1 ? "rep" : part.name, where));
    }
    return text;
}

std::string_view kind(Language, program::BlockKind kind) {
    switch (kind) {
        case program::BlockKind::warm_up:
            return "Warm-up";
        case program::BlockKind::sets:
            return "Sets";
        case program::BlockKind::superset:
            return "Superset";
        case program::BlockKind::circuit:
            return "Circuit";
        case program::BlockKind::stations:
            return "Stations";
        case program::BlockKind::cool_down:
            break;
    }
    return "Cool-down";
}

std::string block_name(Language language, const program::Block& block) {
    std::string text(kind(language, block.kind));
    append(text, " ", block.title);
    return text;
}

// How often and how long: "3 rounds", "as many rounds as possible in 8 min".
static std::string run_words(Language language, const program::Block& block) {
    std::string rounds = block.least_rounds > 0
                             ? fmt::format("{}–{}", block.least_rounds, block.rounds)
                             : std::to_string(block.rounds);
    rounds = beside(rounds, block.rounds == 1 ? "round" : "rounds");
    switch (block.run) {
        case program::RunKind::in_turn:
            return block.by_rounds ? rounds : "";
        case program::RunKind::rounds:
            return rounds;
        case program::RunKind::as_many:
            return "as many rounds as possible in " + quantity(language, block.time);
        case program::RunKind::for_time:
            return fmt::format("{}for time{}", block.rounds == 1 ? "" : rounds + " ",
                               block.time.value == Ratio(0)
                                   ? std::string()
                                   : ", at most " + quantity(language, block.time));
        case program::RunKind::every_next:
            return fmt::format("{}every {}, {}", block.items.size() > 1 ? "a new movement " : "",
                               quantity(language, block.time), rounds);
        case program::RunKind::every_all:
            return fmt::format("{}every {}, {}", block.items.size() > 1 ? "all of it " : "",
                               quantity(language, block.time), rounds);
        case program::RunKind::intervals:
            break;
    }
    return fmt::format("{} on, {} off, {}", quantity(language, block.time),
                       quantity(language, block.off), rounds);
}

static std::string people_words(Language, const program::Block& block) {
    std::string text;
    if (block.people > 0) text = beside(std::to_string(block.people), "people");
    constexpr std::string_view groups[] = {"in pairs", "in threes", "in fours"};
    if (block.group_size > 0) {
        append(text, " ", groups[static_cast<std::size_t>(block.group_size - 2)]);
    }
    return text;
}

std::string format(Language language, const program::Block& block) {
    std::string text = run_words(language, block);
    if (block.by_sides) {
        append(text, ", ",
               block.right_first ? "the whole block right, then left"
                                 : "the whole block left, then right");
    }
    append(text, ", ", people_words(language, block));
    append(text, ", ", block_rests(language, block));
    return text;
}

}  // namespace stave::wording
