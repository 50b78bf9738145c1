#include "compiler/driver/format_files.hpp"

#include <fmt/format.h>

#include <sstream>
#include <utility>

#include "compiler/check/check.hpp"
#include "compiler/diagnostics/render.hpp"
#include "compiler/driver/files.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/run.hpp"
#include "compiler/format/format.hpp"
#include "compiler/names/names.hpp"
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

bool is_field(grammar::LineKind kind) {
    switch (kind) {
#define STAVE_FIELD(id, words, body) case grammar::LineKind::id:
#include "grammar/keywords.def"
        return true;
        default:
            return false;
    }
}

// One blank where there are some, none around commas.
std::string without_blanks(std::string_view text) {
    std::string result;
    for (const char c : clean_text(text)) {
        if (c == ',' && result.ends_with(' ')) result.pop_back();
        if (c != ' ' || !result.ends_with(',')) result += c;
    }
    return result + '\n';
}

// Everything that the lines say, blanks and spellings of keywords aside.
std::string said_by(const syntax::Document& document, std::string_view text) {
    syntax::Document bare;
    std::string more;
    for (const syntax::Line& line : document.lines) {
        if (line.remark.size() > 1) {
            more += without_blanks(text.substr(line.remark.begin, line.remark.size()));
        }
        const bool says_nothing =
            line.kind == grammar::LineKind::blank || line.kind == grammar::LineKind::remark;
        if (says_nothing) continue;
        syntax::Line& copy = bare.lines.emplace_back(line);
        copy.remark = {};
        // A movement with `do` before it is one without.
        if (line.kind == grammar::LineKind::open_plain_movement) {
            copy.kind = grammar::LineKind::movement_line;
        }
        for (const syntax::Word& name : line.names)
            more += without_blanks(name.text);
        // A field's title is its keyword.
        if (is_field(line.kind) || !line.names.empty()) copy.title = {};
        if (!line.is_deferred) continue;
        more += without_blanks(text.substr(line.body_span.begin, line.body_span.size()));
    }
    std::istringstream lines(syntax::dump(bare));
    for (std::string line; std::getline(lines, line);)
        more += without_blanks(line);
    return more;
}

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
    result.meaning = program::dump(check::check(snapshot.document, check::Options{}, unheard)) +
                     said_by(snapshot.document, snapshot.source->text());
    return result;
}

bool is_same(const Read& before, const Read& after) {
    return !after.snapshot.sink.has_errors() && after.meaning == before.meaning &&
           after.formatted == before.formatted;
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
        const bool sound = readable && is_same(file, read(shown, file.formatted));
        // A text that cannot be formatted is handed back, so that no editor loses it.
        if (standard_input && !options_.only_check) {
            environment_.out << (sound ? file.formatted : before);
        }
        if (readable && !sound) return problem({Code::format_unstable, {}, {shown}, {}, {}});
        if (readable && before != file.formatted) change(path, file.formatted);
        loaded_.snapshots.push_back(std::move(file.snapshot));
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

bool means_the_same(const std::string& before, const std::string& after) {
    const Read first = read("before", before);
    return !first.snapshot.sink.has_errors() && is_same(first, read("after", after));
}

int format_files(const Options& options, Environment& environment) {
    return Formatter(options, environment).run();
}

}  // namespace stave::driver
