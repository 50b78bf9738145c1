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

std::string show(const Series& series) {
    constexpr std::string_view forms[] = {"one", "range", "list", "ladder", "max"};
    std::string text(forms[static_cast<std::size_t>(series.form)]);
    for (const auto& value : series.values)
        text += value ? " " + show(*value) : " max";
    if (series.step != 1) text += fmt::format(" step {}", series.step);
    return text;
}

std::string show(const Side& side) {
    constexpr std::string_view rules[] = {"each", "alternating", "left", "right"};
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
    constexpr std::string_view places[] = {"", " rounds", " sets", " movements", " sides"};
    return fmt::format("rest {}..{} {}{}", show(rest.low), show(rest.high), rest.doing,
                       places[static_cast<std::size_t>(rest.place)]);
}

std::string show(const LoadTerm& term) {
    constexpr std::string_view kinds[] = {"mass", "band", "bodyweight"};
    std::string text(kinds[static_cast<std::size_t>(term.kind)]);
    if (term.implements) text += fmt::format(" {} x", show(*term.implements));
    if (term.kind == LoadKind::mass) text += " " + show(term.weight);
    if (!term.label.empty()) text += fmt::format(" \"{}\"", term.label);
    return text;
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
        if (format.rounds) fmt::format_to(out, "  rounds {}\n", show(*format.rounds));
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
    void operator()(const IfNo& missing) const {
        fmt::format_to(out, "  if no \"{}\"\n", missing.kit.text);
    }
    void operator()(const Dose& dose) const {
        if (dose.work) {
            if (dose.work->sets) fmt::format_to(out, "  sets {}\n", show(*dose.work->sets));
            for (const Series& part : dose.work->parts)
                fmt::format_to(out, "  amount {}\n", show(part));
            if (dose.work->side) fmt::format_to(out, "  side {}\n", show(*dose.work->side));
        }
        for (const LoadTerm& term : dose.load)
            fmt::format_to(out, "  load {}\n", show(term));
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
