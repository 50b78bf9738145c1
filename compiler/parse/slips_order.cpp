// What stands in another order than the notation has it: "3 x 5 RPE 8 @ 80 kg",
// "each leg 12", "4 s hold", and what is half said beside it.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compiler/parse/rules.hpp"
#include "compiler/parse/slips.hpp"
#include "grammar/lexical.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;
using grammar::BodyKind;

// "RIR 2" as it is written here, other scales as they stand.
std::string effort_of(std::string_view said) {
    constexpr std::string_view reserve = "RIR";
    if (!begins_with_words(said, reserve)) return std::string(said);
    std::string_view number = said.substr(reserve.size());
    while (number.starts_with(' '))
        number.remove_prefix(1);
    return fmt::format("{} in reserve", number);
}

// "3 x 5 RPE 8", "5 RIR 2 @ 80 kg": an effort right behind the amount.
std::optional<Diagnostic> find_effort_behind_amount(const Scene& scene) {
    const std::string_view before = scene.before();
    if (before.empty() || before.find_first_of(",@") != std::string_view::npos) return std::nullopt;
    constexpr std::array scales{"RPE"sv, "RIR"sv, "zone"sv, "heart rate"sv};
    const auto* const scale = std::ranges::find_if(scales, [&](std::string_view one) {
        const bool named = begins_with_words(scene.rest(), one);
        return named && (is_digit(before.back()) || is_letter(before.back()));
    });
    if (scale == scales.end()) return std::nullopt;
    const Span said = scene.until_comma_or_load(scene.offset);
    if (grammar::same_word(scene.slice(said), *scale))
        return make(Code::effort_number, {said.end, said.end});
    const Span load = trim(scene.text, {said.end, scene.until_comma(said.end).end});
    const std::string effort = effort_of(scene.slice(said));
    const bool loaded = scene.slice(load).starts_with('@');
    const std::string behind =
        loaded ? fmt::format(" {}, {}", scene.slice(load), effort) : fmt::format(" @ {}", effort);
    const Span replaced{scene.before_end(), loaded ? load.end : said.end};
    const std::string mended =
        fmt::format("{}{}{}", before, behind, scene.slice({replaced.end, scene.body.end}));
    if (!reads(BodyKind::dose, mended)) return std::nullopt;
    return make(Code::effort_place, said, {std::string(scene.slice(said)), mended},
                {fix(mended, replaced, behind)});
}

// The side that the place begins with, "each leg" or "left"; empty for none.
Span side_at(const Scene& scene, std::uint32_t begin) {
    const Span first = token_at(scene.text, begin, scene.body.end);
    for (const std::string_view alone : {"left"sv, "right"sv, "alternating"sv}) {
        if (grammar::same_word(scene.slice(first), alone)) return first;
    }
    const bool each = grammar::same_word(scene.slice(first), "each") ||
                      grammar::same_word(scene.slice(first), "per");
    const Span next =
        token_at(scene.text, trim(scene.text, {first.end, scene.body.end}).begin, scene.body.end);
    const bool is_side = each && grammar::find_side_word(scene.slice(next)).has_value();
    return is_side ? cover(first, next) : Span{begin, begin};
}

// "each leg 12", "3 x each leg 12", "each arm @ 12 kg".
std::optional<Diagnostic> find_early_side(const Scene& scene) {
    const bool behind_times = scene.code == Code::set_amount_missing;
    if (!behind_times && scene.offset != scene.body.begin) return std::nullopt;
    const Span side = side_at(scene, scene.offset);
    if (side.empty()) return std::nullopt;
    const Span amount = scene.until_comma_or_load(side.end);
    const std::string said(scene.slice(side));
    if (amount.empty()) {
        if (behind_times) return std::nullopt;
        return make(Code::side_alone, side,
                    {said, fmt::format("8 {}", scene.slice({side.begin, scene.body.end}))});
    }
    const std::string turned = fmt::format("{} {}", scene.slice(amount), said);
    const std::string mended = fmt::format("{}{}{}", scene.slice({scene.body.begin, side.begin}),
                                           turned, scene.slice({amount.end, scene.body.end}));
    if (!reads(BodyKind::dose, mended)) return std::nullopt;
    return make(Code::side_early, side, {said, mended},
                {fix(mended, {side.begin, amount.end}, turned)});
}

