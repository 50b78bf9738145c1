#include "compiler/driver/feed_output.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <expected>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "backends/calendar/feed.hpp"
#include "backends/calendar/previous.hpp"
#include "compiler/driver/folder_update.hpp"
#include "compiler/driver/manifest.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/driver/parted_file.hpp"

namespace stave::driver {

namespace {

// Beyond it some calendar programs stop reading feeds.
constexpr std::size_t largest_easy_feed = 1'000'000;

// A feed on its way to the disk: what it goes on from, and whether it may.
struct FeedJob {
    const calendar::Feed& feed;
    std::string path;
    calendar::PreviousFeed previous;

    [[nodiscard]] bool is_empty() const { return feed.events.empty() && previous.events.empty(); }
};

Code code_of(calendar::FeedFault fault) {
    switch (fault) {
        case calendar::FeedFault::foreign:
            return Code::foreign_feed;
        case calendar::FeedFault::damaged:
            return Code::damaged_feed;
        case calendar::FeedFault::newer:
            return Code::newer_feed;
    }
    return Code::damaged_feed;
}

Diagnostic refused(calendar::FeedFault fault, const std::string& path) {
    return {code_of(fault), {}, {path}, {}, {}};
}

// The feed that `--previous` names.
std::optional<Diagnostic> read_other(FeedJob& job, const std::string& path,
                                     zones::ZoneLoader& zones) {
    auto other = open_file(path, largest_feed);
    if (!other) return std::move(other.error());
    auto read = calendar::read_previous(std::move(*other), zones.finder());
    if (!read) return refused(read.error(), path);
    job.previous = std::move(*read);
    return std::nullopt;
}

// Whether the list of the folder has it. What is wrong with the list is told when the folder is
// written.
bool is_listed(const std::string& path, const std::string& folder) {
    const auto list = read_list_of(folder);
    return list && (*list)->files.contains(listed_name(
                       std::filesystem::path(path).lexically_relative(folder).generic_string()));
}

// The feed that is replaced. An empty file is none, unless a feed was written there: to begin anew
// unseen would let calendars ignore what is to come.
std::optional<Diagnostic> read_replaced(FeedJob& job, const std::string& folder,
                                        zones::ZoneLoader& zones) {
    auto before = open_if_there(job.path, largest_feed);
    if (!before) return std::move(before.error());
    if (!*before) return std::nullopt;
    if ((*before)->size == 0) {
        if (!is_listed(job.path, folder)) return std::nullopt;
        return refused(calendar::FeedFault::damaged, job.path);
    }
    auto read = calendar::read_previous(std::move(**before), zones.finder());
    if (read) {
        const bool is_first = job.previous.events.empty();
        job.previous =
            is_first ? std::move(*read) : calendar::merge(std::move(job.previous), *read);
        return std::nullopt;
    }
    // Somebody's calendar, in the place of a feed that there is not.
    if (read.error() == calendar::FeedFault::foreign && job.is_empty()) return std::nullopt;
    return refused(read.error(), job.path);
}

// The one name that ends as the other does, from a hyphen on, as far as can be: that of the same
// group of a plan that has another name now.
std::optional<std::string> of_same_group(const std::vector<std::string>& names,
                                         const std::string& stem) {
    for (std::size_t at = stem.find('-'); at != std::string::npos; at = stem.find('-', at + 1)) {
        const std::string ending = stem.substr(at);
        const auto ends_so = [&](const std::string& name) { return name.ends_with(ending); };
        const auto count = std::ranges::count_if(names, ends_so);
        if (count == 1) return *std::ranges::find_if(names, ends_so);
        if (count > 1) return std::nullopt;
    }
    return std::nullopt;
}

// Which of the feeds goes on from the one that `--previous` names: that of its name, the only one
// that there is, or that of its group.
std::expected<std::string, Diagnostic> successor(const analysis::Snapshot& snapshot,
                                                 const std::vector<FeedContent>& contents,
                                                 const std::string& previous) {
    const std::string stem = std::filesystem::path(previous).stem().string();
    std::vector<std::string> names;
    for (const FeedContent& content : contents) {
        if (content.name == stem) return content.name;
        if (has_events(snapshot, content)) names.push_back(content.name);
    }
    if (names.size() == 1) return names.front();
    if (names.empty()) return contents.front().name;
    if (auto same = of_same_group(names, stem)) return std::move(*same);
    return std::unexpected(Diagnostic{Code::unclear_previous,
                                      {},
                                      {previous, fmt::format("{}.ics", fmt::join(names, ".ics, "))},
                                      {},
                                      {}});
}

std::string path_of(const std::string& name, const std::string& folder) {
    return (std::filesystem::path(folder) / (name + ".ics")).string();
}

// Until when the feed that was added stays the same (see `calendar::Written`); `now` where none
// was.
std::expected<std::chrono::sys_seconds, Diagnostic> write_feed(
    const calendar::Feed& feed, const std::string& folder, const std::string& previous,
    zones::ZoneLoader& zones, std::chrono::sys_seconds now, OutputSet& outputs) {
    FeedJob job{feed, path_of(feed.name, folder), {}};
    if (!previous.empty()) {
        if (auto failed = read_other(job, previous, zones))
            return std::unexpected(std::move(*failed));
    }
    if (auto failed = read_replaced(job, outputs.folder(), zones))
        return std::unexpected(std::move(*failed));
    calendar::Written written;
    Content content = outputs.gather(
        [&](const PartSink& sink) { written = calendar::write(feed, job.previous, now, sink); });
    if (!written.is_whole) {
        return std::unexpected(Diagnostic{
            Code::cannot_read, {}, {job.path, "it has changed while it was read"}, {}, {}});
    }
    if (content.size() == 0) return now;
    if (auto twice = add_output(outputs, "feed", job.path, std::move(content)))
        return std::unexpected(std::move(*twice));
    return written.same_until;
}

using FeedEvents = MadeMemory::FeedEvents;

// What is asked for is in `used` then.
EventFinder finder_in(FeedEvents& known, FeedEvents& used,
                      std::function<WideHash(std::size_t)> key_of) {
    return [&known, &used, key_of = std::move(key_of)](
               std::size_t issue_id, const std::function<calendar::Event()>& make) {
        const WideHash key = key_of(issue_id);
        if (const auto found = used.by_key.find(key); found != used.by_key.end())
            return found->second;
        const auto before = known.by_key.find(key);
        calendar::Event event = before == known.by_key.end() ? make() : std::move(before->second);
        return used.by_key.emplace(key, std::move(event)).first->second;
    };
}

}  // namespace

std::optional<Diagnostic> add_feed(const calendar::Feed& feed, const std::string& folder,
                                   const std::string& previous, zones::ZoneLoader& zones,
                                   const Environment& environment, OutputSet& outputs) {
    auto written = write_feed(feed, folder, previous, zones, environment.now(), outputs);
    return written ? std::nullopt : std::optional(std::move(written.error()));
}

// One that is to be added.
struct FeedMaker::Job {
    const analysis::Snapshot& snapshot;
    const FeedContent& content;
    std::string folder;
    const std::string& source;
    // That `--previous` names, or empty.
    std::string previous;
};

FeedMaker::FeedMaker(const Options& options, zones::ZoneLoader& zones,
                     const Environment& environment, OutputSet& outputs,
                     std::vector<Diagnostic>& problems)
    : options_(options),
      zones_(zones),
      environment_(environment),
      outputs_(outputs),
      problems_(problems) {}

void FeedMaker::add_feeds(const analysis::Snapshot& snapshot, const std::string& folder,
                          const std::string& source) {
    const std::vector<FeedContent> contents = feed_contents(snapshot);
    std::string going_on;
    if (!options_.previous.empty()) {
        auto name = successor(snapshot, contents, options_.previous);
        if (!name) return problems_.push_back(std::move(name.error()));
        going_on = std::move(*name);
    }
    // One at a time: a feed of years takes its room.
    for (const FeedContent& content : contents)
        add({snapshot, content, folder, source, content.name == going_on ? options_.previous : ""});
}

void FeedMaker::add_personal_feeds(const analysis::Snapshot& snapshot, const std::string& folder,
                                   const std::string& source) {
    for (const FeedContent& content : personal_contents(snapshot)) {
        const std::string own = (std::filesystem::path(folder) / content.name).string();
        add({snapshot, content, own, source, ""});
    }
}

void FeedMaker::add(const Job& job) {
    std::optional<Recalled> recalled;
    // What another feed says is in no key.
    if (recall_ != nullptr && job.previous.empty()) {
        recalled =
            recall_->find(recall_->keys.feed(job.snapshot, job.content, job.folder, job.source));
    }
    auto failed = recalled && recalled->before != nullptr
                      ? add_standing(outputs_, *recalled->before)
                      : make(job, recalled);
    if (failed) problems_.push_back(std::move(*failed));
}

std::optional<Diagnostic> FeedMaker::make(const Job& job, const std::optional<Recalled>& recalled) {
    const std::string path = path_of(job.content.name, job.folder);
    FeedEvents known;
    FeedEvents used{job.source, {}};
    EventFinder finder;
    if (recall_ != nullptr) {
        known = std::move(recall_->memory.events(path));
        finder = finder_in(known, used, [&](std::size_t issue_id) {
            return recall_->keys.issue(job.snapshot, issue_id, job.content.reader);
        });
    }
    const calendar::Feed feed =
        make_feed(job.snapshot, job.content, zones_, options_.card.language, {}, std::move(finder));
    const auto now = environment_.now();
    auto same_until = write_feed(feed, job.folder, job.previous, zones_, now, outputs_);
    if (recall_ != nullptr) recall_->memory.events(path) = std::move(used);
    if (!same_until) return std::move(same_until.error());
    if (recalled && *same_until > now)
        recall_->memory.note(recalled->key, {job.source, {path}, "", now, *same_until});
    return std::nullopt;
}

void warn_of_large_feeds(const OutputSet& outputs, std::vector<Diagnostic>& problems) {
    constexpr std::size_t tenth = 100'000;
    for (const auto& [path, output] : outputs) {
        const std::size_t size = output.size();
        if (output.kind != "feed" || size <= largest_easy_feed) continue;
        const std::string megabytes = fmt::format("{}.{}", size / tenth / 10, size / tenth % 10);
        problems.push_back({Code::feed_large, {}, {path, megabytes}, {}, {}});
    }
}

}  // namespace stave::driver
