#include "compiler/syntax/link.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compiler/source/utf8.hpp"
#include "compiler/syntax/numbers.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::syntax {

namespace {

using namespace std::string_view_literals;

bool is_ascii_letter(char sign) {
    const char small = grammar::to_lower(sign);
    return small >= 'a' && small <= 'z';
}

// All that lines take for blanks, whether they can be seen or not.
bool is_blank(std::int32_t sign) {
    constexpr std::array blanks{0x09, 0x20, 0x85, 0xA0, 0x2028, 0x2029, 0x202F, 0x3000, 0xFEFF};
    return std::ranges::find(blanks, sign) != blanks.end() || (sign >= 0x2000 && sign <= 0x200F);
}

bool is_digit(char sign) {
    return sign >= '0' && sign <= '9';
}

bool is_hexadecimal(char sign) {
    const char small = grammar::to_lower(sign);
    return is_digit(sign) || (small >= 'a' && small <= 'f');
}

// RFC 3986, section 2.2 and 2.3, and the percent sign.
bool may_stand_in_link(char sign) {
    constexpr std::string_view others = "-._~:/?#[]@!$&'()*+,;=%";
    return is_ascii_letter(sign) || is_digit(sign) || others.contains(sign);
}

// Bytes of "https://" or "http://" that the text begins with, in any letter case; else 0.
std::size_t scheme_size(std::string_view text) {
    constexpr std::array schemes{"https://"sv, "http://"sv};
    for (const std::string_view scheme : schemes) {
        if (text.size() >= scheme.size() &&
            grammar::same_word(text.substr(0, scheme.size()), scheme))
            return scheme.size();
    }
    return 0;
}

// Of one character; none where it is sound.
std::optional<Code> fault_of(std::string_view link, std::size_t begin, Character character) {
    const std::string_view sign = link.substr(begin, character.size);
    if (is_blank(character.code_point)) return Code::link_blank;
    if (sign.size() != 1 || !may_stand_in_link(sign.front())) return Code::link_sign;
    if (sign != "%") return std::nullopt;
    const std::string_view digits = link.substr(begin + 1, 2);
    if (digits.size() == 2 && std::ranges::all_of(digits, is_hexadecimal)) return std::nullopt;
    return Code::link_percent;
}

}  // namespace

std::optional<LinkFault> find_link_fault(std::string_view link) {
    const std::size_t scheme = scheme_size(link);
    if (scheme == 0) return LinkFault{Code::link_start, 0, link.size()};
    for (std::size_t i = 0; i < link.size();) {
        Character character = character_at(link, i);
        // A byte that is no UTF-8 stands for itself.
        if (character.size == 0) character = {0xFFFD, 1};
        if (const auto code = fault_of(link, i, character))
            return LinkFault{*code, i, character.size};
        i += character.size;
    }
    const bool has_host =
        scheme < link.size() &&
        (is_ascii_letter(link[scheme]) || "[%"sv.contains(link[scheme]) || is_digit(link[scheme]));
    if (!has_host) return LinkFault{Code::link_host, scheme, 0};
    if (link.size() > longest_link) return LinkFault{Code::link_long, 0, link.size()};
    return std::nullopt;
}

std::string percent_encoded(std::string_view text) {
    std::string result;
    for (const char sign : text) {
        if (may_stand_in_link(sign)) {
            result += sign;
        } else {
            result += fmt::format("%{:02X}", static_cast<unsigned char>(sign));
        }
    }
    return result;
}

bool begins_with_host(std::string_view text) {
    const std::string_view host = text.substr(0, text.find_first_of("/?#"));
    const auto in_host = [](char sign) {
        return is_ascii_letter(sign) || is_digit(sign) || sign == '-' || sign == '.';
    };
    const std::size_t point = host.find('.');
    return point != std::string_view::npos && point > 0 && point + 1 < host.size() &&
           std::ranges::all_of(host, in_host);
}

}  // namespace stave::syntax
