#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compiler/parse/classify.hpp"
#include "compiler/parse/rules.hpp"
#include "compiler/parse/slips.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;

bool looks_like_tempo(std::string_view word) {
    return word.size() == 4 &&
           std::ranges::all_of(word, [](char c) { return is_digit(c) || c == 'x' || c == 'X'; });
}

std::optional<Diagnostic> find_trailing_comma(const Scene& scene) {
    if (!scene.rest().empty() || !scene.ends_with_comma()) return std::nullopt;
    const Span comma = *scene.comma();
    return make(Code::trailing_comma, comma, {}, {fix("delete the comma", comma, "")});
}

std::optional<Diagnostic> find_unsaid_tempo(const Scene& scene) {
    const Span word = token_at(scene.text, scene.detail_begin(), scene.body.end);
    if (!looks_like_tempo(scene.slice(word))) return std::nullopt;
    return make(Code::tempo_unsaid, word, {std::string(scene.slice(word))},
                {fix("tempo", {word.begin, word.begin}, "tempo ")});
}

// "8 @ 60 kg, each leg": the side belongs between the amount and the load.
std::optional<Diagnostic> find_late_side(const Scene& scene) {
    constexpr std::array openers{"each"sv, "per"sv, "alternating"sv, "left"sv, "right"sv};
    const Span detail = scene.detail();
    const std::string side(scene.slice(detail));
    const std::optional<Span> comma = scene.comma();
    const bool is_side = std::ranges::any_of(
        openers, [&](std::string_view opener) { return begins_with_words(side, opener); });
    if (!comma || !is_side) return std::nullopt;
    const std::string_view before = scene.slice({scene.body.begin, comma->begin});
    const std::size_t amount = std::min(before.find('@'), up_to_comma(before).size());
    if (amount == before.size()) {
        const std::string mended = fmt::format("{} {}", before, side);
        // "20 m there and back" has its side.
        if (!reads(grammar::BodyKind::dose, mended)) return std::nullopt;
        return make(Code::side_late, detail, {side, mended},
                    {fix(mended, {comma->begin, detail.begin}, " ")});
    }
    const std::uint32_t end =
        trim(scene.text, {scene.body.begin, scene.body.begin + static_cast<std::uint32_t>(amount)})
            .end;
    const std::string mended = fmt::format("{} {}{}", scene.slice({scene.body.begin, end}), side,
                                           scene.slice({end, comma->begin}));
    if (!reads(grammar::BodyKind::dose, mended)) return std::nullopt;
    return make(Code::side_late, detail, {side, mended},
                {{mended, {Edit{{end, end}, " " + side}, Edit{{comma->begin, detail.end}, ""}}}});
}

// "arc 10 deg in, 30 deg out": one detail with a comma inside.
std::optional<Diagnostic> find_comma_in_arc(const Scene& scene) {
    const std::optional<Span> comma = scene.comma();
    const Span detail = scene.detail();
    if (!comma || detail.empty() || !is_digit(scene.text[detail.begin])) return std::nullopt;
    const Span last = find_last_comma(scene.text, {scene.body.begin, comma->begin});
    const Span arc = trim(scene.text, {last.empty() ? scene.body.begin : last.end, comma->begin});
    if (!begins_with_words(scene.slice(arc), "arc")) return std::nullopt;
    const std::string mended = fmt::format("{} to {}", scene.slice(arc), scene.slice(detail));
    return make(Code::comma_in_detail, *comma, {mended},
                {fix(mended, {comma->begin, detail.begin}, " to ")});
}

// "tmepo 3110".
std::optional<Diagnostic> find_misspelt_detail(const Scene& scene) {
    constexpr std::array openers{"tempo"sv,  "hold"sv,    "pause"sv, "rest"sv, "lower"sv,
                                 "breath"sv, "incline"sv, "swap"sv,  "zone"sv, "heart"sv};
    const Span word = token_at(scene.text, scene.detail_begin(), scene.body.end);
    if (word.empty() || !is_letter(scene.text[word.begin])) return std::nullopt;
    const std::string said(scene.slice(word));
    const std::string near(near_word(said, openers));
    if (near.empty() || grammar::same_word(near, said)) return std::nullopt;
    return make(Code::detail_misspelt, word, {said, near}, {fix(near, word, near)});
}

// "60 s rest" behind a comma, the detail that could not be read.
std::optional<Diagnostic> find_rest_behind_time(const Scene& scene) {
    const Span detail = scene.detail();
    const std::string_view said = scene.slice(detail);
    if (said.empty() || !is_digit(said.front()) || !ends_with_words(said, "rest"))
        return std::nullopt;
    constexpr std::size_t rest_size = 4;
    std::string_view time = said.substr(0, said.size() - rest_size);
    time = time.substr(0, time.find_last_not_of(' ') + 1);
    const std::string mended = fmt::format("rest {}", time);
    return make(Code::rest_first, detail, {mended}, {fix(mended, detail, mended)});
}

