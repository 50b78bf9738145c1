#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compiler/parse/slips.hpp"
#include "grammar/lexical.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;

// "10/8/6": three values or more are a list.
std::optional<Diagnostic> find_slashed_list(const Scene& scene) {
    const auto is_figure = [](char c) { return is_digit(c) || c == '.'; };
    std::uint32_t begin = scene.offset;
    while (begin > scene.body.begin &&
           (is_figure(scene.text[begin - 1]) || scene.text[begin - 1] == '/'))
        --begin;
    std::uint32_t end = scene.offset;
    while (end < scene.body.end && (is_figure(scene.text[end]) || scene.text[end] == '/'))
        ++end;
    const Span all{begin, end};
    std::string list(scene.slice(all));
    if (std::ranges::count(list, '/') < 2 || list.contains("//") || !is_digit(list.front()) ||
        !is_digit(list.back())) {
        return std::nullopt;
    }
    std::ranges::replace(list, '/', '-');
    return make(Code::slash_list, all, {list}, {fix(list, all, list)});
}

// "8/side", "12 km/h", "5:00/km": each or per.
std::optional<Diagnostic> find_slash(const Scene& scene) {
    if (!scene.rest().starts_with('/')) return std::nullopt;
    if (auto list = find_slashed_list(scene)) return list;
    const Span word = token_at(scene.text, scene.offset + 1, scene.body.end);
    const std::string_view behind = scene.slice(word);
    std::uint32_t number = scene.offset;
    while (number > scene.body.begin && scene.text[number - 1] != ' ')
        --number;
    Diagnostic result = make(Code::slash, {scene.offset, scene.offset + 1},
                             {std::string(scene.slice({number, word.end}))});
    const bool side = grammar::contains_word(grammar::side_words, behind);
    if (side || !unit_dimension(behind).empty()) {
        const std::string mended = fmt::format("{} {}", side ? "each" : "per", behind);
        result.fixes.push_back(fix(mended, {scene.offset, word.end}, " " + mended));
    }
    return result;
}

struct Prime {
    std::string_view sign;
    bool twice;
};

// 30" and 2': seconds and minutes, but inches and feet of a height.
std::optional<Diagnostic> find_prime(const Scene& scene) {
    constexpr std::array primes{
        Prime{"\"", true}, Prime{"\u2033", true},  Prime{"\u201D", true}, Prime{"''", true},
        Prime{"'", false}, Prime{"\u2032", false}, Prime{"\u2019", false}};
    const auto* const prime = std::ranges::find_if(
        primes, [&](const Prime& one) { return scene.rest().starts_with(one.sign); });
    if (prime == primes.end()) return std::nullopt;
    const Span sign{scene.offset, scene.offset + static_cast<std::uint32_t>(prime->sign.size())};
    Diagnostic result = make(Code::prime, sign, {std::string(prime->sign)});
    const std::string_view before = scene.before();
    if (before.empty() || !is_digit(before.back())) return result;
    // 2'30" is a time of both.
    const Span seconds = number_at(scene.text, sign.end, scene.body.end);
    if (!seconds.empty()) {
        const std::string_view behind = scene.slice({seconds.end, scene.body.end});
        const auto* const second = std::ranges::find_if(primes, [behind](const Prime& one) {
            return one.twice && behind.starts_with(one.sign);
        });
        if (second == primes.end() || prime->twice) return result;
        const auto end = seconds.end + static_cast<std::uint32_t>(second->sign.size());
        const std::string clock = fmt::format(":{:0>2}", scene.slice(seconds));
        result.fixes.push_back(fix(clock, {sign.begin, end}, clock));
        return result;
    }
    const std::string_view detail = scene.slice({scene.detail_begin(), scene.offset});
    const bool height = begins_with_words(detail, "from") || begins_with_words(detail, "over");
    std::array units = prime->twice ? std::array{"s"sv, "inch"sv} : std::array{"min"sv, "ft"sv};
    if (height) std::ranges::reverse(units);
    for (const std::string_view unit : units) {
        result.fixes.push_back(fix(std::string(unit), sign, fmt::format(" {}", unit)));
    }
    return result;
}

// "135#" are pounds, "60 kg #heavy" is a remark.
Diagnostic make_hash(const Scene& scene) {
    const Span sign{scene.offset, scene.offset + 1};
    const std::string number(scene.slice(
        {number_begin(scene.text, scene.body.begin, scene.before_end()), scene.before_end()}));
    const bool ends = sign.end == scene.body.end || scene.text[sign.end] == ' ';
    if (!number.empty() && ends && scene.before_end() == sign.begin) {
        return make(Code::pound_sign, sign, {number}, {fix("lb", sign, " lb")});
    }
    const std::string spaced = scene.text[sign.begin - 1] == ' ' ? "# " : " # ";
    return make(Code::remark_space, sign, {}, {fix(spaced, sign, spaced)});
}

// "4 x 1 + 1": the sets belong to both, so brackets hold them.
Diagnostic make_plus(const Scene& scene) {
    const Span amount = trim(scene.text, {scene.body.begin, scene.offset});
    const std::string_view said = scene.slice(amount);
    const std::size_t times = said.find_first_of("xX");
    if (said.contains(" then ")) return make(Code::then_and_plus, scene.body);
    if (times == std::string_view::npos) return make(Code::word_out_of_place, scene.token, {"+"});
    std::string_view rest = scene.rest();
    rest = rest.substr(0, rest.find_first_of(",@"));
    const Span joined =
        trim(scene.text, {amount.begin, scene.offset + static_cast<std::uint32_t>(rest.size())});
    const auto inner =
        trim(scene.text, {amount.begin + static_cast<std::uint32_t>(times) + 1, joined.end});
    const std::string mended =
        fmt::format("{}({})", scene.slice({joined.begin, inner.begin}), scene.slice(inner));
    return make(Code::plus_after_sets, joined, {mended}, {fix(mended, joined, mended)});
}

