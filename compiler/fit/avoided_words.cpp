#include "compiler/fit/avoided_words.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>

#include "compiler/fit/needs.hpp"
#include "compiler/names/letters.hpp"
#include "compiler/names/names.hpp"
#include "compiler/program/said_texts.hpp"
#include "compiler/source/utf8.hpp"

namespace stave::fit {

namespace {

// Names of movements that are avoided for what they ask; shorter ones are everyday words: row.
constexpr std::size_t shortest_name = 4;
// Behind a word, for its other forms: jumps, jumping.
constexpr std::size_t longest_ending = 3;
// Of a text, in a message.
constexpr std::size_t most_quoted = 70;

// Whether what ends here says that something is not to be done: "do not ", "no ".
bool ends_in_no(std::string_view before) {
    constexpr std::array words{" no ",         " not ",   " never ", " without ",
                               " instead of ", " don't ", " avoid ", " skip "};
    constexpr std::array articles{" a ", " an ", " the ", " any ", " more "};
    std::string text = " " + std::string(before);
    for (const std::string_view article : articles) {
        if (text.ends_with(article)) text.resize(text.size() - article.size() + 1);
    }
    return std::ranges::any_of(words, [&](std::string_view one) { return text.ends_with(one); });
}

bool names(const std::string& folded, const std::string& word) {
    for (std::size_t at = folded.find(word); at != std::string::npos;
         at = folded.find(word, at + 1)) {
        if (at > 0 && is_letter_or_digit(folded[at - 1])) continue;
        std::size_t end = at + word.size();
        while (end < folded.size() && is_letter_or_digit(folded[end]))
            ++end;
        if (end - at - word.size() > longest_ending) continue;
        if (!ends_in_no(std::string_view(folded).substr(0, at))) return true;
    }
    return false;
}

std::string quoted(const std::string& text) {
    if (text.size() <= most_quoted) return text;
    return std::string(whole_start(text, most_quoted)) + "...";
}

using Words = std::vector<AvoidedWord>;

void add(Words& words, std::string folded, std::string what) {
    if (std::ranges::find(words, folded, &AvoidedWord::folded) == words.end())
        words.push_back({std::move(folded), std::move(what)});
}

// A spine is in every other cue, so of a loaded one only the movements tell.
void add_demands(const program::Avoided& avoided, Words& words) {
    constexpr std::string_view ending = "ing";
    for (const grammar::Demand demand : avoided.demands) {
        if (demand == grammar::Demand::loaded_spine) continue;
        const std::string_view what = grammar::demand_words(demand);
        std::string_view word = what;
        if (word.ends_with(ending)) word.remove_suffix(ending.size());
        add(words, std::string(word), std::string(what));
    }
}

// The other patterns are everyday words: push, pull, carry, brace.
void add_patterns(const program::Avoided& avoided, Words& words) {
    for (const grammar::Pattern pattern : avoided.patterns) {
        if (pattern == grammar::Pattern::squat || pattern == grammar::Pattern::lunge)
            add(words, std::string(grammar::pattern_name(pattern)),
                "the pattern " + std::string(grammar::pattern_name(pattern)));
    }
}

void add_movements(const program::Program& program, const program::Athlete& athlete, Words& words) {
    for (std::uint32_t id = 0; id < program.movements.size(); ++id) {
        program::Item item;
        program::Part& part = item.parts.emplace_back();
        part.name = program.movements[id].name;
        part.folded_name = fold_name(part.name);
        part.definition = id;
        const auto what = to_be_avoided(program, athlete, item);
        if (!what) continue;
        if (part.folded_name.size() >= shortest_name) add(words, part.folded_name, *what);
        for (const std::string& other : program.movements[id].also) {
            if (other.size() >= shortest_name) add(words, fold_name(other), *what);
        }
    }
}

}  // namespace

std::vector<AvoidedWord> avoided_words(const program::Program& program,
                                       const program::Athlete& athlete) {
    Words words;
    if (athlete.avoided.is_empty()) return words;
    for (const std::string& movement : athlete.avoided.folded_movements)
        add(words, movement, movement);
    add_demands(athlete.avoided, words);
    add_patterns(athlete.avoided, words);
    add_movements(program, athlete, words);
    return words;
}

void report_avoided_words(const program::Athlete& athlete, const std::vector<AvoidedWord>& avoided,
                          const program::Session& session, DiagnosticSink& sink) {
    if (avoided.empty()) return;
    std::optional<std::uint32_t> told;
    for (const program::SaidText& one : program::said_texts(session)) {
        if (told == one.span.begin) continue;
        const std::string folded = fold_name(*one.text);
        const auto word = std::ranges::find_if(
            avoided, [&](const AvoidedWord& avoid) { return names(folded, avoid.folded); });
        if (word == avoided.end()) continue;
        told = one.span.begin;
        sink.report({Code::avoided_in_words,
                     one.span,
                     {athlete.name, word->what, quoted(*one.text)},
                     {},
                     {}});
    }
}

}  // namespace stave::fit
