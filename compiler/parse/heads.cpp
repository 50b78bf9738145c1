#include "compiler/parse/heads.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>

#include "compiler/parse/scene.hpp"
#include "compiler/parse/slips.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;
using grammar::BodyKind;
using grammar::LineKind;

// From the head's first byte to the body's last.
Span whole(const Line& line) {
    return {line.head.begin, std::max(line.body.end, line.colon.end)};
}

// Only a number stands between `session` and the colon.
std::optional<Diagnostic> find_session_title(std::string_view text, const Line& line) {
    constexpr std::size_t longest_number = 9;
    const std::string_view title = slice(text, line.title);
    if (title.size() <= longest_number && std::ranges::all_of(title, is_digit)) {
        return std::nullopt;
    }
    const std::size_t digits = title.find_first_not_of("0123456789");
    const bool numbered = digits > 0 && digits < title.size() && title[digits] == ' ';
    const std::string mended =
        numbered ? fmt::format("session {}: {}", title.substr(0, digits), title.substr(digits + 1))
                 : fmt::format("session: {}", title);
    Diagnostic result = make(Code::session_title, line.title, {std::string(title), mended});
    if (line.body.empty()) {
        result.fixes.push_back(fix(mended, {line.head.begin, line.colon.end}, mended));
    }
    return result;
}

bool needs_title(LineKind kind) {
    switch (kind) {
        case LineKind::open_movement:
        case LineKind::open_substitute:
        case LineKind::open_plain_movement:
        case LineKind::open_game:
        case LineKind::open_test:
        case LineKind::open_grow:
        case LineKind::open_athlete:
        case LineKind::open_squad:
        case LineKind::open_plan:
        case LineKind::open_routine:
        case LineKind::open_use:
        case LineKind::open_did:
            return true;
        default:
            return false;
    }
}

// "5-5-5: bench press": the name and the amount have changed places.
Diagnostic make_head_without_name(std::string_view text, const Line& line) {
    const std::string_view title = slice(text, line.title);
    Diagnostic result = make(Code::head_without_name, line.title, {std::string(title)});
    const std::string_view body = slice(text, line.body);
    // "1: back squat 5 x 5" is rather an entry of a list.
    const bool is_entry = title.find_first_not_of("0123456789") == std::string_view::npos &&
                          body.find_first_of("0123456789") != std::string_view::npos;
    if (!is_entry && std::ranges::any_of(body, is_letter) && !has_comma(body) &&
        !body.contains('@') && reads(BodyKind::dose, title)) {
        const std::string mended = fmt::format("{}: {}", body, title);
        result.fixes.push_back(fix(mended, whole(line), mended));
    }
    return result;
}

// Words that a block's line may begin with, and hardly a movement's name.
bool may_open_format(std::string_view head) {
    constexpr std::array words{"AMRAP"sv, "as many"sv,     "every"sv,  "for time"sv, "cap"sv,
                               "rest"sv,  "whole block"sv, "people"sv, "in"sv};
    const char first = grammar::to_lower(head.front());
    // "3 rounds"; "90/90 hip switch" is none.
    const std::size_t digits = std::min(head.find_first_not_of("0123456789"), head.size());
    const bool begins_with_count = digits > 0 && digits < head.size() && head[digits] != '/';
    return begins_with_count || std::ranges::any_of(words, [=](std::string_view word) {
               return grammar::to_lower(word.front()) == first && begins_with_words(head, word);
           });
}

// "AMRAP 8 min:", "3 rounds: rest 60 s", "For time: 15 min" as a block's line, or "".
std::string as_block(std::string_view head, std::string_view body) {
    const std::array lines{
        body.empty() ? std::string(head) : fmt::format("{}, {}", head, body),
        fmt::format("{}, cap {}", head, body),
        fmt::format("{} {}", head, body),
    };
    const auto* const line =
        std::ranges::find_if(lines, [](const auto& one) { return reads(BodyKind::format, one); });
    return line == lines.end() ? "" : fmt::format("circuit: {}", *line);
}

