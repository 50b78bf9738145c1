// What coaches write shorter than the notation does, or the other way round: "@ light
// band", "@ Z4", "@ box 40 cm", "12 right arm", "12 R", "5 @ 60 %, 3 @ 70 %", "then rest
// 3 min", "10 left, 10 right".
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

#include "compiler/parse/rules.hpp"
#include "compiler/parse/slips.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;
using grammar::BodyKind;

// Whether the line reads with the words in the place of what is said.
bool reads_with(const Scene& scene, Span said, std::string_view words) {
    return reads(BodyKind::dose, fmt::format("{}{}{}", scene.slice({scene.body.begin, said.begin}),
                                             words, scene.slice({said.end, scene.body.end})));
}

std::optional<Diagnostic> say_otherwise(const Scene& scene, Span said, const std::string& mended) {
    if (!reads_with(scene, said, mended)) return std::nullopt;
    return make(Code::said_otherwise, said, {std::string(scene.slice(said)), mended},
                {fix(mended, said, mended)});
}

// "light band" for "band light".
std::optional<Diagnostic> find_turned_band(const Scene& scene) {
    const Span said = scene.clause();
    const std::string_view words = scene.slice(said);
    for (const std::string_view thing : {" band"sv, " bands"sv}) {
        if (!words.ends_with(thing) || !is_words(words)) continue;
        return say_otherwise(scene, said,
                             fmt::format("band {}", words.substr(0, words.size() - thing.size())));
    }
    return std::nullopt;
}

// "Z4", "zone4".
std::optional<Diagnostic> find_short_zone(const Scene& scene) {
    const Span said = scene.clause();
    const std::string_view words = scene.slice(said);
    const std::size_t digits = words.find_first_of("0123456789");
    if (digits == std::string_view::npos) return std::nullopt;
    const std::string_view letters = words.substr(0, digits);
    if (!grammar::same_word(letters, "Z") && !grammar::same_word(letters, "zone"))
        return std::nullopt;
    return say_otherwise(scene, said, fmt::format("zone {}", words.substr(digits)));
}

// "@ box 40 cm": what is stepped on is no load.
std::optional<Diagnostic> find_height_for_load(const Scene& scene) {
    const Span said = scene.clause();
    const std::string_view words = scene.slice(said);
    const std::size_t digit = words.find_first_of("0123456789");
    if (digit == std::string_view::npos || digit == 0) return std::nullopt;
    const Measured height =
        measured_at(scene.text, said.begin + static_cast<std::uint32_t>(digit), said.end);
    const bool length = unit_dimension(scene.slice(height.unit)) == "length";
    if (!length || height.whole().end != said.end || !is_words(words.substr(0, digit)))
        return std::nullopt;
    const Span all{trim(scene.text, {scene.body.begin, scene.before_end() - 1}).end, said.end};
    const std::string mended = fmt::format(", from {}", scene.slice(height.whole()));
    if (!reads_with(scene, all, mended)) return std::nullopt;
    return make(Code::said_otherwise, said, {std::string(words), mended.substr(2)},
                {fix(mended, all, mended)});
}

// "12 right arm": one side needs no part of the body.
std::optional<Diagnostic> find_part_behind_side(const Scene& scene) {
    const bool side =
        ends_with_words(scene.before(), "left") || ends_with_words(scene.before(), "right");
    if (!side || !grammar::find_side_word(scene.word())) return std::nullopt;
    const std::size_t blank = scene.before().rfind(' ');
    if (blank == std::string_view::npos) return std::nullopt;
    const Span said{scene.body.begin + static_cast<std::uint32_t>(blank) + 1, scene.token.end};
    return say_otherwise(scene, said, std::string(scene.before().substr(blank + 1)));
}

// "12 R".
std::optional<Diagnostic> find_side_letter(const Scene& scene) {
    const std::string_view word = scene.slice(scene.token);
    if (scene.before().empty() || !is_digit(scene.before().back())) return std::nullopt;
    for (const std::string_view side : {"right"sv, "left"sv}) {
        if (!grammar::same_word(word, side.substr(0, 1))) continue;
        const std::string mended(side);
        return make(Code::said_otherwise, scene.token, {std::string(word), mended},
                    {fix(mended, scene.token, mended)});
    }
    return std::nullopt;
}

