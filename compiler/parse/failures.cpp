#include "compiler/parse/failures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>

#include "compiler/parse/classify.hpp"
#include "grammar/lexical.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;
using grammar::BodyKind;

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           static_cast<unsigned char>(c) >= 0x80;
}

// What the failing line looks like around the place where the grammar stopped.
struct Scene {
    std::string_view text;
    BodyKind kind;
    Span head;
    Span body;
    Code code;
    std::uint32_t offset;
    Span token;

    [[nodiscard]] std::string_view slice(Span span) const {
        return text.substr(span.begin, span.size());
    }
    [[nodiscard]] std::string word() const { return std::string(slice(token)); }
    [[nodiscard]] std::string_view rest() const { return slice({offset, body.end}); }
    [[nodiscard]] std::string_view before() const {
        std::string_view left = slice({body.begin, offset});
        while (left.ends_with(' '))
            left.remove_suffix(1);
        return left;
    }
    // Offset of the end of what stands before, blanks left out.
    [[nodiscard]] std::uint32_t before_end() const {
        return body.begin + static_cast<std::uint32_t>(before().size());
    }
    // Where the detail begins in which the grammar stopped: behind the comma.
    [[nodiscard]] std::uint32_t detail_begin() const {
        const std::size_t comma = slice({body.begin, offset}).rfind(',');
        if (comma == std::string_view::npos) return body.begin;
        return trim(text, {body.begin + static_cast<std::uint32_t>(comma) + 1, body.end}).begin;
    }
};

Diagnostic make(Code code, Span span, std::vector<std::string> arguments = {},
                std::vector<Fix> fixes = {}) {
    return {code, span, std::move(arguments), std::move(fixes), {}};
}

Fix fix(std::string label, Span span, std::string text) {
    return {std::move(label), {Edit{span, std::move(text)}}};
}

// A whole number or a word that reads as one, from the place on.
Span number_at(std::string_view text, std::uint32_t begin, std::uint32_t end) {
    std::uint32_t i = begin;
    while (i < end && (is_digit(text[i]) || text[i] == '.' || text[i] == ':'))
        ++i;
    return {begin, i};
}

std::uint32_t number_begin(std::string_view text, std::uint32_t begin, std::uint32_t end) {
    while (end > begin && is_digit(text[end - 1]))
        --end;
    return end;
}

// "15, 12, 9" or "2,5": numbers with commas between them.
std::optional<Diagnostic> comma_between_numbers(const Scene& scene) {
    const std::uint32_t second = scene.detail_begin();
    if (second >= scene.body.end || !is_digit(scene.text[second])) return std::nullopt;
    const std::size_t comma = scene.text.rfind(',', second);
    const Span left_part = trim(scene.text, {scene.body.begin, static_cast<std::uint32_t>(comma)});
    if (left_part.empty() || !is_digit(scene.text[left_part.end - 1])) return std::nullopt;
    const std::uint32_t first = number_begin(scene.text, scene.body.begin, left_part.end);
    Span all{first, number_at(scene.text, second, scene.body.end).end};
    if (comma + 1 == second && left_part.end == comma) {
        std::string decimal(scene.slice(all));
        std::string list = decimal;
        std::ranges::replace(decimal, ',', '.');
        std::ranges::replace(list, ',', '-');
        const Fix as_list = fix(list, all, list);
        const Fix as_decimal = fix(decimal, all, decimal);
        return make(Code::decimal_comma, all, {std::string(scene.slice(all)), decimal, list},
                    {as_decimal, as_list});
    }
    // Take in every further number of the list.
    for (std::uint32_t i = all.end; i < scene.body.end;) {
        const Span gap = trim(scene.text, {i, scene.body.end});
        if (gap.empty() || scene.text[gap.begin] != ',') break;
        const Span next = trim(scene.text, {gap.begin + 1, scene.body.end});
        if (next.empty() || !is_digit(scene.text[next.begin])) break;
        all.end = i = number_at(scene.text, next.begin, scene.body.end).end;
    }
    std::string list;
    for (const char c : scene.slice(all)) {
        if (c == ',') list += '-';
        if (is_digit(c) || c == '.' || c == ':') list += c;
    }
    return make(Code::comma_list, all, {list}, {fix(list, all, list)});
}

