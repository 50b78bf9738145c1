#include "compiler/driver/format_files.hpp"

#include <fmt/format.h>

#include <stdexcept>
#include <utility>

#include "compiler/check/check.hpp"
#include "compiler/diagnostics/render.hpp"
#include "compiler/driver/files.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/run.hpp"
#include "compiler/format/format.hpp"
#include "compiler/parse/parse.hpp"
#include "compiler/program/dump.hpp"
#include "compiler/syntax/lower.hpp"

namespace stave::driver {

namespace {

// One file as it is read for formatting: its own lines alone.
struct Read {
    analysis::Snapshot snapshot;
    std::string formatted;
    // What the file says, for comparing.
    std::string meaning;
};

Read read(const std::string& shown, std::string text) {
    Read result;
    analysis::Snapshot& snapshot = result.snapshot;
    snapshot.source = std::make_unique<const SourceFile>(shown, std::move(text));
    snapshot.tree = parse::parse(*snapshot.source, snapshot.sink);
    snapshot.document = syntax::lower(snapshot.tree, *snapshot.source, snapshot.sink);
    if (snapshot.sink.has_errors()) return result;
    result.formatted = format::format(snapshot.document, snapshot.source->text());
    // What checking finds is for `check` to say.
    DiagnosticSink unheard;
    result.meaning = program::dump(check::check(snapshot.document, check::Options{}, unheard));
    return result;
}

class Formatter {
public:
    Formatter(const Options& options, Environment& environment)
        : options_(options), environment_(environment) {}

    int run() {
        for (const std::string& path : options_.files)
            format(path);
        say_problems(loaded_, options_.diagnostics, environment_);
        if (loaded_.exit_code() != exit_done) return loaded_.exit_code();
        return options_.only_check && changed_ > 0 ? exit_source_errors : exit_done;
    }

private:
    void format(const std::string& path) {
        const bool standard_input = path == "-";
        const std::string shown = standard_input ? "standard input" : path;
        auto text = standard_input ? read_stream(environment_.in, shown) : read_file(path);
        if (!text) return problem(std::move(text.error()));
        const std::string before = *text;
        Read file = read(shown, std::move(*text));
        const bool readable = !file.snapshot.sink.has_errors();
        const bool sound = readable && is_safe(shown, file);
        // A text that cannot be formatted is handed back, so that no editor loses it.
        if (standard_input && !options_.only_check) {
            environment_.out << (sound ? file.formatted : before);
        }
        if (readable && !sound) {
            throw std::logic_error(shown + " would not mean the same when formatted");
        }
        if (readable && before != file.formatted) change(path, file.formatted);
        loaded_.snapshots.push_back(std::move(file.snapshot));
    }

    // The result means the same and formats to itself.
    static bool is_safe(const std::string& shown, const Read& file) {
        const Read again = read(shown, file.formatted);
        return !again.snapshot.sink.has_errors() && again.meaning == file.meaning &&
               again.formatted == file.formatted;
    }

    void change(const std::string& path, const std::string& formatted) {
        ++changed_;
        if (options_.only_check) {
            environment_.out << fmt::format("{} is not formatted\n", path);
            return;
        }
        if (path == "-") return;
        if (auto failed = replace_source(path, formatted)) return problem(std::move(*failed));
        environment_.out << fmt::format("{} formatted\n", path);
    }

    void problem(Diagnostic diagnostic) { loaded_.file_problems.push_back(std::move(diagnostic)); }

    const Options& options_;
    Environment& environment_;
    Loaded loaded_;
    std::size_t changed_ = 0;
};

}  // namespace

int format_files(const Options& options, Environment& environment) {
    return Formatter(options, environment).run();
}

}  // namespace stave::driver
