// `allow` lines: problems that the coach has thought about and lets stand.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/parse/parse_tree.hpp"
#include "compiler/source/source_file.hpp"

namespace stave::analysis {

// What a file allows: before the first session for the whole file it stands in and, in
// the file itself, for all that it takes in; in a session for what is found in that
// session, wherever its lines come from.
class Allowances {
public:
    // `order` are the tree's lines as they count. Reports what is wrong with the allow
    // lines themselves.
    Allowances(const parse::ParseTree& tree, std::span<const std::uint32_t> order,
               const SourceFile& source, DiagnosticSink& sink);

    // Whether the problem is allowed; the lines that allow it count as met.
    [[nodiscard]] bool takes(const DiagnosticSink::Found& found);
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
    struct Reader;

    // Marks the scope's lines for the code as met; whether there are any.
    bool meet(const Scope& scope, Code code);

    std::vector<Line> lines_;
    // Of whole files.
    std::vector<Scope> files_;
    // Of sessions, and of what else stands behind the first, by where their heads begin.
    std::map<std::uint32_t, Scope> sessions_;
    // Whether a code is allowed anywhere.
    std::vector<bool> codes_;
};

}  // namespace stave::analysis
