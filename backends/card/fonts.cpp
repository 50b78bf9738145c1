#include "backends/card/fonts.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <functional>
#include <limits>
#include <string>
#include <unordered_map>
#include <utility>

#include "backends/card/fonts/harfbuzz.hpp"
#include "backends/card/fonts/outline.hpp"
#include "backends/card/fonts/spacing.hpp"
#include "compiler/source/utf8.hpp"

namespace stave::card {

namespace {

// Ten metres, which no paper has: what a broken file of a coach says of its widths must not
// run over in sums.
constexpr Centipoints widest = 2'834'646;

// Lets the cache be asked by string_view without making a string.
struct TextHash {
    using is_transparent = void;
    std::size_t operator()(std::string_view text) const {
        return std::hash<std::string_view>{}(text);
    }
};
using ShapeCache = std::unordered_map<std::string, ShapedText, TextHash, std::equal_to<>>;

struct LoadedFace {
    FontHandle font;
    int units_per_em = 0;
    // A node map: its values stay where they are as it grows.
    ShapeCache shapes;
};

LoadedFace load(const FaceFile& file) {
    LoadedFace loaded;
    loaded.font = font_of(file.bytes);
    loaded.units_per_em = static_cast<int>(hb_face_get_upem(hb_font_get_face(loaded.font.get())));
    return loaded;
}

// Every property is set here and none guessed: HarfBuzz would take the language
// from the locale. One script does for all text, as the faces have the same
// lookups under Latin, Greek and Cyrillic.
void fill(hb_buffer_t* buffer, std::string_view text) {
    hb_buffer_clear_contents(buffer);
    // A mark keeps the cluster of its own character, so that each glyph knows
    // the text it draws.
    hb_buffer_set_cluster_level(buffer, HB_BUFFER_CLUSTER_LEVEL_MONOTONE_CHARACTERS);
    const int size = static_cast<int>(
        std::min(text.size(), static_cast<std::size_t>(std::numeric_limits<int>::max())));
    hb_buffer_add_utf8(buffer, text.data(), size, 0, size);
    hb_buffer_set_direction(buffer, HB_DIRECTION_LTR);
    hb_buffer_set_script(buffer, HB_SCRIPT_LATIN);
}

ShapedText shape_with(hb_font_t* font, hb_buffer_t* buffer, std::string_view text) {
    constexpr unsigned from = HB_FEATURE_GLOBAL_START;
    constexpr unsigned to = HB_FEATURE_GLOBAL_END;
    static constexpr std::array<hb_feature_t, 4> features{{
        {HB_TAG('k', 'e', 'r', 'n'), 1, from, to},
        {HB_TAG('t', 'n', 'u', 'm'), 1, from, to},
        {HB_TAG('l', 'i', 'g', 'a'), 0, from, to},
        {HB_TAG('c', 'l', 'i', 'g'), 0, from, to},
    }};
    fill(buffer, text);
    hb_shape(font, buffer, features.data(), static_cast<unsigned>(features.size()));

    unsigned count = 0;
    const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(buffer, &count);
    const hb_glyph_position_t* positions = hb_buffer_get_glyph_positions(buffer, &count);
    ShapedText shaped;
    shaped.glyphs.reserve(count);
    for (unsigned i = 0; i < count; ++i) {
        shaped.glyphs.push_back({infos[i].codepoint, infos[i].cluster, positions[i].x_advance,
                                 positions[i].x_offset, positions[i].y_offset});
        shaped.advance += positions[i].x_advance;
    }
    return shaped;
}

}  // namespace

struct Fonts::State {
    Family family;
    BufferHandle buffer{hb_buffer_create()};
    std::array<LoadedFace, face_count> faces{
        load(family.face(Face::condensed_bold)), load(family.face(Face::condensed_regular)),
        load(family.face(Face::regular)), load(family.face(Face::medium))};

    explicit State(Family of) : family(std::move(of)) {}

    LoadedFace& face(Face which) { return faces[static_cast<std::size_t>(which)]; }
};

Fonts::Fonts() : Fonts(Family()) {}

Fonts::Fonts(Family family) : state_(std::make_unique<State>(std::move(family))) {}

Fonts::~Fonts() = default;

const ShapedText& Fonts::shape(Face face, std::string_view text) {
    LoadedFace& loaded = state_->face(face);
    if (const auto found = loaded.shapes.find(text); found != loaded.shapes.end()) {
        return found->second;
    }
    ShapedText shaped = shape_with(loaded.font.get(), state_->buffer.get(), text);
    thin_before_units(shaped, text, loaded.units_per_em);
    return loaded.shapes.emplace(std::string(text), std::move(shaped)).first->second;
}

Centipoints Fonts::measure(Face face, Centipoints size, std::string_view text,
                           Centipoints tracking) {
    const ShapedText& shaped = shape(face, text);
    const std::int64_t units = units_per_em(face);
    const std::int64_t scaled = std::int64_t{shaped.advance} * size;
    const std::int64_t width = (scaled * 2 + units) / (units * 2) +
                               static_cast<std::int64_t>(shaped.glyphs.size()) * tracking;
    return static_cast<Centipoints>(std::clamp<std::int64_t>(width, 0, widest));
}

std::optional<char32_t> Fonts::first_missing(Face face, std::string_view text) const {
    hb_font_t* font = state_->face(face).font.get();
    for (std::size_t i = 0; i < text.size();) {
        const Character character = character_at(text, i);
        if (character.size == 0) return U'\uFFFD';
        hb_codepoint_t glyph = 0;
        if (!hb_font_get_nominal_glyph(font, static_cast<hb_codepoint_t>(character.code_point),
                                       &glyph)) {
            return static_cast<char32_t>(character.code_point);
        }
        i += character.size;
    }
    return std::nullopt;
}

void Fonts::forget_shapes(std::size_t most) {
    std::size_t known = 0;
    for (const LoadedFace& face : state_->faces)
        known += face.shapes.size();
    if (known <= most) return;
    for (LoadedFace& face : state_->faces)
        face.shapes.clear();
}

Outline Fonts::outline(Face face, std::uint32_t glyph) const {
    return outline_of(state_->face(face).font.get(), glyph);
}

int Fonts::units_per_em(Face face) const {
    return state_->face(face).units_per_em;
}

const Family& Fonts::family() const {
    return state_->family;
}

std::span<const std::byte> Fonts::file(Face face) const {
    return state_->family.face(face).bytes;
}

std::string_view Fonts::name(Face face) const {
    return state_->family.face(face).name;
}

}  // namespace stave::card
