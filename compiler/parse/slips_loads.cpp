#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compiler/parse/slips.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;

bool has_load(const Scene& scene) {
    return scene.before().contains('@');
}

bool is_weight(std::string_view unit) {
    const std::string_view dimension = unit_dimension(unit);
    return dimension == "mass" || dimension == "share";
}

// "20 kg", "2 x 8 kg", "RPE 8", "bodyweight": what may stand behind an @.
bool opens_load(const Scene& scene, std::uint32_t begin) {
    const std::string_view rest = scene.slice({begin, scene.body.end});
    constexpr std::array words{"bodyweight"sv, "BW"sv,   "band"sv,       "empty bar"sv,
                               "RPE"sv,        "zone"sv, "heart rate"sv, "last time"sv};
    if (std::ranges::any_of(
            words, [rest](std::string_view word) { return begins_with_words(rest, word); })) {
        return true;
    }
    Measured one = measured_at(scene.text, begin, scene.body.end);
    const Span behind = trim(scene.text, {one.number.end, scene.body.end});
    if (begins_with_words(scene.slice(behind), "x")) {
        one = measured_at(scene.text, trim(scene.text, {behind.begin + 1, scene.body.end}).begin,
                          scene.body.end);
    }
    return is_weight(scene.slice(one.unit));
}

// "2 RIR" said the other way round; `figures` are the number or range.
std::string turned_scale(std::string_view figures, std::string_view word) {
    if (grammar::same_word(word, "RIR")) return fmt::format("{} in reserve", figures);
    if (grammar::same_word(word, "RPE")) return fmt::format("RPE {}", figures);
    if (grammar::same_word(word, "zone")) return fmt::format("zone {}", figures);
    if (grammar::same_word(word, "bpm")) return fmt::format("heart rate {}", figures);
    return "";
}

std::optional<Diagnostic> find_turned_scale(const Scene& scene) {
    const Span figures = figures_before(scene.text, scene.body.begin, scene.before_end());
    const Span word = scene.token;
    if (figures.empty() || !is_digit(scene.text[figures.begin])) return std::nullopt;
    const std::string mended = turned_scale(scene.slice(figures), scene.slice(word));
    if (mended.empty()) return std::nullopt;
    const Span said = cover(figures, word);
    return make(Code::effort_order, said, {mended}, {fix(mended, said, mended)});
}

// "75 % 1RM".
std::optional<Diagnostic> find_named_max(const Scene& scene) {
    const std::string_view before = scene.before();
    if (!before.ends_with('%') && !ends_with_words(before, "percent")) return std::nullopt;
    for (const std::string_view heart : {"max heart rate"sv, "max HR"sv, "HR max"sv}) {
        if (!begins_with_words(scene.rest(), heart)) continue;
        const Span said{scene.offset, scene.offset + static_cast<std::uint32_t>(heart.size())};
        const std::string mended = "of max heart rate";
        return make(Code::said_otherwise, said, {std::string(heart), mended},
                    {fix(mended, said, mended)});
    }
    constexpr std::array names{"1RM"sv,         "1 RM"sv, "1-RM"sv, "rep max"sv,
                               "one rep max"sv, "RM"sv,   "max"sv};
    for (const std::string_view name : names) {
        if (!begins_with_words(scene.rest(), name)) continue;
        const Span said{scene.offset, scene.offset + static_cast<std::uint32_t>(name.size())};
        return make(Code::percent_of_max, said, {std::string(scene.slice(said))},
                    {fix("delete it", {scene.before_end(), said.end}, "")});
    }
    return std::nullopt;
}

