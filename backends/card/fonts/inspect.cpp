#include "backends/card/fonts/inspect.hpp"

#include <hb-ot.h>
#include <hb-subset.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string_view>

#include "backends/card/fonts/outline.hpp"

namespace stave::card {

namespace {

using namespace std::string_view_literals;

using InputHandle = std::unique_ptr<hb_subset_input_t, Destroyer<hb_subset_input_destroy>>;

// Numbers of font files are big-endian.
std::uint32_t number_at(std::string_view bytes, std::size_t at, std::size_t size) {
    std::uint32_t number = 0;
    for (std::size_t i = 0; i < size; ++i)
        number = number << 8U | static_cast<unsigned char>(bytes[at + i]);
    return number;
}

std::unexpected<Diagnostic> refused(Code code, const FontFile& file, std::string detail = {}) {
    return std::unexpected(Diagnostic{code, {}, {file.path, std::move(detail)}, {}, {}});
}

// The tables a TrueType file must have for its letters to be drawn (OpenType 1.9, "Font
// tables"); OS/2 and name are asked for but can be done without.
constexpr std::array needed_tables{"cmap"sv, "glyf"sv, "head"sv, "hhea"sv,
                                   "hmtx"sv, "loca"sv, "maxp"sv};
// Tables of outlines or pictures that are no TrueType outlines.
constexpr std::array foreign_tables{"CFF "sv, "CFF2"sv, "CBDT"sv, "EBDT"sv, "SVG "sv, "sbix"sv};

// What is wrong with the table directory, by OpenType 1.9, "Organization of an OpenType
// font".
std::optional<Diagnostic> directory_problem(const FontFile& file) {
    constexpr std::size_t head_size = 12;
    constexpr std::size_t entry_size = 16;
    const std::string_view bytes = file.bytes;
    const std::string_view kind = bytes.substr(0, 4);
    if (kind == "ttcf") return refused(Code::font_collection, file).error();
    if (kind == "OTTO" || kind == "wOFF" || kind == "wOF2" || kind == "typ1") {
        return refused(Code::font_outlines, file).error();
    }
    if (kind != "\0\1\0\0"sv && kind != "true") {
        return refused(Code::font_damaged, file, "it does not begin like a font").error();
    }
    if (bytes.size() < head_size) {
        return refused(Code::font_damaged, file, "it ends too early").error();
    }
    const std::size_t count = number_at(bytes, 4, 2);
    if (bytes.size() < head_size + count * entry_size) {
        return refused(Code::font_damaged, file, "it ends too early").error();
    }
    std::vector<std::string_view> tables;
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t entry = head_size + i * entry_size;
        const std::size_t offset = number_at(bytes, entry + 8, 4);
        const std::size_t size = number_at(bytes, entry + 12, 4);
        if (offset > bytes.size() || size > bytes.size() - offset) {
            return refused(Code::font_damaged, file, "it ends too early").error();
        }
        if (size > 0) tables.push_back(bytes.substr(entry, 4));
    }
    const auto has = [&](std::string_view table) {
        return std::ranges::find(tables, table) != tables.end();
    };
    if (!has("glyf") && std::ranges::any_of(foreign_tables, has)) {
        return refused(Code::font_outlines, file).error();
    }
    if (!std::ranges::all_of(needed_tables, has)) {
        return refused(Code::font_damaged, file, "a part of it is missing").error();
    }
    return std::nullopt;
}

std::string name_of(hb_face_t* face, hb_ot_name_id_t id) {
    std::array<char, 128> text{};
    auto size = static_cast<unsigned>(text.size());
    hb_ot_name_get_utf8(face, id, HB_LANGUAGE_INVALID, &size, text.data());
    return {text.data(), std::min<std::size_t>(size, text.size() - 1)};
}

// PDF names and PostScript names share these characters; 63 is the most that PostScript
// names have (OpenType 1.9, `name`, name ID 6).
std::string postscript_name(hb_face_t* face) {
    constexpr std::size_t most = 63;
    std::string name = name_of(face, HB_OT_NAME_ID_POSTSCRIPT_NAME);
    std::erase_if(name, [](char c) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        return !letter && !(c >= '0' && c <= '9') && c != '-' && c != '_' && c != '.';
    });
    name.resize(std::min(name.size(), most));
    return name.empty() ? "Font" : name;
}

// Words behind a family's name that tell its members apart.
constexpr std::array style_words{
    "Thin"sv,      "Hairline"sv,   "ExtraLight"sv, "UltraLight"sv,     "Light"sv,
    "Book"sv,      "Regular"sv,    "Normal"sv,     "Medium"sv,         "SemiBold"sv,
    "Semibold"sv,  "DemiBold"sv,   "Demi"sv,       "Bold"sv,           "ExtraBold"sv,
    "UltraBold"sv, "Heavy"sv,      "Black"sv,      "Extra"sv,          "Ultra"sv,
    "Semi"sv,      "Condensed"sv,  "Narrow"sv,     "SemiCondensed"sv,  "ExtraCondensed"sv,
    "Cond"sv,      "Compressed"sv, "Expanded"sv,   "SemiExpanded"sv,   "Wide"sv,
    "Italic"sv,    "Oblique"sv,    "Roman"sv,      "UltraCondensed"sv, "Extended"sv,
};

