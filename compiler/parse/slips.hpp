// Slips that coaches make with signs, numbers and words, each with its mend.
//
// `find_...` looks at the place where the grammar stopped and answers with a
// diagnostic if its slip was made there; `describe_...` always answers. One file
// of functions for each part of a line.
#pragma once

#include <optional>
#include <string>

#include "compiler/parse/scene.hpp"

namespace stave::parse {

// Numbers: "15, 12, 9" or "2,5"; "1:02:30"; "1 200 m", "5 75 kg", a date; ".5", "-20"
// and "six" where a number is due.
[[nodiscard]] std::optional<Diagnostic> find_comma_between_numbers(const Scene& scene);
[[nodiscard]] std::optional<Diagnostic> find_clock_with_hours(const Scene& scene);
[[nodiscard]] std::optional<Diagnostic> find_second_number(const Scene& scene);
[[nodiscard]] std::optional<Diagnostic> find_unclear_number(const Scene& scene);

// A sign that stands where nothing may follow: / " # ; . @ + ( ) !
[[nodiscard]] std::optional<Diagnostic> find_stray_sign(const Scene& scene);
// An @ that follows a detail or another load.
[[nodiscard]] std::optional<Diagnostic> find_stray_at(const Scene& scene);
// A word that stands where the line should end or go on differently.
[[nodiscard]] std::optional<Diagnostic> find_stray_word(const Scene& scene);

// Amounts: "at least 5", "5+", "8 to max"; "4 sets of 8"; "best 3".
[[nodiscard]] std::optional<Diagnostic> find_least_amount(const Scene& scene);
[[nodiscard]] std::optional<Diagnostic> find_sets_in_words(const Scene& scene);
[[nodiscard]] std::optional<Diagnostic> find_missing_word(const Scene& scene);
// Loads and efforts: "2 RIR", "75 % 1RM", "8 with 20 kg", "16 kg each leg".
[[nodiscard]] std::optional<Diagnostic> find_load_slip(const Scene& scene);
// "1.5 bodyweight", "half bodyweight", "50 % bodyweight".
[[nodiscard]] std::optional<Diagnostic> find_bodyweight_share(const Scene& scene);

// What stands in another order: "3 x 5 RPE 8", "each leg 12", "4 s hold".
[[nodiscard]] std::optional<Diagnostic> find_order_slip(const Scene& scene);

// What the notation says otherwise: "3 x to failure", "3RM", "5 heavy", "8 on each leg",
// "5 km @ easy pace", "hold 2 to 3 s", "500 m, in 1:50".
[[nodiscard]] std::optional<Diagnostic> find_plain_words(const Scene& scene);

// What is written shorter or the other way round: "@ light band", "@ Z4", "12 right arm",
// "5 @ 60 %, 3 @ 70 %".
[[nodiscard]] std::optional<Diagnostic> find_shorthand(const Scene& scene);

// Words where an amount belongs; the same behind `level 2:` and `group B:`.
[[nodiscard]] Diagnostic describe_words_for_amount(const Scene& scene);
[[nodiscard]] std::optional<Diagnostic> find_words_in_variant(const Scene& scene);

// What stands behind a comma and is no detail; a tempo that is none.
[[nodiscard]] Diagnostic describe_detail(const Scene& scene);
[[nodiscard]] Diagnostic describe_tempo(const Scene& scene);
// How a block runs; the same behind a head that is no block's.
[[nodiscard]] Diagnostic describe_format(const Scene& scene);
[[nodiscard]] std::optional<Diagnostic> find_format_in_movement(const Scene& scene);
// Its parts: "40 s work, 20 s rest"; "3 times", "3-4 rounds"; "every 2 min for 5 rounds".
[[nodiscard]] std::optional<Diagnostic> find_work_and_rest(const Scene& scene);
[[nodiscard]] std::optional<Diagnostic> find_rounds_slip(const Scene& scene);
[[nodiscard]] std::optional<Diagnostic> find_time_behind_every(const Scene& scene);
[[nodiscard]] std::optional<Diagnostic> find_joined_clauses(const Scene& scene);
// "20/10 x 8" as "20 s on, 10 s off, 8 rounds", or "" for other words.
[[nodiscard]] std::string read_on_off(std::string_view body);
// What is done each minute: both readings of "EMOM 10", or nothing for other words.
struct EveryMinute {
    // Bytes of the words that say it.
    std::size_t size = 0;
    std::string next;
    std::string all;
    // Whether the readings say all that is said.
    bool is_certain = false;
};
[[nodiscard]] std::optional<EveryMinute> read_every_minute(std::string_view body);
// Dates and times of day, kit, every other line.
[[nodiscard]] Diagnostic describe_date(const Scene& scene);
[[nodiscard]] Diagnostic describe_kit(const Scene& scene);
[[nodiscard]] Diagnostic describe_line(const Scene& scene);

// The head with a block's kind before it: "circut Legs" is misspelt, "Legs" has none.
[[nodiscard]] std::string block_head(std::string_view head);

}  // namespace stave::parse
