#include "backends/card/pdf/document.hpp"

#include <fmt/format.h>
#include <hpdf_encrypt.h>

#include <array>
#include <vector>

#include "backends/card/pdf/compact_file.hpp"
#include "backends/card/pdf/objects.hpp"
#include "backends/card/pdf/tags.hpp"

namespace stave::card {

namespace {

HPDF_Dict descriptor(Objects& objects, const EmbeddedFont& font) {
    // ISO 32000-1, table 123, bit 3: may hold other glyphs than standard Latin.
    constexpr HPDF_INT32 symbolic = 4;
    const FontMetrics& metrics = font.metrics;
    HPDF_Dict dict = objects.dictionary("FontDescriptor");
    objects.add_name(dict, "FontName", font.name);
    objects.check(HPDF_Dict_AddNumber(dict, "Flags", symbolic));
    HPDF_Array box = objects.array();
    objects.add(dict, "FontBBox", box);
    for (const int edge : {metrics.x_min, metrics.y_min, metrics.x_max, metrics.y_max}) {
        objects.check(HPDF_Array_AddNumber(box, edge));
    }
    objects.check(HPDF_Dict_AddNumber(dict, "ItalicAngle", 0));
    objects.check(HPDF_Dict_AddNumber(dict, "Ascent", metrics.ascent));
    objects.check(HPDF_Dict_AddNumber(dict, "Descent", metrics.descent));
    objects.check(HPDF_Dict_AddNumber(dict, "CapHeight", metrics.cap_height));
    objects.check(HPDF_Dict_AddNumber(dict, "StemV", metrics.stem_width));
    HPDF_Dict file = objects.packed_stream(font.packed_file);
    objects.add_number(file, "Length1", font.file.size());
    objects.add(dict, "FontFile2", file);
    return dict;
}

HPDF_Dict descendant(Objects& objects, const EmbeddedFont& font) {
    HPDF_Dict dict = objects.dictionary("Font");
    objects.add_name(dict, "Subtype", "CIDFontType2");
    objects.add_name(dict, "BaseFont", font.name);
    HPDF_Dict system = objects.direct_dictionary();
    objects.add(dict, "CIDSystemInfo", system);
    objects.add_string(system, "Registry", "Adobe");
    objects.add_string(system, "Ordering", "Identity");
    objects.add_number(system, "Supplement", 0);
    objects.add(dict, "FontDescriptor", descriptor(objects, font));
    HPDF_Array runs = objects.array();
    objects.add(dict, "W", runs);
    objects.add_number(runs, 0);
    HPDF_Array widths = objects.array();
    objects.add(runs, widths);
    for (const int width : font.widths)
        objects.check(HPDF_Array_AddNumber(widths, width));
    if (font.packed_glyphs.empty()) {
        objects.add_name(dict, "CIDToGIDMap", "Identity");
    } else {
        objects.add(dict, "CIDToGIDMap", objects.packed_stream(font.packed_glyphs));
    }
    return dict;
}

// Of everything that is added: the file's identity. ISO 32000-1, 14.4, suggests MD5;
// not by libharu's encryption, whose identifier takes in the time.
class Identity {
public:
    Identity() { HPDF_MD5Init(&hash_); }

    // The length goes in too, so that the borders between texts count.
    void add(std::string_view data) {
        const std::string length = fmt::format("{}:", data.size());
        HPDF_MD5Update(&hash_, bytes_of(length), size_of(length));
        HPDF_MD5Update(&hash_, bytes_of(data), size_of(data));
    }
    void add(const Structure& structure) {
        for (const Element& element : structure.elements) {
            add(fmt::format("{} {}", name_of(element.tag), element.parent));
            add(element.alternative);
        }
        for (const PageStructure& page : structure.pages) {
            for (const PageLink& link : page.links) {
                const Link& area = *link.area;
                add(fmt::format("{} {} {} {}", area.x, area.y, area.width, area.height));
                add(area.uri);
            }
        }
    }
    [[nodiscard]] std::string finish() {
        std::array<HPDF_BYTE, HPDF_MD5_KEY_LEN> digest{};
        HPDF_MD5Final(digest.data(), &hash_);
        return {digest.begin(), digest.end()};
    }

private:
    HPDF_MD5_CTX hash_{};
};

}  // namespace

struct Document::State {
    explicit State(Packer& packer) : objects(packer) {}