std::optional<Diagnostic> find_format_in_head(std::string_view text, const Line& line) {
    const std::string_view head = slice(text, line.head);
    const std::string_view body = slice(text, line.body);
    if (const std::string format = read_on_off(head); !format.empty() && body.empty())
        return make_on_off(text, line.head, whole(line));
    const bool may_be_minutes = grammar::to_lower(head.front()) == 'e';
    if (auto minutes = may_be_minutes ? read_every_minute(head) : std::nullopt) {
        if (!body.empty()) minutes = read_every_minute(fmt::format("{} {}", head, body));
        Diagnostic result =
            make(Code::every_minute, line.head,
                 {std::string(head), "circuit: " + minutes->next, "circuit: " + minutes->all});
        if (!minutes->is_certain) return result;
        result.fixes = {fix(minutes->next, whole(line), "circuit: " + minutes->next),
                        fix(minutes->all, whole(line), "circuit: " + minutes->all)};
        return result;
    }
    if (!may_open_format(head)) return std::nullopt;
    const bool alone = reads(BodyKind::format, head);
    const bool amrap = begins_with_words(head, "AMRAP");
    if (!alone && !amrap) return std::nullopt;
    const bool rest = begins_with_words(head, "rest");
    // Nobody means ten seconds.
    const bool bare_time = amrap && body.empty() && is_digit(head.back());
    std::string mended =
        as_block(bare_time ? fmt::format("{} min", head) : std::string(head), body);
    if (rest && body.empty()) mended = fmt::format("rest: {}", head.substr("rest "sv.size()));
    if (amrap && mended.empty()) {
        const std::string_view title = head.substr("AMRAP"sv.size());
        const std::string length = fmt::format("AMRAP {}", body);
        if (!reads(BodyKind::format, length)) return std::nullopt;
        mended = fmt::format("circuit{}: {}", title, length);
    }
    Diagnostic result = make(Code::format_in_head, line.head,
                             {std::string(head), mended.empty() ? "circuit: 3 rounds" : mended});
    if (!mended.empty()) result.fixes.push_back(fix(mended, whole(line), mended));
    return result;
}

// "circut Legs:" alone in its line.
std::optional<Diagnostic> find_misspelt_block(std::string_view text, const Line& line) {
    if (!line.body.empty()) return std::nullopt;
    const std::string_view head = slice(text, line.head);
    const std::string_view first = head.substr(0, head.find(' '));
    // Shorter openers are near too many names: plan and plank, sets and sits.
    constexpr std::size_t shortest = 7;
    const std::string near(near_opener(first));
    if (near.size() < shortest || grammar::same_word(near, first)) return std::nullopt;
    const Span word{line.head.begin, line.head.begin + static_cast<std::uint32_t>(first.size())};
    return make(Code::misspelt_head, line.head, {std::string(head), near}, {fix(near, word, near)});
}

std::string_view belongs_below(LineKind kind) {
    switch (kind) {
        case LineKind::open_athlete:
            return "weight, avoid, test NAME";
        case LineKind::open_plan:
            return "from, weeks, Monday to Sunday";
        default:
            return "counted in, sides, pattern, how, cue, fault";
    }
}

// "press @ 20 kg: 8".
Fix load_behind_colon(std::string_view text, const Line& line, std::uint32_t sign) {
    const Span name = trim(text, {line.title.begin, sign});
    const std::string_view body = slice(text, line.body);
    const std::size_t amount = up_to_comma(body).size();
    const std::string mended =
        fmt::format("{}: {} {}{}", slice(text, name), body.substr(0, amount),
                    slice(text, {sign, line.title.end}), body.substr(amount));
    return fix(mended, {line.title.begin, line.body.end}, mended);
}

}  // namespace

std::optional<Diagnostic> find_head_slip(std::string_view text, const Line& line) {
    const std::string_view title = slice(text, line.title);
    if (line.kind == LineKind::open_session) return find_session_title(text, line);
    if (needs_title(line.kind) && title.empty()) {
        return make_title_missing(text, line);
    }
    if (auto routine = find_routine_in_words(text, line)) return routine;
    if (grammar::is_block(line.kind) && !title.empty()) {
        if (auto format = find_format_in_title(text, line)) return format;
    }
    if (line.kind == LineKind::movement_line && !title.empty()) {
        if (auto address = find_address_without_field(text, line)) return address;
        if (auto field = find_field_by_another_name(text, line)) return field;
        if (auto change = find_change_in_words(text, line)) return change;
        if (auto format = find_format_in_head(text, line)) return format;
        if (auto block = find_misspelt_block(text, line)) return block;
    }
    const bool names_movements =
        line.kind == LineKind::movement_line || line.kind == LineKind::open_substitute ||
        line.kind == LineKind::open_plain_movement || line.kind == LineKind::open_game ||
        line.kind == LineKind::open_test;
    if (!names_movements || title.empty() || std::ranges::any_of(title, is_letter)) {
        return std::nullopt;
    }
    return make_head_without_name(text, line);
}

Diagnostic describe_head(std::string_view text, const Failure& failure, const Line& line) {
    if (failure.code == Code::name_missing && line.title.empty()) {
        return make(Code::head_missing, line.title);
    }
    const Span token = token_at(text, failure.offset, line.title.end);
    const std::string sign(slice(text, token));
    Diagnostic result = make(failure.code, token, {sign});
    const bool bare = !line.body.empty() && !slice(text, line.body).contains('@');
    if (failure.code == Code::sign_in_name && sign == "@" && bare)
        result.fixes.push_back(load_behind_colon(text, line, token.begin));
    return result;
}

Diagnostic describe_stray_body(std::string_view text, const Line& line) {
    return make(Code::body_not_here, line.body,
                {std::string(slice(text, line.body)), std::string(belongs_below(line.kind))});
}

}  // namespace stave::parse
