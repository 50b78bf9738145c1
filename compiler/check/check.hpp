// Checking: the document of one file to a program. Proves dimensions, resolves
// names, matches lists to rounds and dates to zones.
//
// Every problem is reported and the rest is still checked; where one makes
// others likely (a block whose head is broken), those others are not reported.
// The program is whole only when the sink holds no error.
#pragma once

#include <functional>
#include <string>

#include "compiler/civil/zone.hpp"
#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::check {

// What a file may hold at most. They bound time and memory of later passes.
inline constexpr std::size_t most_sessions = 100'000;
inline constexpr std::size_t most_blocks = 26;
inline constexpr std::size_t most_items = 60;
inline constexpr std::int64_t most_rounds = 100;
inline constexpr std::int64_t most_sets = 100;
inline constexpr std::size_t most_joined = 10;
inline constexpr std::size_t most_substitutes = 10;
// Sets of all movements, each side and joined movement on its own.
inline constexpr std::size_t most_session_sets = 5000;
inline constexpr std::size_t most_file_sets = 1'000'000;
inline constexpr std::int64_t largest_count = 100'000;
inline constexpr std::int64_t longest_seconds = 24LL * 3600;

struct Options {
    // May be empty: then every zone is unknown.
    civil::ZoneFinder zones;
    // The movement of the library whose name is a slip away from a folded name, or
    // "". Empty where there is no library: then nothing is said of unknown
    // movements.
    std::function<std::string(const std::string&)> near_movement;
    // The main name of the library's movement of a folded name, or "". May be empty.
    std::function<std::string(const std::string&)> known_movement = {};
};

[[nodiscard]] program::Program check(const syntax::Document& document, const Options& options,
                                     DiagnosticSink& sink);

}  // namespace stave::check
