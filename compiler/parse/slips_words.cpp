#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compiler/parse/classify.hpp"
#include "compiler/parse/slips.hpp"
#include "grammar/lexical.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;
using grammar::BodyKind;

// The last word, digits left out.
std::string_view last_word(std::string_view text) {
    std::size_t begin = text.size();
    while (begin > 0 && (is_letter(text[begin - 1]) || text[begin - 1] == '%'))
        --begin;
    return text.substr(begin);
}

// "60 s rest" for "rest 60 s"; what stands before the time keeps its place: "3 x 8 then
// 60 s rest".
Diagnostic make_rest_first(const Scene& scene) {
    const Span detail = trim(scene.text, {scene.detail_begin(), scene.token.begin});
    const std::string_view unit = last_word(scene.slice(detail));
    const std::uint32_t number_end =
        trim(scene.text, {detail.begin, detail.end - static_cast<std::uint32_t>(unit.size())}).end;
    const Span time{number_begin(scene.text, detail.begin, number_end), detail.end};
    const std::string mended = fmt::format("rest {}", scene.slice(time));
    Span before = trim(scene.text, {detail.begin, time.begin});
    for (const std::string_view word : {"then"sv, "with"sv, "and"sv}) {
        if (ends_with_words(scene.slice(before), word))
            before = trim(scene.text,
                          {before.begin, before.end - static_cast<std::uint32_t>(word.size())});
    }
    const Span said{time.begin, scene.token.end};
    if (before.empty()) return make(Code::rest_first, said, {mended}, {fix(mended, said, mended)});
    return make(Code::rest_first, said, {mended},
                {fix(", " + mended, {before.end, said.end}, ", " + mended)});
}

Diagnostic make_unknown_unit(const Scene& scene) {
    const std::string near(near_unit(scene.word()));
    if (near.empty() || grammar::same_word(near, scene.word())) {
        return make(Code::unknown_unit, scene.token,
                    {scene.word(), "reps, steps, s, min, m or kg"});
    }
    // A letter is missing in either.
    if (scene.word() == "mi") {
        return make(Code::unknown_unit, scene.token, {scene.word(), "min or mile"},
                    {fix(near, scene.token, near), fix("mile", scene.token, "mile")});
    }
    return make(Code::unknown_unit, scene.token, {scene.word(), near},
                {fix(near, scene.token, near)});
}

// "circut Legs" is a misspelt block; "Legs" wants its kind before it.
Diagnostic make_rounds_in_movement(const Scene& scene) {
    const std::string head = block_head(scene.slice(scene.head));
    return make(Code::rounds_in_movement, scene.token,
                {std::string(scene.slice(scene.head)), head + ":"},
                {fix(head + ":", scene.head, head)});
}

Diagnostic make_comma_missing(const Scene& scene) {
    return make(Code::comma_missing, scene.token, {scene.word()},
                {fix(", " + scene.word(), {scene.before_end(), scene.token.begin}, ", ")});
}

// "5 reps steps", "60 kg lb".
std::optional<Diagnostic> find_second_unit(const Scene& scene) {
    const bool twice =
        !unit_dimension(scene.word()).empty() && !unit_dimension(last_word(scene.before())).empty();
    if (!twice) return std::nullopt;
    return make(Code::unit_twice, scene.token, {scene.word()},
                {fix("delete it", {scene.before_end(), scene.token.end}, "")});
}

}  // namespace

std::string block_head(std::string_view head) {
    const std::string_view first = head.substr(0, head.find(' '));
    const std::string_view near = near_opener(first);
    if (near.empty()) return fmt::format("circuit {}", head);
    return fmt::format("{}{}", near, head.substr(first.size()));
}

std::optional<Diagnostic> find_stray_word(const Scene& scene) {
    if (auto sets = find_sets_in_words(scene)) return sets;
    const std::string word = scene.word();
    if (word.empty() || !is_letter(word.front())) return std::nullopt;
    const bool after_time = unit_dimension(last_word(scene.before())) == "time";
    if (grammar::same_word(word, "rest") && after_time) return make_rest_first(scene);
    if (opens_detail(scene.rest()) && !scene.before().empty()) return make_comma_missing(scene);
    const bool rounds = grammar::same_word(word, "rounds") || grammar::same_word(word, "round");
    const bool is_movement =
        scene.kind == BodyKind::dose && classify(scene.slice(scene.head)).opener_size == 0;
    if (is_movement && rounds) return make_rounds_in_movement(scene);
    if (scene.kind == BodyKind::dose && scene.offset == scene.body.begin &&
        grammar::same_word(word, "x")) {
        return make(Code::sets_whole, scene.token, {word, "3 x 8"});
    }
    const bool joins = scene.offset > scene.body.begin;
    if (!joins && word == "to") return std::nullopt;
    if (word == "to" || word == "then" || word == "by" || word == "x" || word == "X") {
        return make(Code::joined_signs, scene.token);
    }
    if (auto unit = find_second_unit(scene)) return unit;
    if (unit_dimension(word) == "mass") return std::nullopt;
    const bool behind_number = scene.offset > scene.body.begin &&
                               is_digit(scene.text[scene.before_end() - 1]) &&
                               scene.kind == BodyKind::dose;
    if (behind_number) return make_unknown_unit(scene);
    return std::nullopt;
}

}  // namespace stave::parse