bool looks_like_tempo(std::string_view word) {
    return word.size() == 4 &&
           std::ranges::all_of(word, [](char c) { return is_digit(c) || c == 'x' || c == 'X'; });
}

// The first words of details, which need a comma before them.
bool opens_detail(std::string_view rest) {
    constexpr std::array openers{"tempo"sv, "hold"sv, "arc"sv, "rest"sv, "if no"sv};
    return std::ranges::any_of(openers, [&](std::string_view opener) {
        return rest.size() >= opener.size() &&
               grammar::compare_folded(rest.substr(0, opener.size()), opener) == 0 &&
               (rest.size() == opener.size() || !is_letter(rest[opener.size()]));
    });
}

std::optional<Diagnostic> describe_slash(const Scene& scene) {
    if (!scene.rest().starts_with('/')) return std::nullopt;
    const Span word = token_at(scene.text, scene.offset + 1, scene.body.end);
    const std::string_view side = scene.slice(word);
    Diagnostic result =
        make(Code::slash, {scene.offset, scene.offset + 1},
             {std::string(scene.slice(
                 {number_begin(scene.text, scene.body.begin, scene.before_end()), word.end}))});
    if (grammar::contains_word(grammar::side_words, side)) {
        result.fixes.push_back(fix(fmt::format("each {}", side), {scene.offset, word.end},
                                   fmt::format(" each {}", side)));
    }
    return result;
}

std::optional<Diagnostic> describe_prime(const Scene& scene) {
    constexpr std::array primes{"\""sv, "'"sv, "\u2032"sv, "\u2033"sv, "\u201D"sv, "\u2019"sv};
    for (const std::string_view prime : primes) {
        if (!scene.rest().starts_with(prime)) continue;
        const Span span{scene.offset, scene.offset + static_cast<std::uint32_t>(prime.size())};
        return make(Code::prime, span, {std::string(prime)});
    }
    return std::nullopt;
}

// A sign that stands where nothing may follow.
std::optional<Diagnostic> describe_sign(const Scene& scene) {
    if (auto slash = describe_slash(scene)) return slash;
    if (auto prime = describe_prime(scene)) return prime;
    if (scene.rest().empty()) return std::nullopt;
    const Span sign{scene.offset, scene.offset + 1};
    const bool last = scene.offset + 1 == scene.body.end;
    switch (scene.rest().front()) {
        case '#': {
            const std::string number(
                scene.slice({number_begin(scene.text, scene.body.begin, scene.before_end()),
                             scene.before_end()}));
            Diagnostic result = make(Code::pound_sign, sign, {number});
            if (last && !number.empty()) result.fixes.push_back(fix("lb", sign, " lb"));
            return result;
        }
        case ';':
            return make(Code::semicolon, sign, {}, {fix(",", sign, ",")});
        case '.':
            if (!last) return std::nullopt;
            return make(Code::full_stop, sign, {}, {fix("delete the full stop", sign, "")});
        case '@':
            if (scene.before().ends_with(',')) {
                const Span comma{scene.before_end() - 1, scene.before_end()};
                return make(Code::comma_before_load, comma, {},
                            {fix("delete the comma", comma, "")});
            }
            return make(Code::load_twice, sign);
        case '+':
            if (scene.before().find('@') == std::string_view::npos) return std::nullopt;
            return make(Code::load_joined_by_plus, sign, {}, {fix("and", sign, "and")});
        case '(':
        case ')':
            return make(Code::not_read_yet, sign, {"brackets (clusters and complexes)"});
        case '!':
            return make(Code::word_out_of_place, sign, {"!"});
        default:
            return std::nullopt;
    }
}

