#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>

#include "compiler/parse/heads.hpp"
#include "compiler/parse/scene.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;
using grammar::BodyKind;
using grammar::LineKind;

bool takes_an_amount(LineKind kind) {
    return kind == LineKind::open_game || kind == LineKind::open_substitute ||
           kind == LineKind::open_plain_movement || kind == LineKind::open_test;
}

// "game: dead fish tag, 4 min": the name stands behind the colon, before its amount.
std::string named_dose(std::string_view opener, std::string_view body) {
    const std::size_t comma = up_to_comma(body).size();
    const std::size_t end = std::min(comma, body.find_first_of("0123456789"));
    const Span name = trim(body, {0, static_cast<std::uint32_t>(end)});
    const Span dose = trim(body, {static_cast<std::uint32_t>(end) + comma_size_at(body.substr(end)),
                                  static_cast<std::uint32_t>(body.size())});
    const bool named = std::ranges::any_of(slice(body, name), is_letter);
    const bool dosed = !dose.empty() && reads(BodyKind::dose, slice(body, dose));
    if (!named || !dosed) return "";
    return fmt::format("{} {}: {}", opener, slice(body, name), slice(body, dose));
}

// "movement: pike press", "use: Legs, 5 reps".
std::string named_line(LineKind kind, std::string_view opener, std::string_view body) {
    const bool has_body = kind == LineKind::open_use || kind == LineKind::open_routine;
    const Span comma = find_comma(body, {0, static_cast<std::uint32_t>(body.size())});
    if (body.empty() || body.contains(':') || body.contains('@')) return "";
    if (comma.empty()) return fmt::format("{} {}:", opener, body);
    const Span values = trim(body, {comma.end, static_cast<std::uint32_t>(body.size())});
    if (!has_body || values.empty()) return "";
    return fmt::format("{} {}: {}", opener, body.substr(0, comma.begin), slice(body, values));
}

// Whether a block says with these words how often or how long it runs.
bool says_its_run(LineKind kind, std::string_view clauses) {
    const bool rounds = is_digit(clauses.front()) && clauses.contains("round");
    const bool needs_run = kind == LineKind::open_circuit || kind == LineKind::open_superset ||
                           kind == LineKind::open_stations;
    constexpr std::array runs{"AMRAP"sv, "as many"sv, "for time"sv, "every"sv};
    const bool runs_by_time = std::ranges::any_of(
        runs, [clauses](std::string_view words) { return begins_with_words(clauses, words); });
    if (begins_with_words(clauses, "rest") && std::ranges::any_of(clauses, is_digit)) return true;
    // Straight sets have no rounds.
    return kind != LineKind::open_sets && (rounds || (needs_run && runs_by_time));
}

// "3 rounds rest 60 s" with the comma that it has lost.
std::string with_comma(std::string_view clauses) {
    std::string result(clauses);
    const std::size_t rest = result.find(" rest ");
    if (rest != std::string::npos && rest > 0 && result[rest - 1] != ',') result.insert(rest, ",");
    return result;
}

}  // namespace

Diagnostic make_title_missing(std::string_view text, const Line& line) {
    const std::string head(slice(text, line.head));
    const std::string_view body = slice(text, line.body);
    const std::string mended = takes_an_amount(line.kind) ? named_dose(head, body)
                               : line.kind == LineKind::open_grow || line.kind == LineKind::open_did
                                   ? ""
                                   : named_line(line.kind, head, body);
    Diagnostic result = make(Code::title_missing, line.head,
                             {head, mended.empty() ? fmt::format("{} NAME:", head) : mended});
    if (!mended.empty())
        result.fixes.push_back(fix(mended, {line.head.begin, line.body.end}, mended));
    return result;
}

// "circuit Legs 3 rounds:": how the block runs stands in its title.
std::optional<Diagnostic> find_format_in_title(std::string_view text, const Line& line) {
    const std::string_view title = slice(text, line.title);
    const std::string_view body = slice(text, line.body);
    // Where the body says how it runs, the title is only a title.
    if (!body.empty() && !begins_with_words(body, "rest")) return std::nullopt;
    // Nobody's title is longer, nor says how it runs in as many wrong ways.
    constexpr std::size_t longest = 300;
    constexpr int most_read = 5;
    if (title.size() > longest) return std::nullopt;
    int read = 0;
    for (std::size_t begin = 0; begin < title.size() && read < most_read; ++begin) {
        const bool word = begin == 0 || title[begin - 1] == ' ';
        if (!word || !says_its_run(line.kind, title.substr(begin))) continue;
        ++read;
        std::string clauses = with_comma(title.substr(begin));
        if (!body.empty()) clauses += fmt::format(", {}", body);
        if (!reads(BodyKind::format, clauses)) continue;
        const Span said{line.title.begin + static_cast<std::uint32_t>(begin), line.title.end};
        const Span before = trim(text, {line.head.begin, said.begin});
        const std::uint32_t head_end = before.end - comma_size_before(slice(text, before));
        const std::string mended =
            fmt::format("{}: {}", slice(text, {line.head.begin, head_end}), clauses);
        return make(
            Code::format_in_head, said, {std::string(slice(text, said)), mended},
            {fix(mended, {line.head.begin, std::max(line.body.end, line.colon.end)}, mended)});
    }
    return std::nullopt;
}

}  // namespace stave::parse
