// Reads and analyses the files of a command, and says what was found.
#pragma once

#include <string>
#include <vector>

#include "compiler/analysis/analyse.hpp"
#include "compiler/driver/environment.hpp"
#include "compiler/driver/options.hpp"

namespace stave::driver {

// What a command works on. `file_problems` are those of files, not of texts.
struct Loaded {
    std::vector<analysis::Snapshot> snapshots;
    std::vector<Diagnostic> file_problems;

    [[nodiscard]] bool has_source_errors() const;
    // The exit code that the problems so far ask for.
    [[nodiscard]] int exit_code() const;
};

[[nodiscard]] Loaded load(const Options& options, const check::Options& check_options,
                          Environment& environment);

// Writes all problems to `err` in the form asked for.
void say_problems(const Loaded& loaded, DiagnosticFormat format, Environment& environment);

}  // namespace stave::driver
