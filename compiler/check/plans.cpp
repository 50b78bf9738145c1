#include "compiler/check/plans.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <unordered_map>
#include <utility>

#include "compiler/check/places.hpp"
#include "compiler/check/plan_days.hpp"
#include "compiler/check/plan_growth.hpp"
#include "compiler/check/plan_sessions.hpp"
#include "compiler/check/plan_weeks.hpp"
#include "compiler/check/when.hpp"
#include "compiler/civil/date_text.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;
using Date = std::chrono::year_month_day;
using civil::date_text;

// What a plan may hold at most. They bound what a hostile file can cost later passes.
constexpr std::size_t most_slots = 500;
constexpr std::size_t most_named = 1000;
constexpr std::size_t most_changes = 2000;
constexpr std::size_t most_growths = 60;

bool is_slot(LineKind kind) {
    return (kind >= LineKind::monday && kind <= LineKind::sunday) || kind == LineKind::once;
}

std::chrono::weekday weekday_of(LineKind kind) {
    const auto since_monday = static_cast<unsigned>(kind) - static_cast<unsigned>(LineKind::monday);
    return std::chrono::Monday + std::chrono::days{since_monday};
}

bool is_change(LineKind kind) {
    return kind == LineKind::lighter || kind == LineKind::waves || kind == LineKind::away ||
           kind == LineKind::cancelled || kind == LineKind::moved || kind == LineKind::open_grow;
}

// One plan. Its lines are read by what they need: its days first, then what is held on
// them, then what is moved or grows. A line with a problem keeps others from being checked
// against what it says, and no more.
class PlanBuilder {
public:
    PlanBuilder(const RecordLines& lines, const std::vector<program::Session>& sessions,
                const PlanSessions& names, const Definitions& definitions, const Options& options,
                DiagnosticSink& sink)
        : lines_(lines),
          sessions_(sessions),
          names_(names),
          definitions_(definitions),
          options_(options),
          sink_(sink) {}

    program::Plan build() {
        sink_.enter_session(lines_.head->span.begin);
        plan_.name = clean_text(lines_.head->title.text);
        plan_.span = lines_.head->head.span;
        plan_.is_sound = !lines_.head->is_broken;
        for (const syntax::Line* line : lines_.lines)
            read_fact(*line);
        find_days();
        for (const syntax::Line* line : lines_.lines) {
            if (has_body(*line) && is_slot(line->kind)) add_slot(*line);
        }
        if (plan_.slots.empty() && known_.has_slots) report(Code::plan_empty, {plan_.name});
        for (const syntax::Line* line : lines_.lines) {
            if (has_body(*line) && line->kind == LineKind::moved)
                known_.moves.push_back(&std::get<syntax::Days>(line->body));
        }
        for (const syntax::Line* line : lines_.lines) {
            if (has_body(*line) && is_change(line->kind)) add_change(*line);
        }
        sink_.enter_session(std::nullopt);
        return std::move(plan_);
    }

private:
    static bool has_body(const syntax::Line& line) {
        return !line.is_broken && !std::holds_alternative<std::monostate>(line.body);
    }

    void report(Code code, std::vector<std::string> arguments) {
        plan_.is_sound = false;
        sink_.report({code, plan_.span, std::move(arguments), {}, {}});
    }

    void report_at(Code code, Span span, std::vector<std::string> arguments) {
        plan_.is_sound = false;
        sink_.report({code, span, std::move(arguments), {}, {}});
    }

    // Its days, its zone and its place; and lines that have no place in a plan.
    void read_fact(const syntax::Line& line) {
        if (line.is_broken) return leave_unread(line);
        switch (line.kind) {
            case LineKind::from:
                return keep(from_, line);
            case LineKind::weeks:
                return keep(weeks_, line);
            case LineKind::zone:
                return keep(zone_, line);
            case LineKind::place:
                return keep(place_, line);
            case LineKind::waves:
                return keep(waves_, line);
            case LineKind::lighter:
            case LineKind::away:
            case LineKind::cancelled:
            case LineKind::moved:
            case LineKind::open_grow:
            case LineKind::allow:
                return;
            default:
                if (is_slot(line.kind)) return;
                leave_unread(line);
                report_not_here(line, Surroundings::plan, sink_);
        }
    }

