#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ranges>
#include <string>

#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/parse/failures.hpp"
#include "compiler/parse/heads.hpp"
#include "compiler/parse/rules.hpp"
#include "compiler/parse/scene.hpp"
#include "compiler/parse/slips.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;
using grammar::BodyKind;

std::size_t size_of_sign(std::string_view said) {
    constexpr std::array signs{"- "sv, "* "sv, "• "sv, "– "sv, "— "sv, "· "sv, "‣ "sv,
                               "▪ "sv, "◦ "sv, "● "sv, "☐ "sv, "□ "sv, "> "sv};
    if (said.empty() || is_digit(said.front())) return 0;
    const bool ascii_letter =
        is_letter(said.front()) && static_cast<unsigned char>(said.front()) < 0x80;
    if (ascii_letter) return 0;
    const auto* const sign =
        std::ranges::find_if(signs, [said](std::string_view one) { return said.starts_with(one); });
    return sign == signs.end() ? 0 : sign->size();
}

// "1. ", "12) ", "(3) ", "a) ".
std::size_t size_of_number(std::string_view said) {
    const std::size_t begin = said.starts_with('(') ? 1 : 0;
    constexpr std::size_t longest = 3;
    std::size_t end = begin;
    while (end < said.size() && is_digit(said[end]))
        ++end;
    const bool letter = end == begin && end + 1 < said.size() && is_letter(said[end]) &&
                        static_cast<unsigned char>(said[end]) < 0x80;
    if (letter) ++end;
    if (end == begin || end - begin > longest || end + 1 >= said.size()) return 0;
    const bool closed = said[end] == ')' || (begin == 0 && said[end] == '.');
    return closed && said[end + 1] == ' ' ? end + 2 : 0;
}

// "A1: ", "B2. ", "A1 ": a block's letter with a number.
std::size_t size_of_letter(std::string_view said) {
    constexpr std::size_t shortest = 4;
    const bool letter_and_digit = said.size() >= shortest && said[0] >= 'A' && said[0] <= 'H' &&
                                  said[1] >= '1' && said[1] <= '9';
    if (!letter_and_digit) return 0;
    const bool closed = said[2] == ':' || said[2] == '.' || said[2] == ')';
    if (closed) return said[3] == ' ' ? 4 : 3;
    // D1 and D2 are diagonals that movements are named after.
    const bool name_follows = said[2] == ' ' && is_letter(said[3]) && said[0] != 'D';
    return name_follows ? 3 : 0;
}

// Where the head of a line without colon ends: before its first number or load.
std::size_t find_amount(std::string_view said) {
    bool letter_seen = false;
    for (std::size_t i = 0; i < said.size(); ++i) {
        if (said[i] == ';') return i;
        if ((is_digit(said[i]) || said[i] == '@') && letter_seen) return i;
        letter_seen = letter_seen || is_letter(said[i]);
    }
    return std::string_view::npos;
}

// "swing - 3 x 8", "swing, 3 x 8", "deadlift; 4 x 5": a sign stands for the colon.
struct Gap {
    Span sign;
    Span name;
    Span amount;
};

Gap find_gap(std::string_view text, Span content, std::size_t split) {
    constexpr std::array signs{"-"sv, ","sv, ";"sv, "="sv, "–"sv, "—"sv};
    const auto at = content.begin + static_cast<std::uint32_t>(split);
    const bool semicolon = text[at] == ';';
    Gap gap;
    gap.name = trim(text, {content.begin, at + (semicolon ? 1U : 0U)});
    gap.amount = trim(text, {at + (semicolon ? 1U : 0U), content.end});
    gap.sign = {gap.name.end, gap.name.end};
    for (bool more = true; more;) {
        more = false;
        const std::string_view name = text.substr(gap.name.begin, gap.name.size());
        for (const std::string_view sign : signs) {
            if (!name.ends_with(sign) || name.size() == sign.size()) continue;
            const std::uint32_t begin = gap.name.end - static_cast<std::uint32_t>(sign.size());
            if (gap.sign.empty()) gap.sign = {begin, gap.name.end};
            gap.name = trim(text, {gap.name.begin, begin});
            more = true;
            break;
        }
    }
    if (gap.sign.empty()) gap.sign = {gap.name.end, gap.name.end};
    return gap;
}

