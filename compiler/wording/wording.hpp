// How values of the program read in a coach's words. The card, the feed and the
// reports all speak through these, so that a dose reads alike everywhere.
//
// Plain UTF-8; `×` and the en dash are used where print uses them. A number and
// its unit, and the two sides of a `×`, are joined by a no-break space (U+00A0).
#pragma once

#include <chrono>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>

#include "compiler/program/program.hpp"
#include "compiler/timeline/timeline.hpp"
#include "compiler/wording/language.hpp"

namespace stave::wording {

// "60 s", "1 step", "20°"; a bare "8" for reps. Seconds beyond 90 and minutes
// that are not whole are said in both: "2 min 30 s".
[[nodiscard]] std::string quantity(Language language, Quantity quantity);
// "8", "8–10", "max", "best of 3"; the number alone, for a cell that names the unit beside it;
// "2:30" for what `quantity` says in minutes and seconds.
[[nodiscard]] std::string number_of(Language language, const program::Amount& amount);
// What stands behind number_of: "s", "steps", "step" for one, "" for reps and min:s; for
// `max` the thing that is counted, "time" and "distance" for times and lengths; "or more"
// and "in all" too.
[[nodiscard]] std::string unit_of(Language language, const program::Amount& amount);
// Both: "8", "40 s", "60 steps", "8–10 breaths", "max", "max steps".
[[nodiscard]] std::string amount(Language language, const program::Amount& amount);
// One set, the parts of joined movements by "+": "8", "5+1", "10 + 20 s".
[[nodiscard]] std::string set_amount(Language language, const program::Item& item, std::size_t set);
// What one set is made of: "2+2+2" of a cluster, "1-2-3-2-1" of a ladder.
[[nodiscard]] std::string pieces(Language language, const program::Pieces& split);
// "4 × 5", "12-10-8", "5+1, 4+2, 3+3" (joined movements), "3 × 40 s". Two rising
// values are "8 then 10": a hyphen between them reads as a range.
[[nodiscard]] std::string amounts(Language language, const program::Item& item);
// Whether every set asks for the same.
[[nodiscard]] bool equal_amounts(const program::Item& item);
// "each side", "alternating", "left" or "".
[[nodiscard]] std::string sides(Language language, program::Sides sides);
// Those of an item; "" where its block does all of it on one side first, and of a blank.
[[nodiscard]] std::string sides(Language language, const program::Block& block,
                                const program::Item& item);
// One load or effort: "12 kg", "RPE 8", "75 % of max".
[[nodiscard]] std::string load(Language language, const program::LoadTerm& term);
// "12 kg", "2 × 8 kg", "4 kg overhead and 16 kg low", "heavy band".
[[nodiscard]] std::string load(Language language, const program::Load& load);
// One load, or those of successive sets: "40-45-50 kg", "40 then 45 kg"; "" for none.
[[nodiscard]] std::string loads(Language language, const program::Item& item);
// One set's load beside `shared_load`: "minus 30 kg" beside "bodyweight", or all of it
// beside "".
[[nodiscard]] std::string set_load(Language language, const program::Item& item, std::size_t set);
[[nodiscard]] std::string shared_load(Language language, const program::Item& item);
// "3 s down, 1 s pause, fast up".
[[nodiscard]] std::string tempo(Language language, const program::Tempo& tempo);
[[nodiscard]] std::string hold(Language language, const program::Hold& hold);
// "arc 20°", "arc 10° in to 30° out".
[[nodiscard]] std::string arc(Language language, const program::Arc& arc);
// "60 s", "60–90 s", "3 min, easy row", "as needed, about 2 min".
[[nodiscard]] std::string rest(Language language, const program::Rest& rest);
// Tempo, hold, arc and the rests that are taken, joined by ", "; or "". The item is the
// block's own, or a substitute of one.
[[nodiscard]] std::string details(Language language, const program::Block& block,
                                  const program::Item& item);
// What comes once an item is done: "after the last set: rest 4 min, easy walk", in rounds
// "then rest 4 min"; or "".
[[nodiscard]] std::string rest_behind(Language language, const program::Block& block,
                                      const program::Item& item);
// Cues, counts, notes and the like of what may be done instead, on one line; or "".
[[nodiscard]] std::string remarks(Language language, const program::Item& item);
// "Ask the coach: kettlebell or dumbbell", where the athlete has none for it; or "".
[[nodiscard]] std::string what_is_lacking(Language language, const program::Item& item);
// Where one repetition goes several ways: "each rep: forward, side, back"; or "".
[[nodiscard]] std::string directions(Language language, const program::Program& program,
                                     const program::Item& item);
// "in 40 s" for an amount to reach while a block's clock is on; or "".
[[nodiscard]] std::string time_for(Language language, const program::Block& block,
                                   const program::Item& item);
// The dose without its details, for a block whose head says how often: an amount
// that is equal in every round stands once. "40 s", "12-10-8 each side @ 16 kg".
[[nodiscard]] std::string work(Language language, const program::Block& block,
                               const program::Item& item);
// The whole dose: "4 × 5 each side @ 60 kg, 3 s down, ...", with what comes behind it.
[[nodiscard]] std::string dose(Language language, const program::Block& block,
                               const program::Item& item);
// "inchworm + shoulder tap".
[[nodiscard]] std::string name(const program::Item& item);
// The same with a capital letter first (Latin, Greek, Cyrillic), for a name that
// stands by itself.
[[nodiscard]] std::string display_name(const program::Item& item);
// Any text with a capital letter first, by the same rule.
[[nodiscard]] std::string capitalised(std::string text);
// "squat", "hinge".
[[nodiscard]] std::string_view pattern(Language language, program::Pattern pattern);
// "Warm-up", "Sets", "Superset", "Circuit", "Stations", "Cool-down".
[[nodiscard]] std::string_view kind(Language language, program::BlockKind kind);
// "Circuit Deck legs", or the kind alone where there is no title.
[[nodiscard]] std::string block_name(Language language, const program::Block& block);
// How the block runs: "3 rounds, rest 60 s between rounds"; or "".
[[nodiscard]] std::string format(Language language, const program::Block& block);
// "hands on hips, eyes closed".
[[nodiscard]] std::string list(const std::vector<std::string>& texts);
// "2 kettlebells 8 12 kg".
[[nodiscard]] std::string kit(Language language, const program::KitThing& thing);
// A session's kit line, joined by ", ".
[[nodiscard]] std::string kit(Language language, std::span<const program::KitThing> things);
// "40 s", "1 min 30 s", "1 h 05 min".
[[nodiscard]] std::string duration(Language language, Ratio seconds);
// When an athlete has to stop, as health services list the signs for exercise: a
// heading to be set apart, then the signs and what to do.
[[nodiscard]] std::string_view stop_heading(Language language);
[[nodiscard]] std::string_view stop_signs(Language language);
// By what an athlete's loads were worked out and rounded, in whole sentences.
[[nodiscard]] std::string methods(Language language, const program::Methods& methods);
// One sentence, with the source of the value used.
[[nodiscard]] std::string assumption(const timeline::Assumption& assumption);
// "Session 9: Slack water"; what is not said is left out.
[[nodiscard]] std::string session_title(Language language, const program::Session& session);

// Of a session that a plan holds: "week 3 of 6, lighter, group A"; otherwise "".
[[nodiscard]] std::string plan_place(Language language, const program::Session& session);
// "Thu 3 December 2026".
[[nodiscard]] std::string date(Language language, std::chrono::year_month_day date);
// "18:30".
[[nodiscard]] std::string clock(std::chrono::minutes since_midnight);

}  // namespace stave::wording
