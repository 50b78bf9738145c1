#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <map>
#include <memory>
#include <string>
#include <utility>

#include "compiler/driver/outputs.hpp"
#include "compiler/names/names.hpp"
#include "compiler/schedule/days.hpp"
#include "compiler/schedule/feed_names.hpp"
#include "compiler/schedule/volume_checks.hpp"
#include "compiler/wording/wording.hpp"
#include "compiler/wording/words.hpp"

namespace stave::driver {

namespace {

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

calendar::EventStatus status_of(const schedule::Occurrence& day) {
    switch (day.standing) {
        case schedule::Standing::cancelled:
            return calendar::EventStatus::cancelled;
        case schedule::Standing::away:
            return calendar::EventStatus::skipped;
        case schedule::Standing::held:
        case schedule::Standing::moved:
            break;
    }
    return calendar::EventStatus::confirmed;
}

// Where the content of the name stands; it is made where there is none.
std::size_t content_of(std::vector<FeedContent>& contents, const std::string& name,
                       const std::string& title) {
    const auto found = std::ranges::find(contents, name, &FeedContent::name);
    const auto place = static_cast<std::size_t>(found - contents.begin());
    if (found == contents.end()) contents.push_back({name, title, {}, {}});
    return place;
}

std::string plan_feed_title(const program::Plan& plan, const std::string& group) {
    return group.empty() ? plan.name : plan.name + ", " + group;
}

// What a feed's events are made from; the snapshot and the loader outlive the feed.
struct EventSource {
    const analysis::Snapshot* snapshot = nullptr;
    zones::ZoneLoader* zones = nullptr;
    std::vector<std::size_t> issue_ids;
    Reader reader;
    wording::Language language = wording::Language::english;
    WebPlaces web;
    // May be empty.
    EventFinder finder;

