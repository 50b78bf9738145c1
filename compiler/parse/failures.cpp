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

bool looks_like_tempo(std::string_view word) {
    return word.size() == 4 &&
           std::ranges::all_of(word, [](char c) { return is_digit(c) || c == 'x' || c == 'X'; });
}

// "8 to 10-12", "5-4..1": a second way of writing several values.
bool is_second_series(const Scene& scene) {
    const std::string_view rest = scene.rest();
    const bool sign = rest.starts_with("..") || rest.starts_with("\u2026") ||
                      rest.starts_with('-') || rest.starts_with("\u2013") || opens_detail(rest);
    const bool to = rest.starts_with("to ");
    const std::string_view before = scene.before();
    return (sign || to) && !opens_detail(rest) && !before.empty() &&
           (is_digit(before.back()) || is_letter(before.back()));
}

Diagnostic describe_dose_end(const Scene& scene) {
    if (auto number = find_second_number(scene)) return *number;
    if (auto word = find_stray_word(scene)) return *word;
    if (is_second_series(scene)) return make(Code::joined_signs, scene.token);
    if (scene.offset == scene.body.begin) {
        return make(Code::amount_expected, scene.token, {scene.word()});
    }
    return make(Code::word_out_of_place, scene.token, {scene.word()});
}

Diagnostic describe_detail(const Scene& scene) {
    if (scene.rest().empty() && scene.before().ends_with(',')) {
        const Span comma{scene.before_end() - 1, scene.before_end()};
        return make(Code::trailing_comma, comma, {}, {fix("delete the comma", comma, "")});
    }
    const std::uint32_t begin = scene.detail_begin();
    const Span word = token_at(scene.text, begin, scene.body.end);
    const std::string detail(scene.slice({begin, scene.body.end}));
    if (looks_like_tempo(scene.slice(word))) {
        return make(Code::tempo_unsaid, word, {std::string(scene.slice(word))},
                    {fix("tempo", {begin, begin}, "tempo ")});
    }
    const std::string_view first = scene.slice(word);
    const bool side = std::ranges::any_of(
        std::array{"each", "per", "alternating", "left", "right"},
        [first](std::string_view opener) { return grammar::same_word(first, opener); });
    if (const std::optional<Span> comma = scene.comma(); side && comma) {
        const std::string mended =
            fmt::format("{} {}", scene.slice({scene.body.begin, comma->begin}), detail);
        return make(Code::side_late, {begin, scene.body.end}, {detail, mended},
                    {fix(mended, {comma->begin, begin}, " ")});
    }
    if (auto list = find_comma_between_numbers(scene)) return *list;
    std::string_view said = scene.slice({begin, scene.body.end});
    said = said.substr(0, said.find(','));
    return make(Code::detail_expected, {begin, begin + static_cast<std::uint32_t>(said.size())},
                {std::string(said)});
}

Diagnostic describe_format(const Scene& scene) {
    const bool named = scene.code != Code::format_expected && scene.code != Code::detail_expected &&
                       scene.code != Code::word_out_of_place;
    if (named) return make(scene.code, scene.token, {scene.word()});
    if (auto word = find_stray_word(scene)) return *word;
    const Span body = scene.body;
    if (scene.rest().empty() && scene.before().ends_with(',')) return describe_detail(scene);
    if (is_digit(scene.text[body.begin]) && scene.code != Code::word_out_of_place) {
        const Span number = number_at(scene.text, body.begin, body.end);
        if (number.end == body.end) {
            return make(Code::rounds_word, number,
                        {std::string(scene.slice(number)), std::string(scene.slice(scene.head))},
                        {fix("rounds", {number.end, number.end}, " rounds")});
        }
        return make(Code::amount_in_block, body,
                    {std::string(scene.slice(body)), std::string(scene.slice(scene.head))});
    }
    if (scene.offset == body.begin && is_letter(scene.text[body.begin])) {
        const std::string line = fmt::format("{} {}:", scene.slice(scene.head), scene.slice(body));
        return make(Code::title_behind_colon, scene.token, {scene.word(), line});
    }
    if (scene.code == Code::format_expected) return make(scene.code, scene.token, {scene.word()});
    return make(Code::word_out_of_place, scene.token, {scene.word()});
}

Diagnostic describe_when(const Scene& scene) {
    if (scene.code == Code::word_out_of_place) {
        const bool second_clock =
            scene.rest().starts_with('-') || scene.rest().starts_with("\u2013");
        return second_clock ? make(Code::clock_range, scene.token)
                            : make(Code::when_end, scene.token, {scene.word()});
    }
    if (scene.code == Code::zone_expected && scene.rest().empty()) {
        return describe_detail(scene);
    }
    if (scene.code == Code::date_expected) {
        const Span said{scene.offset, scene.body.end};
        return make(scene.code, said, {std::string(scene.slice(said))});
    }
    return make(scene.code, scene.token, {scene.word()});
}