    // What is no other line of a plan may have been meant as any of them.
    void leave_unread(const syntax::Line& line) {
        plan_.is_sound = false;
        const bool is_other = is_change(line.kind) || line.kind == LineKind::zone ||
                              line.kind == LineKind::place || line.kind == LineKind::allow;
        if (is_other) return;
        are_days_said_ = are_days_said_ && is_slot(line.kind);
        const bool are_days = line.kind == LineKind::from || line.kind == LineKind::weeks;
        known_.has_slots = known_.has_slots && are_days;
    }

    void keep(const syntax::Line*& place, const syntax::Line& line) {
        if (place == nullptr) {
            place = &line;
            return;
        }
        if (line.kind == LineKind::from || line.kind == LineKind::weeks) are_days_said_ = false;
        report_at(Code::field_twice, line.head.span, {std::string(line.head.text)});
    }

    void find_days() {
        if (place_ != nullptr) plan_.place = clean_text(std::get<syntax::Word>(place_->body).text);
        if (zone_ != nullptr) find_zone_of_plan();
        if (from_ == nullptr) {
            if (are_days_said_) report(Code::plan_from, {plan_.name});
            return;
        }
        const auto& from = std::get<syntax::Days>(from_->body);
        if (weeks_ == nullptr && !from.last) {
            if (are_days_said_) report(Code::plan_length, {plan_.name});
            return;
        }
        const bool is_good = find_range(*from_, weeks_, plan_, sink_);
        plan_.is_sound = plan_.is_sound && is_good;
        known_.has_days = is_good && are_days_said_;
    }

    void find_zone_of_plan() {
        const auto& word = std::get<syntax::Word>(zone_->body);
        const civil::Zone* zone = find_zone(word, options_, sink_);
        if (zone == nullptr) {
            plan_.is_sound = false;
        } else {
            plan_.zone = zone->name;
        }
    }

    // Whether there is room for one more; told once of each.
    bool has_room(std::size_t count, std::size_t most, const std::string& what,
                  const syntax::Line& line) {
        if (count < most) return true;
        if (full_.insert(what).second)
            report_at(Code::plan_too_many, line.head.span, {what, std::to_string(most)});
        return false;
    }

    // Its day or its time is not what was meant.
    void doubt_slot() {
        plan_.is_sound = false;
        known_.has_slots = false;
    }

    void add_slot(const syntax::Line& line) {
        if (!has_room(plan_.slots.size(), most_slots, "days and times", line)) return doubt_slot();
        const auto& slot = std::get<syntax::Slot>(line.body);
        program::PlanSlot result;
        if (slot.day) {
            if (!weekday_agrees(slot.weekday, slot.day->date, sink_)) {
                doubt_slot();
            } else if (known_.has_days && !is_in_plan(plan_, slot.day->date)) {
                report_at(
                    Code::day_outside, slot.day->span,
                    {date_text(slot.day->date), date_text(plan_.first), date_text(plan_.last)});
                doubt_slot();
            }
            result.date = slot.day->date;
        } else {
            result.weekday = weekday_of(line.kind);
        }
        result.clock = slot.clock.minutes;
        if (slot.time_limit) result.time_limit = slot.time_limit->quantity;
        if (slot.group) result.group = clean_text(slot.group->text);
        result.span = said_span(line);
        named_ += slot.sessions.size();
        if (!has_room(named_, most_named + 1, "sessions", line)) return doubt_slot();
        for (const syntax::Word& name : slot.sessions)
            add_session(name, result);
        // It has its day and its time, also where its sessions are not known.
        plan_.slots.push_back(std::move(result));
    }

