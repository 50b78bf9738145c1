#include "compiler/program/dump.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <iterator>

#include "compiler/program/dump_plan.hpp"

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
        case AmountForm::at_least:
            return show(amount.low) + " or more";
        case AmountForm::total:
            return show(amount.low) + " total";
        case AmountForm::best_of:
            return "best of " + show(amount.low);
        case AmountForm::build_to:
            return fmt::format("build to {} to {}", show(amount.low), show(amount.high));
        case AmountForm::blank:
            return "blank " + show(amount.low);
        case AmountForm::open_ladder:
            return fmt::format("{} up by {}", show(amount.low), show(amount.high));
    }
    return "";
}

std::string show(const Sides& sides) {
    constexpr std::string_view rules[] = {"both",    "each", "alternating", "there and back",
                                          "swapped", "left", "right"};
    constexpr std::string_view words[] = {
#define STAVE_SIDE_WORD(id, word) word,
#include "grammar/keywords.def"
    };
    const std::string_view first =
        sides.first_is_said ? (sides.right_first ? " right first" : " left first") : "";
    return fmt::format("{} {}{}", rules[static_cast<std::size_t>(sides.rule)],
                       words[static_cast<std::size_t>(sides.word)], first);
}

std::string show(const LoadTerm& term) {
    constexpr std::string_view kinds[] = {
        "mass", "band", "bodyweight", "empty bar", "last time", "of max",  "of",   "rep max",
        "rate", "pace", "power",      "effort",    "RPE",       "reserve", "zone", "heart rate"};
    std::string text;
    switch (term.kind) {
        case LoadKind::mass:
            text = fmt::format("{} x {}", term.implements, show(term.low));
            break;
        case LoadKind::band:
        case LoadKind::bodyweight:
        case LoadKind::empty_bar:
        case LoadKind::last_time:
            text = kinds[static_cast<std::size_t>(term.kind)];
            break;
        default:
            text = fmt::format("{} {}", kinds[static_cast<std::size_t>(term.kind)], show(term.low));
            if (term.implements != 1) text = fmt::format("{} x {}", term.implements, text);
    }
    if (term.low != term.high) text += " to " + show(term.high);
    if (term.kind == LoadKind::rate) text += " per " + show(term.per);
    if (!term.of.empty()) text += fmt::format(" of \"{}\"", term.of);
    if (!term.place.empty()) text += fmt::format(" \"{}\"", term.place);
    if (term.helps) text += " helping";
    for (const Shift& shift : term.shift)
        text += (shift.minus ? " minus " : " plus ") + show(shift.amount);
    return text;
}

std::string show(const Load& load) {
    std::string text;
    for (const LoadTerm& term : load.terms) {
        if (!text.empty()) text += " and ";
        text += show(term);
    }
    return text;
}

void show_rest(Out out, int depth, std::string_view name, const std::optional<Rest>& rest) {
    if (!rest) return;
    constexpr std::string_view kinds[] = {"", "as needed ", "as the work ", "walk back ",
                                          "distance "};
    fmt::format_to(out, "{:{}}rest {} {}{}", "", depth, name,
                   kinds[static_cast<std::size_t>(rest->kind)], show(rest->low));
    if (rest->low != rest->high) fmt::format_to(out, " to {}", show(rest->high));
    if (!rest->doing.empty()) fmt::format_to(out, " \"{}\"", rest->doing);
    fmt::format_to(out, "\n");
}

void show_texts(Out out, int depth, std::string_view name, const std::vector<std::string>& texts) {
    for (const std::string& text : texts) {
        fmt::format_to(out, "{:{}}{} \"{}\"\n", "", depth, name, text);
    }
}

struct DetailDump {
    Out out;
    int depth;