// "5 @ 80 % then 3 x 2 @ 85 %", "5 @ 80 % then max".
std::optional<Diagnostic> find_amount_behind_load(const Scene& scene) {
    const std::string_view before = scene.before();
    const std::size_t load = before.find('@');
    const std::size_t then = before.rfind(" then");
    if (load == std::string_view::npos || then == std::string_view::npos || then < load)
        return std::nullopt;
    const bool second_load = scene.rest().starts_with('@');
    const bool amount = ends_with_words(before, "then") &&
                        (begins_with_words(scene.rest(), "max") || scene.rest().starts_with('('));
    if (!second_load && !amount) return std::nullopt;
    const Span word =
        trim(scene.text, {scene.body.begin + static_cast<std::uint32_t>(then), scene.before_end()});
    constexpr std::uint32_t then_size = 4;
    const Span behind = trim(scene.text, {word.begin + then_size, scene.body.end});
    const Span gap{trim(scene.text, {scene.body.begin, word.begin}).end, behind.begin};
    const std::string_view head = scene.slice(scene.head);
    const std::string lines =
        fmt::format("{}: {} and {}: {}", head, scene.slice({scene.body.begin, gap.begin}), head,
                    scene.slice(behind));
    return make(Code::then_after_load, {word.begin, second_load ? word.end : scene.token.end},
                {lines}, {split_line(scene, gap)});
}

Diagnostic load_without_sign(const Scene& scene, Span gap, Span load) {
    const std::string said(scene.slice(load));
    const std::string mended = fmt::format("{} @ {}", scene.slice({scene.body.begin, gap.begin}),
                                           scene.slice({gap.end, scene.body.end}));
    return make(Code::at_load, load, {said, mended}, {fix(mended, gap, " @ ")});
}

// From the place to the next comma.
Span span_to_comma(const Scene& scene, std::uint32_t begin) {
    const std::string_view rest = scene.slice({begin, scene.body.end});
    const auto size = static_cast<std::uint32_t>(up_to_comma(rest).size());
    return trim(scene.text, {begin, begin + size});
}

// "8 with 20 kg", "8, 20 kg", "8, + 20 kg", "3 x 8 x 20 kg", "8 (20 kg)", "8 bodyweight".
std::optional<Diagnostic> find_load_without_sign(const Scene& scene) {
    // A number behind a comma is read on until it turns out to be no rest.
    const bool at_comma = scene.ends_with_comma() || scene.code == Code::detail_expected;
    const std::optional<Span> comma = scene.comma();
    const std::uint32_t place = at_comma ? scene.detail_begin() : scene.offset;
    if (has_load(scene) || scene.before().empty() || place >= scene.body.end) return std::nullopt;
    const std::uint32_t before = at_comma && comma ? comma->begin : scene.before_end();
    // Behind a second comma the amount is no longer near.
    if (at_comma && has_comma(scene.slice({scene.body.begin, before}))) return std::nullopt;
    const std::string_view rest = scene.slice({place, scene.body.end});
    std::uint32_t load = place;
    for (const std::string_view sign : {"+"sv, "with"sv, "at"sv, "x"sv, "\u00D7"sv, "("sv}) {
        const bool word = is_letter(sign.front());
        const bool found = word ? begins_with_words(rest, sign) : rest.starts_with(sign);
        if (!found) continue;
        const auto size = static_cast<std::uint32_t>(sign.size());
        load = trim(scene.text, {place + size, scene.body.end}).begin;
        break;
    }
    const bool bare_number = load == place && is_digit(scene.text[place]);
    if (bare_number && !at_comma) return std::nullopt;
    if (!opens_load(scene, load)) return std::nullopt;
    if (load == place && opens_detail(rest)) return std::nullopt;
    Diagnostic result = load_without_sign(scene, {before, load}, span_to_comma(scene, load));
    if (rest.starts_with('(')) {
        const std::string_view inside = scene.slice({load, scene.body.end});
        const std::size_t close = inside.find(')');
        const bool is_closed = close != std::string_view::npos;
        // A bracket that is not closed holds no more than the effort.
        if (!is_closed && has_comma(inside)) return std::nullopt;
        const auto end = load + static_cast<std::uint32_t>(is_closed ? close : inside.size());
        const std::string said(scene.slice({load, end}));
        const std::string mended =
            fmt::format("{} @ {}", scene.slice({scene.body.begin, before}), said);
        return make(
            Code::at_load, {load, end}, {said, mended},
            {{mended, {Edit{{before, load}, " @ "}, Edit{{end, is_closed ? end + 1 : end}, ""}}}});
    }
    return result;
}

