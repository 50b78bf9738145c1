#include "compiler/check/advice.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <string>
#include <utility>

#include "compiler/check/avoid_advice.hpp"
#include "compiler/check/kit_advice.hpp"
#include "compiler/check/season_advice.hpp"
#include "compiler/check/warm_up_advice.hpp"
#include "compiler/loads/equations.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using program::Item;
using program::LoadKind;
using program::LoadTerm;
using program::Pattern;
using program::SideRule;

class Adviser {
public:
    Adviser(const program::Program& program, const program::Session& session, DiagnosticSink& sink)
        : program_(program), session_(session), sink_(sink) {}

    void run() {
        for (const program::Block& block : session_.blocks) {
            for (const Item& item : block.items) {
                if (item.parts.empty()) continue;
                check_reps(item);
                check_arc(item);
                check_max(block, item);
                check_substitutes(block, item);
                add_sides(item);
            }
        }
        check_sides();
        check_patterns();
        advise_on_avoided(program_, session_, sink_);
        advise_on_warm_up(program_, session_, sink_);
        advise_on_kit(program_, session_, sink_);
    }

private:
    void warn(Code code, Span span, std::vector<std::string> arguments) {
        sink_.report({code, span, std::move(arguments), {}, {}});
    }

    [[nodiscard]] const program::MovementDefinition* definition(const program::Part& part) const {
        return part.definition ? &program_.movements[*part.definition] : nullptr;
    }

    // More repetitions than the chart has at the share of the max. What rests between its
    // parts is no set of so many.
    void check_reps(const Item& item) {
        const auto* pieces = item.find<program::Pieces>();
        if (item.loads.empty() || (pieces != nullptr && pieces->rest)) return;
        for (const program::Part& part : item.parts) {
            for (std::size_t set = 0; set < item.set_count(); ++set) {
                const program::Load& load = item.loads[item.loads.size() == 1 ? 0 : set];
                if (is_over_chart(item, part.amounts[set], load.terms.front())) return;
            }
        }
    }

    // More than the max; what is only lowered may be somewhat more.
    static bool is_over(const Item& item, Ratio share) {
        const Ratio most_lowered(13, 10);
        return share > (item.find<program::LowerOnly>() != nullptr ? most_lowered : Ratio(1));
    }

    // Whether a warning was given.
    bool is_over_chart(const Item& item, const program::Amount& amount, const LoadTerm& term) {
        using program::AmountForm;
        const bool counts =
            amount.low.unit == Unit::reps &&
            (amount.form == AmountForm::exact || amount.form == AmountForm::range ||
             amount.form == AmountForm::at_least || amount.form == AmountForm::build_to);
        if (!counts || term.kind != LoadKind::share_of_max) return false;
        constexpr std::int64_t percent = 100;
        const Ratio share = term.low.value / Ratio(percent);
        const auto row = loads::chart_row(share);
        if (!row || (amount.low.value <= Ratio(row->reps) && !is_over(item, share))) return false;
        const bool is_one = amount.low.value == Ratio(1);
        warn(
            Code::reps_over_table, item.span,
            {to_decimal(amount.low.value) + (is_one ? " rep" : " reps"), to_decimal(term.low.value),
             row->reps == 1 ? "1 rep" : std::to_string(row->reps) + " reps",
             to_decimal(row->share * Ratio(percent))});
        return true;
    }

    // Further than the joint goes; with several joints the widest counts.
    void check_arc(const Item& item) {
        if (!item.arc) return;
        grammar::JointRange widest;
        std::string_view joint;
        for (const program::Part& part : item.parts) {
            const auto* movement = definition(part);
            if (movement == nullptr) continue;
            for (const program::Joint one : movement->joints) {
                const grammar::JointRange range = grammar::joint_range(one);
                if (range.degrees == 0) return;
                if (range.degrees <= widest.degrees) continue;
                widest = range;
                joint = grammar::joint_words(one);
            }
        }
        if (widest.degrees == 0) return;
        Ratio most = item.arc->first.value;
        if (item.arc->second) most = std::max(most, item.arc->second->value);
        if (most <= Ratio(widest.degrees)) return;
        warn(Code::arc_over_joint, item.span,
             {to_decimal(most), std::string(joint), std::to_string(widest.degrees),
              std::string(widest.source)});
    }

    // As many reps as possible leave no other round to the time.
    void check_max(const program::Block& block, const Item& item) {
        if (block.run != program::RunKind::as_many) return;
        const bool to_max = std::ranges::any_of(item.parts, [](const program::Part& part) {
            return part.amounts.front().form == program::AmountForm::max;
        });
        if (to_max) warn(Code::max_in_rounds, item.span, {item.parts.front().name});
    }

