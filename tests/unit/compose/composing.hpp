// Texts in memory in the place of a disk, and what is made of them.
#pragma once

#include <algorithm>
#include <array>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "compiler/analysis/analyse.hpp"
#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/diagnostics/render.hpp"
#include "compiler/movements/movements.hpp"
#include "compiler/program/dump.hpp"

namespace stave::tests {

// Texts by their paths. A path that is none of them is missing.
using Shelf = std::map<std::string, std::string>;

inline compose::FileReader reader_of(const Shelf& shelf) {
    return [&shelf](std::string_view from,
                    std::string_view path) -> std::expected<compose::IncludedFile, std::string> {
        namespace fs = std::filesystem;
        const std::string name = (fs::path(from).parent_path() / path).lexically_normal().string();
        const auto found = shelf.find(name);
        if (found == shelf.end()) return std::unexpected("there is none");
        return compose::IncludedFile{name, name, found->second};
    };
}

// The file "main.stave" with the shelf beside it, without the library.
inline analysis::Snapshot analyse_with(const Shelf& shelf, std::string text) {
    compose::Sources sources;
    sources.files = reader_of(shelf);
    sources.identity = "main.stave";
    return analysis::analyse("main.stave", std::move(text), {}, sources);
}

// The file alone, with the library.
inline analysis::Snapshot analyse_with_library(std::string text) {
    movements::Library library;
    compose::Sources sources;
    sources.library = [&](const std::string& name) -> std::optional<compose::LibraryText> {
        const auto entry = library.find(name);
        if (!entry) return std::nullopt;
        return compose::LibraryText{std::string(entry->name), std::string(entry->text)};
    };
    const check::Options options{{},
                                 [&](const std::string& name) { return library.near(name); },
                                 [&](const std::string& name) {
                                     const auto entry = library.find(name);
                                     return entry ? std::string(entry->name) : std::string();
                                 }};
    return analysis::analyse("main.stave", std::move(text), options, sources);
}

// The names of the problems, "base-cycle base-cycle".
inline std::string codes(const analysis::Snapshot& snapshot) {
    std::string text;
    for (const Diagnostic& diagnostic : snapshot.sink.sorted()) {
        text += text.empty() ? "" : " ";
        text += catalogue_entry(diagnostic.code).name;
    }
    return text;
}

// A problem a line, as editors read them.
inline std::string problem_lines(const analysis::Snapshot& snapshot) {
    const std::vector<Diagnostic> sorted = snapshot.sink.sorted();
    return render_line({snapshot.source.get(), sorted, snapshot.sink.dropped()});
}

inline std::string problem_text(const analysis::Snapshot& snapshot) {
    const std::vector<Diagnostic> sorted = snapshot.sink.sorted();
    return render_text({snapshot.source.get(), sorted, snapshot.sink.dropped()}, false);
}

inline std::string problem_json(const analysis::Snapshot& snapshot) {
    const std::vector<Diagnostic> sorted = snapshot.sink.sorted();
    const std::array files{FileDiagnostics{snapshot.source.get(), sorted, snapshot.sink.dropped()}};
    return render_json(files);
}

// The words that a problem is placed on.
inline std::string place(const analysis::Snapshot& snapshot, std::size_t number = 0) {
    return std::string(snapshot.source->text(snapshot.sink.sorted().at(number).span));
}

// The first fix of a problem, "" where there is none.
inline std::string first_fix(const analysis::Snapshot& snapshot, std::size_t number = 0) {
    const auto sorted = snapshot.sink.sorted();
    const std::vector<Fix>& fixes = sorted.at(number).fixes;
    return fixes.empty() ? "" : fixes.front().edits.front().text;
}

// The movements of a session, block by block: "deadlift, chin-up | wall sit".
inline std::string movements_of(const analysis::Snapshot& snapshot, std::size_t session = 0) {
    std::string text;
    for (const program::Block& block : snapshot.program.sessions.at(session).blocks) {
        text += text.empty() ? "" : " | ";
        for (std::size_t i = 0; i < block.items.size(); ++i) {
            text += i > 0 ? ", " : "";
            text += block.items[i].parts.front().name;
        }
    }
    return text;
}

// The session's part of the program's dump, from its second line on: what two
// sessions of other names have in common.
inline std::string body_of(const analysis::Snapshot& snapshot, std::size_t session = 0) {
    std::string dump = program::dump(snapshot.program);
    std::size_t begin = dump.find("session ");
    for (std::size_t i = 0; i < session; ++i)
        begin = dump.find("\nsession ", begin) + 1;
    const std::size_t line_end = dump.find('\n', begin);
    const std::size_t end = dump.find("\nsession ", begin);
    return dump.substr(line_end + 1, end == std::string::npos ? end : end - line_end);
}

}  // namespace stave::tests
