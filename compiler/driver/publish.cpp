#include "compiler/driver/publish.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>
#include <utility>

#include "backends/calendar/line_reader.hpp"
#include "backends/site/site.hpp"
#include "compiler/driver/addresses.hpp"
#include "compiler/driver/card_outputs.hpp"
#include "compiler/driver/feed_keeper.hpp"
#include "compiler/driver/feed_output.hpp"
#include "compiler/driver/folder_lock.hpp"
#include "compiler/driver/folder_update.hpp"
#include "compiler/driver/hashes.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/driver/run.hpp"
#include "compiler/syntax/link.hpp"

namespace stave::driver {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view secure_scheme = "https://";

// Where a file's things stand, as paths from the folder that is served.
struct Places {
    std::string page;
    std::string feeds;
    std::string cards;
    bool is_private = false;
};

// `is_only`: the file has no other feed.
Places places_of(const std::string& name, const std::string& token, bool is_only) {
    if (!token.empty()) {
        const std::string top = fmt::format("{}/{}", private_folder, token);
        const std::string page = is_only ? "index" : name;
        return {fmt::format("{}/{}.html", top, page), top, fmt::format("{}/{}", top, cards_folder),
                true};
    }
    return {fmt::format("{}/{}.html", feeds_folder, name), std::string(feeds_folder),
            std::string(cards_folder), false};
}

// From the page to a file, both as paths from the folder.
std::string from_page(const Places& places, const std::string& path) {
    return fs::path(path).lexically_relative(fs::path(places.page).parent_path()).generic_string();
}

// Those that people come to.
std::size_t held_count(const analysis::Snapshot& snapshot, const FeedContent& content) {
    const std::vector<std::size_t> held = analysis::held_issues(snapshot);
    return static_cast<std::size_t>(std::ranges::count_if(
        content.issue_ids,
        [&](std::size_t issue_id) { return std::ranges::binary_search(held, issue_id); }));
}

class Publisher {
public:
    Publisher(const Options& options, Loaded& loaded, zones::ZoneLoader& zones,
              Environment& environment)
        : options_(options),
          loaded_(loaded),
          zones_(zones),
          environment_(environment),
          outputs_(options.out),
          maker_(options, loaded.family, environment, outputs_, loaded.file_problems) {
        for (const std::string& file : options.private_files)
            private_files_.insert(identity_of(file));
    }

    std::optional<Built> run() {
        auto lock = lock_for(options_.out, loaded_);
        if (!lock) return fail(std::move(lock.error()));
        for (analysis::Snapshot& snapshot : loaded_.snapshots) {
            if (!snapshot.sink.has_errors()) make_all_of(snapshot);
        }
        add_page("index.html", site::write(index_));
        warn_of_large_feeds(outputs_, loaded_.file_problems);
        keep_feeds();
        if (loaded_.exit_code() != exit_done) return std::nullopt;
        // Before what stands at them: an address that is used must not be forgotten.
        for (const auto& [place, addresses] : addresses_) {
            if (auto failed = write_addresses(addresses)) return fail(std::move(*failed));
            loaded_.sources[addresses.path] = sha256(addresses.text);
        }
        auto cleared = update_folder(update(is_held(*lock)), outputs_);
        if (!cleared) return fail(std::move(cleared.error()));
        say_outputs(outputs_, environment_.out);
        say_cleared(*cleared, options_.out, environment_.out);
        std::string summaries = this->summaries();
        environment_.out << summaries;
        return Built{std::move(outputs_), std::move(*cleared), std::move(summaries),
                     std::move(*lock)};
    }

private:
    void problem(Diagnostic diagnostic) { loaded_.file_problems.push_back(std::move(diagnostic)); }
    std::nullopt_t fail(Diagnostic diagnostic) {
        problem(std::move(diagnostic));
        return std::nullopt;
    }