std::optional<Diagnostic> describe_clock_with_hours(const Scene& scene) {
    if (!scene.rest().starts_with(':') ||
        !scene.before().ends_with(scene.slice({scene.offset - 1, scene.offset}))) {
        return std::nullopt;
    }
    std::uint32_t begin = scene.offset;
    while (begin > scene.body.begin &&
           (is_digit(scene.text[begin - 1]) || scene.text[begin - 1] == ':')) {
        --begin;
    }
    const Span all{begin, number_at(scene.text, scene.offset, scene.body.end).end};
    std::string spoken(scene.slice(all));
    constexpr std::array units{" h "sv, " min "sv};
    for (const std::string_view unit : units) {
        const std::size_t colon = spoken.find(':');
        if (colon == std::string::npos) break;
        spoken.replace(colon, 1, unit);
    }
    spoken += " s";
    return make(Code::clock_hours, all, {std::string(scene.slice(all)), spoken},
                {fix(spoken, all, spoken)});
}

// "8 to 10-12", "5-4..1": a second way of writing several values.
bool is_second_series(const Scene& scene) {
    const std::string_view rest = scene.rest();
    const bool sign = rest.starts_with("..") || rest.starts_with("\u2026") ||
                      rest.starts_with('-') || rest.starts_with("\u2013") || opens_detail(rest);
    const bool to = rest.starts_with("to ");
    const std::string_view before = scene.before();
    return (sign || to) && !opens_detail(rest) && !before.empty() &&
           (is_digit(before.back()) || is_letter(before.back()));
}

std::optional<Diagnostic> describe_number(const Scene& scene) {
    if (scene.rest().empty() || !is_digit(scene.rest().front())) return std::nullopt;
    const Span number = number_at(scene.text, scene.offset, scene.body.end);
    const std::uint32_t first_begin =
        number_begin(scene.text, scene.body.begin, scene.before_end());
    const std::string first(first_begin < scene.before_end()
                                ? scene.slice({first_begin, scene.before_end()})
                                : scene.before());
    return make(Code::two_numbers, number, {first, std::string(scene.slice(number))});
}

// The unit closest to a word that is none, or "".
std::string_view near_unit(std::string_view word) {
    if (word == "mi") return "min";
    if (word == "sek") return "s";
    std::string_view best;
    std::size_t least = 2;
    if (word.size() < 3) return best;
    for (const std::string_view unit : grammar::unit_words) {
        const std::size_t distance = edit_distance(word, unit, least);
        if (distance < least) {
            least = distance;
            best = unit;
        }
    }
    return best;
}

Diagnostic describe_unknown_unit(const Scene& scene) {
    const std::string_view near = near_unit(scene.word());
    Diagnostic result = make(
        Code::unknown_unit, scene.token,
        {scene.word(),
         near.empty()
             ? std::string("Write reps, steps, s, min, m, kg, lb or another unit of the notation.")
             : fmt::format("Write {} if that is meant.", near)});
    if (!near.empty())
        result.fixes.push_back(fix(std::string(near), scene.token, std::string(near)));
    return result;
}

std::optional<Diagnostic> describe_sets_of(const Scene& scene) {
    if (scene.word() != "sets" && scene.word() != "set") return std::nullopt;
    const std::uint32_t first = number_begin(scene.text, scene.body.begin, scene.before_end());
    if (first == scene.before_end()) return std::nullopt;
    Span behind = trim(scene.text, {scene.token.end, scene.body.end});
    for (const std::string_view filler : {"of "sv, "x "sv}) {
        if (scene.slice(behind).starts_with(filler)) {
            behind = trim(scene.text,
                          {behind.begin + static_cast<std::uint32_t>(filler.size()), behind.end});
        }
    }
    const Span joint{scene.before_end(), behind.begin};
    const std::string written =
        fmt::format("{} x {}", scene.slice({first, scene.before_end()}),
                    scene.slice(number_at(scene.text, behind.begin, behind.end)));
    return make(Code::sets_of, scene.token, {written}, {fix(written, joint, " x ")});
}

