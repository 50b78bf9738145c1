// Lengths as writers put them into files.
#pragma once

#include <cstdint>
#include <string>

namespace stave::card {

// Whole hundredths in as few characters as it takes: -150 gives "-1.5".
void append_hundredths(std::string& out, std::int64_t hundredths);

}  // namespace stave::card
