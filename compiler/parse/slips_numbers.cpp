#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

#include "compiler/parse/slips.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;

std::string joined(std::string_view first, std::string_view sign, std::string_view second) {
    return fmt::format("{}{}{}", first, sign, second);
}

// Of digits alone.
bool rises(std::string_view left, std::string_view right) {
    return left.size() < right.size() || (left.size() == right.size() && left < right);
}

// "12,10" is two values where counts stand, "2,5 kg" a decimal, "1,200 m" a thousand.
Diagnostic make_decimal_comma(const Scene& scene, Span all, std::uint32_t comma) {
    const std::string_view left = scene.slice({all.begin, comma});
    const std::string_view right = scene.slice({comma + 1, all.end});
    const std::string decimal = joined(left, ".", right);
    const std::string list = joined(left, rises(left, right) ? " then " : "-", right);
    const std::string whole = joined(left, "", right);
    const std::string_view unit =
        scene.slice(measured_at(scene.text, comma + 1, scene.body.end).unit);
    const std::string_view dimension = unit_dimension(unit);
    const bool counted = dimension.empty() || dimension == "count";
    const bool in_load = scene.slice({scene.body.begin, all.begin}).contains('@');
    constexpr std::size_t thousand_digits = 3;
    const bool thousand = right.size() == thousand_digits && left != "0";
    // 1,250 could be 1.25; a decimal that ends in 0 would be asked about again.
    std::string shorter = decimal;
    while (shorter.ends_with('0'))
        shorter.pop_back();
    std::array readings{decimal, list};
    if (counted && !in_load) readings = {list, decimal};
    // No load is counted in thousands.
    if (thousand) readings = in_load ? std::array{shorter, whole} : std::array{whole, shorter};
    const auto& [first, second] = readings;
    return make(Code::decimal_comma, all, {std::string(scene.slice(all)), first, second},
                {fix(first, all, first), fix(second, all, second)});
}

// A date, a thousand with a blank inside, a load without its @, or sets without x.
std::vector<Fix> joints(const Scene& scene, Span first, Span number) {
    const Span gap{scene.before_end(), number.begin};
    const std::string_view left = scene.slice(first);
    const std::string_view right = scene.slice(number);
    const std::string_view dimension =
        unit_dimension(scene.slice(measured_at(scene.text, number.begin, scene.body.end).unit));
    constexpr std::size_t thousand_digits = 3;
    std::vector<Fix> fixes;
    const bool plain = std::ranges::all_of(left, is_digit) && std::ranges::all_of(right, is_digit);
    if (first.empty()) return fixes;
    const Span third = trim(scene.text, {number.end, scene.body.end});
    if (plain && !third.empty() && is_digit(scene.text[third.begin])) {
        fixes.push_back(fix(joined(left, "-", right), gap, "-"));
        Edit next{{number.end, third.begin}, "-"};
        for (Span at = third; !at.empty() && is_digit(scene.text[at.begin]);) {
            fixes.front().edits.push_back(next);
            const Span one = number_at(scene.text, at.begin, at.end);
            at = trim(scene.text, {one.end, scene.body.end});
            next = {{one.end, at.begin}, "-"};
        }
    } else if (plain && right.size() == thousand_digits && left.size() <= thousand_digits) {
        fixes = {fix(joined(left, "", right), gap, ""),
                 fix(joined(left, " x ", right), gap, " x ")};
    } else if (dimension == "mass" || dimension == "share") {
        if (!scene.before().contains('@')) {
            fixes.push_back(fix(fmt::format("@ {}", right), gap, " @ "));
        }
    } else if (plain && first.begin == scene.body.begin) {
        const std::string joint = rises(left, right) ? " to " : "-";
        fixes = {fix(joined(left, " x ", right), gap, " x "),
                 fix(joined(left, joint, right), gap, joint)};
    }
    return fixes;
}

