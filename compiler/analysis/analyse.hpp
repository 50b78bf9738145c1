// The whole front of the compiler over one text: what the command line builds
// from and what an editor's server will show.
//
// Pure: the same text, zones and sources give the same snapshot. Never fails; what is
// wrong with the text is in the sink.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "compiler/check/check.hpp"
#include "compiler/compose/compose.hpp"
#include "compiler/diagnostics/sink.hpp"
#include "compiler/fit/fit.hpp"
#include "compiler/parse/parse_tree.hpp"
#include "compiler/program/program.hpp"
#include "compiler/schedule/schedule.hpp"
#include "compiler/source/source_file.hpp"
#include "compiler/syntax/document.hpp"
#include "compiler/timeline/timeline.hpp"

namespace stave::analysis {

class KnownFits;

// Every form of one version of one file. `document` has views into `source`.
struct Snapshot {
    std::unique_ptr<const SourceFile> source;
    parse::ParseTree tree;
    syntax::Document document;
    program::Program program;
    // One for each session of the program, as it is written; none when there are errors.
    std::vector<timeline::Timeline> timelines;
    // Indices of the sessions that no plan holds, and the days of the plans; see issues.hpp.
    std::vector<std::uint32_t> by_themselves;
    std::vector<schedule::Occurrence> season;
    // One for each athlete of the program; none when there are errors.
    std::vector<fit::Outfit> outfits;
    // Of each issue who does it, or would have if it were held, by index among the athletes,
    // rising.
    std::vector<std::vector<std::uint32_t>> people;
    DiagnosticSink sink;
};

// `path` is only for people; nothing is read from it but through `sources`. The sink keeps
// at most `kept` problems. `known` are those of an earlier version, or null, and are left as those
// of this one.
[[nodiscard]] Snapshot analyse(std::string path, std::string text, const check::Options& options,
                               const compose::Sources& sources = {},
                               std::size_t kept = DiagnosticSink::limit,
                               KnownFits* known = nullptr);

}  // namespace stave::analysis
