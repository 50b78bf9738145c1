#include "compiler/driver/show_movements.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <unordered_set>

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
            const std::string near = names.near(name);
            environment.err << fmt::format("stave: no movement speaks of “{}”{}\n",
                                           joined(options.words),
                                           near.empty() ? "" : "; is " + near + " meant?");
        }
    }
    check_results_written(loaded, environment);
    say_problems(loaded, options.diagnostics, environment);
    if (loaded.exit_code() != exit_done) return loaded.exit_code();
    return found.empty() ? exit_source_errors : exit_done;
}

}  // namespace stave::driver
