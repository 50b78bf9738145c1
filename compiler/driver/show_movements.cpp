#include "compiler/driver/show_movements.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <string>
#include <string_view>
#include <unordered_set>
#include <utility>
#include <vector>

#include "backends/report/movements.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/run.hpp"
#include "compiler/names/names.hpp"

namespace stave::driver {

namespace {

using program::MovementDefinition;
using Found = std::vector<const MovementDefinition*>;

// All text of a movement that may be searched, folded.
std::string searched_text(const MovementDefinition& movement) {
    return fold_name(report::movement_text(movement));
}

bool is_called(const MovementDefinition& movement, const std::string& folded) {
    return fold_name(movement.name) == folded ||
           std::ranges::any_of(movement.also,
                               [&](const std::string& name) { return fold_name(name) == folded; });
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : " ") + word;
    return text;
}

// Definitions of the files first, then those of the library whose names are free.
Found all_movements(const Loaded& loaded, const analysis::Snapshot& library) {
    Found all;
    std::unordered_set<std::string> names;
    const auto add = [&](const MovementDefinition& movement) {
        if (names.insert(fold_name(movement.name)).second) all.push_back(&movement);
    };
    for (const analysis::Snapshot& snapshot : loaded.snapshots) {
        for (const MovementDefinition& movement : snapshot.program.movements) {
            if (!movement.from_library) add(movement);
        }
    }
    for (const MovementDefinition& movement : library.program.movements)
        add(movement);
    std::ranges::sort(all, {}, [](const MovementDefinition* one) { return fold_name(one->name); });
    return all;
}

Found search(const Found& all, const std::vector<std::string>& words) {
    Found found;
    for (const MovementDefinition* movement : all) {
        const std::string text = searched_text(*movement);
        const bool all_there = std::ranges::all_of(
            words, [&](const std::string& word) { return text.contains(fold_name(word)); });
        if (all_there) found.push_back(movement);
    }
    return found;
}

// Without the "s" of several: "ropes" is a rope.
std::string_view singular(std::string_view word) {
    constexpr std::size_t shortest = 4;
    if (word.size() >= shortest && word.ends_with('s')) word.remove_suffix(1);
    return word;
}

std::unordered_set<std::string> words_of(std::string_view folded) {
    std::unordered_set<std::string> words;
    while (!folded.empty()) {
        const std::size_t end = std::min(folded.find_first_of(" -"), folded.size());
        if (end > 0) words.emplace(singular(folded.substr(0, end)));
        folded.remove_prefix(std::min(end + 1, folded.size()));
    }
    return words;
}

// How many of the words stand in one of the movement's names.
std::size_t shared_words(const MovementDefinition& movement,
                         const std::unordered_set<std::string>& words) {
    std::vector<std::string> names = movement.also;
    names.push_back(movement.name);
    std::size_t most = 0;
    for (const std::string& name : names) {
        const auto shared =
            std::ranges::count_if(words_of(fold_name(name)),
                                  [&](const std::string& word) { return words.contains(word); });
        most = std::max(most, static_cast<std::size_t>(shared));
    }
    return most;
}

// The names of the few movements that share most words with one, "rope climb, skip rope".
std::string related_names(const Found& all, const std::string& folded_name) {
    constexpr std::size_t most_named = 5;
    const std::unordered_set<std::string> words = words_of(folded_name);
    std::vector<std::pair<std::size_t, std::string>> shares;
    for (const MovementDefinition* movement : all) {
        const std::size_t shared = shared_words(*movement, words);
        if (shared > 0) shares.emplace_back(shared, movement->name);
    }
    // Those of as many words stay in the order of their names.
    std::ranges::stable_sort(shares, std::ranges::greater{},
                             &std::pair<std::size_t, std::string>::first);
    std::string text;
    for (std::size_t i = 0; i < std::min(shares.size(), most_named); ++i)
        text += (text.empty() ? "" : ", ") + shares[i].second;
    return text;
}

// What may be meant by a name that nothing speaks of, as the end of a sentence.
std::string suggestion(const Found& all, const std::string& folded_name,
                       movements::Library& library) {
    if (const std::string near = library.near(folded_name); !near.empty()) {
        return "; is " + near + " meant?";
    }
    const std::string related = related_names(all, folded_name);
    return related.empty() ? "" : "; related by name: " + related;
}

}  // namespace

int show_movements(const Options& options, Environment& environment) {
    zones::ZoneLoader zones;
    movements::Library names;
    Loaded loaded = load(options, zones, names, environment);
    const analysis::Snapshot library = analysis::analyse(
        "the movement library", std::string(movements::library_text()), check::Options{});
    const Found all = all_movements(loaded, library);
    const std::string name = fold_name(joined(options.words));
    Found found = options.words.empty() ? all : Found{};
    for (const MovementDefinition* movement : all) {
        if (!name.empty() && is_called(*movement, name)) found.push_back(movement);
    }
    if (!name.empty() && found.size() == 1) {
        environment.out << report::movement_text(*found.front());
    } else {
        if (found.empty()) found = search(all, options.words);
        environment.out << report::movement_list(found);
        if (found.empty()) {
            environment.err << fmt::format("stave: no movement speaks of “{}”{}\n",
                                           joined(options.words), suggestion(all, name, names));
        }
    }
    check_results_written(loaded, environment);
    say_problems(loaded, options.diagnostics, environment);
    if (loaded.exit_code() != exit_done) return loaded.exit_code();
    return found.empty() ? exit_source_errors : exit_done;
}

}  // namespace stave::driver
