// What coaches say to each other and the notation says otherwise: "to failure", "3RM",
// "heavy", "on each leg", "@ easy pace".
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>

#include "compiler/parse/rules.hpp"
#include "compiler/parse/slips.hpp"
#include "grammar/lexical.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;
using grammar::BodyKind;

// "3 x to failure", "AMRAP".
std::optional<Diagnostic> find_max_in_words(const Scene& scene) {
    constexpr std::array words{"AMRAP"sv,
                               "failure"sv,
                               "to failure"sv,
                               "till failure"sv,
                               "until failure"sv,
                               "as many as possible"sv,
                               "as many reps as possible"sv};
    const bool amount_due =
        scene.code == Code::set_amount_missing || scene.offset == scene.body.begin;
    const Span said = scene.until_comma_or_load(scene.offset);
    if (!amount_due || !is_one_of(scene.slice(said), words)) return std::nullopt;
    return make(Code::max_in_words, said, {std::string(scene.slice(said))},
                {fix("max", said, "max")});
}

// Where "3 rep max", "3RM" or "3-RM" stands in the text; empty where it does not.
Span rep_max_in(const Scene& scene, Span where) {
    for (std::uint32_t i = where.begin; i < where.end; ++i) {
        const bool begins =
            is_digit(scene.text[i]) && (i == where.begin || !is_digit(scene.text[i - 1]));
        if (!begins) continue;
        const Span number = number_at(scene.text, i, where.end);
        std::uint32_t unit = number.end;
        while (unit < where.end && (scene.text[unit] == ' ' || scene.text[unit] == '-'))
            ++unit;
        for (const std::string_view word : {"RM"sv, "rep max"sv, "rep-max"sv, "reps max"sv}) {
            if (!begins_with_words(scene.slice({unit, where.end}), word)) continue;
            return {i, unit + static_cast<std::uint32_t>(word.size())};
        }
    }
    return {where.begin, where.begin};
}

// "3 rep max", "work up to a 3RM": a load stands where the amount belongs.
std::optional<Diagnostic> find_rep_max(const Scene& scene) {
    const std::string_view body = scene.slice(scene.body);
    const auto end = static_cast<std::uint32_t>(std::min(body.find_first_of(",@"), body.size()));
    const Span amount = trim(scene.text, {scene.body.begin, scene.body.begin + end});
    const Span said = rep_max_in(scene, amount);
    if (scene.offset >= amount.end || said.empty() || said.end != amount.end) return std::nullopt;
    const std::string count(scene.slice(number_at(scene.text, said.begin, said.end)));
    const std::string build = fmt::format("build to {}", count);
    const std::string at_load = fmt::format("{} @ {} rep max", count, count);
    return make(Code::rep_max_amount, amount, {std::string(scene.slice(said)), build, at_load},
                {fix(build, amount, build), fix(at_load, amount, at_load)});
}

Diagnostic make_side_on(const Scene& scene, Span said, std::string_view side) {
    const std::string mended(side);
    return make(Code::side_on, said, {std::string(scene.slice(said)), mended},
                {fix(mended, said, mended)});
}

// "3 x 10 on each leg".
std::optional<Diagnostic> find_side_behind_on(const Scene& scene) {
    if (scene.code != Code::date_expected || !ends_with_words(scene.before(), "on"))
        return std::nullopt;
    constexpr std::uint32_t on_size = 2;
    const Span on{scene.before_end() - on_size, scene.offset};
    Span side = scene.until_comma_or_load(scene.offset);
    constexpr std::string_view article = "the";
    if (begins_with_words(scene.slice(side), article))
        side =
            trim(scene.text, {side.begin + static_cast<std::uint32_t>(article.size()), side.end});
    // "on the left leg" is left.
    for (const std::string_view word : {"left"sv, "right"sv}) {
        if (begins_with_words(scene.slice(side), word))
            return make_side_on(scene, {on.begin, side.end}, word);
    }
    const std::string_view said = scene.slice(side);
    const std::string mended = fmt::format("{}{}", scene.slice({scene.body.begin, on.begin}), said);
    if (said.empty() || !reads(BodyKind::dose, mended)) return std::nullopt;
    return make_side_on(scene, {on.begin, side.end}, said);
}