    Objects objects;
    // An indirect dictionary that the resources of every page refer to.
    HPDF_Dict fonts = nullptr;
    std::vector<HPDF_Dict> pages;
    std::vector<Centipoints> heights;
    Identity identity;
};

Document::Document(const Metadata& metadata, Packer& packer)
    : state_(std::make_unique<State>(packer)) {
    const Objects& objects = state_->objects;
    HPDF_Doc document = objects.document();
    const std::string packet = xmp_packet(metadata);
    state_->identity.add(packet);

    objects.add_text(document->info, "Title", metadata.title);
    objects.add_string(document->info, "Producer", "Stave");
    if (metadata.made) {
        objects.add_string(document->info, "CreationDate", pdf_date(*metadata.made));
    }
    objects.add_string(document->catalog, "Lang", metadata.language);
    HPDF_Dict preferences = objects.direct_dictionary();
    objects.add(document->catalog, "ViewerPreferences", preferences);
    objects.check(HPDF_Dict_AddBoolean(preferences, "DisplayDocTitle", HPDF_TRUE));
    HPDF_Dict stream = objects.stream(packet);
    objects.add_name(stream, "Type", "Metadata");
    objects.add_name(stream, "Subtype", "XML");
    objects.add(document->catalog, "Metadata", stream);
    state_->fonts = objects.dictionary();
}

Document::~Document() = default;

void Document::add_font(const std::string& resource, const EmbeddedFont& font) {
    Objects& objects = state_->objects;
    HPDF_Dict dict = objects.dictionary("Font");
    dict->header.obj_class |= HPDF_OSUBCLASS_FONT;
    objects.add_name(dict, "Subtype", "Type0");
    objects.add_name(dict, "BaseFont", font.name);
    objects.add_name(dict, "Encoding", "Identity-H");
    HPDF_Array descendants = objects.array();
    objects.add(dict, "DescendantFonts", descendants);
    objects.add(descendants, descendant(objects, font));
    objects.add(dict, "ToUnicode", objects.packed_stream(font.packed_to_unicode));
    objects.add(state_->fonts, resource.c_str(), dict);
    state_->identity.add(font.file);
    state_->identity.add(font.to_unicode);
}

void Document::add_page(Centipoints width, Centipoints height, std::string_view content) {
    const Objects& objects = state_->objects;
    HPDF_Page page = objects.check(HPDF_AddPage(objects.document()));
    objects.check(HPDF_Page_SetWidth(page, static_cast<HPDF_REAL>(width) / 100.0F));
    objects.check(HPDF_Page_SetHeight(page, static_cast<HPDF_REAL>(height) / 100.0F));
    auto* resources = static_cast<HPDF_Dict>(
        objects.check(HPDF_Dict_GetItem(page, "Resources", HPDF_OCLASS_DICT)));
    objects.add(resources, "Font", state_->fonts);
    const auto* attributes = static_cast<HPDF_PageAttr>(page->attr);
    const std::string packed = objects.packed(content);
    objects.check(HPDF_Stream_Write(attributes->stream, bytes_of(packed), size_of(packed)));
    state_->pages.push_back(page);
    state_->heights.push_back(height);
    state_->identity.add(fmt::format("{} {}", width, height));
    state_->identity.add(content);
}

void Document::add_structure(const Structure& structure) {
    add_tags(state_->objects, structure, state_->pages, state_->heights);
    state_->identity.add(structure);
}

std::string Document::save() {
    return compact_file(state_->objects, state_->identity.finish());
}

}  // namespace stave::card