// "4 s hold", "1 s pause below the knee" behind a comma.
std::optional<Diagnostic> find_hold_behind_time(const Scene& scene) {
    if (!scene.comma()) return std::nullopt;
    const Span detail = scene.until_comma(scene.detail_begin());
    const Measured time = measured_at(scene.text, detail.begin, detail.end);
    if (time.unit.empty()) return std::nullopt;
    const Span behind = trim(scene.text, {time.unit.end, detail.end});
    for (const std::string_view word : {"hold"sv, "pause"sv}) {
        if (!begins_with_words(scene.slice(behind), word)) continue;
        const std::string mended = fmt::format("{} {}{}", word, scene.slice(time.whole()),
                                               scene.slice(behind).substr(word.size()));
        if (!reads(BodyKind::dose, fmt::format("8, {}", mended))) return std::nullopt;
        return make(Code::hold_first, detail, {std::string(word), mended},
                    {fix(mended, detail, mended)});
    }
    return std::nullopt;
}

// "hold for 4 s", "rest of 60 s".
std::optional<Diagnostic> find_word_before_time(const Scene& scene) {
    const std::string word = scene.word();
    const Span time = trim(scene.text, {scene.token.end, scene.body.end});
    const bool leads = grammar::same_word(word, "for") || grammar::same_word(word, "of");
    if (scene.code != Code::time_expected || !leads || time.empty() ||
        !is_digit(scene.text[time.begin])) {
        return std::nullopt;
    }
    return make(scene.code, scene.token, {word},
                {fix("no " + word, {scene.offset, time.begin}, "")});
}

// "400 m in 1:50 to 2:00".
std::optional<Diagnostic> find_range_within(const Scene& scene) {
    const std::string_view before = scene.before();
    const std::size_t in = before.rfind(" in ");
    const bool dash = scene.rest().starts_with('-') || scene.rest().starts_with("\u2013");
    if (in == std::string_view::npos || before.find_first_of(",@") != std::string_view::npos ||
        (!dash && !begins_with_words(scene.rest(), "to"))) {
        return std::nullopt;
    }
    constexpr std::uint32_t in_size = 4;
    const Span low{scene.body.begin + static_cast<std::uint32_t>(in) + in_size, scene.before_end()};
    const std::size_t digit = scene.rest().find_first_of("0123456789");
    if (digit == std::string_view::npos) return std::nullopt;
    const Measured high =
        measured_at(scene.text, scene.offset + static_cast<std::uint32_t>(digit), scene.body.end);
    const std::string upper(scene.slice(high.whole()));
    const Measured first = measured_at(scene.text, low.begin, low.end);
    std::string lower(scene.slice(low));
    if (first.unit.empty() && !high.unit.empty())
        lower += fmt::format(" {}", scene.slice(high.unit));
    const Span said{low.begin, high.whole().end};
    return make(Code::within_range, said, {std::string(scene.slice(said)), upper, lower},
                {fix(upper, said, upper), fix(lower, said, lower)});
}

// "tempo breath": how long the breath is, in and out.
std::optional<Diagnostic> find_breath_tempo(const Scene& scene) {
    if (scene.code != Code::tempo_phases || !scene.rest().starts_with("breath"))
        return std::nullopt;
    return make(Code::breath_form, scene.until_comma(scene.detail_begin()));
}

}  // namespace

std::optional<Diagnostic> find_order_slip(const Scene& scene) {
    for (const auto find : {find_effort_behind_amount, find_early_side, find_hold_behind_time,
                            find_word_before_time, find_range_within, find_breath_tempo}) {
        if (auto slip = find(scene)) return slip;
    }
    return std::nullopt;
}

}  // namespace stave::parse
