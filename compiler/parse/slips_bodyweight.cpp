// Shares of the body weight that lack a word: "1.5 bodyweight", "50 % bodyweight".
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "compiler/parse/rules.hpp"
#include "compiler/parse/slips.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;
using grammar::BodyKind;

// From behind the last @ before the place to the next comma.
std::optional<Span> load_around(const Scene& scene) {
    const std::size_t sign = scene.slice({scene.body.begin, scene.offset}).rfind('@');
    if (sign == std::string_view::npos) return std::nullopt;
    const std::uint32_t begin = scene.body.begin + static_cast<std::uint32_t>(sign) + 1;
    const std::uint32_t end =
        scene.offset + static_cast<std::uint32_t>(up_to_comma(scene.rest()).size());
    return trim(scene.text, {begin, end});
}

// What stands before the word for the body weight that ends the load.
std::optional<Span> share_before_bodyweight(const Scene& scene, Span load) {
    for (const std::string_view word : grammar::bodyweight_words) {
        if (!ends_with_words(scene.slice(load), word)) continue;
        return trim(scene.text, {load.begin, load.end - static_cast<std::uint32_t>(word.size())});
    }
    return std::nullopt;
}

std::string_view without_last(std::string_view text, std::string_view words) {
    if (!ends_with_words(text, words)) return text;
    text.remove_suffix(words.size());
    while (text.ends_with(' '))
        text.remove_suffix(1);
    return text;
}

std::string share_of_bodyweight(std::string_view share) {
    const std::string_view bare = without_last(without_last(share, "of"), "times");
    if (begins_with_words(bare, "half") && bare.size() == "half"sv.size())
        return "50 % of bodyweight";
    if (bare.ends_with('%')) return fmt::format("{} of bodyweight", bare);
    return fmt::format("{} x bodyweight", bare);
}

}  // namespace

std::optional<Diagnostic> find_bodyweight_share(const Scene& scene) {
    const auto load = load_around(scene);
    if (!load) return std::nullopt;
    const auto share = share_before_bodyweight(scene, *load);
    if (!share || share->empty()) return std::nullopt;
    const std::string mended = share_of_bodyweight(scene.slice(*share));
    const std::string line = fmt::format("{}{}{}", scene.slice({scene.body.begin, load->begin}),
                                         mended, scene.slice({load->end, scene.body.end}));
    if (!reads(BodyKind::dose, line)) return std::nullopt;
    return make(Code::bodyweight_share, *load, {std::string(scene.slice(*load)), mended},
                {fix(mended, *load, mended)});
}

}  // namespace stave::parse
