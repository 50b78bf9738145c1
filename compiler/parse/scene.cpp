#include "compiler/parse/scene.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

#include "compiler/source/utf8.hpp"

namespace stave::parse {

using namespace std::string_view_literals;

std::optional<Span> Scene::comma() const {
    const Span last = find_last_comma(text, {body.begin, offset});
    return last.empty() ? std::nullopt : std::optional(last);
}

Span Scene::until_comma(std::uint32_t begin) const {
    const auto size = static_cast<std::uint32_t>(up_to_comma(slice({begin, body.end})).size());
    return trim(text, {begin, begin + size});
}

Span Scene::until_comma_or_load(std::uint32_t begin) const {
    std::string_view said = up_to_comma(slice({begin, body.end}));
    said = said.substr(0, said.find('@'));
    return trim(text, {begin, begin + static_cast<std::uint32_t>(said.size())});
}

std::string_view Scene::indent() const {
    std::uint32_t begin = head.begin;
    while (begin > 0 && (text[begin - 1] == ' ' || text[begin - 1] == '\t'))
        --begin;
    return slice({begin, head.begin});
}

std::uint32_t Scene::line_end() const {
    const std::size_t end = text.find_first_of("\r\n", body.end);
    return static_cast<std::uint32_t>(end == std::string_view::npos ? text.size() : end);
}

Diagnostic make(Code code, Span span, std::vector<std::string> arguments, std::vector<Fix> fixes) {
    return {code, span, std::move(arguments), std::move(fixes), {}};
}

Fix fix(std::string label, Span span, std::string text) {
    return {std::move(label), {Edit{span, std::move(text)}}};
}

Span token_at(std::string_view text, std::uint32_t offset, std::uint32_t end) {
    if (offset >= end) return {end, end};
    // Bytes of a wide comma look like letters.
    const auto comma_at = [&](std::uint32_t i) { return comma_size_at(text.substr(i, end - i)); };
    const auto letter_at = [&](std::uint32_t i) { return is_letter(text[i]) && comma_at(i) == 0; };
    std::uint32_t i = offset;
    if (comma_at(i) > 1) return {i, i + comma_at(i)};
    if (letter_at(i)) {
        while (i < end && (letter_at(i) || is_digit(text[i]) || text[i] == '-' || text[i] == '\''))
            ++i;
    } else if (is_digit(text[i])) {
        while (i < end && (is_digit(text[i]) || letter_at(i) || text[i] == '.' || text[i] == ':'))
            ++i;
    } else {
        // "..", "->" and other signs that stand together.
        while (i < end && text[i] == text[offset])
            ++i;
        if (i < end && text[offset] == '-' && text[i] == '>') ++i;
    }
    return {offset, i};
}

Span number_at(std::string_view text, std::uint32_t begin, std::uint32_t end) {
    const auto joins = [&](std::uint32_t i) {
        return (text[i] == '.' || text[i] == ':') && i + 1 < end && is_digit(text[i + 1]);
    };
    std::uint32_t i = begin;
    while (i < end && (is_digit(text[i]) || joins(i)))
        ++i;
    return {begin, i};
}

std::uint32_t number_begin(std::string_view text, std::uint32_t begin, std::uint32_t end) {
    const auto joins = [&](std::uint32_t i) {
        return (text[i] == '.' || text[i] == ':') && i > begin && is_digit(text[i - 1]) &&
               i + 1 < end && is_digit(text[i + 1]);
    };
    std::uint32_t i = end;
    while (i > begin && (is_digit(text[i - 1]) || joins(i - 1)))
        --i;
    return i;
}

Span figures_before(std::string_view text, std::uint32_t begin, std::uint32_t end) {
    constexpr std::array joints{"-"sv, "\u2013"sv, "\u2212"sv, " to"sv};
    std::uint32_t first = number_begin(text, begin, end);
    while (first > begin && first < end) {
        const Span left = trim(text, {begin, first});
        const std::string_view before = text.substr(left.begin, left.size());
        const auto* const joint = std::ranges::find_if(
            joints, [before](std::string_view sign) { return before.ends_with(sign); });
        if (joint == joints.end()) break;
        const Span number =
            trim(text, {begin, left.end - static_cast<std::uint32_t>(joint->size())});
        const std::uint32_t next = number_begin(text, begin, number.end);
        if (next == number.end) break;
        first = next;
    }
    return {first, end};
}

Measured measured_at(std::string_view text, std::uint32_t begin, std::uint32_t end) {
    Measured result{{begin, begin}, {begin, begin}};
    if (begin >= end || !is_digit(text[begin])) return result;
    result.number = number_at(text, begin, end);
    const Span behind = trim(text, {result.number.end, end});
    const Span word = token_at(text, behind.begin, behind.end);
    const std::string_view said = text.substr(word.begin, word.size());
    result.unit = unit_dimension(said).empty() ? Span{result.number.end, result.number.end} : word;
    return result;
}

namespace {

struct UnitWord {
    std::string_view word;
    std::string_view name;
};
constexpr std::array unit_ids{
#define STAVE_UNIT(id, dimension, singular, plural, numerator, denominator) \
    UnitWord{singular, #id}, UnitWord{plural, #id},
#define STAVE_UNIT_SPELLING(id, word) UnitWord{word, #id},
#include "grammar/keywords.def"
};

}  // namespace

// NOLINTNEXTLINE(readability-function-size): one line for each unit of the vocabulary
std::string_view unit_dimension(std::string_view word) {
    const auto* const found = std::ranges::find_if(
        unit_ids, [word](const UnitWord& unit) { return grammar::same_word(unit.word, word); });
    if (found == unit_ids.end()) return "";
#define STAVE_UNIT(id, dimension, singular, plural, numerator, denominator) \
    if (found->name == #id) return #dimension;
#include "grammar/keywords.def"
    return "";
}

bool is_one_of(std::string_view said, std::span<const std::string_view> words) {
    return std::ranges::any_of(
        words, [said](std::string_view one) { return grammar::same_word(one, said); });
}

bool begins_with_words(std::string_view text, std::string_view words) {
    return text.size() >= words.size() && grammar::same_word(text.substr(0, words.size()), words) &&
           (text.size() == words.size() || !is_letter(text[words.size()]));
}

bool ends_with_words(std::string_view text, std::string_view words) {
    if (text.size() < words.size()) return false;
    const std::size_t begin = text.size() - words.size();
    return grammar::same_word(text.substr(begin), words) &&
           (begin == 0 || !is_letter(text[begin - 1]));
}

bool is_words(std::string_view text) {
    return std::ranges::all_of(
        text, [](char c) { return is_letter(c) || c == ' ' || c == '-' || c == '\''; });
}

std::string_view number_word(std::string_view word) {
    constexpr std::array words{"one"sv,   "two"sv,   "three"sv, "four"sv, "five"sv,   "six"sv,
                               "seven"sv, "eight"sv, "nine"sv,  "ten"sv,  "eleven"sv, "twelve"sv};
    constexpr std::array figures{"1"sv, "2"sv, "3"sv, "4"sv,  "5"sv,  "6"sv,
                                 "7"sv, "8"sv, "9"sv, "10"sv, "11"sv, "12"sv};
    const auto* const found = std::ranges::find_if(
        words, [word](std::string_view one) { return grammar::same_word(one, word); });
    return found == words.end() ? "" : figures[static_cast<std::size_t>(found - words.begin())];
}

int to_number(std::string_view digits) {
    int value = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return value;
}

Fix move_to_note(const Scene& scene, Span span, std::string_view said) {
    const std::uint32_t end = scene.line_end();
    std::string line = "\n";
    line.append(scene.indent()).append("  note: ").append(said);
    return {line.substr(1), {Edit{span, ""}, Edit{{end, end}, line}}};
}

Fix split_line(const Scene& scene, Span gap) {
    std::string joint = "\n";
    joint.append(scene.indent()).append(scene.slice(scene.head)).append(": ");
    return {"two lines", {Edit{gap, joint}}};
}

std::string_view shortened(std::string_view text) {
    constexpr std::size_t longest = 40;
    return whole_start(text, longest);
}

bool opens_detail(std::string_view text) {
    constexpr std::array openers{"tempo"sv,     "hold"sv,       "arc"sv,          "rest"sv,
                                 "if"sv,        "lower"sv,      "breath in"sv,    "pause"sv,
                                 "incline"sv,   "load rises"sv, "load falls"sv,   "swap hands"sv,
                                 "RPE"sv,       "RIR"sv,        "zone"sv,         "heart rate"sv,
                                 "each wave"sv, "left first"sv, "then swapped"sv, "right first"sv};
    // Also words of labels: only a number makes a detail of them.
    constexpr std::array before_number{"from "sv, "over "sv, "out "sv, "about "sv};
    const bool with_number = std::ranges::any_of(before_number, [&](std::string_view opener) {
        return text.size() > opener.size() && is_digit(text[opener.size()]) &&
               grammar::same_word(text.substr(0, opener.size()), opener);
    });
    return with_number || std::ranges::any_of(openers, [text](std::string_view opener) {
               return begins_with_words(text, opener);
           });
}

bool opens_clause(std::string_view text) {
    constexpr std::array openers{"rest"sv,     "AMRAP"sv,     "as many"sv,     "for time"sv,
                                 "cap"sv,      "every"sv,     "whole block"sv, "people"sv,
                                 "in pairs"sv, "in threes"sv, "in fours"sv};
    if (!text.empty() && is_digit(text.front())) return true;
    return std::ranges::any_of(
        openers, [text](std::string_view opener) { return begins_with_words(text, opener); });
}

}  // namespace stave::parse
