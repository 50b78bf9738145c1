#include <fmt/format.h>

#include <utility>

#include "compiler/syntax/lower_parts.hpp"
#include "compiler/syntax/lower_slips.hpp"

namespace stave::syntax {

namespace {

using parse::NodeKind;

struct Scale {
    LoadKind kind;
    std::string_view name;
    // As it is typed before a number.
    std::string_view words;
    std::int64_t least;
    std::int64_t most;
};

// RPE by repetitions in reserve: Zourdos et al. 2016 (JSCR 30:267-275), 1 to 10.
// Heart rates beyond 30 to 240 beats a minute are slips. Zones: 1 to 7, the most
// that are in use (common practice, no source).
constexpr Scale scales[] = {
    {LoadKind::rpe, "RPE", "RPE", 1, 10},
    {LoadKind::reserve, "A reserve", "RIR", 0, 20},
    {LoadKind::zone, "A zone", "zone", 1, 7},
    {LoadKind::heart_rate, "A heart rate", "heart rate", 30, 240},
};

const Scale& scale_of(LoadKind kind) {
    for (const Scale& scale : scales) {
        if (scale.kind == kind) return scale;
    }
    return scales[0];
}

bool is_value_on_scale(const NodeReader& reader, const LoadTerm& term,
                       const std::optional<Value>& value) {
    const Scale& scale = scale_of(term.kind);
    if (!value) {
        reader.report(Code::effort_number, term.weight.span, {});
        return false;
    }
    if (value->has_unit) {
        const std::string number = to_decimal(value->quantity.value);
        const std::string written = term.kind == LoadKind::reserve
                                        ? fmt::format("{} in reserve", number)
                                        : fmt::format("{} {}", scale.words, number);
        reader.report(Code::scale_plain, value->span,
                      {reader.said(value->span), std::string(scale.name), written});
        return false;
    }
    if (value->quantity.value >= Ratio(scale.least) && value->quantity.value <= Ratio(scale.most))
        return true;
    reader.report(Code::scale_range, value->span,
                  {reader.said(value->span), std::string(scale.name), std::to_string(scale.least),
                   std::to_string(scale.most)});
    return false;
}

bool is_on_scale(const NodeReader& reader, const LoadTerm& term) {
    return std::ranges::all_of(term.weight.values, [&](const auto& value) {
        return is_value_on_scale(reader, term, value);
    });
}

bool lower_scale(const NodeReader& reader, std::uint32_t node, LoadKind kind, LoadTerm& term) {
    term.kind = kind;
    auto weight = lower_series(reader, node + 1);
    if (!weight) return false;
    term.weight = std::move(*weight);
    return is_on_scale(reader, term);
}

// "2 x 8 kg": the series before the x counts implements; "1.5 x bodyweight" is a
// share.
bool take_implements(const NodeReader& reader, std::uint32_t node, LoadTerm& term) {
    const std::uint32_t inner = node + 1;
    if (reader.at(inner).kind == NodeKind::bodyweight) {
        for (auto& value : term.weight.values) {
            if (!value || value->has_unit) {
                reader.report(Code::implements, term.weight.span, {reader.said(term.weight.span)});
                return false;
            }
            constexpr std::int64_t percent = 100;
            value->quantity = {value->quantity.value * Ratio(percent), Unit::percent};
            value->has_unit = true;
            value->form = NumberForm::multiple;
        }
        term.kind = LoadKind::share;
        term.reference = Word{"bodyweight", reader.at(inner).span};
        return true;
    }
    const Series count = std::move(term.weight);
    auto weight = lower_series(reader, inner);
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

bool take_per(const NodeReader& reader, std::uint32_t node, LoadTerm& term) {
    term.kind = LoadKind::rate;
    const std::uint32_t inner = node + 2;
    if (reader.at(inner).kind == NodeKind::unit) {
        const Span span = reader.at(inner).span;
        term.per = Value{{Ratio(1), find_unit(reader.slice(span)).value()}, true, {}, span};
        return true;
    }
    term.per = read_quantity(reader, inner);
    if (!term.per) return false;
    if (term.per->has_unit) return true;
    const std::string number = reader.said(term.per->span);
    reader.report(Code::per_unit, term.per->span, {number},
                  {replace(term.per->span, number + " m")});
    return false;
}

// The body weight goes by one name, whatever it is called.
Word reference_of(const NodeReader& reader, Span span) {
    const std::string_view said = reader.slice(span);
    const bool own_weight = std::ranges::any_of(
        grammar::bodyweight_words,
        [said](std::string_view word) { return grammar::same_word(said, word); });
    return {own_weight ? grammar::bodyweight_words.front() : said, span};
}

bool is_share(const NodeReader& reader, const Series& weight) {
    const bool shares = std::ranges::all_of(weight.values, [](const auto& value) {
        return value && value->has_unit && value->quantity.unit == Unit::percent;
    });
    if (!shares) reader.report(Code::of_share, weight.span, {reader.said(weight.span)});
    return shares;
}

// "60 % of deadlift"; "1.5 x bodyweight" is of something already.
bool take_share_of(const NodeReader& reader, std::uint32_t node, LoadTerm& term) {
    if (term.kind == LoadKind::share) {
        const Span whole = cover(term.weight.span, term.reference->span);
        reader.report(Code::of_share, whole, {reader.said(whole)});
        return false;
    }
    const Span span = reader.at(node + 1).span;
    term.kind = LoadKind::share;
    term.reference = reference_of(reader, span);
    return is_share(reader, term.weight) && !is_own_max(reader, reader.at(node).span, span);
}

bool is_whole_count(const NodeReader& reader, const Series& weight) {
    const bool one = weight.form == SeriesForm::single && weight.values[0] &&
                     !weight.values[0]->has_unit && weight.values[0]->quantity.value.is_whole();
    if (!one) reader.report(Code::rep_max_share, weight.span, {reader.said(weight.span)});
    return one;
}

bool is_test_length(const NodeReader& reader, const Series& weight) {
    if (weight.form == SeriesForm::single && weight.values[0] && weight.values[0]->has_unit) {
        const Dimension what = dimension(weight.values[0]->quantity.unit);
        if (what == Dimension::length || what == Dimension::time) return true;
    }
    reader.report(Code::pace_what, weight.span, {reader.said(weight.span)});
    return false;
}

bool lower_measured(const NodeReader& reader, std::uint32_t node, LoadTerm& term) {
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        const parse::Node& child = reader.at(i);
        bool ok = true;
        switch (child.kind) {
            case NodeKind::series: {
                auto weight = lower_series(reader, i);
                ok = weight.has_value();
                if (ok) term.weight = std::move(*weight);
                break;
            }
            case NodeKind::implements:
                ok = take_implements(reader, i, term);
                break;
            case NodeKind::share_of:
                ok = take_share_of(reader, i, term);
                break;
            case NodeKind::per_load:
                ok = take_per(reader, i, term);
                break;
            case NodeKind::rep_max:
                term.kind = LoadKind::rep_max;
                ok = is_whole_count(reader, term.weight);
                break;
            case NodeKind::test_pace:
                term.kind = LoadKind::test_pace;
                ok = is_test_length(reader, term.weight);
                break;
            case NodeKind::effort_word:
                term.kind = LoadKind::effort_share;
                ok = is_share(reader, term.weight);
                break;
            case NodeKind::in_reserve:
                term.kind = LoadKind::reserve;
                ok = is_on_scale(reader, term);
                break;
            case NodeKind::load_place:
                term.label = reader.slice(child.span);
                ok = !is_heart_rate(reader, term.weight, child.span);
                break;
            default:
                break;
        }
        if (!ok) return false;
    }
    return true;
}

bool lower_shift(const NodeReader& reader, std::uint32_t node, LoadTerm& term) {
    LoadShift shift;
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        if (reader.at(i).kind == NodeKind::minus_word) {
            shift.minus = true;
            continue;
        }
        auto amount = lower_series(reader, i);
        if (!amount) return false;
        shift.amount = std::move(*amount);
    }
    term.shift = std::move(shift);
    return true;
}

// The node inside a `load_term` or an effort of its own.
bool lower_base(const NodeReader& reader, std::uint32_t node, LoadTerm& term) {
    switch (reader.at(node).kind) {
        case NodeKind::bodyweight:
            term.kind = LoadKind::bodyweight;
            return true;
        case NodeKind::empty_bar:
            term.kind = LoadKind::empty_bar;
            return true;
        case NodeKind::last_time:
            term.kind = LoadKind::last_time;
            return true;
        case NodeKind::band_load:
            term.kind = LoadKind::band;
            term.label = reader.slice(reader.at(node + 1).span);
            term.helps = reader.child(node, NodeKind::helping).has_value();
            return true;
        case NodeKind::rpe:
            return lower_scale(reader, node, LoadKind::rpe, term);
        case NodeKind::reserve_scale:
            return lower_scale(reader, node, LoadKind::reserve, term);
        case NodeKind::zone_scale:
            return lower_scale(reader, node, LoadKind::zone, term);
        case NodeKind::heart_rate:
            return lower_scale(reader, node, LoadKind::heart_rate, term);
        case NodeKind::shift:
            return lower_shift(reader, node, term);
        default:
            return lower_measured(reader, node, term);
    }
}

bool is_scale(LoadKind kind) {
    return kind == LoadKind::rpe || kind == LoadKind::reserve || kind == LoadKind::zone ||
           kind == LoadKind::heart_rate;
}

// "RPE 7 then 8" and "20 then 25 kg": what is said once is said for both.
bool complete(const NodeReader& reader, std::vector<LoadTerm>& load) {
    for (std::size_t i = 1; i < load.size(); ++i) {
        LoadTerm& term = load[i];
        const LoadTerm& before = load[i - 1];
        const bool bare = term.kind == LoadKind::measured &&
                          term.weight.form == SeriesForm::single && term.weight.values[0] &&
                          !term.weight.values[0]->has_unit;
        if (!term.follows_then || !bare || !is_scale(before.kind)) continue;
        term.kind = before.kind;
        if (!is_on_scale(reader, term)) return false;
    }
    for (std::size_t i = load.size(); i-- > 1;) {
        LoadTerm& before = load[i - 1];
        const LoadTerm& term = load[i];
        const bool pair = term.follows_then && term.kind == LoadKind::measured &&
                          before.kind == LoadKind::measured && !term.weight.values.empty() &&
                          term.weight.values.back() && term.weight.values.back()->has_unit;
        if (!pair) continue;
        for (auto& value : before.weight.values) {
            if (!value || value->has_unit) continue;
            value->has_unit = true;
            value->quantity.unit = term.weight.values.back()->quantity.unit;
        }
    }
    return true;
}

}  // namespace

