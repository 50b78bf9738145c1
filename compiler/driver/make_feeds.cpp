#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <utility>

#include "compiler/driver/outputs.hpp"
#include "compiler/names/names.hpp"
#include "compiler/schedule/volume_checks.hpp"

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

// The feeds of one file, each by its name.
class FeedMaker {
public:
    FeedMaker(const analysis::Snapshot& snapshot, zones::ZoneLoader& zones,
              wording::Language language)
        : snapshot_(snapshot), zones_(zones), language_(language) {}

    std::vector<calendar::Feed> make() {
        for (std::size_t i = 0; i < analysis::issue_count(snapshot_); ++i) {
            const analysis::Issue issue = analysis::issue(snapshot_, i);
            if (!issue.session().when) continue;
            calendar::Event event = make_event(issue);
            if (issue.occurrence() == nullptr) {
                add_to_own(std::move(event));
            } else {
                add_to_plan(issue, event);
            }
        }
        return std::move(feeds_);
    }

private:
    calendar::Event make_event(const analysis::Issue& issue) {
        const std::string& name = issue.session().when->zone;
        const civil::Zone* zone = name.empty() ? nullptr : zones_.find(name);
        calendar::Event event = calendar::make_event(issue.program(), issue.session(),
                                                     issue.timeline(), zone, language_);
        if (issue.occurrence() != nullptr) {
            event.status = status_of(*issue.occurrence());
            event.reason = issue.occurrence()->reason;
        }
        return event;
    }

    void add_to_own(calendar::Event event) {
        const std::string stem = file_stem(*snapshot_.source);
        std::string name = slug(stem);
        if (name.empty()) name = "sessions";
        feed(name, feed_title(stem)).events.push_back(std::move(event));
    }

    void add_to_plan(const analysis::Issue& issue, const calendar::Event& event) {
        const program::Plan& plan = issue.program().plans[issue.occurrence()->plan_id];
        const std::string& group = issue.session().group;
        for (const std::string& one : schedule::groups_of(plan)) {
            if (!group.empty() && group != one) continue;
            const bool is_group = !one.empty();
            feed(is_group ? plan.slug + '-' + slug(one) : plan.slug,
                 is_group ? plan.name + ", " + one : plan.name)
                .events.push_back(event);
        }
    }

    calendar::Feed& feed(const std::string& name, const std::string& title) {
        const auto found = std::ranges::find(feeds_, name, &calendar::Feed::name);
        if (found != feeds_.end()) return *found;
        calendar::Feed& added = feeds_.emplace_back();
        added.name = name;
        added.title = title;
        added.language = language_;
        return added;
    }

    const analysis::Snapshot& snapshot_;
    zones::ZoneLoader& zones_;
    wording::Language language_;
    std::vector<calendar::Feed> feeds_;
};

}  // namespace

std::vector<calendar::Feed> make_feeds(const analysis::Snapshot& snapshot, zones::ZoneLoader& zones,
                                       wording::Language language) {
    return FeedMaker(snapshot, zones, language).make();
}

}  // namespace stave::driver
