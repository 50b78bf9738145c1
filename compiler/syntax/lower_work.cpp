#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ranges>
#include <utility>

#include "compiler/syntax/lower_parts.hpp"
#include "compiler/syntax/lower_slips.hpp"

namespace stave::syntax {

namespace {

using parse::NodeKind;

bool is_side(NodeKind kind) {
    return kind == NodeKind::each_side || kind == NodeKind::alternating ||
           kind == NodeKind::there_and_back || kind == NodeKind::left_side ||
           kind == NodeKind::right_side;
}

// "5-5-5 then 5 or more", where the last of a list is meant.
std::string last_with(const NodeReader& reader, const Series& series, Span extent) {
    const std::string list = reader.said(series.span);
    const std::size_t dash = list.rfind('-');
    if (series.form != SeriesForm::list || dash == std::string::npos)
        return "a single number there";
    return fmt::format("{} then {} {}", list.substr(0, dash), list.substr(dash + 1),
                       reader.said(extent));
}

// "5 or more", "30 total" and "2 up by 2" go with a single number.
bool add_extent(const NodeReader& reader, std::uint32_t node, Series& series) {
    const Span span = reader.at(node).span;
    if (series.form != SeriesForm::single) {
        reader.report(Code::extent_not_here, span,
                      {reader.said(span), reader.said(series.span),
                       "It already says several numbers.", last_with(reader, series, span)});
        return false;
    }
    series.span.end = span.end;
    switch (reader.at(node).kind) {
        case NodeKind::or_more:
            series.extent = Extent::or_more;
            return true;
        case NodeKind::total:
            series.extent = Extent::total;
            return true;
        default:
            series.extent = Extent::up_by;
            series.up_step = read_quantity(reader, node + 1);
            return series.up_step.has_value();
    }
}

// A node that an amount begins with, and what follows it; `i` is left at the
// first node that is no part of it.
std::optional<Series> lower_amount(const NodeReader& reader, std::uint32_t& i,
                                   std::uint32_t after) {
    Series series;
    if (reader.at(i).kind == NodeKind::max_word) {
        series.form = SeriesForm::max;
        series.span = reader.at(i).span;
        i = reader.at(i).after;
        if (i < after && reader.at(i).kind == NodeKind::unit) {
            series.max_unit = find_unit(reader.slice(reader.at(i).span));
            series.span.end = reader.at(i).span.end;
            i = reader.at(i).after;
        }
        return series;
    }
    auto lowered = lower_series(reader, i);
    if (!lowered) return std::nullopt;
    i = reader.at(i).after;
    const bool extent =
        i < after && (reader.at(i).kind == NodeKind::or_more ||
                      reader.at(i).kind == NodeKind::total || reader.at(i).kind == NodeKind::up_by);
    if (extent) {
        if (!add_extent(reader, i, *lowered)) return std::nullopt;
        i = reader.at(i).after;
    }
    return lowered;
}

std::optional<GroupPart> lower_group_part(const NodeReader& reader, std::uint32_t node) {
    GroupPart part;
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        if (reader.at(i).kind != NodeKind::quantity) continue;
        auto value = read_quantity(reader, i);
        if (!value) return std::nullopt;
        if (value->quantity.value == Ratio(0)) {
            reader.report(Code::amount_zero, value->span, {reader.said(value->span)});
            return std::nullopt;
        }
        if (part.amount) part.times = std::exchange(part.amount, std::nullopt);
        part.amount = *value;
    }
    const bool whole_times =
        !part.times || (!part.times->has_unit && part.times->quantity.value.is_whole());
    if (whole_times) return part;
    reader.report(Code::sets_whole, part.times->span, {reader.said(part.times->span), "3 x 2"});
    return std::nullopt;
}

std::optional<Group> lower_group(const NodeReader& reader, std::uint32_t node) {
    Group group;
    group.span = reader.at(node).span;
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        if (reader.at(i).kind == NodeKind::group_rest) {
            group.rest = lower_time(reader, i + 1);
            if (!group.rest) return std::nullopt;
        } else {
            auto part = lower_group_part(reader, i);
            if (!part) return std::nullopt;
            group.parts.push_back(*part);
        }
    }
    constexpr std::size_t most_parts = 20;
    if (group.parts.size() > most_parts) {
        reader.report(Code::too_many, group.span,
                      {"amounts in one bracket", std::to_string(most_parts)});
        return std::nullopt;
    }
    return group;
}

bool is_plain_count(const Series& series) {
    return series.form == SeriesForm::single && series.extent == Extent::none &&
           !series.values[0]->has_unit && series.values[0]->quantity.value.is_whole();
}