// A word that stands where the line should end or go on differently.
std::optional<Diagnostic> describe_word(const Scene& scene) {
    const std::string word = scene.word();
    if (word.empty() || !is_letter(word.front())) return std::nullopt;
    if (auto sets_of = describe_sets_of(scene)) return sets_of;
    if (opens_detail(scene.rest())) {
        return make(Code::comma_missing, scene.token, {word},
                    {fix(", " + word, {scene.before_end(), scene.token.begin}, ", ")});
    }
    if (scene.kind == BodyKind::dose && (word == "rounds" || word == "round")) {
        const std::string circuit = fmt::format("circuit {}:", scene.slice(scene.head));
        return make(Code::rounds_in_movement, scene.token,
                    {std::string(scene.slice(scene.head)), circuit},
                    {fix(circuit, scene.head, fmt::format("circuit {}", scene.slice(scene.head)))});
    }
    if (grammar::contains_word(grammar::later_words, word)) {
        return make(Code::not_read_yet, scene.token, {fmt::format("“{}” here", word)});
    }
    if (word == "kg" || word == "lb") return std::nullopt;
    const bool behind_number = scene.offset > scene.body.begin &&
                               is_digit(scene.text[scene.before_end() - 1]) &&
                               scene.kind == BodyKind::dose;
    if (behind_number) return describe_unknown_unit(scene);
    return std::nullopt;
}

Diagnostic describe_dose_end(const Scene& scene) {
    if (auto number = describe_number(scene)) return *number;
    if (auto word = describe_word(scene)) return *word;
    if (is_second_series(scene)) return make(Code::joined_signs, scene.token);
    if (scene.offset == scene.body.begin) {
        return make(Code::amount_expected, scene.token, {scene.word()});
    }
    return make(Code::word_out_of_place, scene.token, {scene.word()});
}

Diagnostic describe_detail(const Scene& scene) {
    if (scene.rest().empty() && scene.before().ends_with(',')) {
        const Span comma{scene.before_end() - 1, scene.before_end()};
        return make(Code::trailing_comma, comma, {}, {fix("delete the comma", comma, "")});
    }
    const std::uint32_t begin = scene.detail_begin();
    const Span word = token_at(scene.text, begin, scene.body.end);
    const std::string detail(scene.slice({begin, scene.body.end}));
    if (looks_like_tempo(scene.slice(word))) {
        return make(Code::tempo_unsaid, word, {std::string(scene.slice(word))},
                    {fix("tempo", {begin, begin}, "tempo ")});
    }
    const Span rest{scene.offset, scene.body.end};
    const Span later = token_at(scene.text, trim(scene.text, rest).begin, scene.body.end);
    for (const Span candidate : {word, later}) {
        const std::string_view name = scene.slice(candidate);
        if (name == "each" || name == "alternating" || name == "left" || name == "right") {
            if (candidate != word) continue;
            const Span gap{static_cast<std::uint32_t>(scene.text.rfind(',', begin)), begin};
            return make(Code::side_late, {begin, scene.body.end}, {detail, detail},
                        {fix(detail, gap, " ")});
        }
        if (grammar::contains_word(grammar::later_words, name)) {
            return make(Code::not_read_yet, candidate, {fmt::format("“{}” here", name)});
        }
    }
    if (auto list = comma_between_numbers(scene)) return *list;
    std::string_view said = scene.slice({begin, scene.body.end});
    said = said.substr(0, said.find(','));
    return make(Code::detail_expected, {begin, begin + static_cast<std::uint32_t>(said.size())},
                {std::string(said)});
}

