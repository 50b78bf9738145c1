// What the folder throws when libharu or HarfBuzz gives up: out of memory or a
// bug of ours. write_pdf catches it; nothing outside the folder sees it.
#pragma once

#include <stdexcept>

namespace stave::card {

struct WriteFailure : std::runtime_error {
    using std::runtime_error::runtime_error;
};

}  // namespace stave::card
