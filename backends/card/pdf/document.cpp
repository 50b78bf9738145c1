#include "backends/card/pdf/document.hpp"

#include <fmt/format.h>
#include <hpdf.h>
#include <hpdf_doc.h>
#include <hpdf_encrypt.h>
#include <hpdf_objects.h>
#include <hpdf_pages.h>
#include <hpdf_types.h>

#include <array>

#include "backends/card/pdf/utf16.hpp"
#include "backends/card/pdf/write_failure.hpp"

static_assert(HPDF_MAJOR_VERSION == 2 && HPDF_MINOR_VERSION == 3);

namespace stave::card {

namespace {

struct LibraryError {
    HPDF_STATUS code = HPDF_OK;
    HPDF_STATUS detail = 0;
};

struct DocumentFree {
    void operator()(HPDF_Doc document) const { HPDF_Free(document); }
};
using DocumentHandle = std::unique_ptr<HPDF_Doc_Rec, DocumentFree>;

const HPDF_BYTE* bytes_of(std::string_view text) {
    return static_cast<const HPDF_BYTE*>(static_cast<const void*>(text.data()));
}

HPDF_UINT size_of(std::string_view text) {
    return static_cast<HPDF_UINT>(text.size());
}

std::string big_endian(const std::vector<std::uint16_t>& words) {
    std::string bytes;
    for (const std::uint16_t word : words) {
        bytes += static_cast<char>(word >> 8);
        bytes += static_cast<char>(word & 0xFF);
    }
    return bytes;
}

}  // namespace

// Called from C: notes the first error and returns.
extern "C" {
static void note_error(HPDF_STATUS code, HPDF_STATUS detail, void* user_data) {
    auto& error = *static_cast<LibraryError*>(user_data);
    if (error.code == HPDF_OK) error = {code, detail};
}
}

struct Document::State {
    LibraryError error;
    DocumentHandle handle{HPDF_New(note_error, &error)};
    // An indirect dictionary that the resources of every page refer to.
    HPDF_Dict fonts = nullptr;
    // Of everything that is added: the file's identity.
    HPDF_MD5_CTX hash{};

    [[noreturn]] void fail() const {
        throw WriteFailure(
            fmt::format("libharu error 0x{:04X}, detail {}", error.code, error.detail));
    }
    void check(HPDF_STATUS status) const {
        if (status != HPDF_OK || error.code != HPDF_OK) fail();
    }
    template <class T>
    T* check(T* made) const {
        if (made == nullptr || error.code != HPDF_OK) fail();
        return made;
    }

    [[nodiscard]] HPDF_MMgr memory() const { return handle->mmgr; }
    // Numbers the object and lets the document own it.
    template <class T>
    T* own(T* object) const {
        check(HPDF_Xref_Add(handle->xref, check(object)));
        return object;
    }
    [[nodiscard]] HPDF_Dict dictionary(const char* type) const {
        HPDF_Dict dict = own(HPDF_Dict_New(memory()));
        check(HPDF_Dict_AddName(dict, "Type", type));
        return dict;
    }
    [[nodiscard]] HPDF_Binary binary(std::string value) const {
        auto* data = static_cast<HPDF_BYTE*>(static_cast<void*>(value.data()));
        return check(HPDF_Binary_New(memory(), data, size_of(value)));
    }
    void add(HPDF_Dict dict, const char* key, void* object) const {
        check(HPDF_Dict_Add(dict, key, check(object)));
    }
    void add_string(HPDF_Dict dict, const char* key, const char* value) const {
        add(dict, key, HPDF_String_New(memory(), value, nullptr));
    }
    // Compressed.
    [[nodiscard]] HPDF_Dict stream(std::string_view data) const;

