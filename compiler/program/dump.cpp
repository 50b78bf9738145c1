#include "compiler/program/dump.hpp"

#include <fmt/format.h>

#include <iterator>

namespace stave::program {

namespace {

using Out = std::back_insert_iterator<std::string>;

std::string show(const Quantity& quantity) {
    return fmt::format("{} {}", to_decimal(quantity.value, 4), plural(quantity.unit));
}

std::string show(const Amount& amount) {
    switch (amount.form) {
        case AmountForm::exact:
            return show(amount.low);
        case AmountForm::range:
            return fmt::format("{} to {}", show(amount.low), show(amount.high));
        case AmountForm::max:
            return fmt::format("max {}", plural(amount.low.unit));
    }
    return "";
}

std::string show(const Sides& sides) {
    constexpr std::string_view rules[] = {"both", "each", "alternating", "left", "right"};
    constexpr std::string_view words[] = {
#define STAVE_SIDE_WORD(id, word) word,
#include "grammar/keywords.def"
    };
    return fmt::format("{} {}", rules[static_cast<std::size_t>(sides.rule)],
                       words[static_cast<std::size_t>(sides.word)]);
}

std::string show(const Load& load) {
    std::string text;
    for (const LoadTerm& term : load.terms) {
        if (!text.empty()) text += " and ";
        switch (term.kind) {
            case LoadKind::band:
                text += "band";
                break;
            case LoadKind::bodyweight:
                text += "bodyweight";
                break;
            case LoadKind::mass:
                text += fmt::format("{} x {}", term.implements, show(term.low));
                if (term.low != term.high) text += " to " + show(term.high);
        }
        if (!term.place.empty()) text += fmt::format(" \"{}\"", term.place);
    }
    return text;
}

void show_rest(Out out, int depth, std::string_view name, const std::optional<Rest>& rest) {
    if (!rest) return;
    fmt::format_to(out, "{:{}}rest {} {}", "", depth, name, show(rest->low));
    if (rest->low != rest->high) fmt::format_to(out, " to {}", show(rest->high));
    if (!rest->doing.empty()) fmt::format_to(out, " \"{}\"", rest->doing);
    fmt::format_to(out, "\n");
}

void show_texts(Out out, int depth, std::string_view name, const std::vector<std::string>& texts) {
    for (const std::string& text : texts) {
        fmt::format_to(out, "{:{}}{} \"{}\"\n", "", depth, name, text);
    }
}

void show_details(Out out, int depth, const Item& item) {
    if (item.tempo) {
        fmt::format_to(out, "{:{}}tempo", "", depth);
        for (const TempoPhase& phase : item.tempo->phases) {
            fmt::format_to(out, " {}{}", phase.seconds, phase.explosive ? "X" : "");
        }
        fmt::format_to(out, "\n");
    }
    if (item.hold) {
        fmt::format_to(out, "{:{}}hold {} \"{}\"\n", "", depth, show(item.hold->time),
                       item.hold->where);
    }
    if (item.arc) {
        fmt::format_to(out, "{:{}}arc {} \"{}\"", "", depth, show(item.arc->first),
                       item.arc->first_label);
        if (item.arc->second) {
            fmt::format_to(out, " to {} \"{}\"", show(*item.arc->second), item.arc->second_label);
        }
        fmt::format_to(out, "\n");
    }
    show_rest(out, depth, "after set", item.rest);
    show_rest(out, depth, "sides", item.rest_between_sides);
    show_rest(out, depth, "after item", item.rest_after);
    show_texts(out, depth, "cue", item.cues);
    for (const Fault& fault : item.faults) {
        fmt::format_to(out, "{:{}}fault \"{}\" mend \"{}\"\n", "", depth, fault.what, fault.mend);
    }
    show_texts(out, depth, "count", item.counts);
    show_texts(out, depth, "note", item.notes);
    show_texts(out, depth, "stop", item.stops);
}

void show_item(Out out, int depth, const Item& item) {
    for (const Part& part : item.parts) {
        fmt::format_to(out, "{:{}}do \"{}\"", "", depth, part.name);
        if (part.definition) fmt::format_to(out, " defined {}", *part.definition);
        if (part.counted_by_default) fmt::format_to(out, " by default");
        for (const Amount& amount : part.amounts)
            fmt::format_to(out, " | {}", show(amount));
        fmt::format_to(out, "\n");
    }
    if (item.sides.rule != SideRule::unsided) {
        fmt::format_to(out, "{:{}}side {}\n", "", depth + 2, show(item.sides));
    }
    for (const Load& load : item.loads) {
        fmt::format_to(out, "{:{}}load {}\n", "", depth + 2, show(load));
    }
    show_details(out, depth + 2, item);
    for (const Substitute& substitute : item.substitutes) {
        fmt::format_to(out, "{:{}}or if no \"{}\"\n", "", depth + 2, substitute.if_missing);
        show_item(out, depth + 4, substitute.item);
    }
}

void show_block(Out out, const Block& block) {
    constexpr std::string_view kinds[] = {"warm-up", "sets", "superset", "circuit", "cool-down"};
    fmt::format_to(out, "  block {} {} \"{}\"", block.letter,
                   kinds[static_cast<std::size_t>(block.kind)], block.title);
    if (block.by_rounds) fmt::format_to(out, " {} rounds", block.rounds);
    fmt::format_to(out, "\n");
    show_rest(out, 4, "sets", block.rest_between_sets);
    show_rest(out, 4, "rounds", block.rest_between_rounds);
    show_rest(out, 4, "movements", block.rest_between_movements);
    show_rest(out, 4, "sides", block.rest_between_sides);
    show_texts(out, 4, "cue", block.cues);
    show_texts(out, 4, "note", block.notes);
    show_texts(out, 4, "stop", block.stops);
    for (const Item& item : block.items)
        show_item(out, 4, item);
}

void show_when(Out out, const When& when) {
    fmt::format_to(out, "  when {}-{:02}-{:02} minute {}", static_cast<int>(when.date.year()),
                   static_cast<unsigned>(when.date.month()), static_cast<unsigned>(when.date.day()),
                   when.clock.count());
    if (when.time_limit) fmt::format_to(out, " limit {}", show(*when.time_limit));
    if (!when.zone.empty()) fmt::format_to(out, " zone {}", when.zone);
    if (when.instant) fmt::format_to(out, " at {}", when.instant->time_since_epoch().count());
    fmt::format_to(out, "\n");
}

void show_definition(Out out, const MovementDefinition& movement) {
    fmt::format_to(out, "movement \"{}\"\n", movement.name);
    for (const Unit unit : movement.counted_in)
        fmt::format_to(out, "  counted in {}\n", plural(unit));
    if (movement.sides) fmt::format_to(out, "  sides {}\n", show(*movement.sides));
    constexpr std::string_view patterns[] = {
#define STAVE_PATTERN(id, word) word,
#include "grammar/keywords.def"
    };
    for (const Pattern pattern : movement.patterns) {
        fmt::format_to(out, "  pattern {}\n", patterns[static_cast<std::size_t>(pattern)]);
    }
    if (movement.speed) {
        fmt::format_to(out, "  speed {} s per {}\n", to_decimal(movement.speed->seconds, 6),
                       singular(movement.speed->per));
    }
    show_texts(out, 2, "cue", movement.cues);
    for (const Fault& fault : movement.faults) {
        fmt::format_to(out, "  fault \"{}\" mend \"{}\"\n", fault.what, fault.mend);
    }
}

}  // namespace

std::string dump(const Session& session) {
    std::string text;
    const Out out(text);
    fmt::format_to(out, "session \"{}\" \"{}\" as {}\n", session.number, session.title,
                   session.slug);
    if (session.when) show_when(out, *session.when);
    if (!session.place.empty()) fmt::format_to(out, "  place \"{}\"\n", session.place);
    for (const KitThing& thing : session.kit) {
        fmt::format_to(out, "  kit {} \"{}\"", thing.count, thing.name);
        for (const Ratio& size : thing.sizes)
            fmt::format_to(out, " {}", to_decimal(size, 4));
        if (thing.unit) fmt::format_to(out, " {}", plural(*thing.unit));
        fmt::format_to(out, "\n");
    }
    show_texts(out, 2, "cue", session.cues);
    show_texts(out, 2, "note", session.notes);
    show_texts(out, 2, "stop", session.stops);
    for (const Block& block : session.blocks)
        show_block(out, block);
    return text;
}

std::string dump(const Program& program) {
    std::string text;
    const Out out(text);
    for (const MovementDefinition& movement : program.movements)
        show_definition(out, movement);
    for (const Session& session : program.sessions)
        text += dump(session);
    return text;
}

}  // namespace stave::program