// "8 @ 16 kg each leg" has its side too late, "8 @ 16 kg each" two weights in one.
std::optional<Diagnostic> find_each_behind_load(const Scene& scene) {
    const std::size_t sign = scene.before().rfind('@');
    // Behind a comma it belongs to the detail.
    if (sign == std::string_view::npos || has_comma(scene.before().substr(sign)))
        return std::nullopt;
    const std::string_view word = scene.slice(scene.token);
    const bool each = grammar::same_word(word, "each") || grammar::same_word(word, "per");
    if (!each && !grammar::same_word(word, "alternating")) return std::nullopt;
    const auto load = scene.body.begin + static_cast<std::uint32_t>(sign);
    Span said = scene.token;
    const Span next =
        token_at(scene.text, trim(scene.text, {said.end, scene.body.end}).begin, scene.body.end);
    const std::string_view side = scene.slice(next);
    const bool has_side = each && grammar::find_side_word(side).has_value();
    if (has_side) said.end = next.end;
    const std::string phrase(scene.slice(said));
    const bool one_by_one = each && (!has_side || grammar::same_word(side, "hand"));
    if (!one_by_one) {
        const std::uint32_t amount = trim(scene.text, {scene.body.begin, load}).end;
        const std::string mended = fmt::format("{} {} {}", scene.slice({scene.body.begin, amount}),
                                               phrase, scene.slice({load, scene.before_end()}));
        return make(
            Code::side_late, said, {phrase, mended},
            {{mended,
              {Edit{{amount, amount}, " " + phrase}, Edit{{scene.before_end(), said.end}, ""}}}});
    }
    const Span weight = trim(scene.text, {load + 1, scene.before_end()});
    const bool counted = scene.slice(weight).contains(" x ");
    const std::string mended =
        counted ? std::string(scene.slice(weight)) : fmt::format("2 x {}", scene.slice(weight));
    std::vector<Fix> fixes{fix(mended, cover(weight, said), mended)};
    if (!counted) fixes.push_back(fix("one weight", {scene.before_end(), said.end}, ""));
    return make(Code::load_each, said, {phrase, mended}, std::move(fixes));
}

// "bodyweight - 20 kg".
std::optional<Diagnostic> find_minus_sign(const Scene& scene) {
    const std::string_view before = scene.before();
    const bool shifted = ends_with_words(before, "bodyweight") || ends_with_words(before, "BW") ||
                         ends_with_words(before, "last time") || ends_with_words(before, "pace");
    for (const std::string_view dash : {"-"sv, "\u2212"sv, "\u2013"sv}) {
        if (!shifted || !scene.rest().starts_with(dash)) continue;
        const Span sign{scene.offset, scene.offset + static_cast<std::uint32_t>(dash.size())};
        const Span behind = trim(scene.text, {sign.end, scene.body.end});
        const std::size_t at = before.rfind('@');
        const Span base = trim(scene.text, {scene.body.begin + static_cast<std::uint32_t>(at) + 1,
                                            scene.before_end()});
        const std::string mended =
            fmt::format("{} minus {}", scene.slice(base), scene.slice(behind));
        return make(Code::load_minus, sign, {mended},
                    {fix(mended, {scene.before_end(), behind.begin}, " minus ")});
    }
    return std::nullopt;
}

}  // namespace

std::optional<Diagnostic> find_load_slip(const Scene& scene) {
    for (const auto find : {find_turned_scale, find_named_max, find_amount_behind_load,
                            find_load_without_sign, find_each_behind_load, find_minus_sign}) {
        if (auto slip = find(scene)) return slip;
    }
    return std::nullopt;
}

}  // namespace stave::parse
