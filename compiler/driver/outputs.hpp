// One snapshot to what the backends make of it: a card's page, a feed.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "backends/calendar/feed.hpp"
#include "backends/card/fonts.hpp"
#include "backends/card/layout.hpp"
#include "backends/card/page.hpp"
#include "compiler/analysis/analyse.hpp"
#include "compiler/analysis/issues.hpp"
#include "compiler/driver/readers.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::driver {

// Absolute addresses of what is published; empty where they are not known.
struct WebPlaces {
    std::string feed;
    // The feed's page.
    std::string page;
    // The folder of the cards, with the stroke at its end.
    std::string cards;
};

// The pages of the card of one of the snapshot's issues; nothing after an error has been
// reported to the snapshot's sink. The snapshot has no errors. The revision is worked out
// here.
[[nodiscard]] std::optional<std::vector<card::Page>> make_pages(analysis::Snapshot& snapshot,
                                                                const analysis::Issue& issue,
                                                                card::CardText text,
                                                                card::Fonts& fonts);

// The same into another sink, for who makes many at a time; the session is not entered. A
// session without a `link` may be lent one, which leads to what is said of it on the web;
// where the card would lose cues for its code, it has none.
[[nodiscard]] std::optional<std::vector<card::Page>> make_pages(
    const analysis::Snapshot& snapshot, const analysis::Issue& issue, card::CardText text,
    card::Fonts& fonts, DiagnosticSink& sink, const std::string& lent_link);

// What files of the session's card are called, without an ending: its slug, and the day
// where a plan holds it.
[[nodiscard]] std::string card_name(const program::Session& session);

// What goes into one feed: what it is called in paths, how calendar programs show it, and
// which of the snapshot's issues, by index.
struct FeedContent {
    std::string name;
    std::string title;
    std::vector<std::size_t> issue_ids;
    Reader reader;
};

// One for each plan or, where a plan has groups, for each of them, with the sessions that are
// for everybody; and one, called like the file, for the sessions that stand by themselves,
// whether or not they have a date. Those that no session is for are there as well, since they
// may have had some.
[[nodiscard]] std::vector<FeedContent> feed_contents(const analysis::Snapshot& snapshot);

// One for each athlete who has a session, called like them, with their sessions.
[[nodiscard]] std::vector<FeedContent> personal_contents(const analysis::Snapshot& snapshot);

// Gives an issue's event, which it may know; else `make` makes it.
using EventFinder = std::function<calendar::Event(std::size_t issue_id,
                                                  const std::function<calendar::Event()>& make)>;

// Those of the content that have a date, made one by one when they are written, or found where
// there is a finder; the snapshot, the loader and the finder's must outlive the feed. An event
// whose session has no `link` leads to its card, where that can be fetched. `usual` is what is
// spoken where the content's reader has no own.
[[nodiscard]] calendar::Feed make_feed(const analysis::Snapshot& snapshot,
                                       const FeedContent& content, zones::ZoneLoader& zones,
                                       wording::Language usual, const WebPlaces& web = {},
                                       EventFinder finder = {});

// "Moved (before: Thu 3 December 2026, 18:30): ice" of what a plan's line moves; else empty.
[[nodiscard]] std::string moved_text(const analysis::Issue& issue, wording::Language language);

// Whether that feed would have any.
[[nodiscard]] bool has_events(const analysis::Snapshot& snapshot, const FeedContent& content);

}  // namespace stave::driver