// "box 50 cm", "50 cm box": stood on, crossed, or only there.
std::optional<Diagnostic> find_unsaid_height(const Scene& scene) {
    const Span detail = scene.detail();
    const std::string_view said = scene.slice(detail);
    const std::size_t digit = said.find_first_of("0123456789");
    const std::optional<Span> comma = scene.comma();
    if (digit == std::string_view::npos || !comma) return std::nullopt;
    const Measured height =
        measured_at(scene.text, detail.begin + static_cast<std::uint32_t>(digit), detail.end);
    const std::string_view words =
        digit > 0 ? said.substr(0, digit) : scene.slice({height.whole().end, detail.end});
    const bool whole = digit == 0 || height.whole().end == detail.end;
    const bool plain = std::ranges::all_of(words, [](char c) { return is_letter(c) || c == ' '; });
    const bool length = unit_dimension(scene.slice(height.unit)) == "length";
    if (!whole || !plain || !length || opens_detail(said)) return std::nullopt;
    const std::string size(scene.slice(height.whole()));
    Diagnostic result = make(Code::height_unsaid, detail, {std::string(said), size});
    for (const std::string_view way : {"from"sv, "over"sv}) {
        const std::string mended = fmt::format("{} {}", way, size);
        result.fixes.push_back(fix(mended, detail, mended));
    }
    result.fixes.push_back(move_to_note(scene, {comma->begin, detail.end}, said));
    return result;
}

// "walk back", "walk-back rest": the rest between sets of a distance.
std::optional<Diagnostic> find_way_back(const Scene& scene) {
    constexpr std::array ways{"walk back"sv,          "walk-back"sv,         "walking back"sv,
                              "jog back"sv,           "walk back rest"sv,    "walk-back rest"sv,
                              "walk back recovery"sv, "walk-back recovery"sv};
    const Span detail = scene.detail();
    const std::string_view said = scene.slice(detail);
    const bool is_way = std::ranges::any_of(
        ways, [said](std::string_view way) { return grammar::same_word(said, way); });
    if (!is_way) return std::nullopt;
    if (begins_with_words(said, "walk-back") || begins_with_words(said, "walk") ||
        begins_with_words(said, "walking")) {
        const std::string mended = "rest walk back";
        return make(Code::way_back, detail, {std::string(said), mended},
                    {fix(mended, detail, mended)});
    }
    return make(Code::way_back, detail,
                {std::string(said), "how far it is: rest 100 m jog; or rest walk back"});
}

// "switch hands every 10 m".
std::optional<Diagnostic> find_switched_hands(const Scene& scene) {
    const Span detail = scene.detail();
    const std::string_view said = scene.slice(detail);
    for (const std::string_view words : {"switch hands"sv, "change hands"sv, "swap sides"sv,
                                         "switch sides"sv, "swap arms"sv, "switch arms"sv}) {
        if (!begins_with_words(said, words)) continue;
        const std::string mended = fmt::format("swap hands{}", said.substr(words.size()));
        const Span word{detail.begin, detail.begin + static_cast<std::uint32_t>(words.size())};
        return make(Code::said_otherwise, word, {std::string(words), "swap hands"},
                    {fix(mended, detail, mended)});
    }
    return std::nullopt;
}

// Words for the athlete go to a note below.
Diagnostic make_unknown_detail(const Scene& scene) {
    const Span detail = scene.detail();
    const std::string said(scene.slice(detail));
    Diagnostic result = make(Code::detail_expected, detail, {said});
    const std::optional<Span> comma = scene.comma();
    const bool words = std::ranges::any_of(said, is_letter);
    if (comma && words) {
        result.fixes.push_back(move_to_note(scene, {comma->begin, detail.end}, said));
    }
    return result;
}

}  // namespace

Diagnostic describe_detail(const Scene& scene) {
    for (const auto find :
         {find_trailing_comma, find_unsaid_tempo, find_late_side, find_comma_in_arc, find_way_back,
          find_switched_hands, find_rest_behind_time, find_comma_between_numbers,
          find_misspelt_detail, find_unsaid_height}) {
        if (auto slip = find(scene)) return *slip;
    }
    return make_unknown_detail(scene);
}

// "tempo 311", "tempo 3/1/1/0": figures that are a tempo once they are laid out.
Diagnostic describe_tempo(const Scene& scene) {
    const Span said = scene.detail();
    const Span shown = trim(scene.text, {scene.offset, std::max(said.end, scene.offset)});
    std::vector<std::string> phases;
    const std::string_view text = scene.slice(shown);
    const bool compact = text.find_first_of("-/.: \xE2") == std::string_view::npos;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool fast = text[i] == 'x' || text[i] == 'X';
        if (!fast && !is_digit(text[i])) {
            if (is_letter(text[i]) && static_cast<unsigned char>(text[i]) < 0x80)
                return make(Code::tempo_phases, scene.token, {scene.word()});
            continue;
        }
        const bool goes_on =
            !compact && !phases.empty() && i > 0 && is_digit(text[i]) && is_digit(text[i - 1]);
        if (goes_on) {
            phases.back() += text[i];
        } else {
            phases.emplace_back(fast ? "X" : std::string(1, text[i]));
        }
    }
    Diagnostic result = make(Code::tempo_phases, shown, {std::string(text)});
    constexpr std::size_t phase_count = 4;
    if (phases.size() == phase_count - 1) phases.emplace_back("0");
    const bool too_long =
        std::ranges::any_of(phases, [](const std::string& phase) { return phase.size() > 2; });
    if (phases.size() != phase_count || too_long) return result;
    const std::string mended =
        fmt::format("{}-{}-{}-{}", phases[0], phases[1], phases[2], phases[3]);
    result.fixes.push_back(fix(mended, shown, mended));
    return result;
}

}  // namespace stave::parse
