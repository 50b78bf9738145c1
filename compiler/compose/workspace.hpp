// What the steps of composition share.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "compiler/compose/compose.hpp"
#include "compiler/names/names.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::compose {

using Lines = std::vector<std::uint32_t>;

// References outlive the composition.
struct Workspace {
    SourceFile& source;
    parse::ParseTree& tree;
    const Sources& sources;
    DiagnosticSink& sink;
    // Whether a file that is to be taken in is missing: names may be unknown for that.
    bool lacks_file = false;

    [[nodiscard]] const parse::Line& line(std::uint32_t index) const { return tree.lines[index]; }
    [[nodiscard]] grammar::LineKind kind(std::uint32_t index) const {
        return tree.lines[index].kind;
    }
    // As it stands now: parts that are added move the text.
    [[nodiscard]] std::string text(Span span) const { return std::string(source.text(span)); }
    [[nodiscard]] std::string title(std::uint32_t index) const {
        return fold_name(source.text(tree.lines[index].title));
    }
    // Long lists are not searched for a name, nor for what nobody would read.
    [[nodiscard]] bool searches(std::size_t names) const;
    // The one name among several that is a slip away from one and has its digits, or "".
    // Nothing is near while a broken line may be the one, a line of `opener`'s kind, that
    // was to give the name.
    [[nodiscard]] std::string near_name(const std::string& name,
                                        const std::vector<std::string>& names,
                                        grammar::LineKind opener) const;
    void report(Code code, Span span, std::vector<std::string> arguments,
                std::vector<Fix> fixes = {}, std::vector<Related> related = {}) const {
        sink.report({code, span, std::move(arguments), std::move(fixes), std::move(related)});
    }
};

// Adds a line to the tree that parts the lines of two files; gives its index.
[[nodiscard]] std::uint32_t add_border(const Workspace& workspace);

// The parts of a text between commas of any form, with their places; blanks of any form
// are plain ones in `text`, and none are at its ends.
struct Piece {
    std::string text;
    Span span;
};
[[nodiscard]] std::vector<Piece> split_at_commas(const Workspace& workspace, Span span);

// Lines of the file with those of included files in the places of their `include`
// lines, each file once.
[[nodiscard]] Lines add_includes(const Workspace& workspace);

// The lines without routines, and with their lines in the places of `use` lines.
struct UsedRoutines {
    Lines lines;
    // As in `Arrangement`.
    std::vector<Filled> filled;
    Lines unused;
};
[[nodiscard]] UsedRoutines add_routines(const Workspace& workspace, const Lines& lines);

// The lines with every session that is based on another written out, and without
// the sessions of included files.
[[nodiscard]] Lines add_bases(const Workspace& workspace, const Lines& lines);

// Definitions of the library for the movements that the lines name and do not
// define; they come first.
[[nodiscard]] Arrangement add_library(const Workspace& workspace, const Lines& lines);

}  // namespace stave::compose
