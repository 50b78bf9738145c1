#include "compiler/parse/scene.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace stave::parse {

using namespace std::string_view_literals;

std::optional<Span> Scene::comma() const {
    constexpr std::array commas{","sv, "\uFF0C"sv, "\u3001"sv, "\u060C"sv};
    for (std::uint32_t end = offset; end > body.begin; --end) {
        const std::string_view before = slice({body.begin, end});
        for (const std::string_view form : commas) {
            if (before.ends_with(form)) {
                return Span{end - static_cast<std::uint32_t>(form.size()), end};
            }
        }
    }
    return std::nullopt;
}

Diagnostic make(Code code, Span span, std::vector<std::string> arguments, std::vector<Fix> fixes) {
    return {code, span, std::move(arguments), std::move(fixes), {}};
}

Fix fix(std::string label, Span span, std::string text) {
    return {std::move(label), {Edit{span, std::move(text)}}};
}

Span token_at(std::string_view text, std::uint32_t offset, std::uint32_t end) {
    if (offset >= end) return {end, end};
    std::uint32_t i = offset;
    if (is_letter(text[i])) {
        while (i < end &&
               (is_letter(text[i]) || is_digit(text[i]) || text[i] == '-' || text[i] == '\''))
            ++i;
    } else if (is_digit(text[i])) {
        while (i < end &&
               (is_digit(text[i]) || is_letter(text[i]) || text[i] == '.' || text[i] == ':'))
            ++i;
    } else {
        ++i;
    }
    return {offset, i};
}

Span number_at(std::string_view text, std::uint32_t begin, std::uint32_t end) {
    const auto joins = [&](std::uint32_t i) {
        return (text[i] == '.' || text[i] == ':') && i + 1 < end && is_digit(text[i + 1]);
    };
    std::uint32_t i = begin;
    while (i < end && (is_digit(text[i]) || joins(i)))
        ++i;
    return {begin, i};
}

std::uint32_t number_begin(std::string_view text, std::uint32_t begin, std::uint32_t end) {
    const auto joins = [&](std::uint32_t i) {
        return (text[i] == '.' || text[i] == ':') && i > begin && is_digit(text[i - 1]) &&
               i + 1 < end && is_digit(text[i + 1]);
    };
    std::uint32_t i = end;
    while (i > begin && (is_digit(text[i - 1]) || joins(i - 1)))
        --i;
    return i;
}

std::string_view shortened(std::string_view text) {
    constexpr std::size_t longest = 40;
    if (text.size() <= longest) return text;
    std::size_t size = longest;
    while (size > 0 && (static_cast<unsigned char>(text[size]) & 0xC0U) == 0x80U)
        --size;
    return text.substr(0, size);
}

bool opens_detail(std::string_view text) {
    constexpr std::array openers{"tempo"sv,        "hold"sv,       "arc"sv,        "rest"sv,
                                 "if no"sv,        "lower"sv,      "breath in"sv,  "pause"sv,
                                 "incline"sv,      "load rises"sv, "load falls"sv, "swap hands"sv,
                                 "RPE"sv,          "zone"sv,       "heart rate"sv, "each wave"sv,
                                 "then swapped"sv, "left first"sv, "right first"sv};
    return std::ranges::any_of(openers, [&](std::string_view opener) {
        return text.size() >= opener.size() &&
               grammar::same_word(text.substr(0, opener.size()), opener) &&
               (text.size() == opener.size() || !is_letter(text[opener.size()]));
    });
}

}  // namespace stave::parse