    void hash_in(std::string_view data);
    [[nodiscard]] HPDF_Dict descriptor(const EmbeddedFont& font) const;
    [[nodiscard]] HPDF_Dict descendant(const EmbeddedFont& font) const;
    void add_identifier();
};

HPDF_Dict Document::State::stream(std::string_view data) const {
    HPDF_Dict dict = check(HPDF_DictStream_New(memory(), handle->xref));
    dict->filter = HPDF_STREAM_FILTER_FLATE_DECODE;
    check(HPDF_Stream_Write(dict->stream, bytes_of(data), size_of(data)));
    return dict;
}

// The length goes in too, so that the borders between texts count.
void Document::State::hash_in(std::string_view data) {
    const std::string length = fmt::format("{}:", data.size());
    HPDF_MD5Update(&hash, bytes_of(length), size_of(length));
    HPDF_MD5Update(&hash, bytes_of(data), size_of(data));
}

HPDF_Dict Document::State::descriptor(const EmbeddedFont& font) const {
    // ISO 32000-1, table 123, bit 3: may hold other glyphs than standard Latin.
    constexpr HPDF_INT32 symbolic = 4;
    const FontMetrics& metrics = font.metrics;
    HPDF_Dict dict = dictionary("FontDescriptor");
    check(HPDF_Dict_AddName(dict, "FontName", font.name.c_str()));
    check(HPDF_Dict_AddNumber(dict, "Flags", symbolic));
    HPDF_Array box = check(HPDF_Array_New(memory()));
    add(dict, "FontBBox", box);
    for (const int edge : {metrics.x_min, metrics.y_min, metrics.x_max, metrics.y_max}) {
        check(HPDF_Array_AddNumber(box, edge));
    }
    check(HPDF_Dict_AddNumber(dict, "ItalicAngle", 0));
    check(HPDF_Dict_AddNumber(dict, "Ascent", metrics.ascent));
    check(HPDF_Dict_AddNumber(dict, "Descent", metrics.descent));
    check(HPDF_Dict_AddNumber(dict, "CapHeight", metrics.cap_height));
    check(HPDF_Dict_AddNumber(dict, "StemV", metrics.stem_width));
    HPDF_Dict file = stream(font.file);
    check(HPDF_Dict_AddNumber(file, "Length1", static_cast<HPDF_INT32>(font.file.size())));
    add(dict, "FontFile2", file);
    return dict;
}

HPDF_Dict Document::State::descendant(const EmbeddedFont& font) const {
    HPDF_Dict dict = dictionary("Font");
    check(HPDF_Dict_AddName(dict, "Subtype", "CIDFontType2"));
    check(HPDF_Dict_AddName(dict, "BaseFont", font.name.c_str()));
    HPDF_Dict system = check(HPDF_Dict_New(memory()));
    add(dict, "CIDSystemInfo", system);
    add_string(system, "Registry", "Adobe");
    add_string(system, "Ordering", "Identity");
    check(HPDF_Dict_AddNumber(system, "Supplement", 0));
    add(dict, "FontDescriptor", descriptor(font));
    HPDF_Array runs = check(HPDF_Array_New(memory()));
    add(dict, "W", runs);
    check(HPDF_Array_AddNumber(runs, 0));
    HPDF_Array widths = check(HPDF_Array_New(memory()));
    check(HPDF_Array_Add(runs, widths));
    for (const int width : font.widths)
        check(HPDF_Array_AddNumber(widths, width));
    add(dict, "CIDToGIDMap", stream(big_endian(font.glyphs)));
    return dict;
}

// ISO 32000-1, 14.4, suggests MD5. Not by libharu's encryption, whose identifier
// takes in the time.
void Document::State::add_identifier() {
    std::array<HPDF_BYTE, HPDF_MD5_KEY_LEN> digest{};
    HPDF_MD5Final(digest.data(), &hash);
    const std::string identifier(digest.begin(), digest.end());
    HPDF_Array array = check(HPDF_Array_New(memory()));
    add(handle->trailer, "ID", array);
    check(HPDF_Array_Add(array, binary(identifier)));
    check(HPDF_Array_Add(array, binary(identifier)));
}

Document::Document(std::string_view title, const std::string& language)
    : state_(std::make_unique<State>()) {
    State& state = *state_;
    HPDF_Doc document = state.check(state.handle.get());
    document->pdf_version = HPDF_VER_17;
    state.check(HPDF_SetCompressionMode(document, HPDF_COMP_ALL));
    HPDF_MD5Init(&state.hash);
    state.hash_in(title);
    state.hash_in(language);

    state.add(document->info, "Title", state.binary("\xFE\xFF" + utf16be(title)));
    state.check(HPDF_SetInfoAttr(document, HPDF_INFO_PRODUCER, "Stave"));
    state.add_string(document->catalog, "Lang", language.c_str());
    HPDF_Dict preferences = state.check(HPDF_Dict_New(state.memory()));
    state.add(document->catalog, "ViewerPreferences", preferences);
    state.check(HPDF_Dict_AddBoolean(preferences, "DisplayDocTitle", HPDF_TRUE));
    state.fonts = state.own(HPDF_Dict_New(state.memory()));
}

Document::~Document() = default;

void Document::add_font(const std::string& resource, const EmbeddedFont& font) {
    State& state = *state_;
    HPDF_Dict dict = state.dictionary("Font");
    dict->header.obj_class |= HPDF_OSUBCLASS_FONT;
    state.check(HPDF_Dict_AddName(dict, "Subtype", "Type0"));
    state.check(HPDF_Dict_AddName(dict, "BaseFont", font.name.c_str()));
    state.check(HPDF_Dict_AddName(dict, "Encoding", "Identity-H"));
    HPDF_Array descendants = state.check(HPDF_Array_New(state.memory()));
    state.add(dict, "DescendantFonts", descendants);
    state.check(HPDF_Array_Add(descendants, state.descendant(font)));
    state.add(dict, "ToUnicode", state.stream(font.to_unicode));
    state.add(state.fonts, resource.c_str(), dict);
    state.hash_in(font.file);
    state.hash_in(font.to_unicode);
}

void Document::add_page(Centipoints width, Centipoints height, std::string_view content) {
    State& state = *state_;
    HPDF_Page page = state.check(HPDF_AddPage(state.handle.get()));
    state.check(HPDF_Page_SetWidth(page, static_cast<HPDF_REAL>(width) / 100.0F));
    state.check(HPDF_Page_SetHeight(page, static_cast<HPDF_REAL>(height) / 100.0F));
    auto* resources =
        static_cast<HPDF_Dict>(state.check(HPDF_Dict_GetItem(page, "Resources", HPDF_OCLASS_DICT)));
    state.add(resources, "Font", state.fonts);
    const auto* attributes = static_cast<HPDF_PageAttr>(page->attr);
    state.check(HPDF_Stream_Write(attributes->stream, bytes_of(content), size_of(content)));
    state.hash_in(fmt::format("{} {}", width, height));
    state.hash_in(content);
}

// Through memory: libharu's own file writing does not notice a full disk.
std::string Document::save() {
    State& state = *state_;
    HPDF_Doc document = state.handle.get();
    state.add_identifier();
    state.check(HPDF_SaveToStream(document));
    state.check(HPDF_ResetStream(document));
    std::string file(HPDF_GetStreamSize(document), '\0');
    auto size = static_cast<HPDF_UINT32>(file.size());
    auto* data = static_cast<HPDF_BYTE*>(static_cast<void*>(file.data()));
    state.check(HPDF_ReadFromStream(document, data, &size));
    if (size != file.size()) state.fail();
    return file;
}

}  // namespace stave::card
