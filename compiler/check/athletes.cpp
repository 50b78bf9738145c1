#include "compiler/check/athletes.hpp"

#include <algorithm>
#include <string>
#include <unordered_map>
#include <unordered_set>
#include <utility>

#include "compiler/check/age_groups.hpp"
#include "compiler/check/athlete_tests.hpp"
#include "compiler/check/avoidable.hpp"
#include "compiler/check/named_kits.hpp"
#include "compiler/check/places.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;

// One person. Each line but tests stands once.
class AthleteBuilder {
public:
    AthleteBuilder(const RecordLines& lines, const program::Program& program,
                   const std::unordered_set<std::string>& movements, const Definitions& definitions,
                   const Options& options, DiagnosticSink& sink)
        : lines_(lines),
          program_(program),
          movements_(movements),
          definitions_(definitions),
          options_(options),
          sink_(sink) {}

    program::Athlete build() {
        athlete_.name = clean_text(lines_.head->title.text);
        athlete_.folded_name = fold_name(athlete_.name);
        athlete_.span = lines_.head->head.span;
        for (const syntax::Line* line : lines_.lines) {
            if (!line->is_broken) read(*line);
        }
        return std::move(athlete_);
    }

private:
    void read(const syntax::Line& line) {
        if (line.kind == LineKind::allow) return;
        if (line.kind == LineKind::open_test) return add_test(line);
        if (!belongs(line.kind)) return report_not_here(line, Surroundings::athlete, sink_);
        if (std::ranges::find(met_, line.kind) != met_.end()) {
            return sink_.report(
                {Code::field_twice, line.head.span, {std::string(line.head.text)}, {}, {}});
        }
        met_.push_back(line.kind);
        add(line);
    }

    static bool belongs(LineKind kind) {
        switch (kind) {
            case LineKind::weight:
            case LineKind::age_group:
            case LineKind::units:
            case LineKind::language:
            case LineKind::rounding:
            case LineKind::estimate_by:
            case LineKind::avoid:
            case LineKind::kit:
                return true;
            default:
                return false;
        }
    }

    void add(const syntax::Line& line) {
        if (const auto* weight = std::get_if<syntax::Measure>(&line.body))
            return add_weight(weight->value);
        if (const auto* kit = std::get_if<syntax::Kit>(&line.body)) {
            athlete_.says_kit = true;
            athlete_.kit = fill_in(to_kit(*kit), program_.kits);
            return;
        }
        if (const auto* names = std::get_if<syntax::Names>(&line.body)) {
            for (const syntax::Word& name : names->names)
                line.kind == LineKind::avoid ? add_avoided(name) : add_unit(name);
            return;
        }
        if (const auto* word = std::get_if<syntax::Word>(&line.body)) add_word(line.kind, *word);
    }

    void report(Code code, const syntax::Word& word) {
        sink_.report({code, word.span, {clean_text(word.text)}, {}, {}});
    }

    void add_weight(const syntax::Value& weight) {
        // Grown people and children who train are within it (common practice, no source).
        constexpr std::int64_t least_kg = 20;
        constexpr std::int64_t most_kg = 400;
        const Ratio kilograms = in_base_units(weight.quantity);
        if (kilograms < Ratio(least_kg) || kilograms > Ratio(most_kg)) {
            sink_.report({Code::body_weight_range,
                          weight.span,
                          {to_decimal(weight.quantity.value) + " " +
                           std::string(plural(weight.quantity.unit))},
                          {},
                          {}});
            return;
        }
        athlete_.weight = weight.quantity;
    }

    void add_unit(const syntax::Word& word) {
        const auto unit = find_unit(fold_name(word.text));
        if (athlete_.unit || (unit != Unit::kilogram && unit != Unit::pound))
            return report(Code::units_word, word);
        athlete_.unit = unit;
    }

    void add_avoided(const syntax::Word& word) {
        const std::string folded = fold_name(word.text);
        program::Avoided& avoided = athlete_.avoided;
        const auto demand = grammar::find_demand(folded);
        const auto pattern = grammar::find_pattern(folded);
        if (demand) avoided.demands.push_back(*demand);
        if (pattern) avoided.patterns.push_back(*pattern);
        if (is_movement(folded)) {
            avoided.folded_movements.push_back(main_name(folded));
        } else if (!demand && !pattern) {
            report_unknown_avoided(word, folded);
        }
    }

    void report_unknown_avoided(const syntax::Word& word, const std::string& folded) {
        const std::string near =
            sink_.has_plenty() ? "" : near_avoidable(folded, movements_, definitions_, options_);
        Diagnostic problem{Code::avoid_name, word.span, {clean_text(word.text)}, {}, {}};
        problem.arguments.push_back(near.empty() ? "" : near + ", or ");
        if (!near.empty()) problem.fixes.push_back({near, {Edit{word.span, near}}});
        sink_.report(std::move(problem));
    }

