#include <fmt/format.h>

#include <iterator>

#include "compiler/syntax/lower.hpp"

namespace stave::syntax {

namespace {

using Out = std::back_insert_iterator<std::string>;

std::string show(const Value& value) {
    const std::string number = to_decimal(value.quantity.value, 4);
    return value.has_unit ? fmt::format("{} {}", number, plural(value.quantity.unit)) : number;
}

std::string show(const GrowthAmount& amount) {
    constexpr std::string_view counts[] = {"", "sets", "rounds"};
    if (amount.count == GrowthCount::unit) return show(amount.value);
    return fmt::format("{} {}", to_decimal(amount.value.quantity.value),
                       counts[static_cast<std::size_t>(amount.count)]);
}

std::string show(const Series& series) {
    constexpr std::string_view forms[] = {"one", "range", "list", "ladder", "max"};
    std::string text(forms[static_cast<std::size_t>(series.form)]);
    for (const auto& value : series.values)
        text += value ? " " + show(*value) : " max";
    if (series.max_unit) text += fmt::format(" of {}", plural(*series.max_unit));
    if (series.step != 1) text += fmt::format(" step {}", series.step);
    constexpr std::string_view extents[] = {"",         " or more",  " total",   " up by",
                                            " best of", " build to", " in a set"};
    text += extents[static_cast<std::size_t>(series.extent)];
    if (series.up_step) text += " " + show(*series.up_step);
    return text;
}

std::string show(const Side& side) {
    constexpr std::string_view rules[] = {"each", "alternating", "there and back", "left", "right"};
    constexpr std::string_view words[] = {
#define STAVE_SIDE_WORD(id, word) word,
#include "grammar/keywords.def"
    };
    std::string text(rules[static_cast<std::size_t>(side.rule)]);
    if (side.rule == SideRule::each) {
        text += fmt::format(" {}", words[static_cast<std::size_t>(side.word)]);
    }
    return text;
}

std::string show(const Rest& rest) {
    constexpr std::string_view kinds[] = {"", " as needed", " as the work", " walk back",
                                          " distance"};
    constexpr std::string_view places[] = {"",       " rounds",   " sets",  " movements",
                                           " sides", " stations", " blocks"};
    std::string text = fmt::format("rest{}", kinds[static_cast<std::size_t>(rest.kind)]);
    if (rest.has_time) text += fmt::format(" {}..{}", show(rest.low), show(rest.high));
    return text + fmt::format(" {}{}", rest.doing, places[static_cast<std::size_t>(rest.place)]);
}

std::string show(const LoadTerm& term) {
    constexpr std::string_view kinds[] = {
        "measured", "band", "bodyweight",   "empty bar", "last time", "share", "rep max",
        "rate",     "pace", "effort share", "RPE",       "reserve",   "zone",  "heart rate"};
    std::string text(term.follows_then ? "then " : "");
    text += kinds[static_cast<std::size_t>(term.kind)];
    if (term.implements) text += fmt::format(" {} x", show(*term.implements));
    if (!term.weight.values.empty()) text += " " + show(term.weight);
    if (term.reference) text += fmt::format(" of \"{}\"", term.reference->text);
    if (term.per) text += " per " + show(*term.per);
    if (!term.label.empty()) text += fmt::format(" \"{}\"", term.label);
    if (term.helps) text += " helping";
    if (term.shift) text += (term.shift->minus ? " minus " : " plus ") + show(term.shift->amount);
    return text;
}

std::string show(const Group& group) {
    std::string text = "bracket";
    for (const GroupPart& part : group.parts) {
        if (part.times) text += fmt::format(" {} x", show(*part.times));
        text += part.amount ? " " + show(*part.amount) : " max";
    }
    if (group.rest) text += " rest " + show(*group.rest);
    return text;
}

std::string show(const Day& day) {
    return fmt::format("{}-{:02}-{:02}", static_cast<int>(day.date.year()),
                       static_cast<unsigned>(day.date.month()),
                       static_cast<unsigned>(day.date.day()));
}

struct BodyDump {
    Out out;

