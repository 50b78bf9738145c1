#include "compiler/parse/failures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>

#include "compiler/parse/classify.hpp"
#include "compiler/parse/slips.hpp"
#include "grammar/lexical.hpp"

namespace stave::parse {

namespace {

using grammar::BodyKind;

// "8 to 10-12", "5-4..1": a second way of writing several values.
bool is_second_series(const Scene& scene) {
    const std::string_view rest = scene.rest();
    const bool sign = rest.starts_with("..") || rest.starts_with("\u2026") ||
                      rest.starts_with('-') || rest.starts_with("\u2013");
    const bool to = rest.starts_with("to ");
    const std::string_view before = scene.before();
    return (sign || to) && !before.empty() && (is_digit(before.back()) || is_letter(before.back()));
}

Diagnostic describe_dose_end(const Scene& scene) {
    if (auto number = find_second_number(scene)) return *number;
    if (auto word = find_stray_word(scene)) return *word;
    if (is_second_series(scene)) return make(Code::joined_signs, scene.token);
    if (scene.offset == scene.body.begin) return describe_words_for_amount(scene);
    return make(Code::word_out_of_place, scene.token, {scene.word()});
}

Diagnostic describe_dose(const Scene& scene) {
    if (auto words = find_words_in_variant(scene)) return *words;
    if (auto format = find_format_in_movement(scene)) return *format;
    if (auto missing = find_missing_word(scene)) return *missing;
    if (scene.code == Code::date_expected) return describe_date(scene);
    if (scene.code == Code::word_out_of_place) return describe_dose_end(scene);
    if (scene.code == Code::detail_expected) return describe_detail(scene);
    return make(scene.code, scene.token, {scene.word()});
}

// What any line may hold, whatever it is.
std::optional<Diagnostic> find_common_slip(const Scene& scene) {
    const bool in_block = scene.kind == BodyKind::dose || scene.kind == BodyKind::format ||
                          scene.kind == BodyKind::rest_line;
    if (scene.kind == BodyKind::dose) {
        if (auto order = find_order_slip(scene)) return order;
        if (auto plain = find_plain_words(scene)) return plain;
        if (auto least = find_least_amount(scene)) return least;
        if (auto share = find_bodyweight_share(scene)) return share;
        if (auto shorthand = find_shorthand(scene)) return shorthand;
        if (auto load = find_load_slip(scene)) return load;
    }
    // "sides: one" is no number.
    if (scene.kind != BodyKind::sides_line) {
        if (auto number = find_unclear_number(scene)) return number;
    }
    if (!in_block) return std::nullopt;
    if (auto clock = find_clock_with_hours(scene)) return clock;
    if (auto sign = find_stray_sign(scene)) return sign;
    const bool word_may_stray =
        scene.code == Code::load_expected || scene.code == Code::time_expected;
    return word_may_stray ? find_stray_word(scene) : std::nullopt;
}

}  // namespace

Diagnostic describe_body(std::string_view text, const Failure& failure, BodyKind kind, Span head,
                         Span body) {
    const Scene scene{text,
                      kind,
                      head,
                      body,
                      failure.code,
                      failure.offset,
                      token_at(text, failure.offset, body.end)};
    if (auto slip = find_common_slip(scene)) return *slip;
    if (failure.code == Code::text_missing) {
        return make(failure.code, scene.token, {std::string(scene.slice(head))});
    }
    if (failure.code == Code::tempo_phases) return describe_tempo(scene);
    switch (kind) {
        case BodyKind::dose:
            return describe_dose(scene);
        case BodyKind::format:
            return describe_format(scene);
        case BodyKind::when:
        case BodyKind::days:
        case BodyKind::moved:
        case BodyKind::once:
            return describe_date(scene);
        case BodyKind::kit:
            return describe_kit(scene);
        default:
            return describe_line(scene);
    }
}

}  // namespace stave::parse
