#include <algorithm>
#include <span>
#include <utility>

#include "compiler/check/check.hpp"
#include "compiler/check/lines.hpp"
#include "compiler/check/places.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;
using program::MovementDefinition;

class Collector {
public:
    Collector(Definitions& definitions, std::span<const Span> library, DiagnosticSink& sink)
        : definitions_(definitions), library_(library), sink_(sink) {}

    void read(const syntax::Line& line) {
        switch (line.kind) {
            case LineKind::blank:
            case LineKind::remark:
            case LineKind::unclassified:
                return;
            case LineKind::open_movement:
                return open(line);
            case LineKind::counted_in:
            case LineKind::sides:
            case LineKind::pattern:
            case LineKind::speed:
            case LineKind::loaded_with:
            case LineKind::joint:
            case LineKind::starts:
            case LineKind::easier:
            case LineKind::harder:
            case LineKind::also:
            case LineKind::demands:
            case LineKind::directions:
                return add_fact(line);
            case LineKind::kit:
                if (open_) add_fact(line);
                return;
            case LineKind::how:
            case LineKind::caution:
                if (!open_) return report_not_here(line, Surroundings::session, sink_);
                return add_coaching(line);
            case LineKind::cue:
            case LineKind::fault:
                return add_coaching(line);
            default:
                open_ = false;
        }
    }

private:
    void open(const syntax::Line& line) {
        open_ = true;
        seen_.clear();
        MovementDefinition definition;
        definition.name = clean_text(line.title.text);
        definition.span = line.title.span;
        definition.from_library = std::ranges::any_of(library_, [&](Span part) {
            return part.begin <= line.span.begin && line.span.end <= part.end;
        });
        const auto id = static_cast<std::uint32_t>(definitions_.movements.size());
        const auto [found, added] = definitions_.by_name.emplace(fold_name(line.title.text), id);
        definitions_.folded_names.push_back(found->first);
        if (!added) {
            const MovementDefinition& first = definitions_.movements[found->second];
            sink_.report({Code::movement_twice,
                          line.title.span,
                          {definition.name},
                          {},
                          {{first.span, "first defined here"}}});
        }
        definitions_.movements.push_back(std::move(definition));
    }

    void add_fact(const syntax::Line& line) {
        if (!open_) return report_not_here(line, Surroundings::session, sink_);
        const bool twice = std::ranges::find(seen_, line.kind) != seen_.end();
        seen_.push_back(line.kind);
        if (line.is_broken) return;
        if (twice) {
            sink_.report({Code::field_twice, line.head.span, {clean_text(line.head.text)}, {}, {}});
            return;
        }
        store(line, definitions_.movements.back());
    }

    void store(const syntax::Line& line, MovementDefinition& definition) {
        if (const auto* counted = std::get_if<syntax::CountedIn>(&line.body)) {
            for (const auto& [unit, span] : counted->units)
                definition.counted_in.push_back(unit);
        } else if (const auto* sides = std::get_if<syntax::SidesLine>(&line.body)) {
            definition.sides = sides->side ? to_sides(*sides->side) : program::Sides{};
        } else if (const auto* patterns = std::get_if<syntax::PatternLine>(&line.body)) {
            definition.patterns = patterns->patterns;
        } else if (const auto* speed = std::get_if<syntax::SpeedLine>(&line.body)) {
            definition.speed = to_speed(*speed, line.body_span);
        } else if (const auto* starts = std::get_if<syntax::Starts>(&line.body)) {
            definition.starts_up = starts->up;
        } else if (const auto* kit = std::get_if<syntax::Kit>(&line.body)) {
            for (const syntax::KitThing& thing : kit->things)
                definition.kit.push_back(choices(clean_text(thing.name)));
        } else if (const auto* names = std::get_if<syntax::Names>(&line.body)) {
            store_names(line, *names, definition);
        }
    }

    // "kettlebell or dumbbell".
    static std::vector<std::string> choices(std::string_view name) {
        std::vector<std::string> result;
        constexpr std::string_view between = " or ";
        for (std::size_t at = name.find(between); at != std::string_view::npos;
             at = name.find(between)) {
            result.emplace_back(name.substr(0, at));
            name.remove_prefix(at + between.size());
        }
        result.emplace_back(name);
        return result;
    }

    void store_names(const syntax::Line& line, const syntax::Names& names,
                     MovementDefinition& definition) {
        switch (line.kind) {
            case LineKind::easier:
                return add_texts(names, definition.technique.easier);
            case LineKind::harder:
                return add_texts(names, definition.technique.harder);
            case LineKind::also:
                return add_other_names(names, definition);
            case LineKind::directions:
                return add_directions(names, line.body_span, definition);
            case LineKind::joint:
                return add_words(names, grammar::find_joint, Code::joint_unknown,
                                 definition.joints);
            case LineKind::loaded_with:
                return add_words(names, grammar::find_loaded_with, Code::loaded_with_unknown,
                                 definition.loaded_with);
            case LineKind::demands:
                return add_words(names, grammar::find_demand, Code::demand_unknown,
                                 definition.demands);
            default:
                return;
        }
    }