std::optional<LoadTerm> reserve_of(const NodeReader& reader, Series amount, Span span) {
    LoadTerm term;
    term.kind = LoadKind::reserve;
    term.weight = std::move(amount);
    term.span = span;
    if (!is_on_scale(reader, term)) return std::nullopt;
    return term;
}

std::optional<LoadTerm> lower_load_term(const NodeReader& reader, std::uint32_t node) {
    LoadTerm term;
    term.span = reader.at(node).span;
    if (reader.at(node).kind != NodeKind::load_term) {
        if (!lower_base(reader, node, term)) return std::nullopt;
        return term;
    }
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        if (!lower_base(reader, i, term)) return std::nullopt;
    }
    return term;
}

bool lower_load(const NodeReader& reader, std::uint32_t node, Dose& dose) {
    bool then = false;
    for (std::uint32_t i = node + 1; i < reader.at(node).after; i = reader.at(i).after) {
        if (reader.at(i).kind == NodeKind::load_then) {
            then = true;
            continue;
        }
        auto term = lower_load_term(reader, i);
        if (!term) return false;
        term->follows_then = std::exchange(then, false);
        dose.load.push_back(std::move(*term));
    }
    constexpr std::size_t most_terms = 20;
    dose.load_span = {reader.at(node).span.begin, dose.load.back().span.end};
    if (dose.load.size() > most_terms) {
        reader.report(Code::too_many, dose.load_span,
                      {"loads in one line", std::to_string(most_terms)});
        return false;
    }
    if (!complete(reader, dose.load)) return false;
    for (std::size_t i = 1; i < dose.load.size(); ++i) {
        if (is_amount_behind_load(reader, dose.load[i - 1], dose.load[i])) return false;
    }
    return true;
}

}  // namespace stave::syntax
