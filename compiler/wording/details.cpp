#include <fmt/format.h>

#include "compiler/wording/joining.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::wording {

namespace {

using program::Rest;

// A movement of the tempo: "3 s down", "fast up", or "" for none.
std::string tempo_move(program::TempoPhase phase, std::string_view way) {
    if (phase.explosive) return fmt::format("fast {}", way);
    if (phase.seconds == 0) return "";
    return fmt::format("{}{}s {}", phase.seconds, nbsp, way);
}

std::string tempo_pause(program::TempoPhase phase) {
    if (phase.explosive) return "brief pause";
    if (phase.seconds == 0) return "";
    return fmt::format("{}{}s pause", phase.seconds, nbsp);
}

std::string rest_between(const std::optional<Rest>& pause, std::string_view between) {
    return pause ? fmt::format("rest {} between {}", rest(*pause), between) : std::string{};
}

// An end of the arc: "10° in", "45°".
std::string arc_end(Quantity angle, std::string_view label) {
    std::string text = quantity(angle);
    append(text, " ", label);
    return text;
}

}  // namespace

std::string tempo(const program::Tempo& tempo) {
    std::string text = tempo_move(tempo.phases[0], "down");
    append(text, ", ", tempo_pause(tempo.phases[1]));
    append(text, ", ", tempo_move(tempo.phases[2], "up"));
    append(text, ", ", tempo_pause(tempo.phases[3]));
    return text;
}

std::string hold(const program::Hold& hold) {
    std::string text = "hold " + quantity(hold.time);
    append(text, " ", hold.where);
    return text;
}

std::string arc(const program::Arc& arc) {
    const std::string first = "arc " + arc_end(arc.first, arc.first_label);
    return arc.second ? fmt::format("{} to {}", first, arc_end(*arc.second, arc.second_label))
                      : first;
}

std::string rest(const Rest& rest) {
    std::string text;
    if (rest.low == rest.high) {
        text = quantity(rest.low);
    } else if (rest.low.unit == rest.high.unit) {
        text = amount({program::AmountForm::range, rest.low, rest.high});
    } else {
        text = fmt::format("{} to {}", quantity(rest.low), quantity(rest.high));
    }
    append(text, " ", rest.doing);
    return text;
}

std::string details(const program::Item& item) {
    std::string text;
    if (item.tempo) append(text, ", ", tempo(*item.tempo));
    if (item.hold) append(text, ", ", hold(*item.hold));
    if (item.arc) append(text, ", ", arc(*item.arc));
    if (item.rest) append(text, ", ", "rest " + rest(*item.rest));
    append(text, ", ", rest_between(item.rest_between_sides, "sides"));
    if (item.rest_after) append(text, ", ", "then rest " + rest(*item.rest_after));
    return text;
}

std::string_view kind(program::BlockKind kind) {
    switch (kind) {
        case program::BlockKind::warm_up:
            return "Warm-up";
        case program::BlockKind::sets:
            return "Sets";
        case program::BlockKind::superset:
            return "Superset";
        case program::BlockKind::circuit:
            return "Circuit";
        case program::BlockKind::cool_down:
            break;
    }
    return "Cool-down";
}

std::string block_name(const program::Block& block) {
    std::string text(kind(block.kind));
    append(text, " ", block.title);
    return text;
}

std::string format(const program::Block& block) {
    std::string text;
    if (block.by_rounds)
        text = beside(std::to_string(block.rounds), block.rounds == 1 ? "round" : "rounds");
    append(text, ", ", rest_between(block.rest_between_sets, "sets"));
    append(text, ", ", rest_between(block.rest_between_rounds, "rounds"));
    append(text, ", ", rest_between(block.rest_between_movements, "movements"));
    append(text, ", ", rest_between(block.rest_between_sides, "sides"));
    return text;
}

}  // namespace stave::wording