    static void add_texts(const syntax::Names& names, std::vector<std::string>& texts) {
        for (const syntax::Word& name : names.names)
            texts.push_back(clean_text(name.text));
    }

    template <typename Kind>
    void add_words(const syntax::Names& names, std::optional<Kind> (*find)(std::string_view),
                   Code unknown, std::vector<Kind>& kinds) {
        for (const syntax::Word& name : names.names) {
            const std::string word = clean_text(name.text);
            if (const auto kind = find(word)) {
                kinds.push_back(*kind);
            } else {
                sink_.report({unknown, name.span, {word}, {}, {}});
            }
        }
    }

    void add_other_names(const syntax::Names& names, MovementDefinition& definition) {
        const auto id = static_cast<std::uint32_t>(definitions_.movements.size() - 1);
        for (const syntax::Word& name : names.names) {
            definition.also.push_back(clean_text(name.text));
            const auto [found, added] = definitions_.by_name.emplace(fold_name(name.text), id);
            if (added) continue;
            const MovementDefinition& first = definitions_.movements[found->second];
            sink_.report({Code::also_twice,
                          name.span,
                          {clean_text(name.text), first.name},
                          {},
                          {{first.span, "it is defined here"}}});
        }
    }

    // A number, or a name for each.
    void add_directions(const syntax::Names& names, Span span, MovementDefinition& definition) {
        constexpr std::int64_t most_directions = 12;
        auto count = static_cast<std::int64_t>(names.names.size());
        const std::string first = clean_text(names.names.front().text);
        const bool is_number = count == 1 && first.size() <= 2 &&
                               first.find_first_not_of("0123456789") == std::string::npos;
        if (is_number) {
            count = 0;
            for (const char digit : first)
                count = count * 10 + (digit - '0');
        } else {
            add_texts(names, definition.direction_names);
        }
        if (count < 2 || count > most_directions) {
            sink_.report(
                {Code::directions_few, span, {is_number ? first : clean_text(first)}, {}, {}});
            return;
        }
        definition.directions = count;
    }

    // "3 s per rep" and "100 steps per min" both become seconds for one.
    std::optional<program::Speed> to_speed(const syntax::SpeedLine& line, Span span) {
        const bool time_first = dimension(line.amount.quantity.unit) == Dimension::time;
        const Quantity& time = time_first ? line.amount.quantity : line.per.quantity;
        const Quantity& amount = time_first ? line.per.quantity : line.amount.quantity;
        const bool counts = dimension(amount.unit) == Dimension::count;
        const Ratio time_seconds = in_base_units(time);
        const Ratio work = in_base_units(amount);
        if (time_seconds <= Ratio(longest_seconds) && work <= Ratio(largest_count)) {
            const Ratio seconds = rounded(time_seconds / work, 1'000'000);
            const bool possible = seconds > Ratio(0) && seconds <= Ratio(longest_seconds);
            if (possible) return program::Speed{seconds, counts ? amount.unit : Unit::metre};
        }
        sink_.report({Code::number_too_large, span, {"This speed", "24 h for each"}, {}, {}});
        return std::nullopt;
    }

    void add_coaching(const syntax::Line& line) {
        if (!open_ || line.is_broken) return;
        MovementDefinition& definition = definitions_.movements.back();
        if (const auto* fault = std::get_if<syntax::Fault>(&line.body)) {
            definition.faults.push_back(
                {clean_text(fault->what.text), clean_text(fault->mend.text)});
            return;
        }
        const auto* word = std::get_if<syntax::Word>(&line.body);
        if (word == nullptr) return;
        auto& texts = line.kind == LineKind::how       ? definition.technique.steps
                      : line.kind == LineKind::caution ? definition.technique.cautions
                                                       : definition.cues;
        texts.push_back(clean_text(word->text));
    }

    Definitions& definitions_;
    std::span<const Span> library_;
    DiagnosticSink& sink_;
    // Whether the lines at hand belong to the last definition.
    bool open_ = false;
    std::vector<LineKind> seen_;
};

}  // namespace

const MovementDefinition* Definitions::find(const std::string& folded_name) const {
    const auto found = by_name.find(folded_name);
    return found == by_name.end() ? nullptr : &movements[found->second];
}

Definitions collect_definitions(const syntax::Document& document, DiagnosticSink& sink) {
    Definitions definitions;
    Collector collector(definitions, document.library, sink);
    for (const syntax::Line& line : document.lines)
        collector.read(line);
    return definitions;
}

void add_coaching(const Definitions& definitions, program::Item& item) {
    for (const program::Part& part : item.parts) {
        if (!part.definition) continue;
        const MovementDefinition& definition = definitions.movements[*part.definition];
        // A card has no room for what a library says of everything.
        if (definition.from_library) continue;
        for (const std::string& cue : definition.cues) {
            if (std::ranges::find(item.cues, cue) == item.cues.end()) item.cues.push_back(cue);
        }
        for (const program::Fault& fault : definition.faults) {
            const bool said = std::ranges::find(item.faults, fault) != item.faults.end();
            if (!said) item.faults.push_back(fault);
        }
    }
}

}  // namespace stave::check