// "2026-11-02" where no date is due.
std::optional<Diagnostic> find_bare_date(const Scene& scene) {
    constexpr std::size_t size = 10;
    constexpr std::string_view shape = "dddd-dd-dd";
    const std::string_view said = scene.rest().substr(0, size);
    const bool date = said.size() == size && std::ranges::equal(said, shape, [](char a, char b) {
                          return b == 'd' ? is_digit(a) : a == b;
                      });
    if (!date) return std::nullopt;
    const std::string mended = fmt::format("on {}", said);
    const Span span{scene.offset, scene.offset + static_cast<std::uint32_t>(size)};
    return make(Code::date_on, span, {std::string(said)},
                {fix(mended, {scene.before_end(), span.begin}, " on ")});
}

std::optional<Diagnostic> find_negative(const Scene& scene) {
    const std::string_view rest = scene.rest();
    const std::size_t dash = rest.starts_with('-') ? 1 : rest.starts_with("\u2212") ? 3 : 0;
    if (dash == 0 || dash >= rest.size() || !is_digit(rest[dash])) return std::nullopt;
    const auto digits = scene.offset + static_cast<std::uint32_t>(dash);
    const Span number{scene.offset, number_at(scene.text, digits, scene.body.end).end};
    const std::string said(scene.slice(number));
    if (scene.code != Code::load_expected) {
        return make(Code::amount_negative, number, {said},
                    {fix("no minus", {scene.offset, digits}, "")});
    }
    const Measured help = measured_at(scene.text, digits, scene.body.end);
    const Fix positive = fix("no minus", {scene.offset, digits}, "");
    if (unit_dimension(scene.slice(help.unit)) != "mass") {
        return make(Code::load_negative, number,
                    {said, std::string(scene.slice({digits, help.whole().end}))}, {positive});
    }
    const std::string mended = fmt::format("bodyweight minus {}", scene.slice(help.whole()));
    return make(Code::load_negative, number, {said, mended + ", or band NAME helping"},
                {fix(mended, {scene.offset, help.whole().end}, mended), positive});
}

}  // namespace

// "10, 2 min": a time that does not say what it is.
static Diagnostic make_time_alone(const Scene& scene, Span time) {
    const std::string said(scene.slice(time));
    const Span here{time.begin, time.begin};
    return make(Code::time_alone, time, {said},
                {fix("rest " + said, here, "rest "), fix("hold " + said, here, "hold ")});
}

// Whether what stands before the first number says that it is one of so many sets.
static bool is_behind_times(const Scene& scene, std::uint32_t first) {
    const Span before = trim(scene.text, {scene.body.begin, first});
    return !before.empty() && grammar::to_lower(scene.text[before.end - 1]) == 'x';
}

