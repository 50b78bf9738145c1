// Bytes packed for the way (RFC 1952); libdeflate is seen by gzip.cpp alone here.
#pragma once

#include <string>
#include <string_view>

namespace stave::driver {

// The same bytes give the same result: no name and no time stand in it.
[[nodiscard]] std::string gzipped(std::string_view bytes);

}  // namespace stave::driver
