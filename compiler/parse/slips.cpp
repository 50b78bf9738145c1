#include "compiler/parse/slips.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compiler/parse/classify.hpp"
#include "grammar/lexical.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;
using grammar::BodyKind;

std::optional<Diagnostic> find_slash(const Scene& scene) {
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

std::optional<Diagnostic> find_prime(const Scene& scene) {
    constexpr std::array primes{R"(")"sv, "'"sv, "\u2032"sv, "\u2033"sv, "\u201D"sv, "\u2019"sv};
    for (const std::string_view prime : primes) {
        if (!scene.rest().starts_with(prime)) continue;
        const Span span{scene.offset, scene.offset + static_cast<std::uint32_t>(prime.size())};
        return make(Code::prime, span, {std::string(prime)});
    }
    return std::nullopt;
}

Diagnostic describe_unknown_unit(const Scene& scene) {
    const std::string_view near = near_unit(scene.word());
    Diagnostic result = make(
        Code::unknown_unit, scene.token,
        {scene.word(),
         near.empty()
             ? std::string(
                   "Write the unit (reps, steps, s, min, m, kg, lb ...); a side is each side, and "
                   "other words go on a line below: note: ...")
             : fmt::format("Write {} if that is meant.", near)});
    if (!near.empty())
        result.fixes.push_back(fix(std::string(near), scene.token, std::string(near)));
    return result;
}

std::optional<Diagnostic> find_sets_in_words(const Scene& scene) {
    if (!grammar::same_word(scene.word(), "sets") && !grammar::same_word(scene.word(), "set")) {
        return std::nullopt;
    }
    const std::uint32_t first = number_begin(scene.text, scene.body.begin, scene.before_end());
    if (first == scene.before_end()) return std::nullopt;
    Span behind = trim(scene.text, {scene.token.end, scene.body.end});
    for (const std::string_view filler : {"of "sv, "x "sv}) {
        if (scene.slice(behind).starts_with(filler)) {
            behind = trim(scene.text,
                          {behind.begin + static_cast<std::uint32_t>(filler.size()), behind.end});
        }
    }
    if (behind.empty()) return make(Code::set_amount_missing, scene.token);
    const Span joint{scene.before_end(), behind.begin};
    const std::string written =
        fmt::format("{} x {}", scene.slice({first, scene.before_end()}),
                    scene.slice(token_at(scene.text, behind.begin, behind.end)));
    return make(Code::sets_of, scene.token, {written}, {fix(written, joint, " x ")});
}

bool negative_at(const Scene& scene) {
    const std::string_view rest = scene.rest();
    const std::size_t dash = rest.starts_with('-') ? 1 : rest.starts_with("\u2212") ? 3 : 0;
    return dash > 0 && dash < rest.size() && is_digit(rest[dash]);
}

// Whether the last word is a unit of time.
bool ends_with_time(std::string_view text) {
    constexpr std::array units{"s"sv,   "sec"sv,  "secs"sv,   "seconds"sv,
                               "min"sv, "mins"sv, "minutes"sv};
    std::size_t begin = text.size();
    while (begin > 0 && is_letter(text[begin - 1]))
        --begin;
    const std::string_view last = text.substr(begin);
    return std::ranges::any_of(
        units, [last](std::string_view unit) { return grammar::same_word(unit, last); });
}

// "60 s rest" for "rest 60 s".
Diagnostic make_rest_first(const Scene& scene) {
    const Span time = trim(scene.text, {scene.detail_begin(), scene.token.begin});
    const std::string mended = fmt::format("rest {}", scene.slice(time));
    return make(Code::rest_first, {time.begin, scene.token.end}, {mended},
                {fix(mended, {time.begin, scene.token.end}, mended)});
}

// "4 x 1 + 1": the sets belong to both, so brackets hold them.
Diagnostic describe_plus(const Scene& scene) {
    const Span amount = trim(scene.text, {scene.body.begin, scene.offset});
    const std::string_view said = scene.slice(amount);
    const std::size_t times = said.find_first_of("xX");
    if (times == std::string_view::npos) return make(Code::word_out_of_place, scene.token, {"+"});
    std::string_view rest = scene.slice({scene.offset, scene.body.end});
    rest = rest.substr(0, rest.find_first_of(",@"));
    const Span joined =
        trim(scene.text, {amount.begin, scene.offset + static_cast<std::uint32_t>(rest.size())});
    const auto inner =
        trim(scene.text, {amount.begin + static_cast<std::uint32_t>(times) + 1, joined.end});
    const std::string mended =
        fmt::format("{}({})", scene.slice({joined.begin, inner.begin}), scene.slice(inner));
    return make(Code::plus_after_sets, joined, {mended}, {fix(mended, joined, mended)});
}

// "circut Legs" is a misspelt block; "Legs" wants its kind before it.
std::string block_head(std::string_view head) {
    const std::string_view first = head.substr(0, head.find(' '));
    const std::string_view near = near_opener(first);
    if (near.empty()) return fmt::format("circuit {}", head);
    return fmt::format("{}{}", near, head.substr(first.size()));
}

}  // namespace

