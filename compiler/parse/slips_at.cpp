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

// The first comma that stands in no bracket.
std::optional<std::uint32_t> first_comma(const Scene& scene) {
    int depth = 0;
    for (std::uint32_t i = scene.body.begin; i < scene.offset; ++i) {
        const char c = scene.text[i];
        if (c == '(') ++depth;
        if (c == ')') --depth;
        if (depth == 0 && comma_size_at(scene.slice({i, scene.offset})) > 0) return i;
    }
    return std::nullopt;
}

bool is_effort(std::string_view load) {
    constexpr std::array scales{"RPE"sv, "RIR"sv, "zone"sv, "heart rate"sv};
    return ends_with_words(load, "in reserve") ||
           std::ranges::any_of(
               scales, [load](std::string_view scale) { return begins_with_words(load, scale); });
}

// "3 x 8, tempo 4-1-1-0 @ 60 %": the load stands behind a detail.
std::optional<Diagnostic> find_late_load(const Scene& scene) {
    const auto comma = first_comma(scene);
    if (!comma) return std::nullopt;
    const Span load = scene.clause();
    const std::uint32_t amount = trim(scene.text, {scene.body.begin, *comma}).end;
    const std::string said(scene.slice(load));
    const std::string mended = fmt::format("{} {}{}{}", scene.slice({scene.body.begin, amount}),
                                           said, scene.slice({amount, scene.before_end()}),
                                           scene.slice({load.end, scene.body.end}));
    Diagnostic result = make(Code::load_late, load, {said, mended});
    if (reads(BodyKind::dose, mended)) {
        result.fixes.push_back(
            {mended,
             {Edit{{amount, amount}, " " + said}, Edit{{scene.before_end(), load.end}, ""}}});
    }
    return result;
}

// "5 @ 60 kg @ RPE 8" and "5 @ RPE 8 @ 60 kg" are a load and its effort; two weights may
// be held together.
Diagnostic make_second_load(const Scene& scene) {
    const auto first_sign = scene.body.begin + static_cast<std::uint32_t>(scene.before().find('@'));
    const Span second = scene.clause();
    const Span load = trim(scene.text, {second.begin + 1, second.end});
    const Span first = trim(scene.text, {first_sign + 1, scene.before_end()});
    const bool details_between = has_comma(scene.slice(first));
    const bool turned = !details_between && is_effort(scene.slice(first));
    const bool effort = is_effort(scene.slice(load));
    std::string loads =
        fmt::format("{}{}{}", scene.slice(first), effort ? ", " : " and ", scene.slice(load));
    if (turned) loads = fmt::format("{}, {}", scene.slice(load), scene.slice(first));
    const Span said = cover(first, load);
    const std::string mended = fmt::format("{}{}{}", scene.slice({scene.body.begin, said.begin}),
                                           loads, scene.slice({said.end, scene.body.end}));
    Diagnostic result = make(Code::load_twice, {scene.offset, scene.offset + 1}, {mended});
    if ((turned || effort) && reads(BodyKind::dose, mended))
        result.fixes.push_back(fix(mended, said, loads));
    return result;
}

}  // namespace

std::optional<Diagnostic> find_stray_at(const Scene& scene) {
    if (scene.ends_with_comma()) {
        const Span comma = *scene.comma();
        return make(Code::comma_before_load, comma, {}, {fix("delete the comma", comma, "")});
    }
    if (scene.before().contains('@')) return make_second_load(scene);
    const bool ended = scene.code == Code::word_out_of_place || scene.code == Code::detail_expected;
    return ended ? find_late_load(scene) : std::nullopt;
}

}  // namespace stave::parse