Diagnostic describe_format(const Scene& scene) {
    if (auto word = describe_word(scene)) return *word;
    const Span body = scene.body;
    if (scene.rest().empty() && scene.before().ends_with(',')) return describe_detail(scene);
    if (is_digit(scene.text[body.begin]) && scene.code != Code::word_out_of_place) {
        const Span number = number_at(scene.text, body.begin, body.end);
        if (number.end == body.end) {
            return make(Code::rounds_word, number, {std::string(scene.slice(number))},
                        {fix("rounds", {number.end, number.end}, " rounds")});
        }
        return make(Code::amount_in_block, body,
                    {std::string(scene.slice(body)), std::string(scene.slice(scene.head))});
    }
    if (scene.offset == body.begin && is_letter(scene.text[body.begin])) {
        const std::string line = fmt::format("{} {}:", scene.slice(scene.head), scene.slice(body));
        return make(Code::title_behind_colon, scene.token, {scene.word(), line});
    }
    if (scene.code == Code::format_expected) return make(scene.code, scene.token, {scene.word()});
    return make(Code::word_out_of_place, scene.token, {scene.word()});
}

Diagnostic describe_when(const Scene& scene) {
    if (scene.code == Code::word_out_of_place) {
        const bool second_clock =
            scene.rest().starts_with('-') || scene.rest().starts_with("\u2013");
        return second_clock ? make(Code::clock_range, scene.token)
                            : make(Code::when_end, scene.token, {scene.word()});
    }
    if (scene.code == Code::zone_expected && scene.rest().empty()) {
        return describe_detail(scene);
    }
    if (scene.code == Code::date_expected) {
        const Span said{scene.offset, scene.body.end};
        return make(scene.code, said, {std::string(scene.slice(said))});
    }
    return make(scene.code, scene.token, {scene.word()});
}

Diagnostic describe_kit(const Scene& scene) {
    if (scene.code == Code::kit_name && !scene.rest().empty()) {
        if (grammar::contains_word(grammar::unit_words, scene.word()) ||
            is_digit(scene.rest().front())) {
            return make(Code::kit_sizes, scene.token, {scene.word()});
        }
    }
    if (scene.code == Code::word_out_of_place && !scene.word().empty() &&
        is_letter(scene.word().front())) {
        return make(Code::comma_missing, scene.token, {scene.word()},
                    {fix(", " + scene.word(), {scene.before_end(), scene.token.begin}, ", ")});
    }
    return make(scene.code, scene.token, {scene.word()});
}

bool negative_at(const Scene& scene) {
    const std::string_view rest = scene.rest();
    const std::size_t dash = rest.starts_with('-') ? 1 : rest.starts_with("\u2212") ? 3 : 0;
    return dash > 0 && dash < rest.size() && is_digit(rest[dash]);
}

std::optional<Diagnostic> describe_number_start(const Scene& scene) {
    const std::string_view rest = scene.rest();
    const bool number_due = scene.offset == scene.body.begin || scene.code == Code::load_expected ||
                            scene.code == Code::time_expected;
    if (!number_due) return std::nullopt;
    if (rest.size() > 1 && rest[0] == '.' && is_digit(rest[1])) {
        const Span number{scene.offset,
                          number_at(scene.text, scene.offset + 1, scene.body.end).end};
        const std::string said(scene.slice(number));
        return make(Code::leading_point, number, {said}, {fix("0" + said, number, "0" + said)});
    }
    if (negative_at(scene)) {
        const std::uint32_t digits = scene.offset + (rest.starts_with('-') ? 1U : 3U);
        const Span number{scene.offset, number_at(scene.text, digits, scene.body.end).end};
        const Code code =
            scene.code == Code::load_expected ? Code::load_negative : Code::amount_negative;
        return make(code, number, {std::string(scene.slice(number))});
    }
    return std::nullopt;
}

}  // namespace

Span token_at(std::string_view text, std::uint32_t offset, std::uint32_t end) {
    if (offset >= end) return {end, end};
    std::uint32_t i = offset;
    if (is_letter(text[i])) {
        while (i < end &&
               (is_letter(text[i]) || is_digit(text[i]) || text[i] == '-' || text[i] == '\''))
            ++i;
    } else if (is_digit(text[i])) {
        while (i < end &&
               (is_digit(text[i]) || is_letter(text[i]) || text[i] == '.' || text[i] == ':'))
            ++i;
    } else {
        ++i;
    }
    return {offset, i};
}

