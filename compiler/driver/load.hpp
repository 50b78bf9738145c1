// Reads and analyses the files of a command, and says what was found.
#pragma once

#include <expected>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "backends/card/family.hpp"
#include "compiler/analysis/analyse.hpp"
#include "compiler/driver/environment.hpp"
#include "compiler/driver/options.hpp"
#include "compiler/movements/movements.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::driver {

// What the text of standard input is called.
inline constexpr std::string_view standard_input = "standard input";

using SourceHashes = std::map<std::string, std::string>;

// What a command works on. `file_problems` are those of files, not of texts, and notes
// about them.
struct Loaded {
    std::vector<analysis::Snapshot> snapshots;
    std::vector<Diagnostic> file_problems;
    // SHA-256 of each file that was read, by its path.
    SourceHashes sources;
    // Of the cards.
    card::Family family;
    // Warnings count as errors.
    bool strict = false;

    [[nodiscard]] bool has_source_errors() const;
    [[nodiscard]] std::vector<analysis::Snapshot*> without_errors();
    // The exit code that the problems so far ask for.
    [[nodiscard]] int exit_code() const;
};

// The same for every way to write a path.
[[nodiscard]] std::string identity_of(const std::string& path);

// Where an included file stands, as seen from the working folder.
[[nodiscard]] std::string included_path(std::string_view from, std::string_view path);

// Reads included files from the disk, each path from the folder of the file that
// names it.
[[nodiscard]] std::expected<compose::IncludedFile, std::string> read_included(
    std::string_view from, std::string_view path);

// What the analysis of a file may draw on. `library` must outlive it.
[[nodiscard]] compose::Sources make_sources(const std::string& path, movements::Library& library);
[[nodiscard]] check::Options make_check_options(zones::ZoneLoader& zones,
                                                movements::Library& library);

// `included` reads what the files take in; see `analyse` of what is known.
[[nodiscard]] Loaded load(const Options& options, zones::ZoneLoader& zones,
                          movements::Library& library, Environment& environment,
                          const compose::FileReader& included = read_included,
                          analysis::KnownFits* known = nullptr);

// A line for each file that holds no session.
[[nodiscard]] std::string empty_lines(const Loaded& loaded);

// Adds a problem where results could not be written: a full disk, a closed pipe.
void check_results_written(Loaded& loaded, Environment& environment);

// Writes all problems to `err` in the form asked for.
void say_problems(const Loaded& loaded, DiagnosticFormat format, Environment& environment);

}  // namespace stave::driver