// "3 x 8", "3 x (2 + 2, rest 15 s)", "3 x 12-10-8" (refused).
bool take_sets(const NodeReader& reader, std::uint32_t tail, WorkStep& step) {
    const Series sets = std::move(step.parts.front());
    step.parts.clear();
    std::uint32_t i = tail + 1;
    if (is_load_first(reader, sets, reader.at(i).span)) return false;
    if (!is_plain_count(sets)) {
        report_sets(reader, sets, reader.at(i).span);
        return false;
    }
    step.sets = sets.values[0];
    if (reader.at(i).kind == NodeKind::group) {
        step.group = lower_group(reader, i);
        step.span.end = reader.at(i).span.end;
        return step.group.has_value();
    }
    auto inner = lower_amount(reader, i, reader.at(tail).after);
    if (!inner) return false;
    if (is_load_behind_times(reader, sets, *inner)) return false;
    if (inner->form == SeriesForm::list || inner->form == SeriesForm::ladder) {
        const Span whole = cover(sets.span, inner->span);
        const std::string list = reader.said(inner->span);
        // Where the counts differ, the list may be done several times.
        const bool agrees =
            inner->form == SeriesForm::list && step.sets->quantity.value.numerator() ==
                                                   static_cast<std::int64_t>(inner->values.size());
        const std::string waves = fmt::format("{} waves of {}", reader.said(sets.span), list);
        reader.report(Code::list_after_sets, whole,
                      {reader.said(whole),
                       agrees ? fmt::format("the list alone: {}", list)
                              : fmt::format("the list alone: {}, or {} if it is done several times",
                                            list, waves)},
                      {replace(whole, list)});
        return false;
    }
    step.span.end = inner->span.end;
    step.parts.push_back(std::move(*inner));
    return true;
}

// "2 waves of 5-3-2".
bool take_waves(const NodeReader& reader, std::uint32_t tail, WorkStep& step) {
    const Series waves = std::move(step.parts.front());
    step.parts.clear();
    const std::uint32_t i = tail + 1;
    auto values = lower_series(reader, i);
    if (!values) return false;
    const Span whole = cover(waves.span, values->span);
    const bool list = values->form == SeriesForm::list || values->form == SeriesForm::ladder;
    if (!is_plain_count(waves) || !list) {
        reader.report(Code::waves_list, whole, {reader.said(whole)});
        return false;
    }
    step.waves = waves.values[0];
    step.span.end = values->span.end;
    step.parts.push_back(std::move(*values));
    return true;
}

bool take_joined(const NodeReader& reader, std::uint32_t tail, WorkStep& step) {
    const std::uint32_t after = reader.at(tail).after;
    for (std::uint32_t i = tail + 1; i < after;) {
        auto part = lower_amount(reader, i, after);
        if (!part || is_load_behind_plus(reader, step.parts.back(), *part)) return false;
        step.span.end = part->span.end;
        step.parts.push_back(std::move(*part));
    }
    return true;
}

// The amount at `i` and what hangs on it; `i` is left behind it.
std::optional<WorkStep> lower_step(const NodeReader& reader, std::uint32_t& i,
                                   std::uint32_t after) {
    WorkStep step;
    step.span = reader.at(i).span;
    if (reader.at(i).kind == NodeKind::group) {
        step.group = lower_group(reader, i);
        if (!step.group) return std::nullopt;
        i = reader.at(i).after;
    } else {
        const std::uint32_t tail = reader.at(i).after;
        const bool sets = reader.at(i).kind == NodeKind::series && tail < after &&
                          reader.at(tail).kind == NodeKind::sets_tail;
        if (sets && is_range_of_sets(reader, i, tail)) return std::nullopt;
        auto amount = lower_amount(reader, i, after);
        if (!amount) return std::nullopt;
        step.span = amount->span;
        step.parts.push_back(std::move(*amount));
    }
    if (i >= after || step.parts.empty()) return step;
    bool ok = true;
    switch (reader.at(i).kind) {
        case NodeKind::sets_tail:
            ok = take_sets(reader, i, step);
            break;
        case NodeKind::waves_tail:
            ok = take_waves(reader, i, step);
            break;
        case NodeKind::plus_tail:
            ok = take_joined(reader, i, step);
            break;
        default:
            return step;
    }
    if (!ok) return std::nullopt;
    i = reader.at(i).after;
    return step;
}

