#include "compiler/fit/age_notes.hpp"

#include <algorithm>
#include <optional>
#include <string>

#include "compiler/fit/needs.hpp"

namespace stave::fit {

namespace {

using program::AgeGroup;
using program::Item;
using program::LoadKind;
using program::LoadTerm;

// Common practice, no source: of what follows from age professionals judge, and local rules.
constexpr int oldest_young = 18;
constexpr int youngest_old = 60;
const Ratio heavy_share{9, 10};
constexpr std::int64_t most_limit_reps = 3;
constexpr std::int64_t limit_rpe = 10;

bool is_watched(const AgeGroup& group) {
    return (group.bound == AgeGroup::Bound::under && group.years <= oldest_young) ||
           (group.bound == AgeGroup::Bound::over && group.years >= youngest_old);
}

std::string words(const AgeGroup& group) {
    if (group.bound == AgeGroup::Bound::adult) return "adult";
    return (group.bound == AgeGroup::Bound::under ? "under " : "over ") +
           std::to_string(group.years);
}

bool is_at_limit(const LoadTerm& term) {
    return term.kind == LoadKind::rpe && term.high.value >= Ratio(limit_rpe);
}

bool is_at_limit(const Item& item) {
    const auto* effort = item.find<program::Effort>();
    if (effort != nullptr && is_at_limit(effort->term)) return true;
    return std::ranges::any_of(item.loads, [](const program::Load& load) {
        return std::ranges::any_of(load.terms,
                                   [](const LoadTerm& term) { return is_at_limit(term); });
    });
}

std::string reps(Ratio count) {
    return to_decimal(count) + (count == Ratio(1) ? " rep" : " reps");
}

class AgeNotes {
public:
    AgeNotes(const LoadContext& context, const std::vector<Working>& workings)
        : context_(context), workings_(workings) {}

    void look_at(const Item& item, std::uint32_t block_id, std::uint32_t item_id) {
        const auto heavy = heavy_words(item, block_id, item_id);
        if (!heavy) return;
        context_.sink.report(
            {Code::age_heavy,
             item.span,
             {context_.athlete.name, words(*context_.athlete.age_group), name_of(item), *heavy},
             {},
             {}});
    }

private:
    // What is asked for that is heavy; nothing where nothing is.
    [[nodiscard]] std::optional<std::string> heavy_words(const Item& item, std::uint32_t block_id,
                                                         std::uint32_t item_id) const {
        const Ratio share = greatest_share(item, block_id, item_id);
        if (share >= heavy_share)
            return to_decimal(rounded(share * Ratio(100), 1)) + " % of the max";
        for (const program::Amount& amount : item.parts.front().amounts) {
            if (amount.low.unit != Unit::reps || amount.high.value > Ratio(most_limit_reps))
                continue;
            if (amount.form == program::AmountForm::build_to)
                return "a build-up to " + reps(amount.high.value);
            if (amount.form == program::AmountForm::exact && is_at_limit(item))
                return "a limit set of " + reps(amount.high.value);
        }
        return std::nullopt;
    }

    // Of the max that a load was worked out from, or for one that is written of the movement's own;
    // of all sets; 0 where no test tells.
    [[nodiscard]] Ratio greatest_share(const Item& item, std::uint32_t block_id,
                                       std::uint32_t item_id) const {
        Ratio greatest(0);
        for (const Working& working : workings_) {
            if (working.block_id == block_id && working.item_id == item_id && working.max)
                greatest = std::max(greatest, share_of(*working.max, working.made.mass));
        }
        const program::Part& part = item.parts.front();
        const auto max = context_.maxes.find(part.name, part.definition);
        if (!max || greatest > Ratio(0)) return greatest;
        for (const program::Load& load : item.loads) {
            for (const LoadTerm& term : load.terms) {
                if (term.kind == LoadKind::mass)
                    greatest = std::max(greatest, share_of(*max, term.high));
            }
        }
        return greatest;
    }

    static Ratio share_of(const Max& max, const Quantity& load) {
        return rounded(in_base_units(load), 1000) / rounded(max.kilograms, 1000);
    }

    const LoadContext& context_;
    const std::vector<Working>& workings_;
};

}  // namespace

void note_age(const LoadContext& context, const program::Session& session,
              const std::vector<Working>& workings) {
    if (!context.athlete.age_group || !is_watched(*context.athlete.age_group)) return;
    AgeNotes notes(context, workings);
    for (std::uint32_t block_id = 0; block_id < session.blocks.size(); ++block_id) {
        const auto& items = session.blocks[block_id].items;
        for (std::uint32_t item_id = 0; item_id < items.size(); ++item_id)
            notes.look_at(items[item_id], block_id, item_id);
    }
}

}  // namespace stave::fit
