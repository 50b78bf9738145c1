// `explain --floor`: for whom the rotas are, of which sessions.
#pragma once

#include "compiler/driver/environment.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/options.hpp"

namespace stave::driver {

// So many people, or those of a squad or one athlete who do the session; each session as it
// stands in the file, or those that are held on a day. Names that no file knows, squads too large
// for a room and days without a session become problems of `loaded`.
// With `wall` each rota is written as a PDF into the folder floor of `out`; else they are printed.
void explain_floor(const Options& options, Loaded& loaded, Environment& environment);

}  // namespace stave::driver
