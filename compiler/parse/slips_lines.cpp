#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compiler/parse/classify.hpp"
#include "compiler/parse/rules.hpp"
#include "compiler/parse/slips.hpp"
#include "grammar/lexical.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;
using grammar::BodyKind;

// "kettlebell 8 kg, 16 kg": sizes of one thing, with a comma between them.
std::optional<Diagnostic> find_split_sizes(const Scene& scene) {
    const std::optional<Span> comma = scene.comma();
    const std::string unit = scene.word();
    if (!comma || scene.slice({comma->end, scene.offset}).find_first_not_of("0123456789. ") !=
                      std::string_view::npos) {
        return std::nullopt;
    }
    Diagnostic result = make(Code::kit_sizes, scene.token, {unit});
    const Span before = trim(scene.text, {scene.body.begin, comma->begin});
    std::uint32_t first_unit = before.end;
    while (first_unit > before.begin && is_letter(scene.text[first_unit - 1]))
        --first_unit;
    const std::uint32_t number = trim(scene.text, {before.begin, first_unit}).end;
    const std::uint32_t next = trim(scene.text, {comma->end, scene.offset}).begin;
    const bool same = scene.slice({first_unit, before.end}) == unit;
    if (same) result.fixes.push_back(fix("one thing", {number, next}, " "));
    return result;
}

// "16 kg kettlebell": the size stands before its name.
std::optional<Diagnostic> find_size_first(const Scene& scene) {
    // With a count before it, the size is still ahead.
    const Measured ahead = measured_at(scene.text, scene.offset, scene.body.end);
    const bool counted = !ahead.unit.empty();
    const std::uint32_t thing = counted ? scene.offset : scene.detail_begin();
    const std::uint32_t size_end = counted ? ahead.unit.end : scene.token.end;
    const Span behind = trim(scene.text, {size_end, scene.body.end});
    const std::string_view rest = scene.slice(behind);
    const std::string_view name = up_to_comma(rest);
    if (name.empty() || !is_letter(name.front())) return std::nullopt;
    const Span all{thing, behind.begin + static_cast<std::uint32_t>(name.size())};
    const std::string mended = fmt::format("{} {}", name, scene.slice({thing, size_end}));
    return make(Code::kit_sizes, scene.token, {scene.word()}, {fix(mended, all, mended)});
}

// "5 1 1/4 kg".
std::optional<Diagnostic> find_kit_fraction(const Scene& scene) {
    if (!scene.rest().starts_with('/')) return std::nullopt;
    const std::uint32_t top = number_begin(scene.text, scene.body.begin, scene.offset);
    const Span bottom = number_at(scene.text, scene.offset + 1, scene.body.end);
    const Span fraction{top, bottom.end};
    struct Decimal {
        std::string_view fraction;
        std::string_view digits;
    };
    constexpr std::array known{Decimal{"1/2", "5"}, Decimal{"1/4", "25"}, Decimal{"3/4", "75"}};
    const std::string said(scene.slice(fraction));
    const auto* const decimal = std::ranges::find(known, said, &Decimal::fraction);
    if (decimal == known.end()) return make(Code::kit_fraction, fraction, {said, "1.25"});
    const std::uint32_t whole_end = trim(scene.text, {scene.body.begin, top}).end;
    const std::uint32_t whole = number_begin(scene.text, scene.body.begin, whole_end);
    const std::string alone = fmt::format("0.{}", decimal->digits);
    const Fix apart = fix(alone, fraction, alone);
    if (whole == whole_end) return make(Code::kit_fraction, fraction, {said, alone}, {apart});
    const std::string mended =
        fmt::format("{}.{}", scene.slice({whole, whole_end}), decimal->digits);
    return make(Code::kit_fraction, fraction, {said, mended},
                {fix(mended, {whole, fraction.end}, mended), apart});
}

// "pattern: sqaut", "counted in: rpes", "sides: both sides".
std::string_view near_body_word(const Scene& scene) {
    constexpr std::array sides{"both"sv, "alternating"sv, "each"sv};
    constexpr std::array ways{"up"sv, "down"sv};
    switch (scene.kind) {
        case BodyKind::pattern_line:
            return near_word(scene.word(), grammar::pattern_words);
        case BodyKind::counted_in:
            return near_unit(scene.word());
        case BodyKind::sides_line:
            return near_word(scene.word(), sides);
        case BodyKind::starts:
            return near_word(scene.word(), ways);
        default:
            return "";
    }
}

// "sides: none" works both at once; "sides: one" leaves open which.
std::vector<Fix> sides_in_words(const Scene& scene) {
    constexpr std::array both{"none"sv, "no"sv, "two"sv, "2"sv, "bilateral"sv, "together"sv};
    constexpr std::array one{"one"sv, "1"sv, "single"sv, "unilateral"sv, "left"sv, "right"sv};
    const auto is_of = [&](const auto& words) {
        return std::ranges::any_of(
            words, [&](std::string_view word) { return grammar::same_word(word, scene.word()); });
    };
    std::vector<Fix> fixes;
    if (is_of(both)) fixes.push_back(fix("both", scene.body, "both"));
    if (is_of(one)) {
        for (const std::string side : {"each side", "each leg", "each arm"})
            fixes.push_back(fix(side, scene.body, side));
    }
    return fixes;
}

}  // namespace

