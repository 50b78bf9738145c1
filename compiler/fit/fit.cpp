#include "compiler/fit/fit.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

#include "compiler/fit/age_notes.hpp"
#include "compiler/fit/avoided_words.hpp"
#include "compiler/fit/fit_loads.hpp"
#include "compiler/fit/fit_paces.hpp"
#include "compiler/fit/maxes.hpp"
#include "compiler/fit/needed_kit.hpp"
#include "compiler/fit/people.hpp"
#include "compiler/schedule/groups.hpp"

namespace stave::fit {

namespace {

// From there on the tests of one set drift apart (see Test).
constexpr std::int64_t most_valid_reps = 10;

// What cannot be done for want of kit is a matter of the kit alone: of its loads nothing is said,
// and where a test is missing they stay as they are written. There is one choice for each item.
void fit_items(const LoadContext& context, const std::vector<Choice>& choices,
               program::Session& session, std::vector<Working>& workings) {
    DiagnosticSink unsaid;
    const LoadContext quiet{context.program, context.athlete, context.racks, context.maxes, unsaid};
    auto choice = choices.begin();
    for (std::uint32_t block_id = 0; block_id < session.blocks.size(); ++block_id) {
        program::Block& block = session.blocks[block_id];
        for (std::uint32_t item_id = 0; item_id < block.items.size(); ++item_id) {
            program::Item& item = block.items[item_id];
            const LoadContext& own = (choice++)->outcome == Outcome::lacking ? quiet : context;
            const std::size_t first = workings.size();
            fit_loads(own, item, workings);
            fit_paces(own, item);
            for (std::size_t i = first; i < workings.size(); ++i) {
                workings[i].block_id = block_id;
                workings[i].item_id = item_id;
            }
            std::vector<Working> unused;
            for (program::Substitute& other : item.substitutes)
                fit_loads(context, other.item, unused);
        }
    }
}

void add(std::vector<program::Estimate>& estimates, program::Estimate estimate) {
    if (std::ranges::find(estimates, estimate) == estimates.end()) estimates.push_back(estimate);
}

program::Methods methods_of(const std::vector<Working>& workings) {
    program::Methods methods;
    for (const Working& working : workings) {
        // A single is the max itself: no equation was used.
        if (working.max && working.max->test.amount.value > Ratio(1)) {
            add(methods.estimates, working.max->estimate);
            methods.has_many_reps =
                methods.has_many_reps || working.max->test.amount.value > Ratio(most_valid_reps);
        }
        if (working.shares) add(methods.estimates, *working.shares);
        if (working.made.step) {
            methods.by_steps = true;
            methods.step = *working.made.step;
        } else {
            methods.has_rounded = true;
        }
    }
    return methods;
}

}  // namespace

std::vector<Outfit> make_outfits(const program::Program& program) {
    struct Known {
        const std::vector<program::KitThing>* kit;
        Unit unit;
        std::shared_ptr<const Racks> racks;
    };
    std::vector<Known> known;
    std::vector<Outfit> outfits;
    for (std::uint32_t id = 0; id < program.athletes.size(); ++id) {
        const program::Athlete& athlete = program.athletes[id];
        const Unit unit = athlete.unit.value_or(Unit::kilogram);
        auto found = std::ranges::find_if(
            known, [&](const Known& one) { return one.unit == unit && *one.kit == athlete.kit; });
        if (found == known.end()) {
            known.push_back({&athlete.kit, unit, std::make_shared<Racks>(athlete.kit, unit)});
            found = std::prev(known.end());
        }
        outfits.push_back(
            {id, squads_of(program, id), found->racks, avoided_words(program, athlete)});
    }
    return outfits;
}

Fitted fit(const program::Program& program, const program::Session& session, const Outfit& outfit,
           const std::string& blank_name, DiagnosticSink& sink) {
    const program::Athlete& athlete = program.athletes[outfit.athlete_id];
    Fitted fitted;
    fitted.session = session;
    fitted.session.athlete = athlete.name;
    fitted.session.audience = {athlete.name};
    schedule::choose_squads(fitted.session, outfit.folded_squads);
    fitted.choices = choose(program, athlete, blank_name, fitted.session, sink);
    std::optional<std::chrono::year_month_day> day;
    if (session.when) day = session.when->date;
    const Maxes maxes(program, athlete, day);
    const LoadContext context{program, athlete, *outfit.racks, maxes, sink};
    fit_items(context, fitted.choices, fitted.session, fitted.workings);
    note_age(context, fitted.session, fitted.workings);
    report_avoided_words(athlete, outfit.avoided_words, fitted.session, sink);
    if (!fitted.workings.empty()) fitted.session.methods = methods_of(fitted.workings);
    if (athlete.says_kit)
        fitted.session.kit = needed_kit(program, athlete, session, fitted.session);
    // What somebody in the session is to avoid is not for all of them to read.
    fitted.session.avoid.clear();
    return fitted;
}

}  // namespace stave::fit
