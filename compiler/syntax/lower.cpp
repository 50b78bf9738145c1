#include "compiler/syntax/lower.hpp"

#include <numeric>
#include <utility>

#include "compiler/syntax/lower_parts.hpp"

namespace stave::syntax {

namespace {

using grammar::LineKind;
using parse::NodeKind;

template <typename Form>
bool store(std::optional<Form> form, Line& line) {
    if (form) line.body = std::move(*form);
    return form.has_value();
}

SidesLine lower_sides_line(const NodeReader& reader, NodeRange nodes) {
    if (reader.at(nodes.first).kind == NodeKind::both_sides) return {};
    return {lower_side(reader, nodes.first)};
}

bool lower_fault(const NodeReader& reader, NodeRange nodes, Line& line) {
    Fault fault;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        const Span span = reader.at(i).span;
        (reader.at(i).kind == NodeKind::fault_text ? fault.what : fault.mend) =
            Word{reader.slice(span), span};
    }
    line.body = fault;
    return true;
}

// Which function reads the body follows from the line's kind.
// NOLINTNEXTLINE(readability-function-size): one case for each kind of line
bool lower_body(const NodeReader& reader, NodeRange nodes, Line& line) {
    if (line.is_broken || line.is_deferred) return true;
    switch (line.kind) {
        case LineKind::movement_line:
        case LineKind::open_plain_movement:
        case LineKind::open_substitute:
        case LineKind::open_game:
        case LineKind::open_test:
        case LineKind::open_level:
        case LineKind::open_group:
            return store(lower_dose(reader, nodes), line);
        case LineKind::open_warm_up:
        case LineKind::open_sets:
        case LineKind::open_superset:
        case LineKind::open_circuit:
        case LineKind::open_stations:
        case LineKind::open_cool_down:
            return store(lower_format(reader, nodes), line);
        case LineKind::when:
            return store(lower_when(reader, nodes), line);
        case LineKind::kit:
        case LineKind::open_named_kit:
            return store(lower_kit(reader, nodes), line);
        case LineKind::rest:
            return store(lower_rest(reader, nodes, line.body_span), line);
        case LineKind::counted_in:
            return store(lower_counted_in(reader, nodes), line);
        case LineKind::speed:
            return store(lower_speed(reader, nodes), line);
        case LineKind::sides:
            line.body = lower_sides_line(reader, nodes);
            return true;
        case LineKind::pattern:
            line.body = lower_patterns(reader, nodes);
            return true;
        case LineKind::audience:
        case LineKind::options:
        case LineKind::leave_out:
        case LineKind::loaded_with:
        case LineKind::joint:
        case LineKind::easier:
        case LineKind::harder:
        case LineKind::also:
        case LineKind::demands:
        case LineKind::directions:
        case LineKind::avoid:
        case LineKind::units:
        case LineKind::open_squad:
            line.body = lower_names(reader, nodes);
            return true;
        case LineKind::starts:
            line.body = Starts{reader.at(nodes.first).kind == NodeKind::starts_up};
            return true;
        case LineKind::link:
            return store(lower_link(reader, line.body_span), line);
        case LineKind::pages:
        case LineKind::columns:
            return store(lower_page_count(reader, nodes, line.kind), line);
        case LineKind::weight:
        case LineKind::weeks:
        case LineKind::effort:
            return store(lower_measure(reader, nodes, line.kind), line);
        case LineKind::from:
        case LineKind::away:
        case LineKind::cancelled:
        case LineKind::moved:
            return store(lower_days(reader, nodes, line.kind), line);
        case LineKind::lighter:
            return store(lower_lighter(reader, nodes), line);
        case LineKind::waves:
            return store(lower_waves(reader, nodes), line);
        case LineKind::open_grow:
            return store(lower_growth(reader, nodes), line);
        case LineKind::open_did:
            return store(lower_did(reader, nodes), line);
        case LineKind::monday:
        case LineKind::tuesday:
        case LineKind::wednesday:
        case LineKind::thursday:
        case LineKind::friday:
        case LineKind::saturday:
        case LineKind::sunday:
        case LineKind::once:
            return store(lower_slot(reader, nodes), line);
        case LineKind::fault:
            return lower_fault(reader, nodes, line);
        case LineKind::blank:
        case LineKind::remark:
        case LineKind::unclassified:
        case LineKind::border:
            return true;
        default:
            line.body = Word{reader.slice(line.body_span), line.body_span};
            return true;
    }
}

// The names in a head are the line's first nodes.
std::uint32_t lower_head_names(const NodeReader& reader, NodeRange nodes, Line& line) {
    std::uint32_t i = nodes.first;
    for (; i < nodes.after && reader.at(i).kind == NodeKind::movement_name;
         i = reader.at(i).after) {
        line.names.push_back({reader.slice(reader.at(i).span), reader.at(i).span});
    }
    return i;
}

}  // namespace

Document lower(const parse::ParseTree& tree, const SourceFile& source, DiagnosticSink& sink) {
    std::vector<std::uint32_t> order(tree.lines.size());
    std::iota(order.begin(), order.end(), 0U);
    return lower(tree, order, source, sink);
}

Document lower(const parse::ParseTree& tree, std::span<const std::uint32_t> order,
               const SourceFile& source, DiagnosticSink& sink) {
    const NodeReader reader{tree, source.text(), sink};
    Document document;
    document.lines.reserve(order.size());
    for (const std::uint32_t index : order) {
        const parse::Line& parsed = tree.lines[index];
        Line& line = document.lines.emplace_back();
        line.kind = parsed.kind;
        line.is_broken = parsed.is_broken;
        line.is_deferred = parsed.is_deferred;
        line.span = parsed.span;
        line.head = {source.text(parsed.head), parsed.head};
        line.title = {source.text(parsed.title), parsed.title};
        line.body_span = parsed.body;
        line.remark = parsed.remark;
        const std::uint32_t body =
            lower_head_names(reader, {parsed.first_node, parsed.after_nodes}, line);
        if (!lower_body(reader, {body, parsed.after_nodes}, line)) {
            line.is_broken = true;
            line.body = std::monostate();
        }
    }
    return document;
}

}  // namespace stave::syntax
