// HarfBuzz's objects as values that free themselves, and a font file as one.
//
// The file's bytes are not copied and must outlive the face.
#pragma once

#include <hb.h>

#include <cstddef>
#include <memory>
#include <span>

namespace stave::card {

// For C objects that one function frees.
template <auto destroy>
struct Destroyer {
    template <class T>
    void operator()(T* object) const {
        destroy(object);
    }
};
using BlobHandle = std::unique_ptr<hb_blob_t, Destroyer<hb_blob_destroy>>;
using FaceHandle = std::unique_ptr<hb_face_t, Destroyer<hb_face_destroy>>;
using FontHandle = std::unique_ptr<hb_font_t, Destroyer<hb_font_destroy>>;
using BufferHandle = std::unique_ptr<hb_buffer_t, Destroyer<hb_buffer_destroy>>;

// A new font's scale is its units per em: advances come in font units.
[[nodiscard]] inline FontHandle font_of(std::span<const std::byte> file) {
    const BlobHandle blob{hb_blob_create(
        static_cast<const char*>(static_cast<const void*>(file.data())),
        static_cast<unsigned>(file.size()), HB_MEMORY_MODE_READONLY, nullptr, nullptr)};
    const FaceHandle face{hb_face_create(blob.get(), 0)};
    return FontHandle{hb_font_create(face.get())};
}

}  // namespace stave::card
