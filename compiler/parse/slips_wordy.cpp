#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>

#include "compiler/parse/classify.hpp"
#include "compiler/parse/slips.hpp"
#include "grammar/lexical.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;
using grammar::LineKind;

// "plank: hold", "row: all out": as long or as many as can be done.
bool means_max(std::string_view said) {
    constexpr std::array words{"hold"sv, "all out"sv, "maximum"sv, "as long as possible"sv};
    return std::ranges::any_of(
        words, [said](std::string_view one) { return grammar::same_word(one, said); });
}

// "for 5 min" only says what needs no word; "up to 5" would lose its sense.
bool leads_on(std::string_view said) {
    constexpr std::array leads{"to"sv, "than"sv, "of"sv, "about"sv, "until"sv, "as"sv, "by"sv};
    return std::ranges::any_of(
        leads, [said](std::string_view lead) { return ends_with_words(said, lead); });
}

}  // namespace

// "level 2: on the boat", "level 1: step-up: 5 each leg".
std::optional<Diagnostic> find_words_in_variant(const Scene& scene) {
    const LineKind kind = classify(scene.slice(scene.head)).kind;
    if (kind != LineKind::open_level && kind != LineKind::open_group) return std::nullopt;
    const std::string body(scene.slice(scene.body));
    const bool dated = scene.code == Code::date_expected && begins_with_words(body, "on");
    if (!dated && scene.offset != scene.body.begin) return std::nullopt;
    const std::string head(scene.slice(scene.head));
    const std::size_t colon = body.find(": ");
    if (colon == std::string::npos) return make(Code::variant_amount, scene.body, {body, head});
    const std::string_view said = std::string_view(body).substr(0, colon);
    const std::string_view name = up_to_comma(said);
    const Span place{scene.body.begin, scene.body.begin + static_cast<std::uint32_t>(colon)};
    return make(Code::variant_movement, place,
                {std::string(said), head,
                 fmt::format("or {}{}, if {}", name, std::string_view(body).substr(colon), head)});
}

// "easy 4 x 5": the words before the amount go to a note.
Diagnostic describe_words_for_amount(const Scene& scene) {
    const std::string_view body = scene.slice(scene.body);
    const std::string usual = "8, 40 s, 3 x 8, max";
    if (means_max(body)) {
        return make(Code::amount_expected, scene.body, {std::string(body), "max, 40 s, 8, 3 x 8"},
                    {fix("max", scene.body, "max"), fix("40 s", scene.body, "40 s")});
    }
    if (is_words(body) && !opens_detail(body))
        return make(Code::amount_expected, scene.body, {std::string(body), usual});
    Diagnostic result = make(Code::amount_expected, scene.token, {scene.word(), usual});
    const std::size_t digit = body.find_first_of("0123456789");
    if (digit == std::string_view::npos || digit == 0 || body[digit - 1] != ' ') return result;
    const auto amount = scene.body.begin + static_cast<std::uint32_t>(digit);
    const Span words = trim(scene.text, {scene.body.begin, amount});
    if (!is_words(scene.slice(words)) || leads_on(scene.slice(words)) || opens_detail(body))
        return result;
    if (begins_with_words(scene.slice(words), "for")) {
        result.fixes.push_back(fix("no for", {words.begin, amount}, ""));
    } else {
        result.fixes.push_back(move_to_note(scene, {words.begin, amount}, scene.slice(words)));
    }
    return result;
}

}  // namespace stave::parse
