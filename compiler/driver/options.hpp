// Command-line words to options. CLI11 is seen by options.cpp alone.
#pragma once

#include <cstdint>
#include <expected>
#include <optional>
#include <string>
#include <vector>

#include "backends/card/layout.hpp"

namespace stave::driver {

enum class Command {
    build,
    watch,
    publish,
    preview,
    check,
    explain,
    plan,
    dump,
    format,
    movements,
    conventions,
    serve
};
enum class DiagnosticFormat { text, line, json };
enum class Form { parse, syntax, program, timeline, page, feed };

// Given to nobody in the registry of IANA as far as is known (from memory).
inline constexpr std::uint16_t usual_port = 7828;

struct Options {
    Command command = Command::build;
    // Paths in the order given; "-" is standard input.
    std::vector<std::string> files;
    std::string out = "stave-out";
    // Where what is published will be reached; ends in a stroke where it is not empty.
    std::string base;
    // Those of the files that are published at addresses that nobody guesses.
    std::vector<std::string> private_files;
    DiagnosticFormat diagnostics = DiagnosticFormat::text;
    bool json = false;
    // Of `explain`: how loads were worked out; who does what.
    bool loads = false;
    bool who = false;
    // How many people share the room, 1 to floors::most_in_room; 0: not asked.
    int people = 0;
    // Or whose members do, as typed; or empty.
    std::string squad;
    // Of which day the sessions are, as 2026-12-03; empty: all that stand in the files.
    std::string day;
    // Rotas are written as PDFs for the wall.
    bool wall = false;
    // Warnings count as errors.
    bool strict = false;
    // Mends that are sure are made in the files.
    bool fix = false;
    // Nothing is formatted; what would be is named.
    bool only_check = false;
    // What to look for among the movements.
    std::vector<std::string> words;
    Form form = Form::program;
    // The cards that a session has for its athletes in one file as well.
    bool together = false;
    // Pictures of the cards beside them.
    bool svg = false;
    // Of a preview: which page, from 1; 0 for all. How finely it is drawn.
    int page = 0;
    int dots_per_inch = 150;
    // Of a build: the feed to go on from beside the one that stands in its place, or empty.
    std::string previous;
    // What time it is, for feeds; as it was typed.
    std::optional<std::string> now;
    // How cards are made, and the language of feeds; the revision is each session's own.
    card::CardText card;
    // Of serve: the folder, its port with 0 for any that is free, and whether all of the network
    // reaches it.
    std::string folder;
    std::uint16_t port = usual_port;
    bool lan = false;
    // The folder of another typeface for them; empty for the program's own.
    std::string font;
};

// Text to print instead of a run: help and version (is_error false), or what is
// wrong with the words.
struct Message {
    std::string text;
    bool is_error = false;
};

[[nodiscard]] std::expected<Options, Message> parse_options(const std::vector<std::string>& words);

}  // namespace stave::driver