    [[nodiscard]] const civil::Zone* zone(const std::string& name) const {
        return name.empty() ? nullptr : zones->find(name);
    }
};

calendar::EventOutline outline(const EventSource& source, std::size_t id) {
    const auto [session, day] = analysis::issue_source(*source.snapshot, source.issue_ids[id]);
    const program::Program& program = source.snapshot->program;
    calendar::EventOutline event;
    event.session = calendar::session_identity(*session);
    if (day == nullptr) {
        event.id = calendar::event_id(event.session, session->day);
        event.start = std::chrono::local_days{session->when->date} + session->when->clock;
        event.zone = source.zone(session->when->zone);
        return event;
    }
    event.id = calendar::event_id(event.session, schedule::day_key(program, *day));
    event.status = status_of(*day);
    event.start = std::chrono::local_days{day->date} + day->clock;
    event.zone = source.zone(program.plans[day->plan_id].zone);
    return event;
}

calendar::Event make_event(const EventSource& source, std::size_t id) {
    const analysis::Issue issue =
        issue_for(*source.snapshot, source.issue_ids[id], source.reader, source.language);
    const program::Session& session = issue.session();
    const bool has_card = issue.is_held() && !source.web.cards.empty();
    const std::string card = has_card ? source.web.cards + card_name(session) + ".pdf" : "";
    calendar::Event event = calendar::make_event(issue.program(), session, issue.timeline(),
                                                 source.zone(session.when->zone), source.language,
                                                 card, moved_text(issue, source.language));
    if (issue.occurrence() != nullptr) {
        event.status = status_of(*issue.occurrence());
        event.reason = schedule::reason_of(issue.program(), *issue.occurrence());
    }
    return event;
}

calendar::Event find_event(const EventSource& source, std::size_t id) {
    if (!source.finder) return make_event(source, id);
    return source.finder(source.issue_ids[id], [&] { return make_event(source, id); });
}

bool has_time(const analysis::Snapshot& snapshot, std::size_t issue_id) {
    const analysis::IssueSource source = analysis::issue_source(snapshot, issue_id);
    return source.occurrence != nullptr || source.session->when.has_value();
}

}  // namespace

std::vector<FeedContent> feed_contents(const analysis::Snapshot& snapshot) {
    std::vector<FeedContent> contents;
    const std::string stem = file_stem(*snapshot.source);
    std::string own_name = slug(stem);
    if (own_name.empty()) own_name = "sessions";
    FeedContent own{own_name, feed_title(stem), {}, {}};
    for (std::size_t i = 0; i < snapshot.by_themselves.size(); ++i)
        own.issue_ids.push_back(i);
    contents.push_back(std::move(own));
    // Of each plan: its groups, and where the content of each stands.
    std::vector<std::map<std::string, std::size_t>> places;
    for (const program::Plan& plan : snapshot.program.plans) {
        std::map<std::string, std::size_t>& of_plan = places.emplace_back();
        for (const std::string& group : schedule::groups_of(plan)) {
            of_plan.emplace(group, content_of(contents, schedule::feed_name(plan, group),
                                              plan_feed_title(plan, group)));
        }
    }
    for (std::size_t i = 0; i < snapshot.season.size(); ++i) {
        const schedule::Occurrence& day = snapshot.season[i];
        const std::string& whose = snapshot.program.plans[day.plan_id].slots[day.slot_id].group;
        for (const auto& [group, place] : places[day.plan_id]) {
            if (!whose.empty() && whose != group) continue;
            const std::size_t issue_id = snapshot.by_themselves.size() + i;
            std::vector<std::size_t>& ids = contents[place].issue_ids;
            // Groups whose names differ by their letter case alone share a feed.
            if (ids.empty() || ids.back() != issue_id) ids.push_back(issue_id);
        }
    }
    return contents;
}

std::vector<FeedContent> personal_contents(const analysis::Snapshot& snapshot) {
    std::vector<FeedContent> contents;
    for (const std::uint32_t id : athletes_with_issues(snapshot)) {
        const program::Athlete& athlete = snapshot.program.athletes[id];
        contents.push_back({athlete.slug, athlete.name, {}, {.athlete_id = id}});
    }
    for (std::size_t id = 0; id < snapshot.people.size(); ++id) {
        // A day that falls out is announced to those who would have come.
        for (FeedContent& content : contents) {
            if (std::ranges::binary_search(snapshot.people[id], *content.reader.athlete_id))
                content.issue_ids.push_back(id);
        }
    }
    return contents;
}

calendar::Feed make_feed(const analysis::Snapshot& snapshot, const FeedContent& content,
                         zones::ZoneLoader& zones, wording::Language usual, const WebPlaces& web,
                         EventFinder finder) {
    const wording::Language language = language_for(snapshot, content.reader, usual);
    const auto source = std::make_shared<EventSource>(
        EventSource{&snapshot, &zones, {}, content.reader, language, web, std::move(finder)});
    std::ranges::copy_if(content.issue_ids, std::back_inserter(source->issue_ids),
                         [&](std::size_t id) { return has_time(snapshot, id); });
    calendar::Feed feed;
    feed.name = content.name;
    feed.title = content.title;
    feed.language = language;
    feed.address = web.feed;
    feed.page = web.page;
    feed.events = calendar::Events(
        source->issue_ids.size(), [source](std::size_t id) { return outline(*source, id); },
        [source](std::size_t id) { return find_event(*source, id); });
    return feed;
}

std::string moved_text(const analysis::Issue& issue, wording::Language language) {
    const schedule::Occurrence* const day = issue.occurrence();
    if (day == nullptr || day->standing != schedule::Standing::moved) return "";
    const program::PlanSlot& slot = issue.program().plans[day->plan_id].slots[day->slot_id];
    const std::string before =
        wording::date(language, day->planned) + ", " + wording::clock(slot.clock);
    const std::string text = wording::said(language, wording::Word::moved_from, {before});
    const std::string_view reason = schedule::reason_of(issue.program(), *day);
    return reason.empty() ? text : wording::labelled(language, text, reason);
}

bool has_events(const analysis::Snapshot& snapshot, const FeedContent& content) {
    return std::ranges::any_of(content.issue_ids,
                               [&](std::size_t id) { return has_time(snapshot, id); });
}

}  // namespace stave::driver
