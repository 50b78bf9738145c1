#include "backends/server/target.hpp"

#include <fmt/format.h>

#include <optional>

#include "backends/server/request.hpp"

namespace stave::server {

namespace {

std::optional<unsigned> digit_of(char c) {
    if (c >= '0' && c <= '9') return static_cast<unsigned>(c - '0');
    if (c >= 'A' && c <= 'F') return static_cast<unsigned>(c - 'A') + 10;
    if (c >= 'a' && c <= 'f') return static_cast<unsigned>(c - 'a') + 10;
    return std::nullopt;
}

// Path and what follows it, of either form; nothing where there is none.
std::string_view path_of(std::string_view target) {
    for (const std::string_view scheme : {"http://", "https://"}) {
        if (!same_name(target.substr(0, scheme.size()), scheme)) continue;
        target.remove_prefix(scheme.size());
        const std::size_t end = target.find_first_of("/?");
        if (end == std::string_view::npos || target[end] == '?') return "/";
        return target.substr(end);
    }
    return target;
}

// RFC 3986, section 2.1. Nothing where an escape is broken off or a control character comes out.
std::optional<std::string> unescaped(std::string_view part) {
    constexpr unsigned first_visible = 0x20;
    constexpr unsigned rub_out = 0x7F;
    std::string text;
    for (std::size_t i = 0; i < part.size(); ++i) {
        char c = part[i];
        if (c == '%') {
            if (i + 2 >= part.size()) return std::nullopt;
            const auto high = digit_of(part[i + 1]);
            const auto low = digit_of(part[i + 2]);
            if (!high || !low) return std::nullopt;
            c = static_cast<char>(*high * 16 + *low);
            i += 2;
        }
        const unsigned code = static_cast<unsigned char>(c);
        if (code < first_visible || code == rub_out) return std::nullopt;
        text += c;
    }
    return text;
}

// Hidden files, what is on its way to its place, and where private addresses are kept.
bool is_hidden_name(std::string_view name) {
    return name.empty() || name.starts_with('.') || name.contains('/') || name.ends_with(".part") ||
           name.ends_with(".addresses");
}

}  // namespace

std::expected<Place, Refusal> place_of(std::string_view target) {
    std::string_view rest = path_of(target);
    rest = rest.substr(0, rest.find('?'));
    if (!rest.starts_with('/')) return std::unexpected(Refusal::malformed);
    rest.remove_prefix(1);
    if (rest.empty()) return Place{"", true};
    Place place{"", rest.ends_with('/')};
    if (place.is_folder) rest.remove_suffix(1);
    bool is_hidden = false;
    for (bool is_last = false; !is_last;) {
        const std::size_t stroke = rest.find('/');
        is_last = stroke == std::string_view::npos;
        const std::optional<std::string> name = unescaped(rest.substr(0, stroke));
        if (!name) return std::unexpected(Refusal::malformed);
        is_hidden = is_hidden || is_hidden_name(*name);
        if (!place.path.empty()) place.path += '/';
        place.path += *name;
        if (!is_last) rest.remove_prefix(stroke + 1);
    }
    // By its list Stave knows its own files; nobody else needs it.
    if (is_hidden || place.path == "stave-manifest.json") return std::unexpected(Refusal::hidden);
    return place;
}

bool is_private(std::string_view path) {
    return path == "private" || path.starts_with("private/");
}

std::string escaped_path(std::string_view path) {
    constexpr std::string_view plain_signs = "-._~/!$&'()*+,;=:@";
    std::string text;
    for (const char c : path) {
        const bool is_letter_or_digit =
            (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
        if (is_letter_or_digit || plain_signs.contains(c)) {
            text += c;
        } else {
            text += fmt::format("%{:02X}", static_cast<unsigned char>(c));
        }
    }
    return text;
}

}  // namespace stave::server