// "5 then 3 x 2 steps": a unit said once, last, is everybody's.
void spread_units(Work& work) {
    std::optional<Unit> unit;
    std::vector<WorkStep*> steps{&work.first};
    for (WorkStep& step : work.next)
        steps.push_back(&step);
    for (auto& step : std::ranges::reverse_view(steps)) {
        for (Series& part : step->parts) {
            for (auto& value : part.values) {
                if (!value) continue;
                if (value->has_unit) {
                    if (value->form != NumberForm::clock) unit = value->quantity.unit;
                } else if (unit) {
                    value->has_unit = true;
                    value->quantity.unit = *unit;
                }
            }
        }
    }
}

bool lower_steps(const NodeReader& reader, std::uint32_t node, Work& work) {
    const std::uint32_t after = reader.at(node).after;
    std::uint32_t i = node + 1;
    auto first = lower_step(reader, i, after);
    if (!first) return false;
    work.first = std::move(*first);
    constexpr std::size_t most_steps = 20;
    while (i < after) {
        std::uint32_t inner = i + 1;
        auto step = lower_step(reader, inner, reader.at(i).after);
        if (!step) return false;
        work.next.push_back(std::move(*step));
        i = reader.at(i).after;
        if (work.next.size() == most_steps) {
            reader.report(Code::too_many, reader.at(node).span,
                          {"amounts joined by then", std::to_string(most_steps)});
            return false;
        }
    }
    const bool joined = work.first.parts.size() > 1;
    if (joined && !work.next.empty()) {
        reader.report(Code::then_and_plus, reader.at(node).span, {});
        return false;
    }
    if (!work.next.empty()) spread_units(work);
    return true;
}

// "best of 3", "build to 3", "ladder 1..5..1".
bool lower_marked(const NodeReader& reader, std::uint32_t node, Extent extent, Work& work) {
    work.first.span = reader.at(node).span;
    Series series;
    if (extent == Extent::best_of) {
        const Span span = reader.at(node + 1).span;
        const auto count = read_whole(reader, span);
        if (!count) return false;
        if (*count == 0) {
            reader.report(Code::amount_zero, span, {reader.said(span)});
            return false;
        }
        series.values.emplace_back(Value{{Ratio(*count), Unit::reps}, false, {}, span});
    } else {
        auto lowered = lower_series(reader, node + 1);
        if (!lowered) return false;
        series = std::move(*lowered);
    }
    const bool ladder = series.form == SeriesForm::ladder || series.form == SeriesForm::list;
    if (extent == Extent::ladder && !ladder) {
        reader.report(
            Code::extent_not_here, series.span,
            {"ladder", reader.said(series.span), "A ladder climbs through several numbers.",
             "several numbers there: ladder 1-2-3"});
        return false;
    }
    if (extent == Extent::build_to && ladder) {
        reader.report(Code::extent_not_here, series.span,
                      {"build to", reader.said(series.span), "The last set is one amount.",
                       "a single number there"});
        return false;
    }
    series.extent = extent;
    series.span = reader.at(node).span;
    work.first.parts.push_back(std::move(series));
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
        case NodeKind::there_and_back:
            side.rule = SideRule::there_and_back;
            break;
        case NodeKind::left_side:
            side.rule = SideRule::left;
            break;
        case NodeKind::right_side:
            side.rule = SideRule::right;
            break;
        case NodeKind::each_side:
            // "sides: each" leaves the word to the movement's lines.
            if (reader.at(node).after == node + 1) break;
            side.word = grammar::find_side_word(reader.slice(reader.at(node + 1).span))
                            .value_or(grammar::SideWord::side);
            break;
        default:
            return std::nullopt;
    }
    return side;
}

std::optional<Work> lower_work(const NodeReader& reader, std::uint32_t node) {
    Work work;
    work.span = reader.at(node).span;
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        bool ok = true;
        switch (reader.at(i).kind) {
            case NodeKind::steps_work:
                ok = lower_steps(reader, i, work);
                break;
            case NodeKind::ladder_work:
                ok = lower_marked(reader, i, Extent::ladder, work);
                break;
            case NodeKind::best_work:
                ok = lower_marked(reader, i, Extent::best_of, work);
                break;
            case NodeKind::build_work:
                ok = lower_marked(reader, i, Extent::build_to, work);
                break;
            case NodeKind::within:
                work.within = lower_time(reader, i + 1);
                ok = work.within.has_value();
                break;
            default:
                if (is_side(reader.at(i).kind)) work.side = lower_side(reader, i);
        }
        if (!ok) return std::nullopt;
    }
    // The node may take in blanks behind the amount.
    work.span.end = work.first.span.end;
    if (!work.next.empty()) work.span.end = work.next.back().span.end;
    if (work.within) work.span.end = work.within->span.end;
    if (work.side) work.span.end = work.side->span.end;
    return work;
}

}  // namespace stave::syntax
