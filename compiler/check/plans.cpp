#include "compiler/check/plans.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <unordered_map>
#include <utility>

#include "compiler/check/places.hpp"
#include "compiler/check/plan_days.hpp"
#include "compiler/check/plan_growth.hpp"
#include "compiler/check/plan_sessions.hpp"
#include "compiler/check/when.hpp"
#include "compiler/civil/date_text.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;
using Date = std::chrono::year_month_day;
using civil::date_text;

constexpr std::int64_t days_per_week = 7;

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

// One plan. Its lines are read by what they need: its days first, then what is held on
// them, then what is moved or grows.
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
        if (plan_.slots.empty() && plan_.is_sound) report(Code::plan_empty, {plan_.name});
        for (const syntax::Line* line : lines_.lines) {
            if (has_body(*line) && plan_.is_sound) add_change(*line);
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
        if (line.is_broken) {
            plan_.is_sound = false;
            return;
        }
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
                plan_.is_sound = false;
                report_not_here(line, Surroundings::plan, sink_);
        }
    }

    void keep(const syntax::Line*& place, const syntax::Line& line) {
        if (place != nullptr)
            return report_at(Code::field_twice, line.head.span, {std::string(line.head.text)});
        place = &line;
    }

    void find_days() {
        if (place_ != nullptr) plan_.place = clean_text(std::get<syntax::Word>(place_->body).text);
        if (zone_ != nullptr) find_zone_of_plan();
        if (from_ == nullptr) {
            if (plan_.is_sound) report(Code::plan_from, {plan_.name});
            return;
        }
        const auto& from = std::get<syntax::Days>(from_->body);
        plan_.first = from.first.date;
        if (weeks_ == nullptr && !from.last) {
            if (plan_.is_sound) report(Code::plan_length, {plan_.name});
            return;
        }
        if (weeks_ != nullptr) count_weeks(from);
        if (from.last) end_on(*from.last);
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

    void count_weeks(const syntax::Days& from) {
        // More than lie between the first and the last year of any plan.
        constexpr std::int64_t most_weeks = 4000;
        const syntax::Value& weeks = std::get<syntax::Measure>(weeks_->body).value;
        plan_.weeks = std::min(weeks.quantity.value.numerator(), most_weeks);
        const std::chrono::sys_days last =
            std::chrono::sys_days(plan_.first) + std::chrono::days{days_per_week * plan_.weeks - 1};
        plan_.last = Date{last};
        if (static_cast<int>(plan_.last.year()) > civil::last_year)
            return report_at(Code::plan_too_long, weeks.span, {date_text(plan_.last)});
        if (!from.last || from.last->date == plan_.last) return;
        report_at(Code::plan_length_twice, weeks.span,
                  {date_text(from.last->date), std::to_string(plan_.weeks), date_text(plan_.last)});
    }

    void end_on(const syntax::Day& last) {
        if (last.date < plan_.first) {
            return report_at(Code::days_reversed, last.span,
                             {date_text(plan_.first), date_text(last.date)});
        }
        plan_.last = last.date;
        const auto days =
            (std::chrono::sys_days(last.date) - std::chrono::sys_days(plan_.first)).count();
        plan_.weeks = days / days_per_week + 1;
    }

    // Whether there is room for one more.
    bool has_room(std::size_t count, std::size_t most, std::string what, const syntax::Line& line) {
        if (count < most) return true;
        if (plan_.is_sound)
            report_at(Code::plan_too_many, line.head.span, {std::move(what), std::to_string(most)});
        return false;
    }

    void add_slot(const syntax::Line& line) {
        if (!has_room(plan_.slots.size(), most_slots, "days and times", line)) return;
        const auto& slot = std::get<syntax::Slot>(line.body);
        program::PlanSlot result;
        if (slot.day) {
            if (!weekday_agrees(slot.weekday, slot.day->date, sink_)) plan_.is_sound = false;
            if (plan_.is_sound && !is_in_plan(plan_, slot.day->date)) {
                report_at(
                    Code::day_outside, slot.day->span,
                    {date_text(slot.day->date), date_text(plan_.first), date_text(plan_.last)});
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
        if (!has_room(named_, most_named + 1, "sessions", line)) return;
        for (const syntax::Word& name : slot.sessions)
            add_session(name, result);
        if (!result.session_ids.empty()) plan_.slots.push_back(std::move(result));
    }

    void add_session(const syntax::Word& name, program::PlanSlot& slot) {
        const auto id = names_.find(name, sink_);
        if (!id) {
            plan_.is_sound = false;
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
            return;
        }
        slot.session_ids.push_back(*id);
    }

    void add_change(const syntax::Line& line) {
        const std::size_t changes =
            plan_.days_off.size() + plan_.moves.size() + plan_.lighter_weeks.size();
        if (!has_room(changes, most_changes, "changes", line)) return;
        bool is_good = true;
        switch (line.kind) {
            case LineKind::away:
            case LineKind::cancelled:
                is_good = add_days_off(line, plan_, sink_);
                break;
            case LineKind::moved:
                is_good = add_move(line, plan_, sink_);
                break;
            case LineKind::lighter:
                return add_lighter(line);
            case LineKind::waves:
                return add_waves(std::get<syntax::Waves>(line.body));
            case LineKind::open_grow:
                return add_growth(line);
            default:
                return;
        }
        plan_.is_sound = plan_.is_sound && is_good;
    }

    void add_lighter(const syntax::Line& line) {
        const auto& lighter = std::get<syntax::Lighter>(line.body);
        const Quantity& by = lighter.by.quantity;
        const bool is_share = lighter.by.has_unit && dimension(by.unit) == Dimension::share;
        const Ratio share = is_share ? in_base_units(by) : Ratio(0);
        if (share <= Ratio(0) || share >= Ratio(1)) {
            const std::string said =
                to_decimal(by.value) +
                (lighter.by.has_unit ? " " + std::string(plural(by.unit)) : "");
            return report_at(Code::lighter_share, lighter.by.span, {said});
        }
        const std::int64_t least = lighter.is_every ? 2 : 1;
        if (lighter.week < least || lighter.week > plan_.weeks) {
            return report_at(Code::week_outside, lighter.week_span,
                             {std::to_string(lighter.week), std::to_string(plan_.weeks)});
        }
        plan_.lighter_weeks.push_back({lighter.week, lighter.is_every, share, said_span(line)});
    }

    void add_waves(const syntax::Waves& waves) {
        constexpr std::int64_t longest = 52;
        const bool is_good = waves.weeks >= 2 && waves.weeks <= longest && waves.steps >= 1 &&
                             waves.steps < waves.weeks;
        if (!is_good) {
            return report_at(
                Code::waves_range, waves.span,
                {fmt::format("{} {}", waves.weeks, waves.weeks == 1 ? "week" : "weeks"),
                 fmt::format("{} {}", waves.steps, waves.steps == 1 ? "step" : "steps")});
        }
        plan_.waves = program::Waves{waves.weeks, waves.steps, waves.span};
    }

    void add_growth(const syntax::Line& line) {
        if (!has_room(plan_.growths.size(), most_growths, "lines of growth", line)) return;
        if (!growing_) growing_.emplace(plan_, sessions_);
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
    std::optional<GrowingNames> growing_;
    std::size_t named_ = 0;
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