    [[nodiscard]] std::string on_disk(const std::string& path) const {
        return (fs::path(options_.out) / path).string();
    }
    // Nothing where it is not known.
    [[nodiscard]] std::string on_web(const std::string& path) const {
        return options_.base.empty() ? "" : options_.base + path;
    }

    void keep_feeds() {
        if (loaded_.exit_code() != exit_done) return;
        FeedKeeper keeper(options_, loaded_, zones_, environment_);
        keeper.refuse_taken(outputs_, {}, loaded_.file_problems);
        // Of those who are in no file any more too: their addresses stay until they are deleted.
        std::set<std::string> tokens;
        for (const analysis::Snapshot& snapshot : loaded_.snapshots) {
            const auto read = read_addresses(snapshot.source->path());
            if (!read) continue;
            for (const auto& [name, token] : read->tokens)
                tokens.insert(token);
        }
        // Nothing is dropped where that is refused.
        if (!keeper.refuse_left_out(outputs_, tokens, loaded_.file_problems))
            keeper.warn_of_dropped(outputs_, tokens, loaded_.file_problems);
    }

    void make_all_of(analysis::Snapshot& snapshot) {
        if (analysis::issue_count(snapshot) == 0) return;
        std::vector<FeedContent> contents = feed_contents(snapshot);
        const auto is_filled = [](const FeedContent& content) {
            return !content.issue_ids.empty();
        };
        const FeedContent& main_content = *std::ranges::find_if(contents, is_filled);
        std::string token;
        if (is_private(snapshot)) {
            auto found = find_token(snapshot, main_content.title, Sharing::all);
            if (!found) return problem(std::move(found.error()));
            token = std::move(*found);
        } else if (auto refused = refuse_public(snapshot, main_content.title)) {
            return problem(std::move(*refused));
        }
        const bool is_only = std::ranges::count_if(contents, is_filled) == 1;
        // A card that several feeds have leads to where they all are, if there is such a place.
        const Places first = places_of(main_content.name, token, is_only);
        const std::string everywhere = first.is_private ? "" : on_web("index.html");
        const Reader reader{.is_public = !first.is_private};
        maker_.make_cards({{&snapshot,
                            on_disk(first.cards),
                            {},
                            is_only ? on_web(first.page) : everywhere,
                            reader}});
        for (FeedContent& content : contents) {
            content.reader = reader;
            make_feed_and_page(snapshot, content, places_of(content.name, token, is_only));
        }
        for (const FeedContent& content : personal_contents(snapshot)) {
            if (!make_personal(snapshot, content)) return;
        }
    }

    // Cards, feed and page of one athlete, at an address that is theirs alone; whether there
    // is one.
    bool make_personal(analysis::Snapshot& snapshot, const FeedContent& content) {
        auto token = find_token(snapshot, std::string(athlete_word) + content.title, Sharing::one);
        if (!token) {
            problem(std::move(token.error()));
            return false;
        }
        const Places places = places_of(content.name, *token, true);
        maker_.make_cards(
            {{&snapshot, on_disk(places.cards), {}, on_web(places.page), content.reader}});
        make_feed_and_page(snapshot, content, places);
        return true;
    }

    void make_feed_and_page(const analysis::Snapshot& snapshot, const FeedContent& content,
                            const Places& places) {
        const std::string path = fmt::format("{}/{}.ics", places.feeds, content.name);
        const WebPlaces web{on_web(path), on_web(places.page), on_web(places.cards + "/")};
        const calendar::Feed feed =
            make_feed(snapshot, content, zones_, options_.card.language, web);
        if (auto failed = add_feed(feed, on_disk(places.feeds), {}, zones_, environment_, outputs_))
            return problem(std::move(*failed));
        const bool has_feed = outputs_.contains(on_disk(path));
        // At a private address nobody else's can stand.
        if (has_feed && !places.is_private)
            outputs_.at(on_disk(path)).feed_of = origin_of(options_.out, snapshot.source->path());
        // One that had sessions once tells its subscribers that they are gone.
        if (content.issue_ids.empty() && !has_feed) return;
        site::FeedLinks links{content.title, has_feed ? path : "", has_feed ? web.feed : ""};
        if (!places.is_private)
            index_.lines.push_back({links, places.page, held_count(snapshot, content)});
        add_feed_page(snapshot, content, places, std::move(links));
        if (places.is_private) {
            const std::string& source = snapshot.source->path();
            private_pages_.emplace_back(
                content.reader.athlete_id ? content.title + ", " + source : source, places.page);
        }
    }

