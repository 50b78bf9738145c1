#include "backends/card/pdf/font_subset.hpp"

#include <fmt/format.h>
#include <hb-ot.h>
#include <hb-subset.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <limits>
#include <numeric>
#include <unordered_map>
#include <utility>

#include "backends/card/fonts/harfbuzz.hpp"
#include "backends/card/pdf/utf16.hpp"
#include "backends/card/pdf/write_failure.hpp"
#include "compiler/source/text_hash.hpp"

namespace stave::card {

namespace {

using InputHandle = std::unique_ptr<hb_subset_input_t, Destroyer<hb_subset_input_destroy>>;
using PlanHandle = std::unique_ptr<hb_subset_plan_t, Destroyer<hb_subset_plan_destroy>>;

struct Drawn {
    std::uint32_t glyph = 0;
    int width = 0;
    std::string text;
};

// The box that stands for a missing character; code 0 of every font.
constexpr std::uint32_t box_glyph = 0;

// Rounds half away from zero; `of` > 0.
std::int64_t divide(std::int64_t value, std::int64_t of) {
    return (value + (value < 0 ? -of : of) / 2) / of;
}

// A viewer draws by glyph number and reads widths from the PDF, so the tables
// that shape, name and map are dead weight.
constexpr std::array dropped_tables{
    HB_TAG('G', 'S', 'U', 'B'), HB_TAG('G', 'P', 'O', 'S'), HB_TAG('G', 'D', 'E', 'F'),
    HB_TAG('n', 'a', 'm', 'e'), HB_TAG('p', 'o', 's', 't'), HB_TAG('O', 'S', '/', '2'),
    HB_TAG('c', 'm', 'a', 'p'), HB_TAG('D', 'S', 'I', 'G'), HB_TAG('g', 'a', 's', 'p'),
    HB_TAG('h', 'd', 'm', 'x'), HB_TAG('f', 'v', 'a', 'r'), HB_TAG('g', 'v', 'a', 'r'),
    HB_TAG('a', 'v', 'a', 'r'), HB_TAG('c', 'v', 'a', 'r'), HB_TAG('H', 'V', 'A', 'R'),
    HB_TAG('V', 'V', 'A', 'R'), HB_TAG('M', 'V', 'A', 'R'), HB_TAG('S', 'T', 'A', 'T'),
    HB_TAG('C', 'O', 'L', 'R'), HB_TAG('C', 'P', 'A', 'L'), HB_TAG('S', 'V', 'G', ' '),
    HB_TAG('C', 'B', 'D', 'T'), HB_TAG('C', 'B', 'L', 'C'), HB_TAG('s', 'b', 'i', 'x'),
    HB_TAG('v', 'h', 'e', 'a'), HB_TAG('v', 'm', 't', 'x'), HB_TAG('V', 'O', 'R', 'G'),
    HB_TAG('M', 'A', 'T', 'H'), HB_TAG('B', 'A', 'S', 'E'), HB_TAG('k', 'e', 'r', 'n'),
};

PlanHandle plan_subset(hb_face_t* face, std::span<const Drawn> drawn) {
    const InputHandle input{hb_subset_input_create_or_fail()};
    if (!input) throw WriteFailure("no memory for a font subset");
    hb_set_t* glyphs = hb_subset_input_glyph_set(input.get());
    for (const Drawn& one : drawn)
        hb_set_add(glyphs, one.glyph);
    hb_set_t* dropped = hb_subset_input_set(input.get(), HB_SUBSET_SETS_DROP_TABLE_TAG);
    for (const hb_tag_t table : dropped_tables)
        hb_set_add(dropped, table);
    // Without the second flag a missing character would print nothing.
    hb_subset_input_set_flags(input.get(),
                              HB_SUBSET_FLAGS_NO_HINTING | HB_SUBSET_FLAGS_NOTDEF_OUTLINE);
    PlanHandle plan{hb_subset_plan_create_or_fail(face, input.get())};
    if (!plan) throw WriteFailure("no plan for a font subset");
    return plan;
}

std::string file_of(hb_subset_plan_t* plan) {
    const FaceHandle subset{hb_subset_plan_execute_or_fail(plan)};
    if (!subset) throw WriteFailure("a font subset failed");
    const BlobHandle blob{hb_face_reference_blob(subset.get())};
    unsigned size = 0;
    const char* data = hb_blob_get_data(blob.get(), &size);
    return {data, size};
}

// Only has to differ between subsets.
std::string subset_tag(std::string_view file) {
    std::uint64_t hash = text_hash(file);
    std::string tag;
    for (int i = 0; i < 6; ++i) {
        tag += static_cast<char>('A' + hash % 26);
        hash /= 26;
    }
    return tag;
}

std::string hex_of(std::string_view bytes) {
    std::string hex;
    for (const char c : bytes)
        fmt::format_to(std::back_inserter(hex), "{:02X}", static_cast<unsigned char>(c));
    return hex;
}

// Codes that follow one another, as their texts do.
struct CodeRange {
    std::size_t first = 0;
    std::size_t last = 0;
    // UTF-16 of the first one's text.
    std::string text;
};

// Of a range only the last byte may count up, on both sides (ISO 32000-1, 9.10.3).
bool continues(const CodeRange& range, std::size_t code, std::string_view text) {
    constexpr std::size_t byte = 0x100;
    const std::size_t step = code - range.first;
    if (code != range.last + 1 || code % byte == 0 || text.size() != range.text.size())
        return false;
    const auto begin = static_cast<unsigned char>(range.text.back());
    const auto end = static_cast<unsigned char>(text.back());
    return text.substr(0, text.size() - 1) ==
               std::string_view(range.text).substr(0, text.size() - 1) &&
           end == begin + step;
}

std::vector<CodeRange> ranges_of(std::span<const Drawn> drawn) {
    std::vector<CodeRange> ranges;
    for (std::size_t code = 0; code < drawn.size(); ++code) {
        if (drawn[code].text.empty()) continue;
        std::string text = utf16be(drawn[code].text);
        if (!ranges.empty() && continues(ranges.back(), code, text)) {
            ranges.back().last = code;
        } else {
            ranges.push_back({code, code, std::move(text)});
        }
    }
    return ranges;
}

// ISO 32000-1, 9.10.3, and the Adobe technical note 5411 it builds on: at most
// a hundred entries a block.
std::string to_unicode_map(std::span<const Drawn> drawn) {
    constexpr std::size_t block = 100;
    const std::vector<CodeRange> ranges = ranges_of(drawn);
    std::string map =
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
        "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
        "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
    for (std::size_t i = 0; i < ranges.size(); i += block) {
        const std::size_t end = std::min(i + block, ranges.size());
        fmt::format_to(std::back_inserter(map), "{} beginbfrange\n", end - i);
        for (std::size_t j = i; j < end; ++j) {
            fmt::format_to(std::back_inserter(map), "<{:04X}> <{:04X}> <{}>\n", ranges[j].first,
                           ranges[j].last, hex_of(ranges[j].text));
        }
        map += "endbfrange\n";
    }
    map += "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
    return map;
}

}  // namespace

struct FontSource::State {
    std::string name;
    FontHandle font;
    std::int64_t units_per_em = 1;

