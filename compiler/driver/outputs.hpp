// One snapshot to what the backends make of it: a card's page, a feed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "backends/calendar/feed.hpp"
#include "backends/card/fonts.hpp"
#include "backends/card/layout.hpp"
#include "backends/card/page.hpp"
#include "compiler/analysis/analyse.hpp"
#include "compiler/analysis/issues.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::driver {

// The pages of the card of one of the snapshot's issues; nothing after an error has been
// reported to the snapshot's sink. The snapshot has no errors. The revision is worked out
// here.
[[nodiscard]] std::optional<std::vector<card::Page>> make_pages(analysis::Snapshot& snapshot,
                                                                const analysis::Issue& issue,
                                                                card::CardText text,
                                                                card::Fonts& fonts);

// What files of the session's card are called, without an ending: its slug, and the day
// where a plan holds it.
[[nodiscard]] std::string card_name(const program::Session& session);

// For its problems alone: what a build would refuse, a check shall say.
void lay_out_all(analysis::Snapshot& snapshot, const card::CardText& text, card::Fonts& fonts);

// The file's feeds: one for each plan or, where a plan has groups, for each of them, with
// the sessions that are for everybody; and one for sessions with a day of their own. Their
// zones belong to the loader.
[[nodiscard]] std::vector<calendar::Feed> make_feeds(const analysis::Snapshot& snapshot,
                                                     zones::ZoneLoader& zones,
                                                     wording::Language language);

}  // namespace stave::driver