    [[nodiscard]] bool is_private(const analysis::Snapshot& snapshot) const {
        const std::string& path = snapshot.source->path();
        return private_files_.contains(identity_of(path)) ||
               (path == standard_input && private_files_.contains(identity_of("-")));
    }

    // Forgetting the option once would show to all what some have a private address of.
    [[nodiscard]] static std::optional<Diagnostic> refuse_public(const analysis::Snapshot& snapshot,
                                                                 const std::string& title) {
        const std::string& source = snapshot.source->path();
        if (source == standard_input) return std::nullopt;
        const auto read = read_addresses(source);
        if (!read) return read.error();
        const auto name = shared_name(*read, title);
        if (!name) return std::nullopt;
        return Diagnostic{Code::was_private, {}, {source, read->path, *name}, {}, {}};
    }

    // Whose an address is.
    enum class Sharing : std::uint8_t { all, one };

    std::expected<std::string, Diagnostic> find_token(const analysis::Snapshot& snapshot,
                                                      const std::string& title, Sharing sharing) {
        auto known = addresses_of(snapshot.source->path());
        if (!known) return std::unexpected(std::move(known.error()));
        Addresses& addresses = **known;
        return address_of(addresses, sharing == Sharing::all
                                         ? shared_name(addresses, title).value_or(title)
                                         : title);
    }

    std::expected<Addresses*, Diagnostic> addresses_of(const std::string& source) {
        const auto known = read_addresses_.find(source);
        if (known != read_addresses_.end()) return known->second;
        if (source == standard_input)
            return std::unexpected(Diagnostic{Code::addresses_nowhere, {}, {source}, {}, {}});
        auto read = read_addresses(source);
        if (!read) return std::unexpected(std::move(read.error()));
        const std::string place = identity_of(read->path);
        const fs::path inside = fs::path(place).lexically_relative(identity_of(options_.out));
        if (!inside.empty() && *inside.begin() != "..")
            return std::unexpected(Diagnostic{Code::addresses_served, {}, {read->path}, {}, {}});
        // Another of the files may be the same, and have its new address already.
        Addresses& addresses = addresses_.try_emplace(place, std::move(*read)).first->second;
        read_addresses_.emplace(source, &addresses);
        return &addresses;
    }

    void add_feed_page(const analysis::Snapshot& snapshot, const FeedContent& content,
                       const Places& places, site::FeedLinks links) {
        site::FeedPage page;
        page.language = language_for(snapshot, content.reader, options_.card.language);
        page.feed = std::move(links);
        if (!page.feed.file.empty()) page.feed.file = from_page(places, page.feed.file);
        page.is_private = places.is_private;
        if (!places.is_private) page.index = from_page(places, "index.html");
        for (const std::size_t issue_id : content.issue_ids) {
            const analysis::Issue issue =
                issue_for(snapshot, issue_id, content.reader, page.language);
            const bool is_cancelled = issue.occurrence() != nullptr &&
                                      issue.occurrence()->standing == schedule::Standing::cancelled;
            if (!issue.is_held() && !is_cancelled) continue;
            page.entries.push_back(
                site::make_entry(issue.session(), issue.timeline(), page.language));
            if (is_cancelled) {
                page.entries.back().is_cancelled = true;
                page.entries.back().reason =
                    schedule::reason_of(snapshot.program, *issue.occurrence());
                continue;
            }
            page.entries.back().moved = moved_text(issue, page.language);
            const std::string card =
                from_page(places, fmt::format("{}/{}", places.cards, card_name(issue.session())));
            page.entries.back().card = card + ".pdf";
            if (options_.svg) page.entries.back().picture = card + ".svg";
        }
        const auto today = std::chrono::floor<std::chrono::days>(environment_.now());
        add_page(places.page, site::write(page, today));
    }

