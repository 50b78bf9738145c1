#include "compiler/check/warm_up_advice.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <unordered_set>
#include <vector>

#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using program::Amount;
using program::AmountForm;
using program::Demand;
using program::Item;
using program::LoadKind;
using program::LoadTerm;
using program::Pattern;

// The strength range of the ACSM position stand (Ratamess et al. 2009) begins at 80 %.
constexpr std::int64_t heavy_percent = 80;
// The NSCA Training Load Chart has 8 reps at 80 %.
constexpr std::int64_t heavy_rep_max = 8;
// The others are common practice, no source.
constexpr std::int64_t heavy_rpe = 8;
constexpr std::int64_t heavy_reserve = 2;
// More repetitions in a row are hard at their end, and light at their beginning.
constexpr std::int64_t most_heavy_reps = 12;
// About what a grown person weighs, lifted a few times.
constexpr std::int64_t heavy_kilograms = 70;
constexpr std::int64_t few_reps = 6;
// Runs and jumps below are easy ones.
constexpr std::int64_t easy_rpe = 6;
constexpr std::int64_t easy_effort_percent = 80;
// So much easy work warms.
constexpr std::int64_t warming_seconds = 180;

// The fewest repetitions of a set; nothing where no set says them.
std::optional<Ratio> fewest_reps(const Item& item) {
    std::optional<Ratio> fewest;
    for (const Amount& amount : item.parts.front().amounts) {
        const bool counts = amount.low.unit == Unit::reps &&
                            (amount.form == AmountForm::exact || amount.form == AmountForm::range ||
                             amount.form == AmountForm::at_least);
        if (counts && (!fewest || amount.low.value < *fewest)) fewest = amount.low.value;
    }
    return fewest;
}

bool is_few(std::optional<Ratio> reps, std::int64_t most) {
    return reps && *reps <= Ratio(most);
}

bool is_heavy(const LoadTerm& term, std::optional<Ratio> reps) {
    const bool many = reps && *reps > Ratio(most_heavy_reps);
    switch (term.kind) {
        case LoadKind::share_of_max:
            return term.high.value >= Ratio(heavy_percent);
        case LoadKind::rep_max:
            return term.low.value <= Ratio(heavy_rep_max);
        case LoadKind::share_of:
            return fold_name(term.of) == "bodyweight" && term.high.value >= Ratio(100) &&
                   is_few(reps, few_reps);
        case LoadKind::rpe:
            return term.high.value >= Ratio(heavy_rpe) && !many;
        case LoadKind::reserve:
            return term.low.value <= Ratio(heavy_reserve) && !many;
        default:
            return false;
    }
}

bool is_easy(const LoadTerm& term) {
    return (term.kind == LoadKind::rpe && term.high.value <= Ratio(easy_rpe)) ||
           (term.kind == LoadKind::effort_share && term.high.value < Ratio(easy_effort_percent));
}

bool weighs_much(const std::vector<LoadTerm>& terms) {
    Ratio kilograms;
    for (const LoadTerm& term : terms) {
        if (term.kind != LoadKind::mass) continue;
        kilograms += rounded(in_base_units(term.high), 1000) * Ratio(term.implements);
    }
    return kilograms >= Ratio(heavy_kilograms);
}

// What is said of how heavy or hard the first set is; those behind it may climb from
// there.
std::vector<LoadTerm> first_terms(const Item& item) {
    std::vector<LoadTerm> terms;
    if (!item.loads.empty()) terms = item.loads.front().terms;
    for (const program::Detail& detail : item.details) {
        if (const auto* effort = std::get_if<program::Effort>(&detail))
            terms.push_back(effort->term);
    }
    return terms;
}

// Hops on the spot and skips go along as gait does, and a jump within a push-up is none
// to get ready for.
bool is_fast(const program::MovementDefinition& movement) {
    const auto has = [](const auto& list, auto one) {
        return std::ranges::find(list, one) != list.end();
    };
    if (has(movement.demands, Demand::sprinting)) return true;
    const bool only_gait = movement.patterns == std::vector{Pattern::gait};
    return has(movement.demands, Demand::jumping) && !only_gait &&
           !has(movement.patterns, Pattern::push);
}

bool is_heavy_or_fast(const program::Program& program, const Item& item) {
    const std::optional<Ratio> reps = fewest_reps(item);
    const std::vector<LoadTerm> terms = first_terms(item);
    if (std::ranges::any_of(terms, [&](const LoadTerm& term) { return is_heavy(term, reps); })) {
        return true;
    }
    if (is_few(reps, few_reps) && weighs_much(terms)) return true;
    if (std::ranges::any_of(terms, is_easy)) return false;
    return std::ranges::any_of(item.parts, [&](const program::Part& part) {
        return part.definition && is_fast(program.movements[*part.definition]);
    });
}

// Whether it is easy work of some minutes.
bool is_warming(const Item& item) {
    const Quantity most = item.parts.front().amounts.front().high;
    return dimension(most.unit) == Dimension::time && in_base_units(most) >= Ratio(warming_seconds);
}

}  // namespace

void advise_on_warm_up(const program::Program& program, const program::Session& session,
                       DiagnosticSink& sink) {
    // What stands behind another block has that for its warm-up.
    if (session.blocks.empty()) return;
    const program::Block& block = session.blocks.front();
    if (block.kind == program::BlockKind::warm_up) return;
    // Lighter sets of a movement lead up to its heavy ones.
    std::unordered_set<std::string> begun;
    for (const Item& item : block.items) {
        if (item.parts.empty()) continue;
        const std::string& name = item.parts.front().name;
        if (is_heavy_or_fast(program, item) && !begun.contains(name)) {
            sink.report({Code::warm_up_missing, item.span, {name}, {}, {}});
            return;
        }
        if (is_warming(item)) return;
        begun.insert(name);
    }
}

}  // namespace stave::check
