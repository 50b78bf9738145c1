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
// the file itself, for all that it takes in; in a session's head for what is found in that
// session, wherever its lines come from; below a block's or a movement's line for problems
// in the lines of that block or that movement alone, so that what is known of one does not
// silence a warning of another.
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
    // From narrow to wide.
    enum class Reach : std::uint8_t { movement, block, whole };

    struct Line {
        Span span;
        std::string name;
        Reach reach{};
        bool is_met = false;
    };
    // Of each code, indices of `lines_`.
    using Scope = std::map<Code, std::vector<std::size_t>>;
    struct File {
        Span span;
        Scope scope;
    };
    // Where a line stands: indices of `scopes_`, of which the first is empty.
    struct Place {
        std::size_t session = 0;
        std::size_t block = 0;
        std::size_t movement = 0;
    };
    // A line in one of its places; sessions may share it, and a routine bring it twice.
    struct Occurrence {
        std::uint32_t begin = 0;
        std::uint32_t end = 0;
        std::uint32_t place = 0;
    };
    struct Session {
        std::size_t scope = 0;
        // Of `places_`.
        std::uint32_t first_place = 0;
        std::uint32_t after_places = 0;
    };
    struct Reader;

    // Marks the scope's lines for the code as met; whether there are any.
    bool meet(Scope& scope, Code code);
    // Whether the line around the offset is allowed in each of its places among these.
    bool meet_in_places(std::uint32_t offset, Code code, std::uint32_t first, std::uint32_t after);

    std::vector<Line> lines_;
    std::vector<File> files_;
    std::vector<Scope> scopes_;
    std::vector<Place> places_;
    // By begin, then place; empty where no session allows anything.
    std::vector<Occurrence> occurrences_;
    // Sessions, and what else stands behind the first, by where their heads begin.
    std::map<std::uint32_t, Session> sessions_;
    // Whether a code is allowed anywhere.
    std::vector<bool> codes_;
};

}  // namespace stave::analysis