// "session Slack water", "circuit Legs", "cue chest up": a line of the notation that has
// lost its colon.
std::string with_its_colon(std::string_view said) {
    std::size_t blank = said.find(' ');
    // "based on session 9": a field of two words.
    const std::size_t second = blank == std::string_view::npos ? blank : said.find(' ', blank + 1);
    const Classification two = classify(said.substr(0, second));
    if (second != std::string_view::npos && two.opener_size == 0 &&
        two.kind != grammar::LineKind::movement_line) {
        blank = second;
    }
    const std::string_view rest = blank == std::string_view::npos ? "" : said.substr(blank + 1);
    const Classification first = classify(said.substr(0, blank));
    const bool is_field = first.opener_size == 0 && first.kind != grammar::LineKind::movement_line;
    if (is_field && !rest.empty()) return fmt::format("{}: {}", said.substr(0, blank), rest);
    const Classification all = classify(said);
    const bool number = !rest.empty() && std::ranges::all_of(rest, is_digit);
    if (all.kind == grammar::LineKind::open_session && !number) {
        const std::size_t digits = rest.find_first_not_of("0123456789");
        const bool numbered = digits > 0 && digits < rest.size() && rest[digits] == ' ';
        if (numbered) {
            return fmt::format("session {}: {}", rest.substr(0, digits), rest.substr(digits + 1));
        }
        return rest.empty() ? "" : fmt::format("session: {}", rest);
    }
    // "use Prep(5)" is asked about with its colon.
    if (all.kind == grammar::LineKind::open_use && !read_call(said).name.empty())
        return fmt::format("{}:", said);
    const bool stands_alone = all.opener_size > 0 && all.body != BodyKind::dose &&
                              (number || find_amount(said) == std::string_view::npos);
    return stands_alone ? fmt::format("{}:", said) : "";
}

// The line with its colon and, as far as they are sure, the further mends of its body.
struct Mended {
    std::string line;
    bool is_sure = false;
};

// "500m x 4": the sets come first.
void turn_sets(std::string& body) {
    const std::size_t times = body.find(" x ");
    if (times == std::string::npos) return;
    const std::string set = body.substr(0, times);
    const std::string sets = body.substr(times + " x "sv.size());
    const bool counts = !sets.empty() && std::ranges::all_of(sets, is_digit);
    const std::string_view unit =
        std::string_view(set).substr(std::min(set.find_first_not_of("0123456789. "), set.size()));
    const std::string_view dimension = unit_dimension(unit);
    if (!counts) return;
    if (dimension == "mass") body = fmt::format("{} @ {}", sets, set);
    if (dimension == "length" || dimension == "time" || dimension == "count")
        body = fmt::format("{} x {}", sets, set);
}

// What it still says wrong is mended as it would be in the next run, while only one mend
// is possible.
Mended mended_body(std::string line) {
    constexpr int most_mends = 4;
    for (int i = 0; i < most_mends; ++i) {
        const std::size_t colon = line.find(": ");
        if (colon == std::string::npos) return {line, true};
        const std::string_view head = std::string_view(line).substr(0, colon);
        std::string body = line.substr(colon + 2);
        turn_sets(body);
        line = fmt::format("{}: {}", head, body);
        const auto begin = static_cast<std::uint32_t>(colon) + 2;
        const Span place{begin, static_cast<std::uint32_t>(line.size())};
        const BodyKind kind = classify(std::string_view(line).substr(0, colon)).body;
        std::vector<Node> nodes;
        const auto failure = run_body(kind, line, place, nodes);
        if (!failure) return {line, true};
        const Diagnostic next =
            describe_body(line, *failure, kind, {0, static_cast<std::uint32_t>(colon)}, place);
        if (next.fixes.empty()) return {line, false};
        const std::vector<Edit>& edits = next.fixes.front().edits;
        // A note below is for the next run.
        const bool splits =
            std::ranges::any_of(edits, [](const Edit& edit) { return edit.text.contains('\n'); });
        if (splits) return {line, next.fixes.size() == 1};
        for (const auto& edit : std::ranges::reverse_view(edits))
            line.replace(edit.span.begin, edit.span.size(), edit.text);
        if (next.fixes.size() > 1 || mend_is_guess(next.code)) return {line, false};
    }
    return {line, false};
}

// A line of words alone: what it could say behind its colon.
std::string without_amount(std::string_view said) {
    const Classification found = classify(said);
    const bool field = found.opener_size == 0 && found.kind != grammar::LineKind::movement_line;
    if (!field) return fmt::format("{}: 3 x 8", shortened(said));
    switch (found.body) {
        case BodyKind::rest_line:
            return fmt::format("{}: 1 min", said);
        case BodyKind::when:
            return fmt::format("{}: 2026-12-03 18:30", said);
        case BodyKind::measure:
            return fmt::format("{}: 2", said);
        case BodyKind::fault:
            return fmt::format("{}: the heels lift -> sit back", said);
        default:
            return fmt::format("{}: and what it says", said);
    }
}

}  // namespace

