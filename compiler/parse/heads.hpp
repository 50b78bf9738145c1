// Slips in and before a line's head: bullets, colons that are missing or belong to a
// time, names that are none, formats where a name belongs.
#pragma once

#include <optional>
#include <string_view>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/parse/classify.hpp"
#include "compiler/parse/line_scanner.hpp"
#include "compiler/parse/parse_tree.hpp"
#include "compiler/parse/rules.hpp"

namespace stave::parse {

// "- squat: 5", "1. squat: 5", "A1: squat 5"; `content` is the line without blanks.
[[nodiscard]] std::optional<Diagnostic> find_bullet(std::string_view text, Span content);

// "20/10 x 8" in a line of its own; `whole` is replaced.
[[nodiscard]] Diagnostic make_on_off(std::string_view text, Span said, Span whole);

// A line without a colon that ends a head.
[[nodiscard]] Diagnostic describe_no_colon(std::string_view text, const ScannedLine& line);
// A colon of a time stands before the one that ends the head.
[[nodiscard]] Diagnostic describe_clock_in_head(std::string_view text, const ScannedLine& line);

// "game: tug, 4 min": an opener without its name, which may stand behind the colon.
[[nodiscard]] Diagnostic make_title_missing(std::string_view text, const Line& line);
// "circuit Legs 3 rounds:".
[[nodiscard]] std::optional<Diagnostic> find_format_in_title(std::string_view text,
                                                             const Line& line);

// "equipment: 2 dumbbells", "duration: 40 min": a field by a name that is none here.
[[nodiscard]] std::optional<Diagnostic> find_field_by_another_name(std::string_view text,
                                                                   const Line& line);

// "link https://example.org", and an address alone in its line.
[[nodiscard]] std::optional<Diagnostic> find_address_without_field(std::string_view text,
                                                                   const Line& line);

// "remove: squat", "change: squat": what a session that is based on another changes.
[[nodiscard]] std::optional<Diagnostic> find_change_in_words(std::string_view text,
                                                             const Line& line);
// "without squat" in a line of its own.
[[nodiscard]] std::optional<Diagnostic> find_leave_out_without_colon(std::string_view text,
                                                                     Span content);

// "Prep(5)": a routine's name and what stands in brackets right behind it; no name for
// other words.
struct RoutineCall {
    std::string_view name;
    std::string_view values;
};
[[nodiscard]] RoutineCall read_call(std::string_view said);
// "routine Prep(5):", "template Prep: reps 5".
[[nodiscard]] std::optional<Diagnostic> find_routine_in_words(std::string_view text,
                                                              const Line& line);
// "$reps" for "[reps]" in a line of a routine.
[[nodiscard]] std::optional<Diagnostic> find_blank_sign(std::string_view text, const Line& line);

// What is wrong with a head whose kind is known; its names are read by run_head.
[[nodiscard]] std::optional<Diagnostic> find_head_slip(std::string_view text, const Line& line);
// A movement's head that is no list of names.
[[nodiscard]] Diagnostic describe_head(std::string_view text, const Failure& failure,
                                       const Line& line);
// Words behind the head of what has none.
[[nodiscard]] Diagnostic describe_stray_body(std::string_view text, const Line& line);

}  // namespace stave::parse
