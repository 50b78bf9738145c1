// Paces that hang on a test to paces in figures.
#pragma once

#include "compiler/fit/fit_loads.hpp"

namespace stave::fit {

// `@ 2000 m pace plus 6 s` to a time per 500 m, or per km where the tested distance is no
// multiple of 500 m (common practice, no source); tenths of a second. Without a test of that
// distance it stays as it is.
void fit_paces(const LoadContext& context, program::Item& item);

}  // namespace stave::fit
