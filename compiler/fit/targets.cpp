#include "compiler/fit/targets.hpp"

#include <algorithm>
#include <string>
#include <utility>

#include "compiler/civil/date_text.hpp"
#include "compiler/fit/needs.hpp"
#include "compiler/names/names.hpp"

namespace stave::fit {

namespace {

using program::Estimate;
using program::Item;
using program::LoadKind;
using program::LoadTerm;

// A milligram: products of ratios stay inside 64 bits, and nothing that is lifted is finer.
constexpr std::int64_t finest = 1'000'000;
constexpr std::int64_t finest_share = 1'000'000'000;
// Of a max, where a share of the training max is asked for (common practice, no source).
const Ratio training_share{9, 10};

Quantity kilograms(Ratio value) {
    return {value, Unit::kilogram};
}

// Those of a set; nothing where it is not said how many.
std::optional<Ratio> reps_of(const Item& item, std::size_t set) {
    const auto& amounts = item.parts.front().amounts;
    const program::Amount& amount = amounts[std::min(set, amounts.size() - 1)];
    if (amount.low.unit != Unit::reps) return std::nullopt;
    switch (amount.form) {
        case program::AmountForm::exact:
        case program::AmountForm::at_least:
            return amount.low.value;
        case program::AmountForm::range:
        case program::AmountForm::build_to:
            return amount.high.value;
        default:
            return std::nullopt;
    }
}

class TargetFinder {
public:
    TargetFinder(const LoadContext& context, const Item& item, const LoadTerm& term,
                 std::size_t set, bool rises)
        : context_(context), item_(item), term_(term), set_(set), rises_(rises) {}

    std::optional<Target> find() {
        switch (term_.kind) {
            case LoadKind::mass:
                return risen(written());
            case LoadKind::share_of_max:
                return risen(of_max(item_.parts.front().name, definition_of_item(), term_));
            case LoadKind::share_of:
                return of_reference();
            case LoadKind::rep_max:
                return of_rep_max();
            case LoadKind::rpe:
            case LoadKind::reserve:
                return of_reserve();
            default:
                return std::nullopt;
        }
    }

private:
    [[nodiscard]] std::optional<std::uint32_t> definition_of_item() const {
        return item_.parts.front().definition;
    }

    [[nodiscard]] Estimate estimate() const {
        return context_.athlete.estimate.value_or(Estimate::epley);
    }

    [[nodiscard]] Target written() const {
        Target target;
        target.low = term_.low;
        target.high = term_.high;
        target.implements = term_.implements;
        return target;
    }

    [[nodiscard]] Target of(const Max& max, Basis basis) const {
        Target target;
        target.basis = basis;
        target.max = max;
        target.implements = std::max(term_.implements, max.test.implements);
        return target;
    }

    // The max of a movement, with what there is to say of its test.
    std::optional<Max> max_of(const std::string& name, std::optional<std::uint32_t> definition) {
        auto max = context_.maxes.find(name, definition);
        if (max && context_.maxes.is_old(max->test)) {
            const auto& date = max->test.date;
            context_.sink.report({Code::test_old,
                                  item_.span,
                                  {context_.athlete.name, name, civil::date_text(date)},
                                  {},
                                  {{max->test.span, "the test"}}});
        }
        return max;
    }

    std::nullopt_t report_missing(const std::string& name,
                                  std::optional<std::uint32_t> definition) {
        context_.sink.report({Code::test_missing,
                              item_.span,
                              {context_.athlete.name, name, context_.maxes.when(),
                               context_.maxes.related(name, definition)},
                              {},
                              {}});
        return std::nullopt;
    }

    // With what is added or taken off.
    [[nodiscard]] Quantity shifted(Ratio value) const {
        for (const program::Shift& shift : term_.shift) {
            Ratio by = dimension(shift.amount.unit) == Dimension::share
                           ? value * in_base_units(shift.amount)
                           : in_base_units(shift.amount);
            if (shift.minus) by = Ratio(0) - by;
            value = rounded(value + by, finest);
        }
        return kilograms(std::max(value, Ratio(1, finest)));
    }

    std::optional<Target> of_max(const std::string& name, std::optional<std::uint32_t> definition,
                                 const LoadTerm& term, Ratio part = Ratio(1)) {
        const auto max = max_of(name, definition);
        if (!max) return report_missing(name, definition);
        Target target = of(*max, Basis::share_of_max);
        target.share = rounded_product(in_base_units(term.low), part, finest_share);
        const auto at = [&](const Quantity& share) {
            const Ratio whole = rounded_product(in_base_units(share), part, finest_share);
            return shifted(rounded_product(max->kilograms, whole, finest));
        };
        target.low = at(term.low);
        target.high = at(term.high);
        return target;
    }

    std::optional<Target> of_reference() {
        const std::string folded = fold_name(term_.of);
        if (folded == "bodyweight" || folded == "body weight") return of_bodyweight();
        if (folded == "training max") {
            return of_max(item_.parts.front().name, definition_of_item(), term_, training_share);
        }
        if (folded == "max") return of_max(item_.parts.front().name, definition_of_item(), term_);
        if (const auto reps = reps_of_max(folded)) return of_rep_max_share(*reps);
        const auto definition = find_definition(folded);
        // What is no movement ("top set") only the athlete can know.
        if (!definition && !context_.maxes.find(term_.of, std::nullopt)) return std::nullopt;
        return of_max(term_.of, definition, term_);
    }

