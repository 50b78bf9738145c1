// Writes a structure as the objects that PDF readers look for (ISO 32000-1, 14.7): the
// tree of elements, the way back from marked content to them, and the links' areas.
#pragma once

#include <span>
#include <vector>

#include "backends/card/pdf/objects.hpp"
#include "backends/card/pdf/structure.hpp"

namespace stave::card {

// `pages` are the structure's, in its order; `heights` are theirs.
void add_tags(const Objects& objects, const Structure& structure, std::span<const HPDF_Dict> pages,
              std::span<const Centipoints> heights);

}  // namespace stave::card