std::optional<Diagnostic> find_comma_between_numbers(const Scene& scene) {
    const std::uint32_t second = scene.detail_begin();
    if (second >= scene.body.end || !is_digit(scene.text[second])) return std::nullopt;
    const std::optional<Span> comma = scene.comma();
    if (!comma) return std::nullopt;
    const Span left_part = trim(scene.text, {scene.body.begin, comma->begin});
    if (left_part.empty() || !is_digit(scene.text[left_part.end - 1])) return std::nullopt;
    const std::uint32_t first = number_begin(scene.text, scene.body.begin, left_part.end);
    Span all{first, number_at(scene.text, second, scene.body.end).end};
    const std::string_view behind = scene.slice({all.end, scene.body.end});
    const bool third = behind.size() > 1 && behind.front() == ',' && is_digit(behind[1]);
    const bool touching =
        comma->end == second && left_part.end == comma->begin && comma->size() == 1;
    if (touching && !third) {
        return make_decimal_comma(scene, all, comma->begin);
    }
    // Take in every further number of the list.
    for (std::uint32_t i = all.end; i < scene.body.end;) {
        const Span gap = trim(scene.text, {i, scene.body.end});
        const std::uint32_t size = comma_size_at(scene.slice(gap));
        if (size == 0) break;
        const Span next = trim(scene.text, {gap.begin + size, scene.body.end});
        if (next.empty() || !is_digit(scene.text[next.begin])) break;
        all.end = i = number_at(scene.text, next.begin, scene.body.end).end;
    }
    const std::string_view values = scene.slice(all);
    // "10, 3 s" is no list of tens and threes: only three values, or two bare ones, are.
    std::string_view others = values.substr(up_to_comma(values).size());
    others.remove_prefix(comma_size_at(others));
    if (!has_comma(others)) {
        const Measured last = measured_at(scene.text, second, scene.body.end);
        if (unit_dimension(scene.slice(last.unit)) == "time") {
            return make_time_alone(scene, last.whole());
        }
        const std::string_view after = scene.slice(trim(scene.text, {all.end, scene.body.end}));
        const bool is_bare = after.empty() || after.front() == '@' || comma_size_at(after) > 0;
        if (!is_bare || is_behind_times(scene, first)) return std::nullopt;
    }
    std::string list;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const char c = values[i];
        if (comma_size_at(values.substr(i)) > 0) list += '-';
        if (is_digit(c) || c == '.' || c == ':') list += c;
    }
    return make(Code::comma_list, all, {list}, {fix(list, all, list)});
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
    constexpr std::array units{"h"sv, "min"sv, "s"sv};
    std::vector<std::string> parts;
    std::string_view left = scene.slice(all);
    for (const std::string_view unit : units) {
        std::string_view part = left.substr(0, left.find(':'));
        left.remove_prefix(std::min(part.size() + 1, left.size()));
        while (part.size() > 1 && part.front() == '0')
            part.remove_prefix(1);
        // No hours are not said.
        if (part != "0" || !parts.empty()) parts.push_back(fmt::format("{} {}", part, unit));
    }
    while (!parts.empty() && parts.back().starts_with("0 "))
        parts.pop_back();
    const std::string spoken = fmt::format("{}", fmt::join(parts, " "));
    return make(Code::clock_hours, all, {std::string(scene.slice(all)), spoken},
                {fix(spoken, all, spoken)});
}

std::optional<Diagnostic> find_second_number(const Scene& scene) {
    if (scene.rest().empty() || !is_digit(scene.rest().front())) return std::nullopt;
    if (auto date = find_bare_date(scene)) return date;
    const Span number = number_at(scene.text, scene.offset, scene.body.end);
    const Span first{number_begin(scene.text, scene.body.begin, scene.before_end()),
                     scene.before_end()};
    const std::string said(first.empty() ? scene.before() : scene.slice(first));
    return make(Code::two_numbers, number, {said, std::string(scene.slice(number))},
                joints(scene, first, number));
}

std::optional<Diagnostic> find_unclear_number(const Scene& scene) {
    const std::string_view rest = scene.rest();
    constexpr std::array due{Code::load_expected,      Code::time_expected,  Code::number_expected,
                             Code::set_amount_missing, Code::angle_expected, Code::week_expected};
    const bool number_due =
        scene.offset == scene.body.begin || std::ranges::find(due, scene.code) != due.end();
    if (!number_due) return std::nullopt;
    if (rest.size() > 1 && rest[0] == '.' && is_digit(rest[1])) {
        const Span number{scene.offset,
                          number_at(scene.text, scene.offset + 1, scene.body.end).end};
        const std::string said(scene.slice(number));
        return make(Code::leading_point, number, {said}, {fix("0" + said, number, "0" + said)});
    }
    if (const std::string_view figures = number_word(scene.slice(scene.token)); !figures.empty()) {
        const std::string mended(figures);
        return make(Code::number_in_words, scene.token, {scene.word(), mended},
                    {fix(mended, scene.token, mended)});
    }
    return find_negative(scene);
}

}  // namespace stave::parse