// Whether one of the words is among those.
bool has_word(std::string_view text, std::span<const std::string_view> words) {
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find(' ', begin), text.size());
        if (is_one_of(text.substr(begin, end - begin), words)) return true;
        begin = end + 1;
    }
    return false;
}

// How something is done, which is for the athlete to read.
bool tells_manner(std::string_view text) {
    constexpr std::array manners{"easy"sv,           "hard"sv,        "fast"sv,     "slow"sv,
                                 "slowly"sv,         "steady"sv,      "quick"sv,    "quickly"sv,
                                 "strict"sv,         "controlled"sv,  "smooth"sv,   "relaxed"sv,
                                 "explosive"sv,      "explosively"sv, "unbroken"sv, "comfortable"sv,
                                 "conversational"sv, "recovery"sv,    "gentle"sv};
    return has_word(text, manners);
}

// Behind @ these ask for a weight.
bool tells_weight(std::string_view text) {
    constexpr std::array weights{"heavy"sv, "light"sv, "moderate"sv, "medium"sv};
    return has_word(text, weights);
}

// "3 x 5 heavy", "3 x 5 (heavy)", "20 min easy pace".
std::optional<Diagnostic> find_manner(const Scene& scene) {
    if (scene.code != Code::word_out_of_place || scene.before().empty()) return std::nullopt;
    const Span said = scene.until_comma_or_load(scene.offset);
    Span words = said;
    const bool in_brackets = scene.slice(said).starts_with('(') && scene.slice(said).ends_with(')');
    if (in_brackets) words = trim(scene.text, {said.begin + 1, said.end - 1});
    const std::string_view text = scene.slice(words);
    if (!is_words(text) || (!tells_manner(text) && !tells_weight(text))) return std::nullopt;
    return make(Code::manner_in_amount, said, {std::string(text)},
                {move_to_note(scene, {scene.before_end(), said.end}, text)});
}

// "5 km @ easy pace".
std::optional<Diagnostic> find_manner_for_load(const Scene& scene) {
    if (scene.code != Code::load_expected || !scene.before().ends_with('@')) return std::nullopt;
    const Span said = scene.until_comma_or_load(scene.offset);
    const std::string_view text = scene.slice(said);
    if (!is_words(text) || !tells_manner(text)) return std::nullopt;
    const std::uint32_t amount_end =
        trim(scene.text, {scene.body.begin, scene.before_end() - 1}).end;
    return make(Code::manner_for_load, said, {std::string(text)},
                {move_to_note(scene, {amount_end, said.end}, text)});
}

// "hold 2 to 3 s": a detail with one time.
std::optional<Diagnostic> find_range_in_detail(const Scene& scene) {
    const std::uint32_t begin = scene.detail_begin();
    const std::string_view said = scene.slice({begin, scene.body.end});
    const bool joint = begins_with_words(scene.rest(), "to") || scene.rest().starts_with('-') ||
                       scene.rest().starts_with("\u2013");
    const bool one_time = begins_with_words(said, "hold") || begins_with_words(said, "pause");
    if (!joint || !one_time || scene.code != Code::word_out_of_place) return std::nullopt;
    const Span low = trim(scene.text, {figures_before(scene.text, begin, scene.before_end()).begin,
                                       scene.before_end()});
    const std::size_t gap = scene.rest().find_first_of("0123456789");
    if (low.empty() || gap == std::string_view::npos) return std::nullopt;
    const Measured most =
        measured_at(scene.text, scene.offset + static_cast<std::uint32_t>(gap), scene.body.end);
    if (most.unit.empty()) return std::nullopt;
    const Span range{low.begin, most.whole().end};
    const std::string upper(scene.slice(most.whole()));
    const std::string lower = fmt::format("{} {}", scene.slice(low), scene.slice(most.unit));
    return make(Code::one_time, range, {std::string(scene.slice(range)), upper},
                {fix(upper, range, upper), fix(lower, range, lower)});
}

