#include "compiler/driver/outputs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <string>

#include "backends/card/layout.hpp"
#include "compiler/names/names.hpp"
#include "compiler/program/dump.hpp"
#include "compiler/source/text_hash.hpp"

namespace stave::driver {

namespace {

// Changes whenever anything that the session says changes, and only then.
std::string revision(const program::Session& session) {
    const std::string digits = fmt::format("{:016x}", text_hash(program::dump(session)));
    constexpr std::size_t shown = 7;
    return digits.substr(0, shown);
}

// "winter-block.stave" gives the feed "winter-block", shown as "Winter block".
std::string file_stem(const SourceFile& source) {
    return std::filesystem::path(source.path()).stem().string();
}

std::string feed_title(std::string stem) {
    std::ranges::replace(stem, '-', ' ');
    std::ranges::replace(stem, '_', ' ');
    if (!stem.empty() && stem[0] >= 'a' && stem[0] <= 'z') {
        stem[0] = static_cast<char>(stem[0] - 'a' + 'A');
    }
    return clean_text(stem);
}

}  // namespace

std::optional<std::vector<card::Page>> make_pages(analysis::Snapshot& snapshot,
                                                  std::size_t session_id, card::CardText text,
                                                  card::Fonts& fonts) {
    const program::Session& session = snapshot.program.sessions[session_id];
    snapshot.sink.enter_session(session.span.begin);
    text.revision = revision(session);
    auto pages = card::lay_out(snapshot.program, session, snapshot.timelines[session_id], text,
                               fonts, snapshot.sink);
    snapshot.sink.enter_session(std::nullopt);
    return pages;
}

void lay_out_all(analysis::Snapshot& snapshot, const card::CardText& text, card::Fonts& fonts) {
    for (std::size_t i = 0; i < snapshot.timelines.size(); ++i)
        static_cast<void>(make_pages(snapshot, i, text, fonts));
}

std::optional<calendar::Feed> make_feed(const analysis::Snapshot& snapshot,
                                        zones::ZoneLoader& zones, wording::Language language) {
    calendar::Feed feed;
    feed.language = language;
    const std::string stem = file_stem(*snapshot.source);
    feed.name = slug(stem);
    if (feed.name.empty()) feed.name = "sessions";
    feed.title = feed_title(stem);
    for (std::size_t i = 0; i < snapshot.program.sessions.size(); ++i) {
        const program::Session& session = snapshot.program.sessions[i];
        if (!session.when) continue;
        const civil::Zone* zone =
            session.when->zone.empty() ? nullptr : zones.find(session.when->zone);
        feed.events.push_back(
            calendar::make_event(snapshot.program, session, snapshot.timelines[i], zone, language));
    }
    if (feed.events.empty()) return std::nullopt;
    return feed;
}

}  // namespace stave::driver