// Weights are added with and; what is shifted takes plus.
Diagnostic make_load_plus(const Scene& scene, Span sign) {
    const std::string_view before = scene.before();
    const bool shifted = ends_with_words(before, "bodyweight") || ends_with_words(before, "BW") ||
                         ends_with_words(before, "last time") || ends_with_words(before, "pace") ||
                         before.ends_with('%');
    const std::string word = shifted ? "plus" : "and";
    const Span behind = trim(scene.text, {sign.end, scene.body.end});
    if (before.ends_with('@')) {
        // "+5 %" than last time, which only the coach knows.
        if (scene.slice(behind).contains('%'))
            return make(Code::load_change, {sign.begin, behind.end}, {});
        const std::string more = "bodyweight plus";
        return make(Code::load_joined_by_plus, sign, {more},
                    {fix(more, {sign.begin, behind.begin}, more + " "),
                     fix("no +", {sign.begin, behind.begin}, "")});
    }
    return make(Code::load_joined_by_plus, sign, {word},
                {fix(word, {scene.before_end(), behind.begin}, fmt::format(" {} ", word))});
}

std::optional<Diagnostic> find_plus(const Scene& scene, Span sign) {
    const std::string_view before = scene.before();
    if (scene.ends_with_comma()) return std::nullopt;
    if (before.contains('@')) return make_load_plus(scene, sign);
    return make_plus(scene);
}

// Bytes of the dash that the text begins with; 0 for none.
std::uint32_t dash_size_at(std::string_view text) {
    constexpr std::array dashes{"-"sv, "\u2013"sv, "\u2212"sv};
    const auto* const dash = std::ranges::find_if(
        dashes, [text](std::string_view one) { return text.starts_with(one); });
    return dash == dashes.end() ? 0 : static_cast<std::uint32_t>(dash->size());
}

// "rest 60-90 s", "arc 0-90 deg": the ends of a range. More values are none.
std::optional<Diagnostic> find_dash_in_range(const Scene& scene) {
    constexpr std::array ranges{"rest"sv, "about"sv, "arc"sv};
    const Span detail = trim(scene.text, {scene.detail_begin(), scene.offset});
    const std::string_view said = scene.slice(detail);
    const bool ranged = scene.kind == grammar::BodyKind::rest_line ||
                        std::ranges::any_of(ranges, [said](std::string_view word) {
                            return begins_with_words(said, word);
                        });
    if (!ranged || said.empty() || !is_digit(said.back()) || dash_size_at(scene.rest()) == 0)
        return std::nullopt;
    const std::uint32_t first = number_begin(scene.text, detail.begin, detail.end);
    std::vector<std::string_view> numbers{scene.slice({first, detail.end})};
    Measured last;
    Span behind{scene.offset, scene.body.end};
    while (const std::uint32_t dash = dash_size_at(scene.slice(behind))) {
        const std::uint32_t next = trim(scene.text, {behind.begin + dash, behind.end}).begin;
        last = measured_at(scene.text, next, scene.body.end);
        if (last.number.empty()) return std::nullopt;
        numbers.push_back(scene.slice(last.number));
        behind = trim(scene.text, {last.number.end, scene.body.end});
    }
    const Span all{first, last.whole().end};
    const std::string unit = last.unit.empty() ? "" : fmt::format(" {}", scene.slice(last.unit));
    if (numbers.size() > 2) return make(Code::one_range, all, {std::string(scene.slice(all))});
    const std::string mended = fmt::format("{} to {}{}", numbers[0], numbers[1], unit);
    return make(Code::range_dash, all, {mended}, {fix(mended, all, mended)});
}

}  // namespace

std::optional<Diagnostic> find_stray_sign(const Scene& scene) {
    if (auto slash = find_slash(scene)) return slash;
    if (auto prime = find_prime(scene)) return prime;
    if (auto dash = find_dash_in_range(scene)) return dash;
    if (scene.rest().empty()) return std::nullopt;
    constexpr std::string_view em_dash = "\u2014";
    if (scene.rest().starts_with(em_dash)) {
        const Span span{scene.offset, scene.offset + static_cast<std::uint32_t>(em_dash.size())};
        return make(Code::word_out_of_place, span, {std::string(em_dash)}, {fix("-", span, "-")});
    }
    const Span sign{scene.offset, scene.offset + 1};
    const bool last = scene.offset + 1 == scene.body.end;
    switch (scene.rest().front()) {
        case '#':
            return make_hash(scene);
        case ';':
            return make(Code::semicolon, sign, {}, {fix(",", sign, ",")});
        case '.':
            if (!last) return std::nullopt;
            return make(Code::full_stop, sign, {}, {fix("delete the full stop", sign, "")});
        case '@':
            return find_stray_at(scene);
        case '+':
            return find_plus(scene, sign);
        case ')':
            if (scene.code != Code::word_out_of_place) return std::nullopt;
            return make(Code::group_stray, sign, {}, {fix("delete the bracket", sign, "")});
        case '!':
            return make(Code::word_out_of_place, sign, {"!"});
        default:
            return std::nullopt;
    }
}

}  // namespace stave::parse
