#include "compiler/analysis/analyse.hpp"

#include <algorithm>
#include <memory>
#include <utility>

#include "compiler/analysis/allow.hpp"
#include "compiler/analysis/booked_time.hpp"
#include "compiler/analysis/people_checks.hpp"
#include "compiler/analysis/season_checks.hpp"
#include "compiler/analysis/time_checks.hpp"
#include "compiler/check/unused_lines.hpp"
#include "compiler/parse/parse.hpp"
#include "compiler/syntax/lower.hpp"

namespace stave::analysis {

namespace {

// A file of definitions alone is there to be included; one that says nothing is a slip.
void check_not_empty(const parse::ParseTree& tree, DiagnosticSink& sink) {
    const bool says_nothing = std::ranges::all_of(tree.lines, [](const parse::Line& line) {
        return line.kind == grammar::LineKind::blank || line.kind == grammar::LineKind::remark;
    });
    if (says_nothing && !sink.has_errors()) sink.report({Code::no_session, {0, 0}, {}, {}, {}});
}

// Those that no plan holds.
std::vector<std::uint32_t> sessions_by_themselves(const Snapshot& snapshot) {
    std::vector<bool> is_planned(snapshot.program.sessions.size());
    for (const program::Plan& plan : snapshot.program.plans) {
        for (const program::PlanSlot& slot : plan.slots) {
            for (const std::uint32_t id : slot.session_ids)
                is_planned[id] = true;
        }
    }
    std::vector<std::uint32_t> ids;
    for (std::uint32_t id = 0; id < is_planned.size(); ++id) {
        if (!is_planned[id]) ids.push_back(id);
    }
    return ids;
}

// Whatever there is to be had of a file without errors.
void forget_results(Snapshot& snapshot) {
    snapshot.timelines.clear();
    snapshot.by_themselves.clear();
    snapshot.season.clear();
    snapshot.outfits.clear();
    snapshot.people.clear();
}

// A line that was filled in stands in no file, so its use is shown as well.
void add_uses(const std::vector<compose::Filled>& filled, DiagnosticSink& sink) {
    if (filled.empty()) return;
    sink.amend([&](Diagnostic& diagnostic) {
        const std::uint32_t offset = diagnostic.span.begin;
        const auto begins = [](const compose::Filled& one) { return one.text.begin; };
        const auto after = std::ranges::upper_bound(filled, offset, {}, begins);
        if (after == filled.begin() || offset > std::prev(after)->text.end) return;
        diagnostic.related.push_back({std::prev(after)->use, "used here"});
    });
}

}  // namespace

Snapshot analyse(std::string path, std::string text, const check::Options& options,
                 const compose::Sources& sources, std::size_t kept, KnownFits* known) {
    Snapshot snapshot;
    snapshot.sink = DiagnosticSink(kept);
    auto source = std::make_unique<SourceFile>(std::move(path), std::move(text));
    snapshot.tree = parse::parse(*source, snapshot.sink);
    const compose::Arrangement arrangement =
        compose::compose(*source, snapshot.tree, sources, snapshot.sink);
    snapshot.source = std::move(source);
    const auto allowances = std::make_shared<Allowances>(snapshot.tree, arrangement.lines,
                                                         *snapshot.source, snapshot.sink);
    snapshot.sink.leave_out(
        [allowances](const DiagnosticSink::Found& one) { return allowances->takes(one); });
    check::check_unused(
        syntax::lower(snapshot.tree, arrangement.unused, *snapshot.source, snapshot.sink),
        snapshot.sink);
    snapshot.document =
        syntax::lower(snapshot.tree, arrangement.lines, *snapshot.source, snapshot.sink);
    snapshot.document.library = arrangement.library;
    check_not_empty(snapshot.tree, snapshot.sink);
    check::Options own = options;
    // Names that a missing file was to define are no slips.
    if (arrangement.lacks_file) own.near_movement = own.known_movement = {};
    snapshot.program = check::check(snapshot.document, own, snapshot.sink);
    if (!snapshot.sink.has_errors()) {
        snapshot.season = schedule::schedule(snapshot.program, options.zones, snapshot.sink);
    }
    if (!snapshot.sink.has_errors()) {
        for (const program::Session& session : snapshot.program.sessions) {
            snapshot.sink.enter_session(session.span.begin);
            snapshot.timelines.push_back(timeline::expand(snapshot.program, session));
            check_booked_time(session, snapshot.timelines.back(), snapshot.sink);
        }
        snapshot.by_themselves = sessions_by_themselves(snapshot);
        check_season(snapshot);
        check_people(snapshot, known);
        if (snapshot.sink.has_errors()) forget_results(snapshot);
    }
    snapshot.sink.enter_session(std::nullopt);
    add_uses(arrangement.filled, snapshot.sink);
    // Where errors stopped the passes nobody knows what would have been met.
    if (!snapshot.sink.has_errors()) allowances->report_unmet(snapshot.sink);
    return snapshot;
}

}  // namespace stave::analysis
