#include <fmt/format.h>

#include <utility>

#include "compiler/syntax/lower_parts.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::syntax {

namespace {

using parse::NodeKind;

// Nodes that the grammar leaves only in a work.
bool is_side(NodeKind kind) {
    return kind == NodeKind::each_side || kind == NodeKind::alternating ||
           kind == NodeKind::left_side || kind == NodeKind::right_side;
}

// "3 x 8", "60 kg x 5" (refused), "3 x 12-10-8" (refused).
bool take_sets(const NodeReader& reader, std::uint32_t tail, Work& work) {
    const Series sets = std::move(work.parts.front());
    const auto inner = lower_series(reader, tail + 1);
    if (!inner) return false;
    const Span whole = cover(sets.span, inner->span);
    if (sets.form == SeriesForm::single && sets.values[0]->has_unit &&
        dimension(sets.values[0]->quantity.unit) == Dimension::mass) {
        const std::string mended =
            fmt::format("{} @ {}", reader.said(inner->span), reader.said(sets.span));
        reader.report(Code::load_first, sets.span, {reader.said(sets.span), mended},
                      {{mended, {Edit{whole, mended}}}});
        return false;
    }
    const bool plain = sets.form == SeriesForm::single && !sets.values[0]->has_unit &&
                       sets.values[0]->quantity.value.is_whole();
    if (!plain) {
        reader.report(Code::sets_whole, sets.span, {reader.said(sets.span)});
        return false;
    }
    if (inner->form == SeriesForm::list || inner->form == SeriesForm::ladder) {
        const std::string list = reader.said(inner->span);
        reader.report(Code::list_after_sets, whole, {reader.said(whole), list},
                      {{list, {Edit{whole, list}}}});
        return false;
    }
    work.sets = sets.values[0];
    work.parts.front() = *inner;
    return true;
}

std::optional<Work> lower_work(const NodeReader& reader, std::uint32_t node) {
    Work work;
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        const parse::Node& child = reader.at(i);
        if (child.kind == NodeKind::sets_tail) {
            if (!take_sets(reader, i, work)) return std::nullopt;
        } else if (child.kind == NodeKind::plus_tail) {
            for (std::uint32_t j = i + 1; j < child.after; j = reader.at(j).after) {
                const auto part = lower_series(reader, j);
                if (!part) return std::nullopt;
                work.parts.push_back(*part);
            }
        } else if (is_side(child.kind)) {
            work.side = lower_side(reader, i);
        } else {
            const auto part = lower_series(reader, i);
            if (!part) return std::nullopt;
            work.parts.push_back(*part);
        }
    }
    const Span last = work.side ? work.side->span : work.parts.back().span;
    work.span = {reader.at(node).span.begin, last.end};
    return work;
}

// "2 x 8 kg": the first series counts implements.
bool take_implements(const NodeReader& reader, std::uint32_t weight_node, LoadTerm& term) {
    const Series count = std::move(term.weight);
    auto weight = lower_series(reader, weight_node);
    if (!weight) return false;
    constexpr std::int64_t most_implements = 10;
    const bool plain = count.form == SeriesForm::single && !count.values[0]->has_unit &&
                       count.values[0]->quantity.value.is_whole() &&
                       count.values[0]->quantity.value <= Ratio(most_implements);
    if (!plain) {
        reader.report(Code::implements, count.span, {reader.said(count.span)});
        return false;
    }
    term.implements = count.values[0];
    term.weight = std::move(*weight);
    return true;
}

bool lower_mass(const NodeReader& reader, std::uint32_t node, LoadTerm& term) {
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        const parse::Node& child = reader.at(i);
        if (child.kind == NodeKind::series) {
            auto weight = lower_series(reader, i);
            if (!weight) return false;
            term.weight = std::move(*weight);
        } else if (child.kind == NodeKind::implement_weight) {
            if (!take_implements(reader, i, term)) return false;
        } else if (child.kind == NodeKind::load_place) {
            term.label = reader.slice(child.span);
        }
    }
    return true;
}

std::optional<LoadTerm> lower_load_term(const NodeReader& reader, std::uint32_t node) {
    LoadTerm term;
    term.span = reader.at(node).span;
    switch (reader.at(node).kind) {
        case NodeKind::bodyweight:
            term.kind = LoadKind::bodyweight;
            return term;
        case NodeKind::band_load:
            term.kind = LoadKind::band;
            term.label = reader.slice(reader.at(node + 1).span);
            return term;
        default:
            break;
    }
    if (!lower_mass(reader, node, term)) return std::nullopt;
    return term;
}

bool lower_load(const NodeReader& reader, std::uint32_t node, Dose& dose) {
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        auto term = lower_load_term(reader, i);
        if (!term) return false;
        dose.load.push_back(std::move(*term));
    }
    dose.load_span = {reader.at(node).span.begin, dose.load.back().span.end};
    return true;
}

}  // namespace

std::optional<Side> lower_side(const NodeReader& reader, std::uint32_t node) {
    Side side;
    side.span = reader.at(node).span;
    switch (reader.at(node).kind) {
        case NodeKind::alternating:
            side.rule = SideRule::alternating;
            break;
        case NodeKind::left_side:
            side.rule = SideRule::left;
            break;
        case NodeKind::right_side:
            side.rule = SideRule::right;
            break;
        case NodeKind::each_side:
            side.word = grammar::find_side_word(reader.slice(reader.at(node + 1).span))
                            .value_or(grammar::SideWord::side);
            break;
        default:
            return std::nullopt;
    }
    return side;
}

std::optional<Dose> lower_dose(const NodeReader& reader, NodeRange nodes) {
    Dose dose;
    for (std::uint32_t i = nodes.first; i < nodes.after; i = reader.at(i).after) {
        switch (reader.at(i).kind) {
            case NodeKind::movement_name:
                break;
            case NodeKind::work:
                dose.work = lower_work(reader, i);
                if (!dose.work) return std::nullopt;
                break;
            case NodeKind::load:
                if (!lower_load(reader, i, dose)) return std::nullopt;
                break;
            default:
                if (!lower_detail(reader, i, dose.details)) return std::nullopt;
        }
    }
    return dose;
}

}  // namespace stave::syntax