    [[nodiscard]] std::optional<std::uint32_t> find_definition(const std::string& folded) const {
        const auto& movements = context_.program.movements;
        for (std::uint32_t id = 0; id < movements.size(); ++id) {
            const bool is_called_so =
                fold_name(movements[id].name) == folded ||
                std::ranges::any_of(movements[id].also, [&](const std::string& other) {
                    return fold_name(other) == folded;
                });
            if (is_called_so) return id;
        }
        return std::nullopt;
    }

    // 8 of "8 rep max".
    static std::optional<std::int64_t> reps_of_max(const std::string& folded) {
        const std::size_t digits = folded.find_first_not_of("0123456789");
        // More are no number of repetitions.
        constexpr std::size_t most_digits = 3;
        if (digits == 0 || digits > most_digits || folded.substr(digits) != " rep max")
            return std::nullopt;
        return std::stoll(folded.substr(0, digits));
    }

    // "90 % of 8 rep max".
    std::optional<Target> of_rep_max_share(std::int64_t reps) {
        const auto share = share_for_reps(Ratio(reps), estimate());
        if (!share) return std::nullopt;
        auto target = of_max(item_.parts.front().name, definition_of_item(), term_, *share);
        if (target) target->shares = estimate();
        return target;
    }

    std::optional<Target> of_bodyweight() {
        if (!context_.athlete.weight) {
            context_.sink.report({Code::weight_missing,
                                  item_.span,
                                  {context_.athlete.name, name_of(item_)},
                                  {},
                                  {}});
            return std::nullopt;
        }
        const Ratio weight = in_base_units(*context_.athlete.weight);
        Target target = written();
        target.basis = Basis::share_of_bodyweight;
        target.share = in_base_units(term_.low);
        const auto at = [&](const Quantity& share) {
            return shifted(rounded_product(weight, in_base_units(share), finest));
        };
        target.low = at(term_.low);
        target.high = at(term_.high);
        return target;
    }

    std::optional<Target> of_rep_max() {
        const auto max = max_of(item_.parts.front().name, definition_of_item());
        if (!max) return report_missing(item_.parts.front().name, definition_of_item());
        return for_reps(*max, Basis::rep_max, term_.low.value, term_.high.value);
    }

    // The load for r reps with k in reserve is the one for r + k; above RPE 7 the reserve is
    // 10 less the RPE (Zourdos et al. 2016, JSCR 30:267-275).
    std::optional<Target> of_reserve() {
        constexpr std::int64_t least_rpe = 7;
        constexpr std::int64_t most_rpe = 10;
        const auto reps = reps_of(item_, set_);
        if (!reps) return std::nullopt;
        const bool is_rpe = term_.kind == LoadKind::rpe;
        if (is_rpe && term_.low.value < Ratio(least_rpe)) return std::nullopt;
        const auto max = max_of(item_.parts.front().name, definition_of_item());
        if (!max) return std::nullopt;
        const auto reserve = [&](Ratio value) { return is_rpe ? Ratio(most_rpe) - value : value; };
        return for_reps(*max, Basis::reserve, *reps + reserve(term_.low.value),
                        *reps + reserve(term_.high.value));
    }

    [[nodiscard]] std::optional<Target> for_reps(const Max& max, Basis basis, Ratio first,
                                                 Ratio second) const {
        const auto one = share_for_reps(first, estimate());
        const auto other = share_for_reps(second, estimate());
        if (!one || !other) return std::nullopt;
        Target target = of(max, basis);
        target.shares = estimate();
        target.reps = first;
        target.share = *one;
        const auto [least, most] = std::minmax(*one, *other);
        target.low = shifted(rounded_product(max.kilograms, least, finest));
        target.high = shifted(rounded_product(max.kilograms, most, finest));
        return target;
    }

    // "load rises", "load falls": equal effort from set to set. What was worked out is the load
    // of the first set; a share of all of the max is that of its repetitions.
    std::optional<Target> risen(std::optional<Target> target) {
        if (!target || !rises_ || !all_reps_known()) return target;
        const Estimate by = rising_estimate();
        const auto own = share_for_reps(*reps_of(item_, set_), by);
        const auto first = share_for_reps(*reps_of(item_, 0), by);
        if (!own || !first) return target;
        const bool is_of_reps = target->basis == Basis::share_of_max &&
                                term_.low == Quantity{Ratio(100), Unit::percent};
        if (set_ == 0 && target->basis == Basis::written && !is_of_reps) return target;
        const Ratio share = is_of_reps ? *own : rounded(*own / *first, finest_share);
        for (Quantity* value : {&target->low, &target->high})
            *value = kilograms(rounded_product(in_base_units(*value), share, finest));
        target->basis = Basis::rising;
        target->shares = by;
        target->reps = *reps_of(item_, set_);
        target->share = share;
        return target;
    }

    [[nodiscard]] bool all_reps_known() const {
        for (std::size_t set = 0; set < item_.set_count(); ++set) {
            if (!reps_of(item_, set)) return false;
        }
        return true;
    }

    // The chart, unless an equation is asked for or a set has more reps than it knows.
    [[nodiscard]] Estimate rising_estimate() const {
        if (context_.athlete.estimate) return *context_.athlete.estimate;
        for (std::size_t set = 0; set < item_.set_count(); ++set) {
            if (!share_for_reps(*reps_of(item_, set), Estimate::chart)) return Estimate::epley;
        }
        return Estimate::chart;
    }

    const LoadContext& context_;
    const Item& item_;
    const LoadTerm& term_;
    std::size_t set_;
    bool rises_;
};

}  // namespace

std::optional<Target> find_target(const LoadContext& context, const Item& item,
                                  const LoadTerm& term, std::size_t set, bool rises) {
    return TargetFinder(context, item, term, set, rises).find();
}

}  // namespace stave::fit
