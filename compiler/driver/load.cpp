#include "compiler/driver/load.hpp"

#include <algorithm>
#include <utility>

#include "compiler/diagnostics/render.hpp"
#include "compiler/driver/files.hpp"
#include "compiler/driver/run.hpp"

namespace stave::driver {

bool Loaded::has_source_errors() const {
    return std::ranges::any_of(
        snapshots, [](const analysis::Snapshot& snapshot) { return snapshot.sink.has_errors(); });
}

int Loaded::exit_code() const {
    if (!file_problems.empty()) return exit_files;
    return has_source_errors() ? exit_source_errors : exit_done;
}

Loaded load(const Options& options, const check::Options& check_options, Environment& environment) {
    Loaded loaded;
    for (const std::string& path : options.files) {
        const bool standard_input = path == "-";
        const std::string shown = standard_input ? "standard input" : path;
        auto text = standard_input ? read_stream(environment.in, shown) : read_file(path);
        if (!text) {
            loaded.file_problems.push_back(std::move(text.error()));
            continue;
        }
        loaded.snapshots.push_back(analysis::analyse(shown, std::move(*text), check_options));
    }
    return loaded;
}

void say_problems(const Loaded& loaded, DiagnosticFormat format, Environment& environment) {
    // The sorted lists must outlive the views on them.
    std::vector<std::vector<Diagnostic>> sorted;
    for (const analysis::Snapshot& snapshot : loaded.snapshots) {
        sorted.push_back(snapshot.sink.sorted());
    }
    std::vector<FileDiagnostics> files{{nullptr, loaded.file_problems, 0}};
    for (std::size_t i = 0; i < sorted.size(); ++i) {
        const analysis::Snapshot& snapshot = loaded.snapshots[i];
        files.push_back({snapshot.source.get(), sorted[i], snapshot.sink.dropped()});
    }
    if (format == DiagnosticFormat::json) {
        environment.err << render_json(files);
        return;
    }
    for (const FileDiagnostics& file : files) {
        environment.err << (format == DiagnosticFormat::line
                                ? render_line(file)
                                : render_text(file, environment.colour));
    }
}

}  // namespace stave::driver
