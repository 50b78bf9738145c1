#include "compiler/schedule/days.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "compiler/names/names.hpp"

namespace stave::schedule {

namespace {

using Date = std::chrono::year_month_day;
using std::chrono::sys_days;

constexpr std::int64_t days_per_week = 7;

struct Week {
    std::int64_t steps = 0;
    bool is_lighter = false;
};

std::int64_t steps_of(const program::Plan& plan, std::int64_t week_that_counts) {
    if (!plan.waves) return week_that_counts;
    return week_that_counts / plan.waves->weeks * plan.waves->steps +
           week_that_counts % plan.waves->weeks;
}

// From week 1 on.
std::vector<Week> lay_weeks(const program::Plan& plan) {
    std::vector<Week> weeks(static_cast<std::size_t>(plan.weeks));
    std::int64_t counted = 0;
    for (std::size_t i = 0; i < weeks.size(); ++i) {
        const auto number = static_cast<std::int64_t>(i) + 1;
        Week& week = weeks[i];
        week.is_lighter = std::ranges::any_of(
            plan.lighter_weeks, [&](const auto& lighter) { return lightens(lighter, number); });
        if (week.is_lighter) {
            week.steps = i == 0 ? 0 : weeks[i - 1].steps;
        } else {
            week.steps = steps_of(plan, counted++);
        }
    }
    return weeks;
}

// The last of the plan's lines that speaks of the day; null where none does.
template <typename Line, typename SpeaksOf>
const Line* last_of(const std::vector<Line>& lines, const SpeaksOf& speaks_of) {
    const auto found = std::find_if(lines.rbegin(), lines.rend(), speaks_of);
    return found == lines.rend() ? nullptr : &*found;
}

// What the plan's lines make of a day; a move counts more than a day off.
struct Change {
    const program::DaysOff* off = nullptr;
    const program::Move* move = nullptr;
};

Change change_of(const program::Plan& plan, const Occurrence& occurrence) {
    const Date day = occurrence.planned;
    const std::chrono::minutes clock = plan.slots[occurrence.slot_id].clock;
    return {last_of(plan.days_off,
                    [&](const program::DaysOff& off) {
                        return day >= off.first && day <= off.last &&
                               off.clock.value_or(clock) == clock;
                    }),
            last_of(plan.moves, [&](const program::Move& move) {
                return day == move.from && move.from_clock.value_or(clock) == clock;
            })};
}

void apply_changes(const program::Plan& plan, Occurrence& occurrence) {
    const auto [off, move] = change_of(plan, occurrence);
    if (move != nullptr) {
        occurrence.standing = Standing::moved;
        occurrence.date = move->to;
        occurrence.clock = move->to_clock.value_or(occurrence.clock);
    } else if (off != nullptr) {
        occurrence.standing = off->is_cancelled ? Standing::cancelled : Standing::away;
    }
}

class DayLayer {
public:
    DayLayer(const program::Program& program, std::uint32_t plan_id)
        : plan_(program.plans[plan_id]), plan_id_(plan_id), weeks_(lay_weeks(plan_)) {}

    std::vector<Occurrence> run() {
        for (std::uint32_t id = 0; id < plan_.slots.size(); ++id) {
            const program::PlanSlot& slot = plan_.slots[id];
            if (slot.date) {
                add(id, sys_days{*slot.date});
                continue;
            }
            const std::chrono::weekday first{sys_days{plan_.first}};
            sys_days day = sys_days{plan_.first} + (slot.weekday - first);
            for (; day <= sys_days{plan_.last}; day += std::chrono::days{days_per_week})
                add(id, day);
        }
        std::ranges::stable_sort(days_, {}, [](const Occurrence& one) {
            return std::tuple(sys_days{one.date}, one.clock, one.slot_id);
        });
        return std::move(days_);
    }

private:
    void add(std::uint32_t slot_id, sys_days day) {
        const program::PlanSlot& slot = plan_.slots[slot_id];
        const auto week_id =
            static_cast<std::size_t>((day - sys_days{plan_.first}).count() / days_per_week);
        const Week& week = weeks_[week_id];
        Occurrence one;
        one.plan_id = plan_id_;
        one.slot_id = slot_id;
        one.session_id = slot.session_ids[week_id % slot.session_ids.size()];
        one.planned = one.date = Date{day};
        one.clock = slot.clock;
        one.week = static_cast<std::int32_t>(week_id) + 1;
        one.steps = static_cast<std::int32_t>(week.steps);
        one.is_lighter = week.is_lighter;
        apply_changes(plan_, one);
        days_.push_back(one);
    }

    const program::Plan& plan_;
    std::uint32_t plan_id_;
    std::vector<Week> weeks_;
    std::vector<Occurrence> days_;
};

bool may_meet(const program::PlanSlot& one, const program::PlanSlot& other) {
    const auto weekday = [](const program::PlanSlot& slot) {
        return slot.date ? std::chrono::weekday{sys_days{*slot.date}} : slot.weekday;
    };
    const bool share_session = std::ranges::any_of(one.session_ids, [&](std::uint32_t id) {
        return std::ranges::find(other.session_ids, id) != other.session_ids.end();
    });
    return share_session && weekday(one) == weekday(other) && slug(one.group) == slug(other.group);
}

}  // namespace

bool lightens(const program::LighterWeek& lighter, std::int64_t week) {
    return lighter.is_every ? week % lighter.week == 0 : week == lighter.week;
}

bool is_on(const Occurrence& occurrence) {
    return occurrence.standing == Standing::held || occurrence.standing == Standing::moved;
}

program::PlanWeek week_of(const program::Program& program, const Occurrence& occurrence) {
    return {occurrence.week, program.plans[occurrence.plan_id].weeks, occurrence.is_lighter};
}

Ratio less_in(const program::Plan& plan, std::int64_t week) {
    Ratio less;
    for (const program::LighterWeek& lighter : plan.lighter_weeks) {
        if (lightens(lighter, week)) less = std::max(less, lighter.share);
    }
    return less;
}

std::string_view reason_of(const program::Program& program, const Occurrence& occurrence) {
    const auto [off, move] = change_of(program.plans[occurrence.plan_id], occurrence);
    if (move != nullptr) return move->reason;
    return off == nullptr ? std::string_view() : off->reason;
}

std::vector<Occurrence> lay_days(const program::Program& program, std::uint32_t plan_id) {
    return DayLayer(program, plan_id).run();
}

std::string day_key(const program::Program& program, const Occurrence& occurrence) {
    const program::Plan& plan = program.plans[occurrence.plan_id];
    const program::PlanSlot& slot = plan.slots[occurrence.slot_id];
    std::string key = fmt::format("{}{:02}{:02}", static_cast<int>(occurrence.planned.year()),
                                  static_cast<unsigned>(occurrence.planned.month()),
                                  static_cast<unsigned>(occurrence.planned.day()));
    if (!slot.group.empty()) key += '-' + slug(slot.group);
    const bool is_several = std::ranges::any_of(plan.slots, [&](const program::PlanSlot& other) {
        return &other != &slot && may_meet(slot, other);
    });
    if (is_several)
        key += fmt::format("-{:02}{:02}", slot.clock.count() / 60, slot.clock.count() % 60);
    return key;
}

}  // namespace stave::schedule