Diagnostic describe_kit(const Scene& scene) {
    if (scene.rest().empty() && scene.before().ends_with(',')) return describe_detail(scene);
    if (scene.code == Code::kit_name && !scene.rest().empty()) {
        if (grammar::contains_word(grammar::unit_words, scene.word()) ||
            is_digit(scene.rest().front())) {
            return make(Code::kit_sizes, scene.token, {scene.word()});
        }
    }
    if (scene.code == Code::word_out_of_place && !scene.word().empty() &&
        is_letter(scene.word().front())) {
        return make(Code::comma_missing, scene.token, {scene.word()},
                    {fix(", " + scene.word(), {scene.before_end(), scene.token.begin}, ", ")});
    }
    return make(scene.code, scene.token, {scene.word()});
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
    if (auto number = find_unclear_number(scene)) return *number;
    if (kind == BodyKind::dose || kind == BodyKind::format) {
        if (auto clock = find_clock_with_hours(scene)) return *clock;
        if (auto sign = find_stray_sign(scene)) return *sign;
    }
    switch (failure.code) {
        case Code::detail_expected:
            return kind == BodyKind::format ? describe_format(scene) : describe_detail(scene);
        case Code::load_expected:
        case Code::time_expected:
            if (auto word = find_stray_word(scene)) return *word;
            return make(failure.code, scene.token, {scene.word()});
        case Code::text_missing:
            return make(failure.code, body.empty() ? head : scene.token,
                        {std::string(text.substr(head.begin, head.size()))});
        case Code::tempo_phases: {
            const Span said = token_at(text, failure.offset, body.end);
            return make(failure.code, said, {std::string(text.substr(said.begin, said.size()))});
        }
        case Code::unit_expected: {
            const std::uint32_t first = number_begin(text, body.begin, scene.before_end());
            return make(failure.code, {first, scene.before_end()},
                        {std::string(text.substr(first, scene.before_end() - first))});
        }
        default:
            break;
    }
    switch (kind) {
        case BodyKind::format:
            return describe_format(scene);
        case BodyKind::when:
            return describe_when(scene);
        case BodyKind::kit:
            return describe_kit(scene);
        case BodyKind::dose:
            if (failure.code == Code::word_out_of_place) return describe_dose_end(scene);
            return make(failure.code, scene.token, {scene.word()});
        default:
            return make(failure.code, scene.token, {scene.word()});
    }
}

Diagnostic describe_head(std::string_view text, const Failure& failure, Span head) {
    const Span token = token_at(text, failure.offset, head.end);
    const std::string word(text.substr(token.begin, token.size()));
    if (failure.code == Code::name_missing && head.empty()) return make(Code::head_missing, head);
    return make(failure.code, token, {word});
}

Diagnostic describe_no_colon(std::string_view text, const ScannedLine& line) {
    const Span content = line.content;
    const std::string_view said = text.substr(content.begin, content.size());
    // "cue chest up": a field that has lost its colon.
    const std::size_t blank = said.find(' ');
    const Classification first_word = classify(said.substr(0, blank));
    const bool is_field = blank != std::string_view::npos && first_word.opener_size == 0 &&
                          first_word.body != BodyKind::dose;
    if (is_field) {
        const std::string mended =
            fmt::format("{}: {}", said.substr(0, blank), said.substr(blank + 1));
        return make(Code::no_colon, content, {mended}, {fix(mended, content, mended)});
    }
    if (line.clock_colon) {
        std::uint32_t begin = *line.clock_colon;
        while (begin > content.begin && is_digit(text[begin - 1]))
            --begin;
        const Span name = trim(text, {content.begin, begin});
        if (!name.empty()) {
            const Span clock = number_at(text, begin, content.end);
            std::string behind(text.substr(clock.end, content.end - clock.end));
            // What a second colon sets off belongs behind a comma.
            if (behind.starts_with(':')) behind[0] = ',';
            const std::string mended = fmt::format("{}: {}{}", text.substr(name.begin, name.size()),
                                                   text.substr(clock.begin, clock.size()), behind);
            return make(Code::clock_in_head, clock,
                        {std::string(text.substr(clock.begin, clock.size())), mended},
                        {fix(mended, content, mended)});
        }
    }
    const std::size_t split = said.find_first_of(";0123456789");
    if (split == std::string_view::npos || split == 0) {
        return make(Code::no_colon, content, {fmt::format("{}: 3 x 8", shortened(said))});
    }
    const auto at = content.begin + static_cast<std::uint32_t>(split);
    // "swing - 3 x 8", "swing, 3 x 8": the sign stands for the colon.
    Span name = trim(text, {content.begin, at});
    while (name.size() > 1 && (text[name.end - 1] == '-' || text[name.end - 1] == ',')) {
        name = trim(text, {name.begin, name.end - 1});
    }
    const Span amount = trim(text, {at + (said[split] == ';' ? 1U : 0U), content.end});
    const std::string mended = fmt::format("{}: {}", text.substr(name.begin, name.size()),
                                           text.substr(amount.begin, amount.size()));
    return make(Code::no_colon, content, {mended}, {fix(mended, content, mended)});
}

}  // namespace stave::parse
