#include "compiler/driver/gzip.hpp"

#include <libdeflate.h>

#include <memory>
#include <new>

namespace stave::driver {

namespace {

struct CompressorFree {
    void operator()(libdeflate_compressor* compressor) const {
        libdeflate_free_compressor(compressor);
    }
};

}  // namespace

std::string gzipped(std::string_view bytes) {
    // Of 12: a feed is packed once and sent many times, but whoever asks first waits for it.
    constexpr int level = 9;
    const std::unique_ptr<libdeflate_compressor, CompressorFree> compressor(
        libdeflate_alloc_compressor(level));
    if (!compressor) throw std::bad_alloc();
    std::string out(libdeflate_gzip_compress_bound(compressor.get(), bytes.size()), '\0');
    out.resize(libdeflate_gzip_compress(compressor.get(), bytes.data(), bytes.size(), out.data(),
                                        out.size()));
    return out;
}

}  // namespace stave::driver
