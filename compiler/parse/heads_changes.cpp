// Changes of a session that is based on another, in words that are none here:
// "remove: squat", "without squat", "change: squat".
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

// What leaves something out, and is no movement's first word.
constexpr std::array removing{"remove"sv, "without"sv,  "omit"sv, "exclude"sv,
                              "except"sv, "take out"sv, "cut"sv,  "leave out"sv};
// These are movements where an amount follows: "skip: 2 min".
constexpr std::array removing_words{"drop"sv, "skip"sv, "minus"sv, "delete"sv};

constexpr std::array changing{"change"sv, "replace"sv, "update"sv, "modify"sv};

constexpr auto same = [](std::string_view word) { return word; };
constexpr WordSieve removing_sieve(removing, same);
constexpr WordSieve removing_words_sieve(removing_words, same);
constexpr WordSieve changing_sieve(changing, same);

// "wall sit" of "remove wall sit", or "".
std::string_view left_out_by(std::string_view said) {
    for (const std::string_view word : removing) {
        if (said.size() <= word.size() + 1 || said[word.size()] != ' ' ||
            !begins_with_words(said, word)) {
            continue;
        }
        const std::string_view names = said.substr(word.size() + 1);
        const bool plain = std::ranges::none_of(names, is_digit) && !names.contains('@');
        return plain ? names : "";
    }
    return "";
}

Diagnostic make_leave_out(std::string_view said, Span head, Span whole, std::string_view names) {
    const std::string mended = fmt::format("leave out: {}", names);
    return make(Code::leave_out_word, head, {std::string(said), mended},
                {fix(mended, whole, mended)});
}

// "change: deadlift 5 @ 80 kg".
Diagnostic make_change(std::string_view text, const Line& line) {
    const std::string_view body = slice(text, line.body);
    const std::size_t digit = std::min(body.find_first_of("0123456789"), body.size());
    const Span name = trim(body, {0, static_cast<std::uint32_t>(digit)});
    const std::string_view dose = body.substr(digit);
    const bool whole = !name.empty() && !dose.empty() && is_words(slice(body, name)) &&
                       reads(BodyKind::dose, dose);
    const std::string mended =
        whole ? fmt::format("{}: {}", slice(body, name), dose)
              : fmt::format("{}: 3 x 8, the changed movement's line in full",
                            is_words(body) && !body.empty() ? body : "squat"sv);
    std::vector<Fix> fixes;
    if (whole) fixes.push_back(fix(mended, {line.head.begin, line.body.end}, mended));
    return make(Code::change_word, line.head, {std::string(slice(text, line.head)), mended},
                std::move(fixes));
}

}  // namespace

std::optional<Diagnostic> find_change_in_words(std::string_view text, const Line& line) {
    const std::string_view head = slice(text, line.head);
    const std::string_view body = slice(text, line.body);
    const Span whole{line.head.begin, std::max(line.body.end, line.colon.end)};
    if (body.empty()) {
        const std::string_view names = left_out_by(head);
        if (names.empty()) return std::nullopt;
        return make_leave_out(head, line.head, whole, names);
    }
    if (!removing_sieve.may_hold(head) && !removing_words_sieve.may_hold(head) &&
        !changing_sieve.may_hold(head)) {
        return std::nullopt;
    }
    const bool changes = is_one_of(head, changing);
    const bool removes = is_one_of(head, removing) || is_one_of(head, removing_words);
    // Behind any of these an amount makes it a movement.
    if ((!changes && !removes) || is_digit(body.front()) || reads(BodyKind::dose, body))
        return std::nullopt;
    if (changes) return make_change(text, line);
    if (body.contains('@')) return std::nullopt;
    return make_leave_out(head, line.head, whole, body);
}

std::optional<Diagnostic> find_leave_out_without_colon(std::string_view text, Span content) {
    const std::string_view said = slice(text, content);
    const std::string_view names = left_out_by(said);
    if (names.empty() || !is_words(up_to_comma(names))) return std::nullopt;
    return make_leave_out(said, content, content, names);
}

}  // namespace stave::parse