    // Known by a definition, of the library, or from some line of the file.
    [[nodiscard]] bool is_movement(const std::string& folded) const {
        return definitions_.by_name.contains(folded) || movements_.contains(folded) ||
               (options_.known_movement && !options_.known_movement(folded).empty());
    }

    // A movement may be called by another of its names.
    [[nodiscard]] std::string main_name(const std::string& folded) const {
        const auto found = definitions_.by_name.find(folded);
        return found == definitions_.by_name.end() ? folded
                                                   : definitions_.folded_names[found->second];
    }

    void add_word(LineKind kind, const syntax::Word& word) {
        const std::string folded = fold_name(word.text);
        if (kind == LineKind::language) return add_language(folded, word);
        if (kind == LineKind::age_group) {
            athlete_.age_group = read_age_group(folded);
            if (!athlete_.age_group) report(Code::age_group_word, word);
            return;
        }
        if (kind == LineKind::estimate_by) {
            const auto estimate = grammar::find_estimate(clean_text(word.text));
            if (!estimate) return report(Code::estimate_word, word);
            athlete_.estimate = estimate;
            return;
        }
        if (folded == "nearest") return;
        if (folded != "down" && folded != "up") return report(Code::rounding_word, word);
        athlete_.rounding = folded == "up" ? program::Rounding::up : program::Rounding::down;
    }

    void add_language(const std::string& folded, const syntax::Word& word) {
#define STAVE_LANGUAGE(id, tag, name, own_name)                                          \
    if (folded == (tag) || folded == fold_name(name) || folded == fold_name(own_name)) { \
        athlete_.language = grammar::Language::id;                                       \
        return;                                                                          \
    }
#include "grammar/keywords.def"
        report(Code::language_unknown, word);
    }

    void add_test(const syntax::Line& line) {
        if (!std::holds_alternative<syntax::Dose>(line.body)) return;
        auto test = check_test(line, definitions_, sink_);
        if (!test) return;
        if (athlete_.tests.size() == most_tests) {
            if (std::exchange(too_many_, true)) return;
            return sink_.report({Code::too_many,
                                 line.head.span,
                                 {"tests of one athlete", std::to_string(most_tests)},
                                 {},
                                 {}});
        }
        athlete_.tests.push_back(std::move(*test));
    }

    const RecordLines& lines_;
    const program::Program& program_;
    const std::unordered_set<std::string>& movements_;
    const Definitions& definitions_;
    const Options& options_;
    DiagnosticSink& sink_;
    program::Athlete athlete_;
    std::vector<LineKind> met_;
    bool too_many_ = false;
};

// Of all movements in the sessions, by their folded names.
std::unordered_set<std::string> movements_in(const program::Program& program) {
    std::unordered_set<std::string> names;
    for (const program::Session& session : program.sessions) {
        for (const program::Block& block : session.blocks) {
            for (const program::Item& item : block.items) {
                for (const program::Part& part : item.parts)
                    names.insert(part.folded_name);
                for (const program::Substitute& other : item.substitutes) {
                    for (const program::Part& part : other.item.parts)
                        names.insert(part.folded_name);
                }
            }
        }
    }
    return names;
}

}  // namespace

std::vector<program::Athlete> check_athletes(const std::vector<RecordLines>& records,
                                             const program::Program& program,
                                             const Definitions& definitions, const Options& options,
                                             DiagnosticSink& sink) {
    std::vector<program::Athlete> athletes;
    if (records.empty()) return athletes;
    const std::unordered_set<std::string> movements = movements_in(program);
    std::unordered_map<std::string, Span> taken;
    std::unordered_set<std::string> slugs;
    for (const RecordLines& lines : records) {
        sink.enter_session(lines.head->span.begin);
        program::Athlete athlete =
            AthleteBuilder(lines, program, movements, definitions, options, sink).build();
        const auto [first, added] = taken.emplace(athlete.folded_name, athlete.span);
        if (!added && !lines.head->is_broken) {
            sink.report({Code::athlete_twice,
                         athlete.span,
                         {athlete.name},
                         {},
                         {{first->second, "the first one"}}});
        }
        if (athletes.size() == most_athletes) {
            sink.report({Code::too_many,
                         athlete.span,
                         {"athletes in one file", std::to_string(most_athletes)},
                         {},
                         {}});
            break;
        }
        // Names that differ by their accents alone would write one file.
        std::string name = slug(athlete.name);
        if (name.empty()) name = "athlete";
        athlete.slug = name;
        for (int i = 2; !slugs.insert(athlete.slug).second; ++i)
            athlete.slug = name + "-" + std::to_string(i);
        athletes.push_back(std::move(athlete));
    }
    sink.enter_session(std::nullopt);
    return athletes;
}

}  // namespace stave::check
