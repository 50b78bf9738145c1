// The pages that stand beside published cards and feeds: one for each feed, and an index.
//
// Values to whole HTML documents: no script, nothing fetched from elsewhere, one small style
// sheet inside. Addresses within a page are relative, so a folder can be moved; those that
// people copy are absolute where it is known where the folder will stand. All text of sessions
// is escaped here; addresses are those of RFC 3986.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/program/program.hpp"
#include "compiler/timeline/timeline.hpp"
#include "compiler/wording/language.hpp"

namespace stave::site {

// What tells a page of ours from others.
inline constexpr std::string_view generator_mark = R"(<meta name="generator" content="Stave">)";

struct Entry {
    // "Session 9: Slack water".
    std::string title;
    std::optional<std::chrono::year_month_day> date;
    // Since midnight, in the zone if one is named.
    std::chrono::minutes clock{0};
    std::string zone;
    // "37 min of 55 min".
    std::string length;
    std::string place;
    // The session's own, or empty.
    std::string link;
    // From the page.
    std::string card;
    // Of the card's first page, from the page; or empty.
    std::string picture;
    // Has no card. `reason`: in the coach's words, or empty.
    bool is_cancelled = false;
    std::string reason = {};
    // From when it was moved, and why; or empty.
    std::string moved = {};
};

// `card`, `picture` and what was cancelled or moved are left to be said.
[[nodiscard]] Entry make_entry(const program::Session& session, const timeline::Timeline& timeline,
                               wording::Language language);

// A feed as pages point to it.
struct FeedLinks {
    std::string title;
    // From the page. No file: none of the sessions has a date.
    std::string file;
    // Of https, or empty where it is not known.
    std::string address;
};

struct FeedPage {
    wording::Language language = wording::Language::english;
    FeedLinks feed;
    // From the page; empty for a page that leads nowhere else.
    std::string index;
    std::vector<Entry> entries;
    // For those alone whom its address was given: no search engine shall list it.
    bool is_private = false;
};

struct IndexPage {
    struct Line {
        FeedLinks feed;
        // Its page, from the index.
        std::string page;
        std::size_t session_count = 0;
    };

    wording::Language language = wording::Language::english;
    std::vector<Line> lines;
};

// Sessions stand in the order of their dates. Those of more than a day before `today` are folded
// away: a page does not know its readers' time zones.
[[nodiscard]] std::string write(const FeedPage& page, std::chrono::sys_days today);
[[nodiscard]] std::string write(const IndexPage& page);

}  // namespace stave::site