    // In straight sets a substitute has the sets that it says, and one where it says none.
    void check_substitutes(const program::Block& block, const Item& item) {
        const bool straight = block.run == program::RunKind::in_turn && !block.by_rounds;
        if (!straight || item.set_count() == 1) return;
        for (const program::Substitute& other : item.substitutes) {
            if (other.item.parts.empty() || other.item.set_count() != 1) continue;
            warn(Code::substitute_sets, other.item.span,
                 {other.item.parts.front().name, item.parts.front().name,
                  std::to_string(item.set_count())});
        }
    }

    // In one unit; times and distances in seconds and metres.
    struct SideTotal {
        std::string name;
        Ratio left;
        Ratio right;
        Span span;
        // As many as possible is not known beforehand.
        bool is_open = false;
    };

    // Counts only what is said for one side alone; the others are even.
    void add_sides(const Item& item) {
        if (item.sides.rule != SideRule::left && item.sides.rule != SideRule::right) return;
        for (const program::Part& part : item.parts) {
            for (const program::Amount& amount : part.amounts) {
                const Quantity plain = in_plain_unit(amount.high);
                SideTotal& total = sides_[{part.folded_name, plain.unit}];
                total.name = part.name;
                total.span = item.span;
                total.is_open = total.is_open || amount.form == program::AmountForm::max;
                Ratio& side = item.sides.rule == SideRule::left ? total.left : total.right;
                side += rounded(plain.value, 1000);
            }
        }
    }

    static Quantity in_plain_unit(Quantity amount) {
        switch (dimension(amount.unit)) {
            case Dimension::time:
                return {in_base_units(amount), Unit::second};
            case Dimension::length:
                return {in_base_units(amount), Unit::metre};
            default:
                return amount;
        }
    }

    void check_sides() {
        for (const auto& [movement, total] : sides_) {
            if (total.left == total.right || total.is_open) continue;
            const std::string words(plural(movement.second));
            warn(Code::sides_unequal, total.span,
                 {total.name, to_decimal(total.left) + " " + words,
                  to_decimal(total.right) + " " + words});
        }
    }

    // A session that is called full-body has something of each main pattern.
    void check_patterns() {
        const std::string title = fold_name(session_.title);
        constexpr std::array claims_all{"full-body",  "full body",  "fullbody",
                                        "whole-body", "whole body", "total body"};
        const bool claims = std::ranges::any_of(
            claims_all, [&](std::string_view words) { return title.contains(words); });
        if (!claims) return;
        struct Need {
            Pattern first;
            Pattern second;
            std::string_view words;
        };
        constexpr std::array needs{
            Need{Pattern::squat, Pattern::lunge, "squat or lunge"},
            Need{Pattern::hinge, Pattern::hinge, "hinge"},
            Need{Pattern::push, Pattern::push, "push"},
            Need{Pattern::pull, Pattern::pull, "pull"},
            Need{Pattern::brace, Pattern::carry, "carry or brace"},
        };
        std::string missing;
        std::size_t count = 0;
        for (const Need& need : needs) {
            if (has_pattern(need.first) || has_pattern(need.second)) continue;
            if (!missing.empty()) missing += ", ";
            missing += need.words;
            ++count;
        }
        // Where nothing is known of any movement nothing can be missed.
        if (missing.empty() || count == needs.size()) return;
        warn(Code::pattern_missing, session_.span, {missing});
    }

    [[nodiscard]] bool has_pattern(Pattern pattern) const {
        for (const program::Block& block : session_.blocks) {
            for (const Item& item : block.items) {
                for (const program::Part& part : item.parts) {
                    const auto* movement = definition(part);
                    if (movement == nullptr) continue;
                    if (std::ranges::find(movement->patterns, pattern) !=
                        movement->patterns.end()) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

    const program::Program& program_;
    const program::Session& session_;
    DiagnosticSink& sink_;
    std::map<std::pair<std::string, Unit>, SideTotal> sides_;
};

}  // namespace

void advise(const program::Program& program, DiagnosticSink& sink) {
    for (const program::Session& session : program.sessions) {
        sink.enter_session(session.span.begin);
        if (session.is_sound) Adviser(program, session, sink).run();
    }
    sink.enter_session(std::nullopt);
    // What cannot be read may be the other title, or the day between.
    if (!sink.has_errors()) advise_on_season(program, sink);
}

}  // namespace stave::check