// "5 @ 60 %, 3 @ 70 %": another set behind the comma.
std::optional<Diagnostic> find_set_behind_load(const Scene& scene) {
    if (!scene.rest().starts_with('@')) return std::nullopt;
    const std::optional<Span> comma = scene.comma();
    if (!comma) return std::nullopt;
    const Span amount = trim(scene.text, {comma->end, scene.before_end()});
    const std::string_view before = scene.slice({scene.body.begin, comma->begin});
    const bool is_amount = !amount.empty() && is_digit(scene.text[amount.begin]) &&
                           reads(BodyKind::dose, scene.slice(amount));
    if (!is_amount || !before.contains('@')) return std::nullopt;
    const std::string_view head = scene.slice(scene.head);
    const std::string lines = fmt::format("{}: {} and {}: {}", head, before, head,
                                          scene.slice({amount.begin, scene.clause().end}));
    return make(Code::set_behind_load, {amount.begin, scene.clause().end}, {lines},
                {split_line(scene, {comma->begin, amount.begin})});
}

// "then rest 3 min", "resting 3 min".
std::optional<Diagnostic> find_rest_in_words(const Scene& scene) {
    constexpr std::array openers{"then rest"sv, "then"sv,          "resting"sv,  "rests"sv,
                                 "and rest"sv,  "rest for"sv,      "recovery"sv, "recover"sv,
                                 "with rest"sv, "with a rest of"sv};
    const Span said = scene.detail();
    for (const std::string_view opener : openers) {
        if (!begins_with_words(scene.slice(said), opener)) continue;
        const Span time =
            trim(scene.text, {said.begin + static_cast<std::uint32_t>(opener.size()), said.end});
        const bool rests = opener != "then" || ends_with_words(scene.slice(time), "rest");
        const std::string_view length = scene.slice(time);
        if (!rests || length.empty() || !is_digit(length.front())) continue;
        const std::size_t word = opener == "then" ? length.rfind(' ') : length.size();
        return say_otherwise(scene, said, fmt::format("rest {}", length.substr(0, word)));
    }
    return std::nullopt;
}

// "10 left, 10 right".
std::optional<Diagnostic> find_other_side(const Scene& scene) {
    const std::optional<Span> comma = scene.comma();
    const Span said = scene.detail();
    if (!comma || !ends_with_words(scene.slice(said), "right")) return std::nullopt;
    const Span first = trim(scene.text, {scene.body.begin, comma->begin});
    const std::string_view left = scene.slice(first);
    const std::string_view right = scene.slice(said);
    if (!ends_with_words(left, "left") || left.contains('@')) return std::nullopt;
    constexpr std::size_t left_size = 5;
    constexpr std::size_t right_size = 6;
    const std::string_view amount = left.substr(0, left.size() - left_size);
    const std::string_view other = right.substr(0, right.size() - right_size);
    if (amount == other) {
        return say_otherwise(scene, cover(first, said), fmt::format("{} each side", amount));
    }
    if (!reads(BodyKind::dose, right)) return std::nullopt;
    const std::string_view head = scene.slice(scene.head);
    return make(Code::set_behind_load, said,
                {fmt::format("{}: {} and {}: {}", head, left, head, right)},
                {split_line(scene, {comma->begin, said.begin})});
}

}  // namespace

std::optional<Diagnostic> find_shorthand(const Scene& scene) {
    if (auto set = find_set_behind_load(scene)) return set;
    if (scene.code == Code::load_expected && scene.before().ends_with('@')) {
        for (const auto find : {find_turned_band, find_short_zone, find_height_for_load}) {
            if (auto slip = find(scene)) return slip;
        }
    }
    if (scene.code == Code::detail_expected) {
        if (auto rest = find_rest_in_words(scene)) return rest;
        return find_other_side(scene);
    }
    if (scene.code != Code::word_out_of_place) return std::nullopt;
    if (auto part = find_part_behind_side(scene)) return part;
    return find_side_letter(scene);
}

}  // namespace stave::parse
