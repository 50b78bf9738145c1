#include "compiler/check/block_rests.hpp"

#include <utility>

namespace stave::check {

namespace {

using program::BlockKind;
using program::RunKind;
using syntax::RestPlace;

bool always_by_rounds(BlockKind kind) {
    return kind == BlockKind::superset || kind == BlockKind::circuit || kind == BlockKind::stations;
}

void set_rest(std::optional<program::Rest>& place, const syntax::Rest& rest, DiagnosticSink& sink) {
    if (place) {
        sink.report({Code::detail_twice, rest.span, {"rest"}, {}, {}});
        return;
    }
    place = to_rest(rest);
}

void report_not_here(const syntax::Rest& rest, const DraftBlock& draft, bool by_rounds,
                     DiagnosticSink& sink) {
    sink.report({Code::rest_not_here,
                 rest.span,
                 {rest.place == RestPlace::rounds ? "rounds" : "sets", block_name(draft.block),
                  by_rounds ? "Its movements take turns, one set a round."
                            : "It has no rounds; each movement is finished before the next."},
                 {},
                 {}});
}

void report_unclear(const syntax::Rest& rest, DraftBlock& draft, DiagnosticSink& sink) {
    std::vector<Fix> fixes;
    // "between" stands before ", about 60 s".
    if (rest.kind != syntax::RestKind::as_needed || !rest.has_time) {
        const Span end{rest.span.end, rest.span.end};
        fixes = {{"between rounds", {Edit{end, " between rounds"}}},
                 {"between blocks", {Edit{end, " between blocks"}}}};
    }
    sink.report({Code::rest_unclear,
                 rest.span,
                 {block_name(draft.block)},
                 std::move(fixes),
                 {{draft.head, "the block begins here"}}});
    draft.tainted = true;
}

}  // namespace

bool runs_by_rounds(const DraftBlock& draft) {
    return always_by_rounds(draft.block.kind) || draft.rounds.has_value() ||
           draft.block.run != RunKind::in_turn;
}

void add_block_rest(const syntax::Rest& rest, DraftBlock& draft, DiagnosticSink& sink) {
    program::Block& block = draft.block;
    const bool by_rounds = runs_by_rounds(draft);
    switch (rest.place) {
        case RestPlace::sides:
            return set_rest(block.rest_between_sides, rest, sink);
        case RestPlace::movements:
        case RestPlace::stations:
            return set_rest(block.rest_between_movements, rest, sink);
        case RestPlace::blocks:
            return set_rest(block.rest_after, rest, sink);
        case RestPlace::unsaid:
            return set_rest(by_rounds ? block.rest_between_rounds : block.rest_between_sets, rest,
                            sink);
        case RestPlace::rounds:
            if (by_rounds) return set_rest(block.rest_between_rounds, rest, sink);
            break;
        case RestPlace::sets:
            if (!by_rounds) return set_rest(block.rest_between_sets, rest, sink);
            break;
    }
    report_not_here(rest, draft, by_rounds, sink);
}

void add_rest_line(const syntax::Rest& rest, DraftBlock& draft, DiagnosticSink& sink) {
    const bool of_the_movement = rest.place == RestPlace::unsaid ||
                                 rest.place == RestPlace::movements ||
                                 rest.place == RestPlace::stations;
    if (draft.items.empty() || !of_the_movement) return add_block_rest(rest, draft, sink);
    set_rest(draft.items.back().item.rest_after, rest, sink);
    if (rest.place == RestPlace::unsaid) draft.rest_line = rest;
}

void settle_last_rest(DraftBlock& draft, bool another_follows, DiagnosticSink& sink) {
    if (!draft.rest_line || draft.items.empty()) return;
    program::Block& block = draft.block;
    const bool may_repeat = block.by_rounds && (block.rounds > 1 || block.run == RunKind::as_many);
    if (!may_repeat) {
        std::optional<program::Rest> rest = std::exchange(draft.items.back().item.rest_after, {});
        if (!block.rest_after) block.rest_after = std::move(rest);
        return;
    }
    if (another_follows && !draft.tainted) report_unclear(*draft.rest_line, draft, sink);
}

}  // namespace stave::check
