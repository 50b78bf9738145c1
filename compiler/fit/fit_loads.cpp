#include "compiler/fit/fit_loads.hpp"

#include <algorithm>
#include <utility>

#include "compiler/fit/bands.hpp"
#include "compiler/fit/needs.hpp"
#include "compiler/fit/targets.hpp"
#include "compiler/names/names.hpp"

namespace stave::fit {

namespace {

using program::Item;
using program::LoadKind;
using program::LoadTerm;

bool is_effort(LoadKind kind) {
    return kind == LoadKind::rpe || kind == LoadKind::reserve;
}

std::string show(const Quantity& quantity) {
    return to_decimal(quantity.value) + " " + std::string(plural(quantity.unit));
}

class ItemFitter {
public:
    ItemFitter(const LoadContext& context, Item& item, std::vector<Working>& workings)
        : context_(context), item_(item), workings_(workings), first_(workings.size()) {}

    void run() {
        add_load_of_effort();
        spread_over_sets();
        for (std::size_t set = 0; set < item_.loads.size(); ++set) {
            for (LoadTerm& term : item_.loads[set].terms)
                fit(term, set);
        }
        if (!efforts_.empty()) keep_effort();
        if (!plates_.loads.empty()) item_.details.emplace_back(std::move(plates_));
    }

private:
    // "8, RPE 8" without a load: the effort says how heavy it is, where there is a test.
    void add_load_of_effort() {
        if (!item_.loads.empty()) return;
        const bool rises = item_.find<program::LoadChange>() != nullptr;
        const auto* effort = item_.find<program::Effort>();
        const bool is_of_reps = effort != nullptr && is_effort(effort->term.kind);
        if (!rises && !is_of_reps) return;
        if (!context_.maxes.find(item_.parts.front().name, item_.parts.front().definition)) return;
        LoadTerm term;
        if (is_of_reps) {
            term = effort->term;
        } else {
            term.kind = LoadKind::share_of_max;
            term.low = term.high = {Ratio(100), Unit::percent};
        }
        item_.loads.push_back({{term}});
        is_added_ = true;
    }

    // One load for all sets becomes one for each, where it hangs on their repetitions.
    void spread_over_sets() {
        if (item_.loads.size() != 1) return;
        rises_ = item_.find<program::LoadChange>() != nullptr;
        const bool hangs_on_reps =
            rises_ || std::ranges::any_of(item_.loads.front().terms, [](const LoadTerm& term) {
                return is_effort(term.kind);
            });
        const auto& amounts = item_.parts.front().amounts;
        const bool differ = std::ranges::any_of(
            amounts, [&](const program::Amount& one) { return one != amounts.front(); });
        if (hangs_on_reps && differ) item_.loads.resize(item_.set_count(), item_.loads.front());
    }

    void fit(LoadTerm& term, std::size_t set) {
        if (term.kind == LoadKind::band) return fit_band(term);
        const auto target = find_target(context_, item_, term, set, rises_);
        if (!target) return;
        note_rise(term, *target);
        if (is_effort(term.kind) && !is_added_) efforts_.push_back(term);
        if (target->basis == Basis::written && !is_to_be_rounded()) return convert(term);
        const Made low = round(*target, target->low);
        // Nobody knows what a movement without a definition is loaded with.
        if (target->basis == Basis::written && low.step) return convert(term);
        const Made high = target->high == target->low ? low : round(*target, target->high);
        check_reach(*target, low);
        for (const Made* made : {&low, &high}) {
            if (made->bar) add_plates(*made);
        }
        Working working{.set = static_cast<std::uint32_t>(set),
                        .movement = name_of(item_),
                        .basis = target->basis,
                        .max = target->max,
                        .shares = target->shares,
                        .reps = target->reps,
                        .share = target->share,
                        .target = in_base_units(target->low),
                        .implements = target->implements,
                        .made = low};
        term.kind = LoadKind::mass;
        term.implements = target->implements;
        term.low = low.mass;
        term.high = high.mass;
        term.of.clear();
        term.shift.clear();
        add(std::move(working));
    }

    // From all of the max equal effort is the end of every set, which is seldom meant.
    void note_rise(const LoadTerm& term, const Target& target) {
        const bool is_of_all =
            term.kind == LoadKind::share_of_max && term.low == Quantity{Ratio(100), Unit::percent};
        if (target.basis != Basis::rising || !is_of_all) return;
        if (std::exchange(is_rise_told_, true)) return;
        context_.sink.report({Code::rises_to_end, item_.span, {name_of(item_)}, {}, {}});
    }

