#include <algorithm>
#include <utility>

#include "compiler/check/check.hpp"
#include "compiler/check/lines.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;
using program::MovementDefinition;

class Collector {
public:
    Collector(Definitions& definitions, DiagnosticSink& sink)
        : definitions_(definitions), sink_(sink) {}

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
                return add_fact(line);
            case LineKind::cue:
            case LineKind::fault:
                return add_coaching(line);
            default:
                if (!is_part_of_definition(line.kind)) open_ = false;
        }
    }

private:
    // Lines that may follow a definition but are not read yet.
    static bool is_part_of_definition(LineKind kind) {
        return kind == LineKind::loaded_with || kind == LineKind::joint ||
               kind == LineKind::starts || kind == LineKind::how || kind == LineKind::easier ||
               kind == LineKind::harder || kind == LineKind::caution || kind == LineKind::also;
    }

    void open(const syntax::Line& line) {
        open_ = true;
        seen_.clear();
        MovementDefinition definition;
        definition.name = clean_text(line.title.text);
        definition.span = line.title.span;
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
        const std::string head(kind_text(line.kind));
        if (!open_) {
            sink_.report({Code::line_not_here,
                          line.head.span,
                          {head, "It belongs to a movement's definition."},
                          {},
                          {}});
            return;
        }
        const bool twice = std::ranges::find(seen_, line.kind) != seen_.end();
        seen_.push_back(line.kind);
        if (line.is_broken) return;
        if (twice) {
            sink_.report({Code::field_twice, line.head.span, {head}, {}, {}});
            return;
        }
        store(line, definitions_.movements.back());
    }

    static std::string_view kind_text(LineKind kind) {
        switch (kind) {
            case LineKind::counted_in:
                return "counted in";
            case LineKind::sides:
                return "sides";
            case LineKind::pattern:
                return "pattern";
            default:
                return "speed";
        }
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
        }
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
        if (const auto* word = std::get_if<syntax::Word>(&line.body)) {
            definition.cues.push_back(clean_text(word->text));
        } else if (const auto* fault = std::get_if<syntax::Fault>(&line.body)) {
            definition.faults.push_back(
                {clean_text(fault->what.text), clean_text(fault->mend.text)});
        }
    }

    Definitions& definitions_;
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
    Collector collector(definitions, sink);
    for (const syntax::Line& line : document.lines)
        collector.read(line);
    return definitions;
}

void add_coaching(const Definitions& definitions, program::Item& item) {
    for (const program::Part& part : item.parts) {
        if (!part.definition) continue;
        const MovementDefinition& definition = definitions.movements[*part.definition];
        for (const std::string& cue : definition.cues) {
            if (std::ranges::find(item.cues, cue) == item.cues.end()) item.cues.push_back(cue);
        }
        for (const program::Fault& fault : definition.faults) {
            const bool said = std::ranges::find(item.faults, fault) != item.faults.end();
            if (!said) item.faults.push_back(fault);
        }
    }
}

program::Sides to_sides(const syntax::Side& side) {
    program::Sides sides;
    sides.word = side.word;
    switch (side.rule) {
        case syntax::SideRule::each:
            sides.rule = program::SideRule::each;
            break;
        case syntax::SideRule::alternating:
            sides.rule = program::SideRule::alternating;
            break;
        case syntax::SideRule::left:
            sides.rule = program::SideRule::left;
            break;
        case syntax::SideRule::right:
            sides.rule = program::SideRule::right;
            break;
    }
    return sides;
}

std::string side_text(const program::Sides& sides) {
    constexpr std::string_view words[] = {
#define STAVE_SIDE_WORD(id, word) word,
#include "grammar/keywords.def"
    };
    switch (sides.rule) {
        case program::SideRule::each:
            return "each " + std::string(words[static_cast<std::size_t>(sides.word)]);
        case program::SideRule::alternating:
            return "alternating";
        case program::SideRule::left:
            return "left";
        case program::SideRule::right:
            return "right";
        case program::SideRule::unsided:
            break;
    }
    return "";
}

std::string unit_list(const std::vector<Unit>& units) {
    std::string text;
    for (const Unit unit : units) {
        if (!text.empty()) text += ", ";
        text += plural(unit);
    }
    return text;
}

program::Rest to_rest(const syntax::Rest& rest) {
    return {rest.low.quantity, rest.high.quantity, clean_text(rest.doing)};
}

}  // namespace stave::check
