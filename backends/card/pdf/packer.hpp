// Compresses streams for /FlateDecode with libdeflate; no other file sees it.
#pragma once

#include <memory>
#include <string>
#include <string_view>

namespace stave::card {

// Keeps its working memory from one stream to the next. Throws std::bad_alloc.
class Packer {
public:
    Packer();

    // With zlib's head and checksum (RFC 1950), as PDF wants them.
    [[nodiscard]] std::string packed(std::string_view data);

private:
    struct Free {
        void operator()(void* compressor) const;
    };
    std::unique_ptr<void, Free> compressor_;
};

}  // namespace stave::card