    [[nodiscard]] hb_face_t* face() const { return hb_font_get_face(font.get()); }
};

struct FontSubset::State {
    const FontSource::State& source;
    // Indexed by code; the box glyph is there from the start.
    std::vector<Drawn> drawn;
    // The newest code of each glyph.
    std::unordered_map<std::uint32_t, Code> newest;
    // From codes as they were given to those in order.
    std::vector<Code> arranged;

    [[nodiscard]] int thousandths(std::int64_t units) const {
        return static_cast<int>(divide(units * 1000, source.units_per_em));
    }
    Code add(std::uint32_t glyph, std::string_view text);
    [[nodiscard]] FontMetrics metrics() const;
};

Code FontSubset::State::add(std::uint32_t glyph, std::string_view text) {
    const auto code = static_cast<Code>(drawn.size());
    const int width = thousandths(hb_font_get_glyph_h_advance(source.font.get(), glyph));
    drawn.push_back({glyph, width, std::string(text)});
    newest[glyph] = code;
    return code;
}

FontMetrics FontSubset::State::metrics() const {
    FontMetrics metrics;
    hb_font_extents_t extents{};
    hb_font_t* const font = source.font.get();
    hb_font_get_h_extents(font, &extents);
    metrics.ascent = thousandths(extents.ascender);
    metrics.descent = thousandths(extents.descender);
    hb_position_t cap_height = 0;
    hb_ot_metrics_get_position(font, HB_OT_METRICS_TAG_CAP_HEIGHT, &cap_height);
    metrics.cap_height = thousandths(cap_height);
    // Common practice, no source: font files do not say it and viewers only use
    // it to choose a substitute, which an embedded font never needs.
    const float weight = hb_style_get_value(font, HB_STYLE_TAG_WEIGHT);
    metrics.stem_width = 10 + static_cast<int>(220.0F * (weight - 50.0F) / 900.0F);

    // OpenType, `head`: xMin, yMin, xMax and yMax are signed words at byte 36.
    const BlobHandle head{hb_face_reference_table(source.face(), HB_TAG('h', 'e', 'a', 'd'))};
    unsigned size = 0;
    const char* data = hb_blob_get_data(head.get(), &size);
    constexpr std::size_t box_at = 36;
    if (size < box_at + 8) return metrics;
    const auto word = [&](std::size_t at) {
        const auto high = static_cast<unsigned char>(data[at]);
        const auto low = static_cast<unsigned char>(data[at + 1]);
        return thousandths(static_cast<std::int16_t>(high << 8 | low));
    };
    metrics.x_min = word(box_at);
    metrics.y_min = word(box_at + 2);
    metrics.x_max = word(box_at + 4);
    metrics.y_max = word(box_at + 6);
    return metrics;
}

FontSource::FontSource(std::string_view name, std::span<const std::byte> file)
    : state_(std::make_unique<State>()) {
    state_->name = name;
    state_->font = font_of(file);
    state_->units_per_em = hb_face_get_upem(state_->face());
}

FontSource::~FontSource() = default;

FontSource::FontSource(FontSource&&) noexcept = default;

FontSubset::FontSubset(const FontSource& source)
    : state_(std::make_unique<State>(State{*source.state_, {}, {}, {}})) {
    state_->add(box_glyph, {});
}

FontSubset::~FontSubset() = default;

FontSubset::FontSubset(FontSubset&&) noexcept = default;

Code FontSubset::code(std::uint32_t glyph, std::string_view text) {
    const auto found = state_->newest.find(glyph);
    if (found == state_->newest.end()) return state_->add(glyph, text);
    const std::vector<Drawn>& drawn = state_->drawn;
    if (drawn[found->second].text == text) return found->second;
    const auto same = std::ranges::find_if(
        drawn, [&](const Drawn& one) { return one.glyph == glyph && one.text == text; });
    if (same != drawn.end()) return static_cast<Code>(same - drawn.begin());
    // With every code given away the glyph still prints; only its text is lost.
    if (drawn.size() > std::numeric_limits<Code>::max()) return found->second;
    return state_->add(glyph, text);
}

int FontSubset::width(Code code) const {
    return state_->drawn[code].width;
}

bool FontSubset::used() const {
    return state_->drawn.size() > 1;
}

// The box keeps its code.
void FontSubset::arrange() {
    std::vector<Drawn>& drawn = state_->drawn;
    std::vector<Code> order(drawn.size());
    std::iota(order.begin(), order.end(), Code{0});
    std::ranges::sort(order.begin() + 1, order.end(), {}, [&](Code code) {
        return std::pair<std::uint32_t, std::string_view>(drawn[code].glyph, drawn[code].text);
    });
    std::vector<Drawn> in_order;
    in_order.reserve(drawn.size());
    state_->arranged.resize(drawn.size());
    for (const Code before : order) {
        state_->arranged[before] = static_cast<Code>(in_order.size());
        in_order.push_back(std::move(drawn[before]));
    }
    drawn = std::move(in_order);
}

Code FontSubset::arranged(Code code) const {
    return state_->arranged[code];
}

std::string FontSubset::key() const {
    std::string key;
    for (const Drawn& one : state_->drawn) {
        key += std::to_string(one.glyph) + ' ' + std::to_string(one.text.size()) + ' ' + one.text;
    }
    return key;
}

EmbeddedFont FontSubset::embed() const {
    const std::span<const Drawn> drawn = state_->drawn;
    const PlanHandle plan = plan_subset(state_->source.face(), drawn);
    const hb_map_t* new_glyphs = hb_subset_plan_old_to_new_glyph_mapping(plan.get());

    EmbeddedFont embedded;
    embedded.file = file_of(plan.get());
    embedded.name = subset_tag(embedded.file) + "+" + state_->source.name;
    bool is_identity = true;
    for (const Drawn& one : drawn) {
        const auto glyph = static_cast<std::uint16_t>(hb_map_get(new_glyphs, one.glyph));
        is_identity = is_identity && glyph == embedded.widths.size();
        embedded.glyphs += static_cast<char>(glyph >> 8);
        embedded.glyphs += static_cast<char>(glyph & 0xFF);
        embedded.widths.push_back(one.width);
    }
    if (is_identity) embedded.glyphs.clear();
    embedded.to_unicode = to_unicode_map(drawn);
    embedded.metrics = state_->metrics();
    return embedded;
}

}  // namespace stave::card