    void line(std::string_view name, const std::string& text) const {
        fmt::format_to(out, "{:{}}{} {}\n", "", depth, name, text);
    }
    void operator()(const LowerOnly& lower) const { line("lower only", show(lower.time)); }
    void operator()(const Breath& breath) const {
        line("breath", fmt::format("in {} out {}", show(breath.in), show(breath.out)));
    }
    void operator()(const Pause& pause) const {
        line("pause", fmt::format("{} \"{}\"", show(pause.time), pause.where));
    }
    void operator()(const HoldAt& hold) const { line("hold at", show(hold.angle)); }
    void operator()(const Height& height) const {
        line(height.over ? "over" : "from", show(height.height));
    }
    void operator()(const Incline& incline) const {
        std::string text(incline.is_range ? "range" : "");
        for (const Quantity& value : incline.values)
            text += " " + show(value);
        line("incline", text);
    }
    void operator()(const SwapHands& swap) const { line("swap hands every", show(swap.every)); }
    void operator()(const LoadChange& change) const {
        line("load", change.rises ? "rises" : "falls");
    }
    void operator()(const Within& within) const { line("within", show(within.time)); }
    void operator()(const Pieces& pieces) const {
        std::string text;
        for (const Amount& amount : pieces.amounts)
            text += show(amount) + " | ";
        line("pieces", text + (pieces.rest ? "rest " + show(*pieces.rest) : "no rest"));
    }
    void operator()(const Plates& plates) const {
        std::string text;
        for (const LoadedBar& load : plates.loads) {
            text += show(load.mass) + ":";
            for (const Quantity& one : load.side)
                text += " " + show(one);
            text += " | ";
        }
        line("plates", text);
    }
    void operator()(const Effort& effort) const { line("effort", show(effort.term)); }
};

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
    for (const Detail& detail : item.details)
        std::visit(DetailDump{out, depth}, detail);
    show_texts(out, depth, "cue", item.cues);
    for (const Fault& fault : item.faults) {
        fmt::format_to(out, "{:{}}fault \"{}\" mend \"{}\"\n", "", depth, fault.what, fault.mend);
    }
    show_texts(out, depth, "count", item.counts);
    show_texts(out, depth, "note", item.notes);
    show_texts(out, depth, "stop", item.stops);
    show_texts(out, depth, "option", item.options);
    show_texts(out, depth, "lacking", item.lacking);
}

void show_item(Out out, int depth, const Item& item) {
    for (const Part& part : item.parts) {
        fmt::format_to(out, "{:{}}do \"{}\"", "", depth, part.name);
        if (part.definition) fmt::format_to(out, " defined {}", *part.definition);
        if (part.counted_by_default) fmt::format_to(out, " by default");
        if (part.is_game) fmt::format_to(out, " game");
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
        if (substitute.group.empty()) {
            fmt::format_to(out, "{:{}}or if \"{}\"\n", "", depth + 2, substitute.condition);
        } else {
            fmt::format_to(out, "{:{}}for \"{}\"\n", "", depth + 2, substitute.group);
        }
        show_item(out, depth + 4, substitute.item);
    }
}

// What the rounds alone do not say.
void show_run(Out out, const Block& block) {
    constexpr std::string_view runs[] = {"",      "",      "as many in", "for time cap",
                                         "every", "every", "on"};
    const auto run = static_cast<std::size_t>(block.run);
    if (!runs[run].empty()) fmt::format_to(out, " {} {}", runs[run], show(block.time));
    if (block.run == RunKind::every_next) fmt::format_to(out, " next");
    if (block.run == RunKind::every_all) fmt::format_to(out, " all");
    if (block.run == RunKind::intervals) fmt::format_to(out, " off {}", show(block.off));
    if (block.by_sides) {
        fmt::format_to(out, " whole block {} first", block.right_first ? "right" : "left");
    }
    if (block.people > 0) fmt::format_to(out, " people {}", block.people);
    if (block.group_size > 0) fmt::format_to(out, " in {}", block.group_size);
}