    void operator()(std::monostate /*nothing*/) const {}
    void operator()(const Word& word) const { fmt::format_to(out, "  text \"{}\"\n", word.text); }
    void operator()(const Fault& fault) const {
        fmt::format_to(out, "  fault \"{}\" mend \"{}\"\n", fault.what.text, fault.mend.text);
    }
    void operator()(const Rest& rest) const { fmt::format_to(out, "  {}\n", show(rest)); }
    void operator()(const SidesLine& line) const {
        fmt::format_to(out, "  sides {}\n", line.side ? show(*line.side) : "both");
    }
    void operator()(const PatternLine& line) const {
        fmt::format_to(out, "  patterns {}\n", line.patterns.size());
    }
    void operator()(const SpeedLine& line) const {
        fmt::format_to(out, "  speed {} per {}\n", show(line.amount), show(line.per));
    }
    void operator()(const CountedIn& line) const {
        for (const auto& [unit, span] : line.units)
            fmt::format_to(out, "  unit {}\n", plural(unit));
    }
    void operator()(const Format& format) const {
        const auto line = [this](std::string_view what, const Box<Value>& value) {
            if (value) fmt::format_to(out, "  {} {}\n", what, show(*value));
        };
        if (format.rounds) {
            fmt::format_to(out, "  rounds {}..{}\n", format.rounds->low, format.rounds->high);
        }
        line("as many in", format.as_many_in);
        if (format.for_time) fmt::format_to(out, "  for time\n");
        line("cap", format.cap);
        if (format.every) {
            constexpr std::string_view scopes[] = {"", " next", " all"};
            fmt::format_to(out, "  every {}{}\n", show(format.every->time),
                           scopes[static_cast<std::size_t>(format.every->scope)]);
        }
        line("on", format.on);
        line("off", format.off);
        if (format.whole_block) {
            fmt::format_to(out, "  whole block {} first\n",
                           format.whole_block->left_first ? "left" : "right");
        }
        line("people", format.people);
        line("groups of", format.group_size);
        for (const Rest& rest : format.rests)
            fmt::format_to(out, "  {}\n", show(rest));
    }
    void operator()(const When& when) const {
        fmt::format_to(out, "  date {}-{:02}-{:02} minute {}\n", static_cast<int>(when.date.year()),
                       static_cast<unsigned>(when.date.month()),
                       static_cast<unsigned>(when.date.day()), when.clock.count());
        if (when.weekday) fmt::format_to(out, "  weekday {}\n", when.weekday->text);
        if (when.time_limit) fmt::format_to(out, "  limit {}\n", show(*when.time_limit));
        if (when.zone) fmt::format_to(out, "  zone {}\n", when.zone->text);
    }
    void operator()(const Kit& kit) const {
        for (const KitThing& thing : kit.things) {
            fmt::format_to(out, "  thing {} \"{}\"", thing.count, thing.name);
            for (const Value& size : thing.sizes)
                fmt::format_to(out, " {}", show(size));
            fmt::format_to(out, "\n");
        }
    }
    void operator()(const Tempo& tempo) const {
        fmt::format_to(out, "  tempo {}\n", fmt::join(tempo.phases, " "));
    }
    void operator()(const Hold& hold) const {
        fmt::format_to(out, "  hold {} \"{}\"\n", show(hold.time), hold.label);
    }
    void operator()(const Arc& arc) const {
        fmt::format_to(out, "  arc {} \"{}\"", show(arc.first.value), arc.first.label);
        if (arc.second) {
            fmt::format_to(out, " to {} \"{}\"", show(arc.second->value), arc.second->label);
        }
        fmt::format_to(out, "\n");
    }
    void operator()(const Condition& condition) const {
        fmt::format_to(out, "  if \"{}\"\n", condition.reason.text);
    }
    void operator()(const LowerOnly& lower) const {
        fmt::format_to(out, "  lower only {}\n", show(lower.time));
    }
    void operator()(const Breath& breath) const {
        fmt::format_to(out, "  breath {} {}\n", breath.in ? "in" : "out", show(breath.time));
    }
    void operator()(const HoldAt& hold) const {
        fmt::format_to(out, "  hold at {}\n", show(hold.angle));
    }
    void operator()(const Pause& pause) const {
        fmt::format_to(out, "  pause {} \"{}\"\n", show(pause.time), pause.label);
    }
    void operator()(const Height& height) const {
        fmt::format_to(out, "  {} {}\n", height.over ? "over" : "from", show(height.value));
    }
    void operator()(const Incline& incline) const {
        fmt::format_to(out, "  incline {}\n", show(incline.value));
    }
    void operator()(const About& about) const {
        fmt::format_to(out, "  about {}\n", show(about.time));
    }
    void operator()(const LoadChange& change) const {
        fmt::format_to(out, "  load {}\n", change.rises ? "rises" : "falls");
    }
    void operator()(const SwapHands& swap) const {
        fmt::format_to(out, "  swap hands every {}\n", show(swap.every));
    }
    void operator()(const Swapped& /*swapped*/) const { fmt::format_to(out, "  then swapped\n"); }
    void operator()(const EachWave& wave) const {
        fmt::format_to(out, "  each wave {} {}\n", show(wave.step), wave.up ? "up" : "down");
    }
    void operator()(const SideFirst& side) const {
        fmt::format_to(out, "  {} first\n", side.left ? "left" : "right");
    }
    void operator()(const Effort& effort) const {
        fmt::format_to(out, "  effort {}\n", show(effort.term));
    }
    void operator()(const WorkStep& step) const {
        if (step.sets) fmt::format_to(out, "  sets {}\n", show(*step.sets));
        if (step.waves) fmt::format_to(out, "  waves {}\n", show(*step.waves));
        for (const Series& part : step.parts)
            fmt::format_to(out, "  amount {}\n", show(part));
        if (step.group) fmt::format_to(out, "  {}\n", show(*step.group));
    }
    void operator()(const Names& names) const {
        for (const Word& name : names.names)
            fmt::format_to(out, "  name \"{}\"\n", name.text);
    }
    void operator()(const Starts& starts) const {
        fmt::format_to(out, "  starts {}\n", starts.up ? "up" : "down");
    }
    void operator()(const Measure& measure) const {
        fmt::format_to(out, "  measure {}\n", show(measure.value));
    }
    void operator()(const Days& days) const {
        fmt::format_to(out, "  days {}", show(days.first));
        if (days.clock) fmt::format_to(out, " minute {}", days.clock->minutes.count());
        if (days.last) fmt::format_to(out, " to {}", show(*days.last));
        if (days.last_clock) fmt::format_to(out, " minute {}", days.last_clock->minutes.count());
        if (days.reason) fmt::format_to(out, " \"{}\"", days.reason->text);
        fmt::format_to(out, "\n");
    }
    void operator()(const Slot& slot) const {
        fmt::format_to(out, " ");
        if (slot.weekday) fmt::format_to(out, " \"{}\"", slot.weekday->text);
        if (slot.day) fmt::format_to(out, " day {}", show(*slot.day));
        fmt::format_to(out, " minute {}", slot.clock.minutes.count());
        for (const Word& session : slot.sessions)
            fmt::format_to(out, " \"{}\"", session.text);
        if (slot.time_limit) fmt::format_to(out, " limit {}", show(*slot.time_limit));
        if (slot.group) fmt::format_to(out, " group \"{}\"", slot.group->text);
        fmt::format_to(out, "\n");
    }
    void operator()(const Lighter& lighter) const {
        fmt::format_to(out, "  {} {} by {}\n", lighter.is_every ? "weeks" : "week", lighter.week,
                       show(lighter.by));
    }
    void operator()(const Waves& waves) const {
        fmt::format_to(out, "  waves of {} up {}\n", waves.weeks, waves.steps);
    }
    void operator()(const Growth& growth) const {
        fmt::format_to(out, "  growth {}", show(growth.step));
        if (growth.reference) fmt::format_to(out, " of \"{}\"", growth.reference->text);
        if (growth.limit) fmt::format_to(out, " up to {}", show(*growth.limit));
        fmt::format_to(out, "\n");
    }
    void operator()(const Did& did) const {
        fmt::format_to(out, "  day {}\n", show(did.day));
        for (const Word& name : did.names)
            fmt::format_to(out, "  name \"{}\"\n", name.text);
    }
    void operator()(const Dose& dose) const {
        if (dose.work) {
            (*this)(dose.work->first);
            for (const WorkStep& step : dose.work->next) {
                fmt::format_to(out, "  then\n");
                (*this)(step);
            }
            if (dose.work->within) fmt::format_to(out, "  within {}\n", show(*dose.work->within));
            if (dose.work->side) fmt::format_to(out, "  side {}\n", show(*dose.work->side));
        }
        for (const LoadTerm& term : dose.load)
            fmt::format_to(out, "  load {}\n", show(term));
        if (dose.on) fmt::format_to(out, "  on {}\n", show(*dose.on));
        for (const Detail& detail : dose.details)
            std::visit(*this, detail);
    }
};

}  // namespace

std::string dump(const Document& document) {
    std::string text;
    const Out out(text);
    std::size_t number = 0;
    for (const Line& line : document.lines) {
        fmt::format_to(out, "{} {}", ++number, grammar::line_kind_name(line.kind));
        if (!line.title.text.empty()) fmt::format_to(out, " \"{}\"", line.title.text);
        if (line.is_broken) fmt::format_to(out, " (broken)");
        if (!line.remark.empty()) fmt::format_to(out, " (remark)");
        text += '\n';
        std::visit(BodyDump{out}, line.body);
    }
    return text;
}

}  // namespace stave::syntax