// "dumbbells 2 x 10 kg": how many there are stands before the name.
static std::optional<Diagnostic> find_count_behind_name(const Scene& scene) {
    const std::uint32_t thing = scene.detail_begin();
    const std::string_view behind = scene.slice({thing, scene.body.end});
    const Span said =
        trim(scene.text, {thing, thing + static_cast<std::uint32_t>(up_to_comma(behind).size())});
    const std::string_view text = scene.slice(said);
    const std::size_t digit = std::min(text.find_first_of("0123456789"), text.size());
    const Span name =
        trim(scene.text, {said.begin, said.begin + static_cast<std::uint32_t>(digit)});
    const Span count =
        number_at(scene.text, said.begin + static_cast<std::uint32_t>(digit), said.end);
    const Span times = trim(scene.text, {count.end, said.end});
    const bool counted = !name.empty() && !count.empty() && !times.empty() &&
                         grammar::to_lower(scene.text[times.begin]) == 'x';
    if (!counted) return std::nullopt;
    const Span sizes = trim(scene.text, {times.begin + 1, said.end});
    const std::string mended =
        fmt::format("{} {} {}", scene.slice(count), scene.slice(name), scene.slice(sizes));
    if (sizes.empty() || !reads(BodyKind::kit, mended)) return std::nullopt;
    return make(Code::kit_count, {count.begin, times.begin + 1},
                {std::string(scene.slice(count)), mended}, {fix(mended, said, mended)});
}

Diagnostic describe_kit(const Scene& scene) {
    if (scene.rest().empty() && scene.ends_with_comma()) return describe_detail(scene);
    if (auto fraction = find_kit_fraction(scene)) return *fraction;
    if (auto count = find_count_behind_name(scene)) return *count;
    if (scene.code == Code::kit_name && !scene.rest().empty()) {
        const std::string word = scene.word();
        const bool unit = grammar::contains_word(grammar::unit_words, word);
        if (grammar::same_word(word, "x")) {
            const Span behind = trim(scene.text, {scene.token.end, scene.body.end});
            return make(scene.code, scene.token, {word},
                        {fix("no x", {scene.offset, behind.begin}, "")});
        }
        if (unit) {
            if (auto sizes = find_split_sizes(scene); sizes && scene.comma()) {
                if (auto first = find_size_first(scene)) return *first;
                return *sizes;
            }
        }
        const bool size = unit || is_digit(scene.rest().front());
        if (auto first = size ? find_size_first(scene) : std::nullopt) return *first;
        if (unit || is_digit(scene.rest().front()))
            return make(Code::kit_sizes, scene.token, {word});
    }
    const bool word = !scene.word().empty() && is_letter(scene.word().front());
    if (scene.code == Code::word_out_of_place && word) {
        return make(Code::comma_missing, scene.token, {scene.word()},
                    {fix(", " + scene.word(), {scene.before_end(), scene.token.begin}, ", ")});
    }
    return make(scene.code, scene.token, {scene.word()});
}

Diagnostic describe_line(const Scene& scene) {
    if (scene.code == Code::date_expected || scene.code == Code::clock_expected ||
        scene.code == Code::zone_expected) {
        return describe_date(scene);
    }
    if (auto missing = find_missing_word(scene)) return *missing;
    const bool trailing =
        scene.rest().empty() && scene.ends_with_comma() && scene.code != Code::reason_missing;
    if (trailing) return describe_detail(scene);
    if (scene.code == Code::sides_line) {
        if (auto fixes = sides_in_words(scene); !fixes.empty())
            return make(scene.code, scene.body, {std::string(scene.slice(scene.body))},
                        std::move(fixes));
    }
    const std::string near(near_body_word(scene));
    const bool misspelt = scene.code != Code::word_out_of_place && !near.empty() &&
                          !grammar::same_word(near, scene.word());
    if (misspelt) {
        return make(scene.code, scene.token, {scene.word()}, {fix(near, scene.token, near)});
    }
    if (scene.code != Code::word_out_of_place) return make(scene.code, scene.token, {scene.word()});
    const bool behind_number = !scene.before().empty() && is_digit(scene.before().back());
    // RPE is no slip for rep.
    constexpr std::size_t shortest = 4;
    const std::string unit(scene.word().size() < shortest ? "" : near_unit(scene.word()));
    if (behind_number && !unit.empty()) {
        return make(Code::unknown_unit, scene.token, {scene.word(), unit},
                    {fix(unit, scene.token, unit)});
    }
    std::vector<Fix> fixes;
    const bool said_already = scene.kind == BodyKind::measure || scene.kind == BodyKind::sides_line;
    if (said_already && scene.token.end == scene.body.end) {
        fixes.push_back(fix("delete it", {scene.before_end(), scene.token.end}, ""));
    }
    return make(Code::line_end, scene.token, {scene.word()}, std::move(fixes));
}

}  // namespace stave::parse
