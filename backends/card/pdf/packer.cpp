#include "backends/card/pdf/packer.hpp"

#include <libdeflate.h>

#include <new>

namespace stave::card {

namespace {

// Of 12. Measured on cards: 9 takes half a millisecond more for a hundredth less, and 10 to
// 12 take five to ten times as long for two hundredths less.
constexpr int level = 6;

libdeflate_compressor* of(void* compressor) {
    return static_cast<libdeflate_compressor*>(compressor);
}

}  // namespace

void Packer::Free::operator()(void* compressor) const {
    libdeflate_free_compressor(of(compressor));
}

Packer::Packer() : compressor_(libdeflate_alloc_compressor(level)) {
    if (!compressor_) throw std::bad_alloc();
}

std::string Packer::packed(std::string_view data) {
    libdeflate_compressor* const compressor = of(compressor_.get());
    std::string out(libdeflate_zlib_compress_bound(compressor, data.size()), '\0');
    out.resize(
        libdeflate_zlib_compress(compressor, data.data(), data.size(), out.data(), out.size()));
    return out;
}

}  // namespace stave::card
