// Routines and their blanks as they are written elsewhere: "block Prep(5):",
// "template Prep: reps 5", "$reps".
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

// The letters from the place on.
std::size_t word_size(std::string_view text, std::size_t begin) {
    std::size_t end = begin;
    while (end < text.size() && is_letter(text[end]))
        ++end;
    return end - begin;
}

// Where "$reps", "{reps}" or "<reps>" stands that begins at the place; the whole and the
// name in it.
struct Blank {
    std::size_t size = 0;
    std::string_view name;
};

Blank blank_at(std::string_view text, std::size_t begin) {
    const bool dollar = text[begin] == '$';
    std::size_t inner = begin + (dollar ? 1 : 0);
    std::string_view close;
    for (const auto& [open, end] :
         {std::pair{"{{"sv, "}}"sv}, std::pair{"{"sv, "}"sv}, std::pair{"<"sv, ">"sv}}) {
        if (!text.substr(inner).starts_with(open)) continue;
        inner += open.size();
        close = end;
        break;
    }
    const std::size_t size = word_size(text, inner);
    const bool closed = text.substr(inner + size).starts_with(close);
    if (size == 0 || !closed || (!dollar && close.empty())) return {};
    return {inner + size + close.size() - begin, text.substr(inner, size)};
}

// "minutes 5" or "minutes = 5", for each of them.
bool names_its_values(std::string_view values) {
    return values.find_first_of(" =") != std::string_view::npos &&
           std::ranges::any_of(values, is_digit) && std::ranges::any_of(values, is_letter);
}

Diagnostic make_routine(std::string_view text, const Line& line, const RoutineCall& call) {
    const Span whole{line.head.begin, std::max(line.body.end, line.colon.end)};
    const std::string said(slice(text, line.head));
    const std::string bare = fmt::format("routine {}:", call.name);
    if (names_its_values(call.values)) {
        std::string values;
        for (const char c : call.values) {
            const bool blank = c == ' ' || c == '=';
            if (!blank) values += c;
            if (blank && !values.ends_with(' ')) values += ' ';
        }
        const std::string mended = fmt::format("{} {}", bare, values);
        return make(Code::routine_call, line.head, {said, mended}, {fix(mended, whole, mended)});
    }
    const bool word = !call.values.empty() && std::ranges::all_of(call.values, is_letter);
    const std::string blank(word ? call.values : "reps"sv);
    const std::string value(word || call.values.empty() ? "5"sv : call.values);
    const std::string mended = fmt::format("{} {} {}", bare, blank, value);
    return make(Code::routine_call, line.head,
                {said, fmt::format("{}, and [{}] where the value stands below it", mended, blank)},
                {fix(mended, whole, mended), fix(bare, whole, bare)});
}

}  // namespace

RoutineCall read_call(std::string_view said) {
    const std::size_t open = said.find('(');
    // "Shoulders (short)" is a name with a word in brackets.
    const bool touches = open != std::string_view::npos && open > 0 && said[open - 1] != ' ';
    if (!touches || !said.ends_with(')')) return {};
    return {said.substr(0, open), said.substr(open + 1, said.size() - open - 2)};
}

std::optional<Diagnostic> find_routine_in_words(std::string_view text, const Line& line) {
    const std::string_view head = slice(text, line.head);
    const std::string_view body = slice(text, line.body);
    if (line.kind == LineKind::open_routine) {
        const RoutineCall call = read_call(slice(text, line.title));
        if (call.name.empty() || !body.empty()) return std::nullopt;
        return make_routine(text, line, call);
    }
    if (line.kind != LineKind::movement_line) return std::nullopt;
    // Every movement's line comes here, and few begin so.
    if (head.empty() || !"btmfd"sv.contains(grammar::to_lower(head.front()))) return std::nullopt;
    // "block pull: 5" is a movement.
    constexpr std::array openers{"block"sv, "template"sv, "macro"sv, "function"sv, "define"sv};
    const auto* const opener = std::ranges::find_if(openers, [head](std::string_view one) {
        return head.size() > one.size() + 1 && begins_with_words(head, one) &&
               head[one.size()] == ' ';
    });
    if (opener == openers.end()) return std::nullopt;
    const std::string_view name = head.substr(opener->size() + 1);
    const RoutineCall call = read_call(name);
    if (!call.name.empty()) return make_routine(text, line, call);
    if (opener == openers.begin() || reads(BodyKind::dose, body)) return std::nullopt;
    const std::string mended =
        body.empty() ? fmt::format("routine {}:", name) : fmt::format("routine {}: {}", name, body);
    const Span word{line.head.begin, line.head.begin + static_cast<std::uint32_t>(opener->size())};
    return make(Code::routine_call, line.head, {std::string(head), mended},
                {fix(mended, word, "routine")});
}

std::optional<Diagnostic> find_blank_sign(std::string_view text, const Line& line) {
    const Span whole{line.head.begin, std::max(line.body.end, line.colon.end)};
    const std::string_view said = slice(text, whole);
    for (std::size_t i = said.find_first_of("${<"); i != std::string_view::npos;
         i = said.find_first_of("${<", i + 1)) {
        const Blank blank = blank_at(said, i);
        if (blank.size == 0) continue;
        const auto begin = whole.begin + static_cast<std::uint32_t>(i);
        const Span place{begin, begin + static_cast<std::uint32_t>(blank.size)};
        const std::string mended = fmt::format("[{}]", blank.name);
        return make(Code::blank_sign, place, {std::string(slice(text, place)), mended},
                    {fix(mended, place, mended)});
    }
    return std::nullopt;
}

}  // namespace stave::parse
