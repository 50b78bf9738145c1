#include "compiler/driver/format_guard.hpp"

#include <sstream>
#include <utility>
#include <variant>

#include "compiler/check/check.hpp"
#include "compiler/format/format.hpp"
#include "compiler/names/names.hpp"
#include "compiler/parse/parse.hpp"
#include "compiler/program/dump.hpp"
#include "compiler/syntax/lower.hpp"

namespace stave::driver {

namespace {

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

// The line without what may be spelt in several ways; that goes to `words`.
syntax::Line without_spellings(const syntax::Line& line, std::string& words) {
    syntax::Line bare = line;
    bare.remark = {};
    // A movement with `do` before it is one without.
    if (line.kind == grammar::LineKind::open_plain_movement) {
        bare.kind = grammar::LineKind::movement_line;
    }
    for (const syntax::Word& name : line.names)
        words += without_blanks(name.text);
    // A field's title is its keyword.
    if (is_field(line.kind) || !line.names.empty()) bare.title = {};
    if (auto* when = std::get_if<syntax::When>(&bare.body); when != nullptr && when->weekday) {
        words += fold_name(when->weekday->text);
        when->weekday.reset();
    }
    if (auto* slot = std::get_if<syntax::Slot>(&bare.body); slot != nullptr && slot->weekday) {
        words += fold_name(slot->weekday->text);
        slot->weekday.reset();
    }
    return bare;
}

// Everything that the lines say, blanks and spellings of keywords aside.
std::string said_by(const syntax::Document& document, std::string_view text) {
    const auto words_at = [&](Span span) {
        return without_blanks(text.substr(span.begin, span.size()));
    };
    syntax::Document bare;
    std::string words;
    for (const syntax::Line& line : document.lines) {
        if (line.remark.size() > 1) words += words_at(line.remark);
        const bool says_nothing =
            line.kind == grammar::LineKind::blank || line.kind == grammar::LineKind::remark;
        if (says_nothing) continue;
        bare.lines.push_back(without_spellings(line, words));
        if (line.is_deferred) words += words_at(line.body_span);
    }
    std::istringstream lines(syntax::dump(bare));
    for (std::string line; std::getline(lines, line);)
        words += without_blanks(line);
    return words;
}

}  // namespace

FormattedFile read_formatted(const std::string& shown, std::string text) {
    FormattedFile result;
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

bool says_the_same(const FormattedFile& before, const FormattedFile& after) {
    return !after.snapshot.sink.has_errors() && after.meaning == before.meaning &&
           after.formatted == before.formatted;
}

bool means_the_same(const std::string& before, const std::string& after) {
    const FormattedFile first = read_formatted("before", before);
    return !first.snapshot.sink.has_errors() &&
           says_the_same(first, read_formatted("after", after));
}

}  // namespace stave::driver