std::string family_name(hb_face_t* face) {
    std::string name = name_of(face, HB_OT_NAME_ID_TYPOGRAPHIC_FAMILY);
    if (name.empty()) name = name_of(face, HB_OT_NAME_ID_FONT_FAMILY);
    while (true) {
        const std::size_t blank = name.rfind(' ');
        if (blank == std::string::npos || blank == 0) return name;
        const std::string_view last = std::string_view(name).substr(blank + 1);
        if (std::ranges::find(style_words, last) == style_words.end()) return name;
        name.resize(blank);
    }
}

hb_codepoint_t glyph_of(hb_font_t* font, char c) {
    hb_codepoint_t glyph = 0;
    hb_font_get_nominal_glyph(font, static_cast<unsigned char>(c), &glyph);
    return glyph;
}

constexpr std::string_view letters =
    "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";

// Whether a subset can be made of it, as the PDF will have it.
bool can_be_cut(hb_font_t* font) {
    const InputHandle input{hb_subset_input_create_or_fail()};
    if (!input) return false;
    for (const char c : letters)
        hb_set_add(hb_subset_input_glyph_set(input.get()), glyph_of(font, c));
    const FaceHandle subset{hb_subset_or_fail(hb_font_get_face(font), input.get())};
    return subset != nullptr && subset.get() != hb_face_get_empty();
}

}  // namespace

std::expected<Inspected, Diagnostic> inspect(const FontFile& file) {
    if (auto problem = directory_problem(file)) return std::unexpected(std::move(*problem));
    Inspected inspected;
    inspected.font = font_of(bytes_of(file));
    hb_font_t* const font = inspected.font.get();
    hb_face_t* const face = hb_font_get_face(font);
    // OpenType 1.9, `head`: the units per em lie between these.
    constexpr unsigned least_units = 16;
    constexpr unsigned most_units = 16384;
    const unsigned units = hb_face_get_upem(face);
    if (hb_face_get_glyph_count(face) == 0 || units < least_units || units > most_units) {
        return refused(Code::font_damaged, file, "it has no letters");
    }
    inspected.family = family_name(face);
    inspected.name = postscript_name(face);
    inspected.weight = static_cast<int>(std::lround(hb_style_get_value(font, HB_STYLE_TAG_WEIGHT)));
    inspected.width = static_cast<int>(std::lround(hb_style_get_value(font, HB_STYLE_TAG_WIDTH)));
    inspected.is_slanted = hb_style_get_value(font, HB_STYLE_TAG_ITALIC) > 0 ||
                           hb_style_get_value(font, HB_STYLE_TAG_SLANT_ANGLE) != 0;
    inspected.has_letters =
        std::ranges::all_of(letters, [&](char c) { return glyph_of(font, c) != 0; });
    return inspected;
}

// OpenType 1.9, OS/2, fsType: of bits 1 to 3 the least strict counts; 8 is no subsetting, 9
// pictures of letters only.
std::expected<void, Diagnostic> may_be_embedded(const FontFile& file, const Inspected& inspected) {
    constexpr std::size_t rights_at = 8;
    constexpr std::uint32_t usage = 0x000E;
    constexpr std::uint32_t restricted = 0x0002;
    constexpr std::uint32_t no_subset = 0x0100;
    constexpr std::uint32_t only_pictures = 0x0200;
    const BlobHandle table{hb_face_reference_table(hb_font_get_face(inspected.font.get()),
                                                   HB_TAG('O', 'S', '/', '2'))};
    unsigned size = 0;
    const char* data = hb_blob_get_data(table.get(), &size);
    if (size >= rights_at + 2) {
        const std::uint32_t rights = number_at({data, size}, rights_at, 2);
        if ((rights & usage) == restricted || (rights & only_pictures) != 0) {
            return refused(Code::font_licence, file, "embedded in a document");
        }
        if ((rights & no_subset) != 0) {
            return refused(Code::font_licence, file, "embedded in part");
        }
    }
    for (const char c : letters) {
        if (outline_of(inspected.font.get(), glyph_of(inspected.font.get(), c)).empty()) {
            return refused(Code::font_damaged, file, "it has empty letters");
        }
    }
    if (!can_be_cut(inspected.font.get())) {
        return refused(Code::font_damaged, file, "its letters cannot be taken out of it");
    }
    return {};
}

}  // namespace stave::card