// "30 s each side 10 s rest": a rest without its comma.
std::optional<Diagnostic> find_rest_behind_amount(const Scene& scene) {
    if (scene.code != Code::word_out_of_place || scene.before().empty()) return std::nullopt;
    const Span said = scene.until_comma_or_load(scene.offset);
    const Measured time = measured_at(scene.text, said.begin, said.end);
    const std::string_view behind = scene.slice(trim(scene.text, {time.whole().end, said.end}));
    const bool is_rest =
        unit_dimension(scene.slice(time.unit)) == "time" && grammar::same_word(behind, "rest");
    if (!is_rest) return std::nullopt;
    const std::string mended = fmt::format("rest {}", scene.slice(time.whole()));
    return make(Code::rest_first, said, {mended},
                {fix(", " + mended, {scene.before_end(), said.end}, ", " + mended)});
}

// "load rises each round".
std::optional<Diagnostic> find_words_behind_change(const Scene& scene) {
    const bool is_change = ends_with_words(scene.before(), "load rises") ||
                           ends_with_words(scene.before(), "load falls");
    const Span said = scene.until_comma_or_load(scene.offset);
    if (!is_change || said.empty() || !is_words(scene.slice(said))) return std::nullopt;
    return make(Code::load_change_alone, said, {std::string(scene.slice(said))},
                {fix("delete it", {scene.before_end(), said.end}, "")});
}

// "in 4 s out 6 s", "in 4 s, out 6 s": led by the breath.
std::optional<Diagnostic> find_breath(const Scene& scene) {
    const std::uint32_t begin = scene.detail_begin();
    const std::string said(scene.slice({begin, scene.body.end}));
    const std::size_t out = said.find("out ");
    const bool is_breath = scene.code == Code::detail_expected && begins_with_words(said, "in") &&
                           out != std::string::npos && out > 0;
    if (!is_breath) return std::nullopt;
    const Span in = trim(scene.text, {begin, begin + static_cast<std::uint32_t>(out)});
    std::string_view first = scene.slice(in);
    first.remove_suffix(comma_size_before(first));
    first = first.substr(0, first.find_last_not_of(' ') + 1);
    const std::string mended = fmt::format("breath {}, {}", first, said.substr(out));
    if (!reads(BodyKind::dose, fmt::format("8, {}", mended))) return std::nullopt;
    const Span place{begin, scene.body.end};
    return make(Code::detail_misspelt, place, {said, mended}, {fix(mended, place, mended)});
}

// "500 m @ 120 W, in 1:50": the time to do it in follows the amount.
std::optional<Diagnostic> find_late_time(const Scene& scene) {
    const std::optional<Span> comma = scene.comma();
    if (scene.code != Code::detail_expected || !comma) return std::nullopt;
    const std::uint32_t begin = scene.detail_begin();
    const std::string_view behind = scene.slice({begin, scene.body.end});
    const auto size = static_cast<std::uint32_t>(up_to_comma(behind).size());
    const Span detail = trim(scene.text, {begin, begin + size});
    if (!begins_with_words(scene.slice(detail), "in")) return std::nullopt;
    const std::string_view before = scene.slice({scene.body.begin, comma->begin});
    const auto amount_size =
        static_cast<std::uint32_t>(std::min(before.find('@'), up_to_comma(before).size()));
    const Span amount = trim(scene.text, {scene.body.begin, scene.body.begin + amount_size});
    const std::string mended = fmt::format("{} {}", scene.slice(amount), scene.slice(detail));
    if (!reads(BodyKind::dose, mended)) return std::nullopt;
    return make(Code::time_late, detail, {std::string(scene.slice(detail)), mended},
                {{mended,
                  {Edit{{amount.end, amount.end}, " " + std::string(scene.slice(detail))},
                   Edit{{comma->begin, detail.end}, ""}}}});
}

}  // namespace

std::optional<Diagnostic> find_plain_words(const Scene& scene) {
    if (scene.kind != BodyKind::dose) return std::nullopt;
    for (const auto find : {find_max_in_words, find_rep_max, find_side_behind_on, find_manner,
                            find_manner_for_load, find_range_in_detail, find_rest_behind_amount,
                            find_words_behind_change, find_breath, find_late_time}) {
        if (auto slip = find(scene)) return slip;
    }
    return std::nullopt;
}

}  // namespace stave::parse
