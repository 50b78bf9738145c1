#include "compiler/names/names.hpp"

#include <fmt/format.h>
#include <utf8proc.h>

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <memory>

#include "compiler/source/text_hash.hpp"
#include "compiler/source/utf8.hpp"

namespace stave {

namespace {

struct FreeDeleter {
    // utf8proc allocates with malloc.
    void operator()(utf8proc_uint8_t* memory) const { std::free(memory); }
};

std::string map(std::string_view text, int options) {
    utf8proc_uint8_t* mapped = nullptr;
    const auto size = utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                   static_cast<utf8proc_ssize_t>(text.size()), &mapped,
                                   static_cast<utf8proc_option_t>(options));
    const std::unique_ptr<utf8proc_uint8_t, FreeDeleter> owner(mapped);
    if (size < 0) return std::string(text);
    return {reinterpret_cast<const char*>(mapped), static_cast<std::size_t>(size)};
}

bool is_plain(std::string_view text) {
    return std::ranges::all_of(text, [](char c) { return c >= 0x20 && c < 0x7F; });
}

bool is_squeezed(std::string_view plain) {
    return !plain.starts_with(' ') && !plain.ends_with(' ') && !plain.contains("  ");
}

// Runs of blanks become one space; ends are trimmed; `dashes` maps every dash.
std::string squeeze(std::string_view text, bool dashes) {
    std::string out;
    out.reserve(text.size());
    bool blank = false;
    for (std::size_t i = 0; i < text.size();) {
        const Character next = character_at(text, i);
        const std::int32_t character = next.code_point;
        const std::size_t size = std::max<std::size_t>(1, next.size);
        const bool is_blank = character == ' ' || character == '\t' || character == 0xA0 ||
                              character == 0x202F || character == 0x3000 || character == 0x2028 ||
                              character == 0x2029 || character == 0x85 ||
                              (character >= 0x2000 && character <= 0x200A);
        const bool is_mark = (character >= 0x200B && character <= 0x200F) || character == 0xFEFF;
        const bool is_dash = (character >= 0x2010 && character <= 0x2013) || character == 0x2212;
        if (is_blank) {
            blank = true;
        } else if (!is_mark) {
            if (blank && !out.empty()) out += ' ';
            blank = false;
            if (dashes && is_dash) {
                out += '-';
            } else {
                out += text.substr(i, size);
            }
        }
        i += size;
    }
    return out;
}

}  // namespace

std::string fold_name(std::string_view name) {
    if (is_plain(name)) {
        std::string folded = clean_text(name);
        std::ranges::transform(folded, folded.begin(), [](char c) {
            return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        });
        return folded;
    }
    std::string squeezed = squeeze(name, true);
    // Typographic apostrophes, U+2019 and U+02BC, are apostrophes.
    for (const std::string_view mark : {"\u2019", "\u02BC"}) {
        for (std::size_t at = squeezed.find(mark); at != std::string::npos;
             at = squeezed.find(mark)) {
            squeezed.replace(at, mark.size(), "'");
        }
    }
    return map(squeezed, UTF8PROC_STABLE | UTF8PROC_COMPOSE | UTF8PROC_CASEFOLD);
}

std::string clean_text(std::string_view text) {
    if (is_plain(text)) return is_squeezed(text) ? std::string(text) : squeeze(text, false);
    return map(squeeze(text, false), UTF8PROC_STABLE | UTF8PROC_COMPOSE);
}

std::string slug(std::string_view text) {
    // Room for a hash behind it.
    constexpr std::size_t longest = 50;
    std::string plain = fold_name(text);
    if (!is_plain(plain)) {
        plain =
            map(plain, UTF8PROC_STABLE | UTF8PROC_DECOMPOSE | UTF8PROC_STRIPMARK | UTF8PROC_COMPAT);
    }
    std::string out;
    bool letter = false;
    for (const char c : plain) {
        const bool keep = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        letter = letter || (c >= 'a' && c <= 'z');
        if (keep) out += c;
        if (!keep && !out.empty() && out.back() != '-') out += '-';
    }
    const bool is_cut = out.size() > longest;
    if (is_cut) out.resize(longest);
    while (!out.empty() && out.back() == '-')
        out.pop_back();
    const bool lost = is_cut || (!letter && !is_plain(text) && !text.empty());
    if (!lost) return out;
    return fmt::format("{}{}{:08x}", out, out.empty() ? "" : "-",
                       text_hash(fold_name(text)) >> 32U);
}

}  // namespace stave
