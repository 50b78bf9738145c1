#include "compiler/syntax/lower_slips.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <utility>

namespace stave::syntax {

namespace {

using parse::NodeKind;

// "5 @ 80 % then 3 x 2": what follows the load is another amount.
bool is_amount(const LoadTerm& term) {
    const bool measured = term.kind == LoadKind::measured && !term.weight.values.empty();
    if (!term.follows_then || !measured || !term.weight.values.back()) return false;
    const Value& last = *term.weight.values.back();
    if (!last.has_unit) return term.implements.has_value();
    switch (dimension(last.quantity.unit)) {
        case Dimension::count:
        case Dimension::length:
        case Dimension::energy:
            return true;
        default:
            return false;
    }
}

}  // namespace

// "60 kg x 5": the load stands before its amount.
bool is_load_first(const NodeReader& reader, const Series& sets, Span inner) {
    const bool mass = sets.form == SeriesForm::single && sets.values[0]->has_unit &&
                      dimension(sets.values[0]->quantity.unit) == Dimension::mass;
    if (!mass) return false;
    const std::string mended = fmt::format("{} @ {}", reader.said(inner), reader.said(sets.span));
    reader.report(Code::load_first, sets.span, {reader.said(sets.span), mended},
                  {replace(cover(sets.span, inner), mended)});
    return true;
}

// "8 x 20 kg": what looks like an amount of one set is its load.
bool is_load_behind_times(const NodeReader& reader, const Series& amount, const Series& inner) {
    const bool weight = !inner.values.empty() && inner.values.back() &&
                        inner.values.back()->has_unit &&
                        (dimension(inner.values.back()->quantity.unit) == Dimension::mass ||
                         dimension(inner.values.back()->quantity.unit) == Dimension::share);
    if (!weight) return false;
    const std::string load = reader.said(inner.span);
    const std::string mended = fmt::format("{} @ {}", reader.said(amount.span), load);
    reader.report(Code::at_load, inner.span, {load, mended},
                  {replace(cover(amount.span, inner.span), mended)});
    return true;
}

// "8 reps x 3" and "40 s x 3" are turned round; "2-3 x 5" says its sets twice.
void report_sets(const NodeReader& reader, const Series& sets, Span inner) {
    const bool turned = sets.values.size() == 1 && sets.values[0] && sets.values[0]->has_unit &&
                        sets.extent == Extent::none;
    const std::string rest = reader.said(inner);
    const std::string mended =
        turned ? fmt::format("{} x {}", rest, reader.said(sets.span)) : "3 x 8";
    const bool plain_rest = rest.find_first_not_of("0123456789") == std::string::npos;
    std::vector<Fix> fixes;
    if (turned && plain_rest) fixes.push_back(replace(cover(sets.span, inner), mended));
    reader.report(Code::sets_whole, sets.span, {reader.said(sets.span), mended}, std::move(fixes));
}

namespace {

// "60-70" as a range and as two values; a longer list, or a range, as it stands.
std::vector<std::string> readings_of(const std::string& load) {
    const std::size_t dash = load.find('-');
    const bool pair = dash != std::string::npos && load.find('-', dash + 1) == std::string::npos;
    if (!pair) return {load};
    const std::string first = load.substr(0, dash);
    const std::size_t end = load.find_first_not_of("0123456789.", dash + 1);
    const std::string second = load.substr(dash + 1, end - dash - 1);
    const std::string unit = end == std::string::npos ? "" : load.substr(end);
    const bool rises =
        first.size() < second.size() || (first.size() == second.size() && first < second);
    if (rises) {
        return {fmt::format("{} to {}{}", first, second, unit),
                fmt::format("{} then {}{}", first, second, unit)};
    }
    return {load, fmt::format("{} to {}{}", second, first, unit)};
}

// "60-70 kg x 5": a load that stands first.
bool is_load_range_first(const NodeReader& reader, Span load, std::string_view unit, Span inner) {
    constexpr std::string_view weights[] = {"kg", "lb", "lbs", "%"};
    const bool weight = std::ranges::any_of(
        weights, [unit](std::string_view one) { return grammar::same_word(one, unit); });
    if (!weight) return false;
    std::string lines;
    std::vector<Fix> fixes;
    for (const std::string& reading : readings_of(reader.said(load))) {
        const std::string line = fmt::format("{} @ {}", reader.said(inner), reading);
        lines += lines.empty() ? line : " or " + line;
        fixes.push_back(replace(cover(load, inner), line));
    }
    reader.report(Code::load_first, load, {reader.said(load), lines}, std::move(fixes));
    return true;
}

}  // namespace

// Before its values are looked at: "2-3 x 5" is no pair that could be a range.
bool is_range_of_sets(const NodeReader& reader, std::uint32_t series, std::uint32_t tail) {
    const std::uint32_t first = series + 1;
    const std::uint32_t last = reader.at(first).after;
    if (last >= reader.at(series).after) return false;
    const NodeKind kind = reader.at(last).kind;
    if (kind != NodeKind::range_tail && kind != NodeKind::list_tail) return false;
    const Span said{reader.at(series).span.begin, reader.at(last).span.end};
    const std::string_view text = reader.slice(said);
    const std::size_t end = text.find_last_of("0123456789");
    const std::size_t begin = text.find_last_not_of("0123456789", end) + 1;
    const std::string sets(text.substr(begin, end + 1 - begin));
    const std::string_view behind = text.substr(end + 1);
    const std::size_t unit = behind.find_first_not_of(' ');
    if (unit != std::string_view::npos) {
        const std::size_t blanks = text.size() - 1 - text.find_last_not_of(' ');
        const Span load{said.begin, said.end - static_cast<std::uint32_t>(blanks)};
        return is_load_range_first(reader, load, behind.substr(unit, behind.size() - unit - blanks),
                                   reader.at(tail + 1).span);
    }
    const std::string shown(text.substr(0, end + 1));
    const Span place{said.begin, said.begin + static_cast<std::uint32_t>(end + 1)};
    const std::string mended = fmt::format("{} x {}", sets, reader.said(reader.at(tail + 1).span));
    const std::string fewer(text.substr(0, text.find_first_not_of("0123456789")));
    reader.report(Code::sets_whole, place, {shown, mended},
                  {replace(place, sets), replace(place, fewer)});
    return true;
}

// "8 + 20 kg".
bool is_load_behind_plus(const NodeReader& reader, const Series& amount, const Series& load) {
    const bool weight = load.form == SeriesForm::single && load.values[0]->has_unit &&
                        dimension(load.values[0]->quantity.unit) == Dimension::mass;
    if (!weight) return false;
    const std::string said = reader.said(load.span);
    const std::string mended = fmt::format("{} @ {}", reader.said(amount.span), said);
    reader.report(Code::at_load, load.span, {said, mended},
                  {replace(cover(amount.span, load.span), mended)});
    return true;
}

// "140 bpm": beats have no unit, their scale comes first.
bool is_heart_rate(const NodeReader& reader, const Series& beats, Span label) {
    if (!grammar::same_word(reader.slice(label), "bpm")) return false;
    const Span said = cover(beats.span, label);
    const std::string mended = fmt::format("heart rate {}", reader.said(beats.span));
    reader.report(Code::effort_order, said, {mended}, {replace(said, mended)});
    return true;
}

// "75 % of 1RM" is what a bare % says already; `of` is the whole of it.
bool is_own_max(const NodeReader& reader, Span of, Span name) {
    const std::string_view said = reader.slice(name);
    constexpr std::string_view names[] = {"1RM", "1 RM", "1-RM", "RM", "max", "one rep max"};
    const bool own = std::ranges::any_of(
        names, [said](std::string_view one) { return grammar::same_word(one, said); });
    if (!own) return false;
    const std::uint32_t begin =
        of.begin > 0 && reader.text[of.begin - 1] == ' ' ? of.begin - 1 : of.begin;
    reader.report(Code::percent_of_max, {of.begin, name.end}, {reader.said({of.begin, name.end})},
                  {{"delete it", {Edit{{begin, name.end}, ""}}}});
    return true;
}

bool is_amount_behind_load(const NodeReader& reader, const LoadTerm& before, const LoadTerm& term) {
    if (!is_amount(term)) return false;
    const parse::Line& line =
        *std::prev(std::ranges::upper_bound(reader.tree.lines, term.span.begin, {},
                                            [](const parse::Line& one) { return one.span.begin; }));
    const std::string_view indent = reader.slice({line.span.begin, line.head.begin});
    const std::string head = reader.said(line.head);
    const Span first{line.body.begin, before.span.end};
    const Span second{term.span.begin, line.body.end};
    const Span gap{first.end, second.begin};
    const std::string_view joint = reader.slice(gap);
    const auto then = static_cast<std::uint32_t>(joint.size() - joint.find_last_of("tT"));
    const std::string lines =
        fmt::format("{}: {} and {}: {}", head, reader.slice(first), head, reader.slice(second));
    reader.report(Code::then_after_load, {second.begin - then, term.span.end}, {lines},
                  {{"two lines", {Edit{gap, fmt::format("\n{}{}: ", indent, head)}}}});
    return true;
}

}  // namespace stave::syntax
