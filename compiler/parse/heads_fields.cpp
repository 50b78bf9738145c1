// Fields by the names that other forms have for them: "equipment:", "location:".
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>

#include "compiler/parse/heads.hpp"
#include "compiler/parse/scene.hpp"
#include "compiler/parse/word_sieve.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;
using grammar::BodyKind;

struct OtherName {
    std::string_view said;
    std::string_view field;
    BodyKind body;
};
constexpr std::array other_names{
    OtherName{"equipment", "kit", BodyKind::kit},
    OtherName{"gear", "kit", BodyKind::kit},
    OtherName{"location", "place", BodyKind::text},
    OtherName{"venue", "place", BodyKind::text},
    OtherName{"where", "place", BodyKind::text},
    OtherName{"trainer", "coach", BodyKind::text},
    OtherName{"instructor", "coach", BodyKind::text},
    OtherName{"url", "link", BodyKind::text},
    OtherName{"website", "link", BodyKind::text},
    OtherName{"programme", "series", BodyKind::text},
    OtherName{"program", "series", BodyKind::text},
    OtherName{"date", "when", BodyKind::when},
    OtherName{"start", "when", BodyKind::when},
    OtherName{"goal", "note", BodyKind::text},
    OtherName{"aim", "note", BodyKind::text},
    OtherName{"focus", "note", BodyKind::text},
    OtherName{"objective", "note", BodyKind::text},
    OtherName{"description", "note", BodyKind::text},
    OtherName{"comment", "note", BodyKind::text},
    OtherName{"comments", "note", BodyKind::text},
    OtherName{"instructions", "note", BodyKind::text},
    OtherName{"tip", "cue", BodyKind::text},
    OtherName{"tips", "cue", BodyKind::text},
    OtherName{"athlete", "for", BodyKind::names},
    OtherName{"athletes", "for", BodyKind::names},
    OtherName{"who", "for", BodyKind::names},
    OtherName{"people", "for", BodyKind::names},
    OtherName{"participants", "for", BodyKind::names},
    OtherName{"group size", "for", BodyKind::names},
};

constexpr WordSieve other_sieve(other_names, [](const OtherName& one) { return one.said; });

// Written behind the start of a session, so that no field stands for them.
constexpr std::array lengths{"time"sv, "duration"sv, "length"sv, "time limit"sv, "total time"sv};
constexpr WordSieve length_sieve(lengths, [](std::string_view one) { return one; });

}  // namespace

std::optional<Diagnostic> find_field_by_another_name(std::string_view text, const Line& line) {
    const std::string_view head = text.substr(line.head.begin, line.head.size());
    if (!other_sieve.may_hold(head) && !length_sieve.may_hold(head)) return std::nullopt;
    const std::string_view body = text.substr(line.body.begin, line.body.size());
    const std::string said(head);
    const bool is_length = std::ranges::any_of(
        lengths, [head](std::string_view one) { return grammar::same_word(one, head); });
    if (is_length) {
        const std::string length = body.empty() ? "40 min" : std::string(body);
        return make(
            Code::field_named, line.head,
            {said, fmt::format("the length behind the start: when: 2026-12-03 18:30, {}", length)});
    }
    const auto* const found = std::ranges::find_if(
        other_names, [head](const OtherName& one) { return grammar::same_word(one.said, head); });
    if (found == other_names.end()) return std::nullopt;
    const std::string field(found->field);
    Diagnostic result = make(Code::field_named, line.head, {said, field + ":"});
    // A number of people is no name.
    const bool counts = found->body == BodyKind::names && !body.empty() && is_digit(body.front());
    const bool fits =
        found->body == BodyKind::text ? !body.empty() : !counts && reads(found->body, body);
    if (fits) result.fixes.push_back(fix(field + ":", line.head, field));
    return result;
}

// The first colon of "link https://example.org", of a field without its own colon, and of a bare
// address is its own.
std::optional<Diagnostic> find_address_without_field(std::string_view text, const Line& line) {
    const std::string_view head = slice(text, line.head);
    const std::string_view body = slice(text, line.body);
    if (!body.starts_with("//")) return std::nullopt;
    const std::size_t blank = head.find_last_of(" \t");
    const std::string_view scheme = head.substr(blank == std::string_view::npos ? 0 : blank + 1);
    const bool of_the_web =
        grammar::same_word(scheme, "https") || grammar::same_word(scheme, "http");
    const auto at = static_cast<std::uint32_t>(line.head.end - scheme.size());
    const std::string_view word = slice(text, trim(text, {line.head.begin, at}));
    const Classification field = classify(word);
    const bool says_field =
        field.kind != grammar::LineKind::movement_line && field.opener_size == 0;
    if (!of_the_web || (!word.empty() && !says_field)) return std::nullopt;
    const std::string mended = fmt::format("{}: {}:{}", word.empty() ? "link" : word, scheme, body);
    const std::uint32_t missing = line.head.begin + static_cast<std::uint32_t>(word.size());
    return make(Code::no_colon, {missing, missing}, {mended},
                {fix(mended, {line.head.begin, line.body.end}, mended)});
}

}  // namespace stave::parse