std::optional<Diagnostic> find_comma_between_numbers(const Scene& scene) {
    const std::uint32_t second = scene.detail_begin();
    if (second >= scene.body.end || !is_digit(scene.text[second])) return std::nullopt;
    const std::optional<Span> comma = scene.comma();
    if (!comma) return std::nullopt;
    const Span left_part = trim(scene.text, {scene.body.begin, comma->begin});
    if (left_part.empty() || !is_digit(scene.text[left_part.end - 1])) return std::nullopt;
    const std::uint32_t first = number_begin(scene.text, scene.body.begin, left_part.end);
    Span all{first, number_at(scene.text, second, scene.body.end).end};
    if (comma->end == second && left_part.end == comma->begin && comma->size() == 1) {
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

std::optional<Diagnostic> find_stray_sign(const Scene& scene) {
    if (auto slash = find_slash(scene)) return slash;
    if (auto prime = find_prime(scene)) return prime;
    if (scene.rest().empty()) return std::nullopt;
    constexpr std::string_view em_dash = "\u2014";
    if (scene.rest().starts_with(em_dash)) {
        const Span span{scene.offset, scene.offset + static_cast<std::uint32_t>(em_dash.size())};
        return make(Code::word_out_of_place, span, {std::string(em_dash)}, {fix("-", span, "-")});
    }
    const Span sign{scene.offset, scene.offset + 1};
    const bool last = scene.offset + 1 == scene.body.end;
    switch (scene.rest().front()) {
        case '#': {
            const std::string number(
                scene.slice({number_begin(scene.text, scene.body.begin, scene.before_end()),
                             scene.before_end()}));
            if (number.empty() || !last) {
                const std::string spaced = scene.text[sign.begin - 1] == ' ' ? "# " : " # ";
                return make(Code::remark_space, sign, {}, {fix(spaced, sign, spaced)});
            }
            return make(Code::pound_sign, sign, {number}, {fix("lb", sign, " lb")});
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
            if (scene.before().find('@') == std::string_view::npos) return describe_plus(scene);
            return make(Code::load_joined_by_plus, sign, {}, {fix("and", sign, "and")});
        case ')':
            return make(Code::group_stray, sign);
        case '!':
            return make(Code::word_out_of_place, sign, {"!"});
        default:
            return std::nullopt;
    }
}

std::optional<Diagnostic> find_clock_with_hours(const Scene& scene) {
    std::uint32_t begin = scene.offset;
    while (begin > scene.body.begin &&
           (is_digit(scene.text[begin - 1]) || scene.text[begin - 1] == ':')) {
        --begin;
    }
    const bool second_colon = scene.rest().size() > 1 && scene.rest()[0] == ':' &&
                              is_digit(scene.rest()[1]) &&
                              scene.slice({begin, scene.offset}).contains(':');
    if (!second_colon) return std::nullopt;
    const Span all{begin, number_at(scene.text, scene.offset + 1, scene.body.end).end};
    std::string spoken(scene.slice(all));
    for (const std::string_view unit : {" h "sv, " min "sv}) {
        spoken.replace(spoken.find(':'), 1, unit);
    }
    spoken += " s";
    return make(Code::clock_hours, all, {std::string(scene.slice(all)), spoken},
                {fix(spoken, all, spoken)});
}

std::optional<Diagnostic> find_second_number(const Scene& scene) {
    if (scene.rest().empty() || !is_digit(scene.rest().front())) return std::nullopt;
    const Span number = number_at(scene.text, scene.offset, scene.body.end);
    const std::uint32_t first_begin =
        number_begin(scene.text, scene.body.begin, scene.before_end());
    const std::string first(first_begin < scene.before_end()
                                ? scene.slice({first_begin, scene.before_end()})
                                : scene.before());
    return make(Code::two_numbers, number, {first, std::string(scene.slice(number))});
}

std::optional<Diagnostic> find_unclear_number(const Scene& scene) {
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

std::optional<Diagnostic> find_stray_word(const Scene& scene) {
    const std::string word = scene.word();
    if (word.empty() || !is_letter(word.front())) return std::nullopt;
    if (auto sets_of = find_sets_in_words(scene)) return sets_of;
    if (grammar::same_word(word, "rest") && ends_with_time(scene.before())) {
        return make_rest_first(scene);
    }
    if (opens_detail(scene.rest())) {
        return make(Code::comma_missing, scene.token, {word},
                    {fix(", " + word, {scene.before_end(), scene.token.begin}, ", ")});
    }
    if (scene.kind == BodyKind::dose &&
        (grammar::same_word(word, "rounds") || grammar::same_word(word, "round"))) {
        const std::string head = block_head(scene.slice(scene.head));
        return make(Code::rounds_in_movement, scene.token,
                    {std::string(scene.slice(scene.head)), head + ":"},
                    {fix(head + ":", scene.head, head)});
    }
    if (word == "to" || word == "then" || word == "by" || word == "x" || word == "X") {
        return make(Code::joined_signs, scene.token);
    }
    if (word == "kg" || word == "lb") return std::nullopt;
    const bool behind_number = scene.offset > scene.body.begin &&
                               is_digit(scene.text[scene.before_end() - 1]) &&
                               scene.kind == BodyKind::dose;
    if (behind_number) return describe_unknown_unit(scene);
    return std::nullopt;
}

}  // namespace stave::parse
