// Cards that belong to another source are not written over: a session of the same name in
// another file would take its card's place unseen.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/driver/output_set.hpp"
#include "compiler/driver/source_owners.hpp"

namespace stave::driver {

// Adds a problem for each source that makes cards among the outputs still. `known` are paths that
// are refused already.
void refuse_taken_cards(const OutputSet& outputs, const std::set<std::string>& known,
                        SourceOwners& owners, std::vector<Diagnostic>& problems);

}  // namespace stave::driver
