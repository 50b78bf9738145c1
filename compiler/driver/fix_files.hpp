// `stave check --fix`: makes the mends of errors that leave no choice.
#pragma once

#include "compiler/driver/environment.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/options.hpp"
#include "compiler/movements/movements.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::driver {

// Applies to each file itself every fix that is the only one of its error, again
// and again until none is left, writes the file when it has changed, and says how many
// were made. Standard input is mended to standard output. Gives the files as they are
// then, with the problems that remain.
[[nodiscard]] Loaded fix_files(const Options& options, zones::ZoneLoader& zones,
                               movements::Library& library, Environment& environment);

}  // namespace stave::driver
