#include "backends/card/pdf/objects.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "backends/card/pdf/utf16.hpp"
#include "backends/card/pdf/write_failure.hpp"

static_assert(HPDF_MAJOR_VERSION == 2 && HPDF_MINOR_VERSION == 3);

namespace stave::card {

// Called from C: notes the first error and returns.
extern "C" {
static void note_error(HPDF_STATUS code, HPDF_STATUS detail, void* user_data) {
    auto& error = *static_cast<LibraryError*>(user_data);
    if (error.code == HPDF_OK) error = {code, detail};
}
}

Objects::Objects()
    : error_(std::make_unique<LibraryError>()), handle_(HPDF_New(note_error, error_.get())) {
    check(handle_.get());
}

void Objects::fail() const {
    throw WriteFailure(
        fmt::format("libharu error 0x{:04X}, detail {}", error_->code, error_->detail));
}

HPDF_Dict Objects::dictionary(const char* type) const {
    HPDF_Dict dict = dictionary();
    check(HPDF_Dict_AddName(dict, "Type", type));
    return dict;
}

HPDF_Binary Objects::binary(std::string value) const {
    auto* data = static_cast<HPDF_BYTE*>(static_cast<void*>(value.data()));
    return check(HPDF_Binary_New(memory(), data, size_of(value)));
}

HPDF_Dict Objects::stream(std::string_view data) const {
    HPDF_Dict dict = check(HPDF_DictStream_New(memory(), handle_->xref));
    dict->filter = HPDF_STREAM_FILTER_FLATE_DECODE;
    check(HPDF_Stream_Write(dict->stream, bytes_of(data), size_of(data)));
    return dict;
}

void Objects::add_text(HPDF_Dict dict, const char* key, std::string_view text) const {
    const bool is_plain = std::ranges::all_of(text, [](char c) { return c >= ' ' && c < '\x7F'; });
    if (is_plain) {
        add_string(dict, key, std::string(text));
    } else {
        add(dict, key, binary("\xFE\xFF" + utf16be(text)));
    }
}

}  // namespace stave::card
