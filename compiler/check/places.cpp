#include "compiler/check/places.hpp"

#include <string>

#include "compiler/check/line_groups.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;

// Two sentences of the problem: where the line belongs, and what to do.
struct Advice {
    std::string why;
    std::string mend;
};

Advice for_definition(LineKind kind) {
    const std::string why = "It belongs to a movement's definition.";
    const std::string define =
        "rite movement NAME: above the first session, and this line below it.";
    switch (kind) {
        case LineKind::sides:
            return {why, "Write the side behind the amount (8 each leg), or w" + define};
        case LineKind::how:
            return {why, "Write cue: or note: in a session, or w" + define};
        case LineKind::caution:
            return {why, "Write stop: or note: in a session, or w" + define};
        case LineKind::easier:
        case LineKind::harder:
            return {why, "Write or NAME: 8 below a movement of a session, or w" + define};
        default:
            return {why, "W" + define};
    }
}

Advice for_record(LineKind kind) {
    switch (kind) {
        case LineKind::weight:
            return {
                "It belongs to an athlete.",
                "Move it below a line athlete NAME:; a load stands behind its amount: 8 @ 20 kg"};
        case LineKind::age_group:
        case LineKind::units:
        case LineKind::language:
        case LineKind::rounding:
        case LineKind::estimate_by:
            return {"It belongs to an athlete.", "Move it below a line athlete NAME:"};
        case LineKind::score:
            return {"It belongs to a result.", "Move it below a line did NAME:"};
        default:
            return {"It belongs to a plan.", "Move it below a line plan NAME:"};
    }
}

Advice in_session(LineKind kind) {
    const std::string below_movement = "Move it below the line of that movement.";
    if (kind == LineKind::effort) {
        return {"It belongs to the session, before its first block.",
                "Move it up, right below the line that opens the session; how hard a set is meant "
                "to be stands behind its load: 8 @ 20 kg, RPE 8"};
    }
    if (is_session_fact(kind)) {
        return {"It belongs to the session, before its first block.",
                "Move it up, right below the line that opens the session."};
    }
    switch (kind) {
        case LineKind::based_on:
        case LineKind::leave_out:
            return {"It belongs to a session's head.",
                    "Move it right below the line that opens the session."};
        case LineKind::columns:
            return {"It belongs to a block, above its first movement.",
                    "Move it right below the line that opens the block."};
        case LineKind::options:
        case LineKind::rest:
            return {"It belongs to a block or below a movement.",
                    "Move it below the line of a block or of a movement."};
        case LineKind::count:
        case LineKind::fault:
            return {"It belongs below a movement.",
                    "Move it below the line of a movement; words for the whole session are note: "
                    "or stop:"};
        case LineKind::open_substitute:
            return {"It belongs below the movement that it may replace.", below_movement};
        case LineKind::open_level:
        case LineKind::open_group:
            return {"It belongs below the movement that it varies.", below_movement};
        default:
            return belongs_to_definition(kind) ? for_definition(kind) : for_record(kind);
    }
}

Advice in_definition(LineKind kind) {
    const std::string why = "A movement's definition does not hold it.";
    switch (kind) {
        case LineKind::stop:
            return {why, "Write caution: here, or move it below a movement of a session."};
        case LineKind::note:
            return {why, "Write cue: or how: here, or move it below a movement of a session."};
        case LineKind::when:
        case LineKind::zone:
        case LineKind::place:
        case LineKind::series:
        case LineKind::coach:
        case LineKind::link:
        case LineKind::pages:
        case LineKind::effort:
        case LineKind::audience:
        case LineKind::avoid:
        case LineKind::based_on:
        case LineKind::leave_out:
            return {why, "Move it below the line that opens its session."};
        case LineKind::options:
        case LineKind::rest:
        case LineKind::count:
        case LineKind::open_substitute:
        case LineKind::open_level:
        case LineKind::open_group:
            return {why, "Move it below a movement of a session."};
        default:
            return in_session(kind);
    }
}

Advice in_plan() {
    return {"A plan says on which days which sessions are held, and what grows.",
            "Move it below the line that opens a session, or write session: NAME above it."};
}

Advice in_athlete() {
    return {
        "Of an athlete weight, age group, units, language, kit, avoid, rounding, estimate by and "
        "tests are known.",
        "Move it below the line that opens a session, or write session: NAME above it."};
}

Advice advice_in(Surroundings surroundings, LineKind kind) {
    switch (surroundings) {
        case Surroundings::definition:
            return in_definition(kind);
        case Surroundings::plan:
            return in_plan();
        case Surroundings::athlete:
            return in_athlete();
        case Surroundings::squad:
            return {"A squad is its names alone.",
                    "Move it below a line athlete NAME:, or below the line that opens a session."};
        case Surroundings::kit:
            return {"A kit is its things alone.",
                    "Move it below a line athlete NAME:, or below the line that opens a session."};
        case Surroundings::session:
            break;
    }
    return in_session(kind);
}

}  // namespace

void report_not_here(const syntax::Line& line, Surroundings surroundings, DiagnosticSink& sink) {
    Advice advice = advice_in(surroundings, line.kind);
    sink.report({Code::line_not_here,
                 line.head.span,
                 {clean_text(line.head.text), std::move(advice.why), std::move(advice.mend)},
                 {},
                 {}});
}

}  // namespace stave::check