Diagnostic describe_body(std::string_view text, const Failure& failure, BodyKind kind, Span head,
                         Span body) {
    const Scene scene{text,
                      kind,
                      head,
                      body,
                      failure.code,
                      failure.offset,
                      token_at(text, failure.offset, body.end)};
    if (auto number = describe_number_start(scene)) return *number;
    if (kind == BodyKind::dose || kind == BodyKind::format) {
        if (auto clock = describe_clock_with_hours(scene)) return *clock;
        if (auto sign = describe_sign(scene)) return *sign;
    }
    switch (failure.code) {
        case Code::detail_expected:
            return kind == BodyKind::format ? describe_format(scene) : describe_detail(scene);
        case Code::load_expected:
        case Code::time_expected:
            if (auto word = describe_word(scene)) return *word;
            return make(failure.code, scene.token, {scene.word()});
        case Code::text_missing:
            return make(failure.code, body.empty() ? head : scene.token,
                        {std::string(text.substr(head.begin, head.size()))});
        case Code::tempo_phases: {
            const Span said = token_at(text, failure.offset, body.end);
            return make(failure.code, said, {std::string(text.substr(said.begin, said.size()))});
        }
        case Code::unit_expected: {
            const std::uint32_t first = number_begin(text, body.begin, scene.before_end());
            return make(failure.code, {first, scene.before_end()},
                        {std::string(text.substr(first, scene.before_end() - first))});
        }
        default:
            break;
    }
    switch (kind) {
        case BodyKind::format:
            return describe_format(scene);
        case BodyKind::when:
            return describe_when(scene);
        case BodyKind::kit:
            return describe_kit(scene);
        case BodyKind::dose:
            if (failure.code == Code::word_out_of_place) return describe_dose_end(scene);
            return make(failure.code, scene.token, {scene.word()});
        default:
            return make(failure.code, scene.token, {scene.word()});
    }
}

Diagnostic describe_head(std::string_view text, const Failure& failure, Span head) {
    const Span token = token_at(text, failure.offset, head.end);
    const std::string word(text.substr(token.begin, token.size()));
    if (failure.code == Code::name_missing && head.empty()) return make(Code::head_missing, head);
    return make(failure.code, token, {word});
}

Diagnostic describe_no_colon(std::string_view text, const ScannedLine& line) {
    const Span content = line.content;
    const std::string_view said = text.substr(content.begin, content.size());
    if (line.clock_colon) {
        std::uint32_t begin = *line.clock_colon;
        while (begin > content.begin && is_digit(text[begin - 1]))
            --begin;
        const Span name = trim(text, {content.begin, begin});
        if (!name.empty()) {
            const std::string mended = fmt::format("{}: {}", text.substr(name.begin, name.size()),
                                                   text.substr(begin, content.end - begin));
            const Span clock = number_at(text, begin, content.end);
            return make(Code::clock_in_head, clock,
                        {std::string(text.substr(clock.begin, clock.size())), mended},
                        {fix(mended, content, mended)});
        }
    }
    const std::size_t split = said.find_first_of(";0123456789");
    if (split == std::string_view::npos || split == 0) {
        return make(Code::no_colon, content, {fmt::format("{}: 3 x 8", said.substr(0, 40))});
    }
    const auto at = content.begin + static_cast<std::uint32_t>(split);
    const Span name = trim(text, {content.begin, at});
    const Span amount = trim(text, {at + (said[split] == ';' ? 1U : 0U), content.end});
    const std::string mended = fmt::format("{}: {}", text.substr(name.begin, name.size()),
                                           text.substr(amount.begin, amount.size()));
    return make(Code::no_colon, content, {mended}, {fix(mended, content, mended)});
}

}  // namespace stave::parse