std::optional<Diagnostic> find_bullet(std::string_view text, Span content) {
    const std::string_view said = text.substr(content.begin, content.size());
    // Most lines begin with a word.
    const auto begins_word = [said](std::size_t i) {
        return is_letter(said[i]) && static_cast<unsigned char>(said[i]) < 0x80;
    };
    if (said.size() > 1 && begins_word(0) && begins_word(1)) return std::nullopt;
    const std::size_t size =
        std::max({size_of_sign(said), size_of_number(said), size_of_letter(said)});
    if (size == 0) return std::nullopt;
    const Span span{content.begin, content.begin + static_cast<std::uint32_t>(size)};
    const Span shown = trim(text, span);
    return make(Code::bullet, shown, {std::string(text.substr(shown.begin, shown.size()))},
                {fix("leave it out", span, "")});
}

Diagnostic describe_clock_in_head(std::string_view text, const ScannedLine& line) {
    const Span content = line.content;
    const std::uint32_t colon = line.clock_colon.value_or(content.begin);
    const std::uint32_t begin = number_begin(text, content.begin, colon);
    const Span clock{begin, number_at(text, colon + 1, content.end).end};
    const Span name = trim(text, {content.begin, begin});
    const std::string said(text.substr(clock.begin, clock.size()));
    std::string behind(text.substr(clock.end, content.end - clock.end));
    // What a second colon sets off belongs behind a comma.
    if (behind.starts_with(':')) behind[0] = ',';
    const std::string mended =
        fmt::format("{}: {}{}", text.substr(name.begin, name.size()), said, behind);
    std::vector<Fix> fixes;
    if (!name.empty()) fixes.push_back(fix(mended, content, mended));
    return make(Code::clock_in_head, {colon, colon + 1},
                {said, name.empty() ? "row: " + said : mended}, std::move(fixes));
}

Diagnostic make_on_off(std::string_view text, Span said, Span whole) {
    const std::string words(text.substr(said.begin, said.size()));
    const std::string mended = fmt::format("circuit: {}", read_on_off(words));
    return make(Code::on_off_words, said, {words, mended}, {fix(mended, whole, mended)});
}

// "Week 1", "Day 2", "Part B": a heading for whoever reads the file.
static bool is_heading(std::string_view said) {
    constexpr std::array words{"week"sv, "day"sv, "phase"sv, "part"sv, "block"sv, "month"sv};
    const std::size_t blank = said.find(' ');
    constexpr std::size_t longest = 3;
    const bool short_behind = blank != std::string_view::npos && said.size() - blank - 1 <= longest;
    return short_behind && std::ranges::any_of(words, [&](std::string_view word) {
               return grammar::same_word(word, said.substr(0, blank));
           });
}

Diagnostic describe_no_colon(std::string_view text, const ScannedLine& line) {
    const Span content = line.content;
    const std::string_view said = text.substr(content.begin, content.size());
    if (!read_on_off(said).empty()) return make_on_off(text, content, content);
    if (is_heading(said)) {
        return make(Code::heading_line, content, {std::string(said)},
                    {fix(fmt::format("# {}", said), {content.begin, content.begin}, "# ")});
    }
    if (begins_with_words(said, "every") && reads(BodyKind::format, said)) {
        // How often, and which block it is for, only the coach knows.
        const std::string_view rounds = said.contains("round") ? "" : ", 6 rounds";
        return make(Code::format_in_head, content,
                    {std::string(said),
                     fmt::format("it behind a block's kind: circuit: {}{}", said, rounds)});
    }
    if (auto leave_out = find_leave_out_without_colon(text, content)) return *leave_out;
    if (const std::string mended = with_its_colon(said); !mended.empty()) {
        const auto colon = content.begin + static_cast<std::uint32_t>(mended.find(':'));
        const Mended body = mended_body(mended);
        return make(
            Code::no_colon, {colon, colon}, {body.line},
            body.is_sure ? std::vector{fix(body.line, content, body.line)} : std::vector<Fix>{});
    }
    if (line.clock_colon) {
        const std::uint32_t begin = number_begin(text, content.begin, *line.clock_colon);
        if (!trim(text, {content.begin, begin}).empty()) return describe_clock_in_head(text, line);
    }
    const std::size_t split = find_amount(said);
    if (split == std::string_view::npos || split == 0) {
        return make(Code::no_colon, content, {without_amount(said)});
    }
    const Gap gap = find_gap(text, content, split);
    const Mended mended =
        mended_body(fmt::format("{}: {}", text.substr(gap.name.begin, gap.name.size()),
                                text.substr(gap.amount.begin, gap.amount.size())));
    std::vector<Fix> fixes;
    if (mended.is_sure) fixes.push_back(fix(mended.line, content, mended.line));
    return make(Code::no_colon, gap.sign, {mended.line}, std::move(fixes));
}

}  // namespace stave::parse
