// Composition: puts the lines of a file together with what they take in from
// elsewhere: included files, routines that are used, sessions that are based on
// others, movements of the library. Adds parts to the source and lines to the tree,
// and says in which order the lines are to be lowered.
//
// Touches no disk: files come from the reader it is given.
#pragma once

#include <cstdint>
#include <expected>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/parse/parse_tree.hpp"
#include "compiler/source/source_file.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::compose {

// What a file may take in at most. They bound time and memory.
inline constexpr std::size_t most_includes = 1000;
inline constexpr std::size_t deepest_include = 20;
inline constexpr std::size_t deepest_use = 20;
inline constexpr std::size_t deepest_base = 20;
// Of routines, and again of sessions that others are based on.
inline constexpr std::size_t most_added_lines = 200'000;

struct IncludedFile {
    // As people know it.
    std::string name;
    // The same for every way to write the path.
    std::string identity;
    std::string text;
};

// Reads the file that `path` means in the file called `from`; else says why not, in
// a few words.
using FileReader = std::function<std::expected<IncludedFile, std::string>(std::string_view from,
                                                                          std::string_view path)>;

struct LibraryText {
    // The movement's main name.
    std::string name;
    // Its definition.
    std::string text;
};

// The library's movement of a folded name, its main or another one.
using LibraryFinder = std::function<std::optional<LibraryText>(const std::string& folded_name)>;

// Both may be empty: then nothing can be included, and no library is there.
struct Sources {
    FileReader files;
    LibraryFinder library;
    // Of the file itself, as `IncludedFile::identity`.
    std::string identity;
};

// A line of a routine with its blanks filled in, and the use that filled them.
struct Filled {
    Span text;
    Span use;
};

struct Arrangement {
    // Indices of lines of the tree, in the order in which they count.
    std::vector<std::uint32_t> lines;
    // The parts of the text that come from the movement library.
    std::vector<Span> library;
    // In the order of the text.
    std::vector<Filled> filled;
    // Lines of routines that nobody uses, which are to be lowered for their errors alone.
    std::vector<std::uint32_t> unused;
    // A file that was to be taken in is missing, and with it names.
    bool lacks_file = false;
};

// Whether such a line begins something of its own: a session, a definition, a routine, the
// lines of another file ...
[[nodiscard]] bool is_first_rank(grammar::LineKind kind);

// `source` holds the file alone, `tree` its lines.
[[nodiscard]] Arrangement compose(SourceFile& source, parse::ParseTree& tree,
                                  const Sources& sources, DiagnosticSink& sink);

}  // namespace stave::compose