void show_block(Out out, const Block& block) {
    constexpr std::string_view kinds[] = {"warm-up", "sets",     "superset",
                                          "circuit", "stations", "cool-down"};
    fmt::format_to(out, "  block {} {} \"{}\"", block.letter,
                   kinds[static_cast<std::size_t>(block.kind)], block.title);
    if (block.by_rounds) fmt::format_to(out, " {} rounds", block.rounds);
    if (block.least_rounds > 0) fmt::format_to(out, " from {}", block.least_rounds);
    show_run(out, block);
    fmt::format_to(out, "\n");
    if (block.columns > 0) fmt::format_to(out, "    columns {}\n", block.columns);
    show_rest(out, 4, "sets", block.rest_between_sets);
    show_rest(out, 4, "rounds", block.rest_between_rounds);
    show_rest(out, 4, "movements", block.rest_between_movements);
    show_rest(out, 4, "sides", block.rest_between_sides);
    show_rest(out, 4, "block", block.rest_after);
    show_texts(out, 4, "cue", block.cues);
    show_texts(out, 4, "note", block.notes);
    show_texts(out, 4, "stop", block.stops);
    show_texts(out, 4, "option", block.options);
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
    fmt::format_to(out, "movement \"{}\"{}\n", movement.name,
                   movement.from_library ? " of the library" : "");
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
    for (const Joint joint : movement.joints)
        fmt::format_to(out, "  joint {}\n", grammar::joint_words(joint));
    for (const auto& choice : movement.kit)
        fmt::format_to(out, "  kit {}\n", fmt::join(choice, " or "));
    for (const LoadedWith what : movement.loaded_with)
        fmt::format_to(out, "  loaded with {}\n", grammar::loaded_with_word(what));
    for (const Demand demand : movement.demands)
        fmt::format_to(out, "  demands {}\n", grammar::demand_words(demand));
    if (movement.directions > 1) fmt::format_to(out, "  directions {}\n", movement.directions);
    for (const std::string& name : movement.direction_names)
        fmt::format_to(out, "  direction \"{}\"\n", name);
    if (movement.starts_up) fmt::format_to(out, "  starts up\n");
    show_texts(out, 2, "also", movement.also);
    show_texts(out, 2, "how", movement.technique.steps);
    show_texts(out, 2, "easier", movement.technique.easier);
    show_texts(out, 2, "harder", movement.technique.harder);
    show_texts(out, 2, "caution", movement.technique.cautions);
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
    if (session.plan_week) {
        fmt::format_to(out, "  week {} of {}{}\n", session.plan_week->week,
                       session.plan_week->weeks, session.plan_week->is_lighter ? " lighter" : "");
    }
    if (!session.group.empty()) fmt::format_to(out, "  group \"{}\"\n", session.group);
    if (!session.day.empty()) fmt::format_to(out, "  day {}\n", session.day);
    if (!session.place.empty()) fmt::format_to(out, "  place \"{}\"\n", session.place);
    if (!session.series.empty()) fmt::format_to(out, "  series \"{}\"\n", session.series);
    if (!session.coach.empty()) fmt::format_to(out, "  coach \"{}\"\n", session.coach);
    if (!session.link.empty()) fmt::format_to(out, "  link \"{}\"\n", session.link);
    if (session.pages > 1) fmt::format_to(out, "  pages {}\n", session.pages);
    if (session.effort) fmt::format_to(out, "  effort {}\n", to_decimal(*session.effort, 4));
    if (!session.athlete.empty()) fmt::format_to(out, "  athlete \"{}\"\n", session.athlete);
    show_texts(out, 2, "for", session.audience);
    for (const Demand demand : session.avoid)
        fmt::format_to(out, "  avoid {}\n", grammar::demand_words(demand));
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
    for (const Plan& plan : program.plans)
        text += dump(plan, program.sessions);
    for (const Session& session : program.sessions)
        text += dump(session);
    return text;
}

}  // namespace stave::program
