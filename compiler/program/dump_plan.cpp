#include "compiler/program/dump_plan.hpp"

#include <fmt/format.h>

#include <iterator>

#include "compiler/civil/date_text.hpp"

namespace stave::program {

namespace {

using Out = std::back_insert_iterator<std::string>;

using civil::date_text;

std::string show(const Quantity& quantity) {
    return fmt::format("{} {}", to_decimal(quantity.value, 4), plural(quantity.unit));
}

std::string show(const std::optional<std::chrono::minutes>& clock) {
    return clock ? fmt::format(" minute {}", clock->count()) : "";
}

void show_slot(Out out, const PlanSlot& slot, const std::vector<Session>& sessions) {
    fmt::format_to(
        out, "  on {}{}",
        slot.date ? date_text(*slot.date) : fmt::format("weekday {}", slot.weekday.iso_encoding()),
        show(std::optional(slot.clock)));
    if (slot.time_limit) fmt::format_to(out, " for {}", show(*slot.time_limit));
    for (const std::uint32_t id : slot.session_ids)
        fmt::format_to(out, " {}", sessions[id].slug);
    if (!slot.group.empty()) fmt::format_to(out, " group \"{}\"", slot.group);
    fmt::format_to(out, "\n");
}

void show_growth(Out out, const Growth& growth) {
    constexpr std::string_view what[] = {"load", "share of max", "amount", "sets", "rounds"};
    fmt::format_to(out, "  grow \"{}\" {} by {}{}", growth.target,
                   what[static_cast<std::size_t>(growth.of)], show(growth.step),
                   growth.is_share ? " of itself" : "");
    if (growth.limit) fmt::format_to(out, " up to {}", show(*growth.limit));
    fmt::format_to(out, "\n");
}

}  // namespace

std::string dump(const Plan& plan, const std::vector<Session>& sessions) {
    std::string text;
    const Out out(text);
    fmt::format_to(out, "plan \"{}\" as {} from {} to {} weeks {}", plan.name, plan.slug,
                   date_text(plan.first), date_text(plan.last), plan.weeks);
    if (!plan.zone.empty()) fmt::format_to(out, " zone {}", plan.zone);
    if (!plan.place.empty()) fmt::format_to(out, " place \"{}\"", plan.place);
    fmt::format_to(out, "\n");
    for (const PlanSlot& slot : plan.slots)
        show_slot(out, slot, sessions);
    for (const Growth& growth : plan.growths)
        show_growth(out, growth);
    if (plan.waves)
        fmt::format_to(out, "  waves of {} up {}\n", plan.waves->weeks, plan.waves->steps);
    for (const LighterWeek& lighter : plan.lighter_weeks) {
        fmt::format_to(out, "  lighter {} {} by {}\n", lighter.is_every ? "every" : "week",
                       lighter.week, to_decimal(lighter.share, 4));
    }
    for (const DaysOff& off : plan.days_off) {
        fmt::format_to(out, "  {} {}{} to {} \"{}\"\n", off.is_cancelled ? "cancelled" : "away",
                       date_text(off.first), show(off.clock), date_text(off.last), off.reason);
    }
    for (const Move& move : plan.moves) {
        fmt::format_to(out, "  moved {}{} to {}{} \"{}\"\n", date_text(move.from),
                       show(move.from_clock), date_text(move.to), show(move.to_clock), move.reason);
    }
    return text;
}

}  // namespace stave::program
