// The address behind `link:`, held against RFC 3986.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compiler/source/utf8.hpp"
#include "compiler/syntax/lower_parts.hpp"

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

// "www.example.org/winter", where only the scheme is missing: a name with a point before
// anything that a scheme or a mailbox would have.
bool begins_with_host(std::string_view text) {
    const std::string_view host = text.substr(0, text.find_first_of("/?#"));
    const auto in_host = [](char sign) {
        return is_ascii_letter(sign) || is_digit(sign) || sign == '-' || sign == '.';
    };
    const std::size_t point = host.find('.');
    return point != std::string_view::npos && point > 0 && point + 1 < host.size() &&
           std::ranges::all_of(host, in_host);
}

class LinkReader {
public:
    LinkReader(const NodeReader& reader, Span body)
        : reader_(reader), body_(body), text_(reader.slice(body)) {}

    // The first fault is reported; false where there is one.
    [[nodiscard]] bool is_sound() const {
        const std::size_t scheme = scheme_size(text_);
        if (scheme == 0) return report_start();
        for (std::size_t i = 0; i < text_.size();) {
            const Character character = character_at(text_, i);
            if (!is_sound_at(i, character)) return false;
            i += character.size;
        }
        const bool has_host =
            scheme < text_.size() && (is_ascii_letter(text_[scheme]) ||
                                      "[%"sv.contains(text_[scheme]) || is_digit(text_[scheme]));
        if (!has_host) return report(Code::link_host, at(scheme, 0), {});
        if (text_.size() <= longest_link) return true;
        return report(Code::link_long, body_,
                      {std::to_string(text_.size()), std::to_string(longest_link)});
    }

private:
    [[nodiscard]] Span at(std::size_t begin, std::size_t size) const {
        const auto first = body_.begin + static_cast<std::uint32_t>(begin);
        return {first, first + static_cast<std::uint32_t>(size)};
    }

    bool report(Code code, Span span, std::vector<std::string> arguments,
                std::vector<Fix> fixes = {}) const {
        reader_.report(code, span, std::move(arguments), std::move(fixes));
        return false;
    }

    [[nodiscard]] bool report_start() const {
        if (!begins_with_host(text_)) {
            return report(Code::link_start, body_,
                          {std::string(text_), "an address that begins with https:// or http://"});
        }
        const std::string mended = fmt::format("https://{}", text_);
        return report(Code::link_start, body_, {std::string(text_), mended},
                      {replace(body_, mended)});
    }

    [[nodiscard]] bool is_sound_at(std::size_t begin, Character character) const {
        const std::string_view sign = text_.substr(begin, character.size);
        if (is_blank(character.code_point)) {
            return report(Code::link_blank, at(begin, sign.size()), {});
        }
        if (sign.size() > 1 || !may_stand_in_link(sign.front())) {
            return report(Code::link_sign, at(begin, sign.size()),
                          {std::string(sign), percent_encoded(sign)},
                          {replace(body_, percent_encoded(text_))});
        }
        if (sign != "%") return true;
        const std::string_view digits = text_.substr(begin + 1, 2);
        if (digits.size() == 2 && std::ranges::all_of(digits, is_hexadecimal)) return true;
        return report(Code::link_percent, at(begin, 1), {}, {replace(at(begin, 1), "%25")});
    }

    const NodeReader& reader_;
    Span body_;
    std::string_view text_;
};

}  // namespace

std::optional<Word> lower_link(const NodeReader& reader, Span body) {
    if (!LinkReader(reader, body).is_sound()) return std::nullopt;
    return Word{reader.slice(body), body};
}

}  // namespace stave::syntax
