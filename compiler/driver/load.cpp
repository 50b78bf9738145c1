#include "compiler/driver/load.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <optional>
#include <system_error>
#include <utility>

#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/diagnostics/render.hpp"
#include "compiler/driver/files.hpp"
#include "compiler/driver/hashes.hpp"
#include "compiler/driver/run.hpp"

namespace stave::driver {

std::string identity_of(const std::string& path) {
    std::error_code problem;
    // What is not there yet must not be known by another name once it is.
    const auto absolute = std::filesystem::absolute(path, problem);
    if (problem) return path;
    const auto whole = std::filesystem::weakly_canonical(absolute, problem);
    return problem ? path : whole.string();
}

bool Loaded::has_source_errors() const {
    return std::ranges::any_of(snapshots, [this](const analysis::Snapshot& snapshot) {
        return snapshot.sink.has_errors() || (strict && snapshot.sink.has_warnings());
    });
}

std::vector<analysis::Snapshot*> Loaded::without_errors() {
    std::vector<analysis::Snapshot*> sound;
    for (analysis::Snapshot& snapshot : snapshots) {
        if (!snapshot.sink.has_errors()) sound.push_back(&snapshot);
    }
    return sound;
}

int Loaded::exit_code() const {
    const bool has_failed = std::ranges::any_of(file_problems, [](const Diagnostic& problem) {
        return catalogue_entry(problem.code).severity == Severity::error;
    });
    if (has_failed) return exit_files;
    const bool is_warned = std::ranges::any_of(file_problems, [](const Diagnostic& problem) {
        return catalogue_entry(problem.code).severity == Severity::warning;
    });
    if (strict && is_warned) return exit_source_errors;
    return has_source_errors() ? exit_source_errors : exit_done;
}

std::string included_path(std::string_view from, std::string_view path) {
    namespace fs = std::filesystem;
    const fs::path joined = fs::path(from).parent_path() / fs::path(path);
    // Behind a linked folder `..` is not the folder before it.
    const fs::path short_form = joined.lexically_normal();
    const bool is_same = identity_of(short_form.string()) == identity_of(joined.string());
    return (is_same ? short_form : joined).string();
}

std::expected<compose::IncludedFile, std::string> read_included(std::string_view from,
                                                                std::string_view path) {
    namespace fs = std::filesystem;
    if (path.contains("://")) return std::unexpected("files are not fetched from the net");
    std::error_code problem;
    const std::string whole = included_path(from, path);
    const fs::file_type type = fs::status(whole, problem).type();
    if (type == fs::file_type::directory) return std::unexpected("it is a folder");
    // A pipe or a device would be waited for, or never end.
    if (type != fs::file_type::regular && type != fs::file_type::not_found &&
        type != fs::file_type::none) {
        return std::unexpected("it is no plain file");
    }
    auto text = read_file(whole);
    if (!text && text.error().code == Code::file_too_large) {
        return std::unexpected("it is larger than " + text.error().arguments.back() + " MB");
    }
    // The reason is the diagnostic's last argument.
    if (!text) return std::unexpected(text.error().arguments.back());
    return compose::IncludedFile{whole, identity_of(whole), std::move(*text)};
}

compose::Sources make_sources(const std::string& path, movements::Library& library) {
    compose::Sources sources;
    sources.files = read_included;
    sources.identity = identity_of(path);
    sources.library = [&library](const std::string& name) -> std::optional<compose::LibraryText> {
        const auto entry = library.find(name);
        if (!entry) return std::nullopt;
        return compose::LibraryText{std::string(entry->name), std::string(entry->text)};
    };
    return sources;
}

check::Options make_check_options(zones::ZoneLoader& zones, movements::Library& library) {
    return {zones.finder(), [&library](const std::string& name) { return library.near(name); },
            [&library](const std::string& name) {
                const auto entry = library.find(name);
                return entry ? std::string(entry->name) : std::string();
            }};
}

Loaded load(const Options& options, zones::ZoneLoader& zones, movements::Library& library,
            Environment& environment, const compose::FileReader& included,
            analysis::KnownFits* known) {
    Loaded loaded;
    loaded.strict = options.strict;
    const check::Options check_options = make_check_options(zones, library);
    const auto noted = [&](std::string_view from, std::string_view path) {
        auto file = included(from, path);
        if (file) loaded.sources[file->name] = sha256(file->text);
        return file;
    };
    for (const std::string& path : options.files) {
        const bool is_input = path == "-";
        const std::string shown = is_input ? std::string(standard_input) : path;
        auto text = is_input ? read_stream(environment.in, shown) : read_file(path);
        if (!text) {
            loaded.file_problems.push_back(std::move(text.error()));
            continue;
        }
        compose::Sources sources = make_sources(shown, library);
        sources.files = noted;
        loaded.sources[path] = sha256(*text);
        loaded.snapshots.push_back(analysis::analyse(shown, std::move(*text), check_options,
                                                     sources, DiagnosticSink::limit, known));
    }
    return loaded;
}

std::string empty_lines(const Loaded& loaded) {
    std::string lines;
    for (const analysis::Snapshot& snapshot : loaded.snapshots) {
        if (snapshot.program.sessions.empty())
            lines += fmt::format("{} holds no session\n", snapshot.source->path());
    }
    return lines;
}

void check_results_written(Loaded& loaded, Environment& environment) {
    environment.out.flush();
    if (environment.out.good()) return;
    loaded.file_problems.push_back(
        {Code::cannot_write, {}, {"standard output", "it is closed or full"}, {}, {}});
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
