// Files that make feeds of a published folder, and are not named.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <utility>

#include "compiler/driver/addresses.hpp"
#include "compiler/driver/feed_keeper.hpp"
#include "compiler/driver/source_search.hpp"

namespace stave::driver {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view feed_ending = ".ics";
constexpr std::string_view source_ending = ".stave";

std::string count_text(std::size_t count, std::string_view one) {
    return fmt::format("{} {}{}", count, one, count == 1 ? "" : "s");
}

// Whose an address is. Those that are no more are those of no file.
struct Owner {
    std::string addresses;
    std::string source;
    bool is_there = false;
};

std::optional<Owner> owner_of(const std::string& token, const std::vector<std::string>& near) {
    std::string source;
    const auto found = find_file(near, [&](const fs::path& file) {
        if (file.extension() != addresses_ending) return false;
        source = fs::path(file).replace_extension(source_ending).string();
        const auto read = read_addresses(source);
        return read && std::ranges::any_of(
                           read->tokens, [&](const auto& known) { return known.second == token; });
    });
    if (!found) return std::nullopt;
    std::error_code problem;
    const bool is_there = fs::exists(source, problem);
    return Owner{*found, std::move(source), is_there};
}

// As it was named.
std::string words_for(const std::string& source) {
    const auto read = read_addresses(source);
    const bool is_private = read && shared_name(*read, "");
    return (is_private ? "--private " : "") + shown_path(source);
}

}  // namespace

void FeedKeeper::add_left_out(const std::string& source, const std::string& path,
                              LeftOut& left_out) {
    if (count_coming(path) > 0 && still_makes(source, path, Wanted::sessions))
        left_out[source].push_back(path);
}

FeedKeeper::LeftOut FeedKeeper::public_left_out(const OutputSet& outputs) {
    LeftOut left_out;
    // Looking for a file takes its time, and it may make many.
    std::map<std::string, std::optional<std::string>> sources;
    for (const auto& [name, entry] : listed()) {
        const bool is_of_another = name.ends_with(feed_ending) && entry.source.empty() &&
                                   !entry.feed_of.empty() && entry.feed_of != standard_input &&
                                   !own_.contains(entry.feed_of);
        if (!is_of_another || outputs.contains(place(name))) continue;
        const auto [found, added] = sources.try_emplace(entry.feed_of);
        if (added) found->second = find_source(entry.feed_of);
        if (found->second) add_left_out(*found->second, place(name), left_out);
    }
    return left_out;
}

void FeedKeeper::add_private_left_out(const OutputSet& outputs, const std::set<std::string>& tokens,
                                      LeftOut& left_out, std::set<std::string>& alone) {
    std::set<std::string> others;
    std::error_code problem;
    for (fs::directory_iterator entry(place(std::string(private_folder)), problem), end;
         !problem && entry != end; entry.increment(problem)) {
        const std::string token = entry->path().filename().string();
        if (!tokens.contains(token)) others.insert(token);
    }
    for (const std::string& token : others) {
        const std::vector<std::string> names = private_feeds({token});
        if (names.empty()) continue;
        const auto owner = owner_of(token, near_folders());
        if (!owner) continue;
        for (const std::string& name : names) {
            const std::string path = place(name);
            if (outputs.contains(path)) continue;
            if (owner->is_there) {
                add_left_out(owner->source, path, left_out);
            } else if (count_coming(path) > 0) {
                alone.insert(owner->addresses);
            }
        }
    }
}

bool FeedKeeper::refuse_left_out(const OutputSet& outputs, const std::set<std::string>& tokens,
                                 std::vector<Diagnostic>& problems) {
    LeftOut left_out = public_left_out(outputs);
    std::set<std::string> alone;
    add_private_left_out(outputs, tokens, left_out, alone);
    for (const std::string& addresses : alone) {
        const std::string source = fs::path(addresses).replace_extension(source_ending).string();
        problems.push_back(
            {Code::addresses_alone, {}, {shown_path(addresses), shown_path(source)}, {}, {}});
    }
    for (const auto& [source, paths] : left_out) {
        std::size_t count = 0;
        for (const std::string& path : paths)
            count += count_coming(path);
        std::string feeds = paths.front();
        if (paths.size() > 1) feeds += " and " + count_text(paths.size() - 1, "other feed");
        problems.push_back({Code::feed_left_out,
                            {},
                            {shown_path(source), std::move(feeds), count_text(count, "session"),
                             words_for(source), fmt::format("{}", fmt::join(paths, " "))},
                            {},
                            {}});
    }
    return !left_out.empty() || !alone.empty();
}

}  // namespace stave::driver