    void fit_band(LoadTerm& term) {
        const program::Athlete& athlete = context_.athlete;
        if (!athlete.says_kit || term.place.empty() || has_band(athlete, term.place)) return;
        const auto other = nearest_band(athlete, term.place, term.helps);
        if (!other) return;
        if (!std::exchange(is_told_, true)) {
            context_.sink.report({Code::load_unreachable,
                                  item_.span,
                                  {athlete.name, name_of(item_), "a band " + term.place,
                                   "a band " + *other, "the nearest is the band " + *other},
                                  {},
                                  {}});
        }
        term.place = *other;
    }

    // A weight that was written stays as it is where nobody knows what is there.
    [[nodiscard]] bool is_to_be_rounded() const { return context_.athlete.says_kit; }

    void convert(LoadTerm& term) const {
        const auto unit = context_.athlete.unit;
        if (!unit || term.low.unit == *unit) return;
        for (Quantity* value : {&term.low, &term.high}) {
            const Quantity exact = stave::convert(*value, *unit);
            *value = {rounded(exact.value, *unit == Unit::pound ? 1 : 2), *unit};
        }
    }

    [[nodiscard]] Made round(const Target& target, const Quantity& load) const {
        std::vector<std::vector<std::string>> needs;
        std::string name;
        for (const program::Part& part : item_.parts) {
            if (name.empty()) name = part.folded_name;
            if (!part.definition) continue;
            for (const auto& choices : context_.program.movements[*part.definition].kit) {
                needs.emplace_back();
                for (const std::string& choice : choices)
                    needs.back().push_back(fold_name(choice));
            }
        }
        return context_.racks.round(name, needs, target.implements, load,
                                    context_.athlete.rounding);
    }

    // A written load that is not there, and one that is worked out and more than a tenth off.
    void check_reach(const Target& target, const Made& made) {
        if (made.step) return;
        const Ratio asked = in_base_units(target.low);
        const Ratio got = in_base_units(made.mass);
        const Ratio off = got > asked ? got - asked : asked - got;
        const Ratio allowed = target.basis == Basis::written ? Ratio(0) : asked * Ratio(1, 10);
        const bool is_between =
            target.low != target.high && got >= asked && got <= in_base_units(target.high);
        if (off <= allowed || is_between || std::exchange(is_told_, true)) return;
        Quantity said = target.low;
        if (target.basis != Basis::written) {
            said = stave::convert(said, context_.athlete.unit.value_or(said.unit));
            said.value = rounded(said.value, 10);
        }
        context_.sink.report(
            {Code::load_unreachable,
             item_.span,
             {context_.athlete.name, name_of(item_), show(said), show(made.mass), neighbours(made)},
             {},
             {}});
    }

    static std::string neighbours(const Made& made) {
        if (made.below && made.above) {
            return "the loads next to it are " + show(*made.below) + " and " + show(*made.above);
        }
        if (made.below) return "the greatest load is " + show(*made.below);
        if (made.above) return "the least load is " + show(*made.above);
        return "no load is next to it";
    }

    void add_plates(const Made& made) {
        auto& loads = plates_.loads;
        if (std::ranges::find(loads, made.mass, &program::LoadedBar::mass) == loads.end())
            loads.push_back({made.mass, made.plates});
    }

    void add(Working working) {
        const bool is_like_last = workings_.size() > first_ &&
                                  workings_.back().target == working.target &&
                                  workings_.back().made.mass == working.made.mass &&
                                  workings_.back().basis == working.basis;
        if (!is_like_last) workings_.push_back(std::move(working));
    }

    // What was the load is still how hard it is to feel.
    void keep_effort() {
        const bool is_one = std::ranges::all_of(
            efforts_, [&](const LoadTerm& term) { return term == efforts_.front(); });
        if (is_one && item_.find<program::Effort>() == nullptr)
            item_.details.emplace_back(program::Effort{efforts_.front()});
    }

    const LoadContext& context_;
    Item& item_;
    std::vector<Working>& workings_;
    std::size_t first_;
    program::Plates plates_;
    std::vector<LoadTerm> efforts_;
    bool rises_ = false;
    bool is_added_ = false;
    bool is_told_ = false;
    bool is_rise_told_ = false;
};

}  // namespace

void fit_loads(const LoadContext& context, Item& item, std::vector<Working>& workings) {
    ItemFitter(context, item, workings).run();
}

}  // namespace stave::fit
