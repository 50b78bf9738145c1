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

// None: libharu's blocks of memory do not align what they give (2.3.0).
constexpr HPDF_UINT pool_size = 0;

Objects::Objects(Packer& packer)
    : packer_(packer),
      error_(std::make_unique<LibraryError>()),
      handle_(HPDF_NewEx(note_error, nullptr, nullptr, pool_size, error_.get())) {
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

HPDF_Dict Objects::packed_stream(std::string_view packed) const {
    HPDF_Dict dict = check(HPDF_DictStream_New(memory(), handle_->xref));
    check(HPDF_Stream_Write(dict->stream, bytes_of(packed), size_of(packed)));
    return dict;
}

StreamHandle Objects::memory_stream() const {
    constexpr HPDF_UINT buffer_size = 4096;
    return StreamHandle{check(HPDF_MemStream_New(memory(), buffer_size))};
}

std::string Objects::contents_of(HPDF_Stream memory_stream) {
    std::string contents;
    for (HPDF_UINT id = 0; id < HPDF_MemStream_GetBufCount(memory_stream); ++id) {
        HPDF_UINT size = 0;
        const HPDF_BYTE* bytes = HPDF_MemStream_GetBufPtr(memory_stream, id, &size);
        contents.append(static_cast<const char*>(static_cast<const void*>(bytes)), size);
    }
    return contents;
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
