#include <fmt/format.h>

#include "compiler/format/values.hpp"

namespace stave::format {

namespace {

using syntax::LoadKind;
using syntax::LoadTerm;

std::string band(const LoadTerm& term) {
    const std::string text = "band " + squeezed(term.label);
    return term.helps ? text + " helping" : text;
}

// "1.5 x bodyweight" is kept as a share in percent.
bool is_multiple(const syntax::Series& share) {
    const auto& first = share.values.front();
    return first && first->form == syntax::NumberForm::multiple;
}

std::string multiple(syntax::Series share) {
    constexpr std::int64_t percent = 100;
    for (auto& value : share.values) {
        if (!value) continue;
        value->quantity.value = value->quantity.value / Ratio(percent);
        value->has_unit = false;
    }
    return series(share);
}

// "2 x 24 kg", "2 x 25 %".
std::string weight_of_each(const LoadTerm& term) {
    return term.implements ? value(*term.implements) + " x " + series(term.weight)
                           : series(term.weight);
}

std::string base(const LoadTerm& term) {
    switch (term.kind) {
        case LoadKind::measured:
            return weight_of_each(term);
        case LoadKind::band:
            return band(term);
        case LoadKind::bodyweight:
            return "bodyweight";
        case LoadKind::empty_bar:
            return "empty bar";
        case LoadKind::last_time:
            return "last time";
        case LoadKind::share:
            if (is_multiple(term.weight)) return multiple(term.weight) + " x bodyweight";
            return weight_of_each(term) + " of " + squeezed(term.reference->text);
        case LoadKind::rep_max:
            return series(term.weight) + " rep max";
        case LoadKind::rate:
            return series(term.weight) + ' ' + per(*term.per);
        case LoadKind::test_pace:
            return series(term.weight) + " pace";
        case LoadKind::effort_share:
            return series(term.weight) + " effort";
        case LoadKind::rpe:
            return "RPE " + series(term.weight);
        case LoadKind::reserve:
            return series(term.weight) + " in reserve";
        case LoadKind::zone:
            return "zone " + series(term.weight);
        case LoadKind::heart_rate:
            break;
    }
    return "heart rate " + series(term.weight);
}

std::string labelled(const std::string& text, std::string_view label) {
    return label.empty() ? text : text + ' ' + squeezed(label);
}

// "60 to 90 s": the unit once where both ends have it.
std::string range(const syntax::Value& low, const syntax::Value& high) {
    syntax::Series ends;
    ends.form = syntax::SeriesForm::range;
    ends.values = {low, high};
    return series(ends);
}

std::string angle(const syntax::Angle& angle) {
    return labelled(value(angle.value), angle.label);
}

std::string arc(const syntax::Arc& arc) {
    if (!arc.second) return "arc " + angle(arc.first);
    // "90 to 45 deg" where no words tell the two ends apart.
    if (arc.first.label.empty() && arc.second->label.empty()) {
        return "arc " + range(arc.first.value, arc.second->value);
    }
    return fmt::format("arc {} to {}", angle(arc.first), angle(*arc.second));
}

struct DetailText {
    std::string operator()(const syntax::Tempo& tempo) const {
        std::string text = "tempo ";
        for (std::size_t i = 0; i < 4; ++i) {
            if (i > 0) text += '-';
            text += tempo.phases[i] < 0 ? "X" : std::to_string(tempo.phases[i]);
        }
        return text;
    }
    std::string operator()(const syntax::LowerOnly& lower) const {
        return fmt::format("lower {} only", value(lower.time));
    }
    std::string operator()(const syntax::Breath& breath) const {
        return (breath.in ? "breath in " : "out ") + value(breath.time);
    }
    std::string operator()(const syntax::Hold& hold) const {
        return labelled("hold " + value(hold.time), hold.label);
    }
    std::string operator()(const syntax::HoldAt& hold) const {
        return "hold at " + value(hold.angle);
    }
    std::string operator()(const syntax::Pause& pause) const {
        return labelled("pause " + value(pause.time), pause.label);
    }
    std::string operator()(const syntax::Arc& range) const { return arc(range); }
    std::string operator()(const syntax::Height& height) const {
        return (height.over ? "over " : "from ") + value(height.value);
    }
    std::string operator()(const syntax::Incline& incline) const {
        return "incline " + series(incline.value);
    }
    std::string operator()(const syntax::Rest& pause) const { return "rest " + rest(pause); }
    std::string operator()(const syntax::About& about) const {
        return "about " + value(about.time);
    }
    std::string operator()(const syntax::LoadChange& change) const {
        return change.rises ? "load rises" : "load falls";
    }
    std::string operator()(const syntax::SwapHands& swap) const {
        return "swap hands every " + value(swap.every);
    }
    std::string operator()(const syntax::Swapped& /*swapped*/) const { return "then swapped"; }
    std::string operator()(const syntax::EachWave& wave) const {
        return fmt::format("each wave {} {}", value(wave.step), wave.up ? "up" : "down");
    }
    std::string operator()(const syntax::SideFirst& first) const {
        return first.left ? "left first" : "right first";
    }
    std::string operator()(const syntax::Condition& condition) const {
        return "if " + squeezed(condition.reason.text);
    }
    std::string operator()(const syntax::Effort& effort) const { return load(effort.term); }
};

}  // namespace

std::string load(const LoadTerm& term) {
    // A band's label is its name.
    std::string text = term.kind == LoadKind::band ? base(term) : labelled(base(term), term.label);
    if (term.shift) {
        text += term.shift->minus ? " minus " : " plus ";
        text += series(term.shift->amount);
    }
    return text;
}

std::string rest(const syntax::Rest& rest) {
    constexpr std::string_view places[] = {"",
                                           " between rounds",
                                           " between sets",
                                           " between movements",
                                           " between sides",
                                           " between stations",
                                           " between blocks"};
    std::string text;
    std::string about;
    switch (rest.kind) {
        case syntax::RestKind::timed:
        case syntax::RestKind::distance:
            text = labelled(
                rest.low.span == rest.high.span ? value(rest.high) : range(rest.low, rest.high),
                rest.doing);
            break;
        case syntax::RestKind::as_needed:
            text = "as needed";
            if (rest.has_time) about = ", about " + value(rest.high);
            break;
        case syntax::RestKind::as_the_work:
            text = "as long as the work";
            break;
        case syntax::RestKind::walk_back:
            text = "walk back";
            break;
    }
    text += places[static_cast<std::size_t>(rest.place)];
    return text + about;
}

std::string dose(const syntax::Dose& dose) {
    std::string text;
    if (dose.work) text = work(*dose.work);
    for (std::size_t i = 0; i < dose.load.size(); ++i) {
        const LoadTerm& term = dose.load[i];
        const std::string_view before = i == 0 ? "@ " : term.follows_then ? " then " : " and ";
        if (i == 0 && !text.empty()) text += ' ';
        text += before;
        text += load(term);
    }
    if (dose.on) text += " on " + day(*dose.on);
    for (const syntax::Detail& detail : dose.details)
        text += ", " + std::visit(DetailText{}, detail);
    return text;
}

}  // namespace stave::format
