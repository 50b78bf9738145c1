// libharu's objects: dictionaries, arrays and streams of one document, with every
// status looked at. The one header that shows libharu, to document.cpp, tags.cpp and
// compact_file.cpp alone.
//
// Every call throws WriteFailure when libharu reports an error.
#pragma once

#include <hpdf.h>
#include <hpdf_doc.h>
#include <hpdf_objects.h>
#include <hpdf_pages.h>
#include <hpdf_types.h>

#include <memory>
#include <string>
#include <string_view>

#include "backends/card/pdf/packer.hpp"

namespace stave::card {

struct LibraryError {
    HPDF_STATUS code = HPDF_OK;
    HPDF_STATUS detail = 0;
};

struct DocumentFree {
    void operator()(HPDF_Doc document) const { HPDF_Free(document); }
};

[[nodiscard]] inline const HPDF_BYTE* bytes_of(std::string_view text) {
    return static_cast<const HPDF_BYTE*>(static_cast<const void*>(text.data()));
}

[[nodiscard]] inline HPDF_UINT size_of(std::string_view text) {
    return static_cast<HPDF_UINT>(text.size());
}

struct StreamFree {
    void operator()(HPDF_Stream stream) const { HPDF_Stream_Free(stream); }
};
using StreamHandle = std::unique_ptr<HPDF_Stream_Rec, StreamFree>;

class Objects {
public:
    // `packer` must outlive the object.
    explicit Objects(Packer& packer);

    [[nodiscard]] HPDF_Doc document() const { return handle_.get(); }
    [[nodiscard]] HPDF_MMgr memory() const { return handle_->mmgr; }

    [[noreturn]] void fail() const;
    void check(HPDF_STATUS status) const {
        if (status != HPDF_OK || error_->code != HPDF_OK) fail();
    }
    template <class T>
    T* check(T* made) const {
        if (made == nullptr || error_->code != HPDF_OK) fail();
        return made;
    }

    // Numbers the object and lets the document own it.
    template <class T>
    T* own(T* object) const {
        check(HPDF_Xref_Add(handle_->xref, check(object)));
        return object;
    }
    [[nodiscard]] HPDF_Dict dictionary() const { return own(HPDF_Dict_New(memory())); }
    [[nodiscard]] HPDF_Dict dictionary(const char* type) const;
    // Of no number of its own.
    [[nodiscard]] HPDF_Dict direct_dictionary() const { return check(HPDF_Dict_New(memory())); }
    [[nodiscard]] HPDF_Array array() const { return check(HPDF_Array_New(memory())); }
    [[nodiscard]] StreamHandle memory_stream() const;
    [[nodiscard]] HPDF_Binary binary(std::string value) const;
    // All streams hold compressed data, which compact_file says of each; libharu is told
    // of no filter and writes them as they are.
    [[nodiscard]] HPDF_Dict stream(std::string_view data) const {
        return packed_stream(packed(data));
    }
    [[nodiscard]] HPDF_Dict packed_stream(std::string_view packed) const;
    [[nodiscard]] std::string packed(std::string_view data) const { return packer_.packed(data); }
    [[nodiscard]] static std::string contents_of(HPDF_Stream memory_stream);

    // The dictionary or array owns what has no number, and refers to what has one.
    void add(HPDF_Dict dict, const char* key, void* object) const {
        check(HPDF_Dict_Add(dict, key, check(object)));
    }
    void add(HPDF_Array array, void* object) const { check(HPDF_Array_Add(array, check(object))); }
    void add_name(HPDF_Dict dict, const char* key, const std::string& name) const {
        check(HPDF_Dict_AddName(dict, key, name.c_str()));
    }
    void add_number(HPDF_Dict dict, const char* key, std::size_t number) const {
        check(HPDF_Dict_AddNumber(dict, key, static_cast<HPDF_INT32>(number)));
    }
    void add_number(HPDF_Array array, std::size_t number) const {
        check(HPDF_Array_AddNumber(array, static_cast<HPDF_INT32>(number)));
    }
    // Bytes as they are.
    void add_string(HPDF_Dict dict, const char* key, const std::string& value) const {
        add(dict, key, HPDF_String_New(memory(), value.c_str(), nullptr));
    }
    // UTF-8 for people: plain where it is ASCII, else UTF-16.
    void add_text(HPDF_Dict dict, const char* key, std::string_view text) const;

private:
    Packer& packer_;
    std::unique_ptr<LibraryError> error_;
    std::unique_ptr<HPDF_Doc_Rec, DocumentFree> handle_;
};

}  // namespace stave::card
