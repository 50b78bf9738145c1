// One snapshot to what the backends make of it: a card's page, a feed.
#pragma once

#include <optional>

#include "backends/calendar/feed.hpp"
#include "backends/card/fonts.hpp"
#include "backends/card/layout.hpp"
#include "backends/card/page.hpp"
#include "compiler/analysis/analyse.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::driver {

// The pages of the card of the session with this index; nothing after an error has been
// reported to the snapshot's sink. The snapshot has no errors. The revision is worked out
// here.
[[nodiscard]] std::optional<std::vector<card::Page>> make_pages(analysis::Snapshot& snapshot,
                                                                std::size_t session_id,
                                                                card::CardText text,
                                                                card::Fonts& fonts);

// For its problems alone: what a build would refuse, a check shall say.
void lay_out_all(analysis::Snapshot& snapshot, const card::CardText& text, card::Fonts& fonts);

// The file's feed; nothing where no session has a date. Its zones belong to the
// loader.
[[nodiscard]] std::optional<calendar::Feed> make_feed(const analysis::Snapshot& snapshot,
                                                      zones::ZoneLoader& zones,
                                                      wording::Language language);

}  // namespace stave::driver