    void add_session(const syntax::Word& name, program::PlanSlot& slot) {
        const auto id = names_.find(name, sink_);
        if (!id) {
            plan_.is_sound = false;
            has_sessions_ = false;
            return;
        }
        const program::Session& session = sessions_[*id];
        if (session.when) {
            sink_.report({Code::session_dated,
                          name.span,
                          {clean_text(name.text)},
                          {},
                          {{session.when->span, "its own day"}}});
            plan_.is_sound = false;
            has_sessions_ = false;
            return;
        }
        slot.session_ids.push_back(*id);
    }

    void add_change(const syntax::Line& line) {
        if (!has_room(changes_++, most_changes, "changes", line)) return;
        bool is_good = true;
        switch (line.kind) {
            case LineKind::away:
            case LineKind::cancelled:
                is_good = add_days_off(line, plan_, known_, sink_);
                break;
            case LineKind::moved:
                is_good = add_move(line, plan_, known_, sink_);
                break;
            case LineKind::lighter:
                is_good = add_lighter(line, plan_, known_.has_days, sink_);
                break;
            case LineKind::waves:
                // A second one has been told of.
                is_good = &line != waves_ || add_waves(line, plan_, sink_);
                break;
            case LineKind::open_grow:
                return add_growth(line);
            default:
                return;
        }
        plan_.is_sound = plan_.is_sound && is_good;
    }

    void add_growth(const syntax::Line& line) {
        if (!has_room(growths_++, most_growths, "lines of growth", line)) return;
        if (!growing_) growing_.emplace(plan_, sessions_, known_.has_slots && has_sessions_);
        auto growth = growing_->check(line, definitions_, sink_);
        if (!growth) {
            plan_.is_sound = false;
            return;
        }
        for (const program::Growth& other : plan_.growths) {
            if (other.folded_target != growth->folded_target || other.of != growth->of) continue;
            plan_.is_sound = false;
            sink_.report({Code::grow_twice,
                          growth->span,
                          {growth->target},
                          {},
                          {{other.span, "the first one"}}});
            return;
        }
        plan_.growths.push_back(std::move(*growth));
    }

    const RecordLines& lines_;
    const std::vector<program::Session>& sessions_;
    const PlanSessions& names_;
    const Definitions& definitions_;
    const Options& options_;
    DiagnosticSink& sink_;
    program::Plan plan_;
    PlanKnown known_{.has_days = false, .has_slots = true};
    // Whether there is no line but those that are read that could say when it begins and ends.
    bool are_days_said_ = true;
    // Whether all sessions of its slots are known.
    bool has_sessions_ = true;
    std::optional<GrowingNames> growing_;
    // Lines that were read, with those that have problems.
    std::size_t named_ = 0;
    std::size_t changes_ = 0;
    std::size_t growths_ = 0;
    // What it has too much of.
    std::set<std::string> full_;
    const syntax::Line* from_ = nullptr;
    const syntax::Line* weeks_ = nullptr;
    const syntax::Line* zone_ = nullptr;
    const syntax::Line* place_ = nullptr;
    const syntax::Line* waves_ = nullptr;
};

// Two plans of one name would write one feed.
void name_plan(program::Plan& plan, std::unordered_map<std::string, Span>& taken,
               DiagnosticSink& sink) {
    plan.slug = slug(plan.name);
    if (plan.slug.empty()) plan.slug = "plan";
    const auto [found, added] = taken.emplace(plan.slug, plan.span);
    if (added) return;
    plan.is_sound = false;
    const std::string name = plan.name.empty() ? "plan" : plan.name;
    sink.report({Code::plan_twice, plan.span, {name}, {}, {{found->second, "the first one"}}});
}

}  // namespace

std::vector<program::Plan> check_plans(const std::vector<RecordLines>& plans,
                                       const std::vector<program::Session>& sessions,
                                       const Definitions& definitions, const Options& options,
                                       DiagnosticSink& sink) {
    std::vector<program::Plan> result;
    if (plans.empty()) return result;
    const PlanSessions names(sessions);
    std::unordered_map<std::string, Span> taken;
    for (const RecordLines& lines : plans) {
        result.push_back(PlanBuilder(lines, sessions, names, definitions, options, sink).build());
        name_plan(result.back(), taken, sink);
    }
    return result;
}

}  // namespace stave::check