    void add_page(const std::string& path, std::string html) {
        if (auto twice = add_output(outputs_, "page", on_disk(path), std::move(html)))
            problem(std::move(*twice));
    }

    // What the lines of all feeds say from each address of this folder on, nothing escaped.
    [[nodiscard]] std::string links_of_feeds() const {
        std::string links;
        for (const auto& [path, output] : outputs_) {
            if (output.kind == "feed") add_links(output.content.parts(), links);
        }
        return links;
    }

    void add_links(PartedText feed, std::string& links) const {
        calendar::LineReader lines(std::move(feed));
        while (lines.next()) {
            std::string line(lines.line());
            std::erase(line, '\\');
            const std::size_t first = line.find(options_.base);
            if (first != std::string::npos) links.append(line, first).append(1, '\n');
        }
    }

    [[nodiscard]] FolderUpdate update(bool is_alone) const {
        FolderUpdate update;
        update.folder = options_.out;
        update.is_alone = is_alone;
        // A card that an entry still leads to stays, though its session is cancelled.
        update.covers = [this, links = std::optional<std::string>()](
                            const std::string& name, const ManifestEntry& entry) mutable {
            // What `build` made has sources of its own.
            if (!entry.source.empty()) return false;
            if (options_.base.empty() || !name.ends_with(".pdf")) return true;
            if (!links) links = links_of_feeds();
            return !links->contains(options_.base + name);
        };
        update.may_replace = [](const Output& output, std::string_view before, bool is_listed) {
            return output.kind != "page" || (!is_listed && before.contains(site::generator_mark));
        };
        return update;
    }

    [[nodiscard]] std::string summaries() const {
        std::string lines = empty_lines(loaded_);
        for (const auto& [source, page] : private_pages_) {
            lines += fmt::format("private address of {}: {}\n", source,
                                 options_.base.empty() ? on_disk(page) : on_web(page));
        }
        return lines;
    }

    const Options& options_;
    Loaded& loaded_;
    zones::ZoneLoader& zones_;
    Environment& environment_;
    OutputSet outputs_;
    CardMaker maker_;
    std::set<std::string> private_files_;
    // By where they stand, and by the source as it is named.
    std::map<std::string, Addresses> addresses_;
    std::map<std::string, Addresses*> read_addresses_;
    // Sources and their pages.
    std::vector<std::pair<std::string, std::string>> private_pages_;
    site::IndexPage index_{options_.card.language, {}};
};

}  // namespace

std::optional<Diagnostic> complete_base(Options& options) {
    if (options.base.empty()) return std::nullopt;
    const std::string_view base = options.base;
    const std::string_view host =
        base.substr(std::min(secure_scheme.size(), base.size()),
                    base.find('/', secure_scheme.size()) - secure_scheme.size());
    const bool is_sound = !syntax::find_link_fault(base) && base.starts_with(secure_scheme) &&
                          base.find_first_of("?#") == std::string_view::npos && !host.contains('@');
    if (!is_sound) return Diagnostic{Code::base_address, {}, {options.base}, {}, {}};
    if (!base.ends_with('/')) options.base += '/';
    return std::nullopt;
}

std::optional<Built> publish(const Options& options, Loaded& loaded, zones::ZoneLoader& zones,
                             Environment& environment) {
    return Publisher(options, loaded, zones, environment).run();
}

}  // namespace stave::driver
