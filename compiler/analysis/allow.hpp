// `allow` lines: problems that the coach has thought about and lets stand.
#pragma once

#include <cstddef>
#include <map>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/source/source_file.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::analysis {

// What a document allows: before the first session for the whole file it stands in
// and, in the file itself, for all that it takes in; in a session for that session's
// lines, wherever they come from.
class Allowances {
public:
    // Reports what is wrong with the lines themselves.
    Allowances(const syntax::Document& document, const SourceFile& source, DiagnosticSink& sink);

    [[nodiscard]] bool empty() const { return lines_.empty(); }
    // Whether the problem is allowed; the lines that allow it count as met.
    [[nodiscard]] bool takes(const Diagnostic& diagnostic);
    // Those that nothing has met, but for problems that are found with cards alone.
    void report_unmet(DiagnosticSink& sink) const;

private:
    struct Line {
        Span span;
        std::string name;
        bool is_met = false;
    };
    struct Scope {
        // Sorted by place.
        std::vector<Span> lines;
        // Of each code, indices of `lines_`.
        std::map<Code, std::vector<std::size_t>> allowed;

        [[nodiscard]] bool covers(std::uint32_t offset) const;
    };

    // Of a session, or of something else that stands behind the first.
    void add_scope(std::span<const syntax::Line> lines, DiagnosticSink& sink);
    void add(const syntax::Line& line, Scope& scope, DiagnosticSink& sink);

    std::vector<Line> lines_;
    std::vector<Scope> scopes_;
};

}  // namespace stave::analysis
