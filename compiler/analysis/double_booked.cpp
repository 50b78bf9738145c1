#include "compiler/analysis/double_booked.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>
#include <tuple>
#include <utility>

#include "compiler/civil/date_text.hpp"
#include "compiler/fit/people.hpp"

namespace stave::analysis {

namespace {

using Days = std::pair<std::size_t, std::size_t>;

// A slot of a plan, or a session by itself: what is told of once, however often it is held.
struct Source {
    bool is_planned = false;
    std::uint32_t id = 0;
    std::uint32_t slot_id = 0;

    friend auto operator<=>(const Source&, const Source&) = default;
};

Source source_of(const Snapshot& snapshot, std::size_t issue_id) {
    const schedule::Occurrence* const day = issue_source(snapshot, issue_id).occurrence;
    if (day != nullptr) return {true, day->plan_id, day->slot_id};
    return {false, snapshot.by_themselves[issue_id], 0};
}

const program::PlanSlot* slot_of(const Snapshot& snapshot, Source source) {
    return source.is_planned ? &snapshot.program.plans[source.id].slots[source.slot_id] : nullptr;
}

// Which the schedule has told of, where no session names who comes.
bool is_plan_overlap(const Snapshot& snapshot, Source one, Source other, bool begin_together) {
    if (!one.is_planned || !other.is_planned || one.id != other.id) return false;
    const program::PlanSlot& first = *slot_of(snapshot, one);
    const program::PlanSlot& second = *slot_of(snapshot, other);
    const bool same_people =
        first.group.empty() || second.group.empty() || first.group == second.group;
    return same_people && (begin_together || first.time_limit);
}

// Everybody comes, which has been told of.
bool is_unknown_group(const Snapshot& snapshot, Source source) {
    const program::PlanSlot* const slot = slot_of(snapshot, source);
    return slot != nullptr && !slot->group.empty() &&
           !fit::has_squad(snapshot.program, slot->group);
}

std::string name_of(const Snapshot& snapshot, std::size_t issue_id) {
    const program::Session& session = *issue_source(snapshot, issue_id).session;
    std::string name = session.title.empty() ? "session " + session.number : session.title;
    const program::PlanSlot* const slot = slot_of(snapshot, source_of(snapshot, issue_id));
    if (slot != nullptr && !slot->group.empty()) name += fmt::format(" (group {})", slot->group);
    return name;
}

// "Mara", "Mara and Jonas", "Mara and 3 others".
std::string names_of(const Snapshot& snapshot, const std::vector<std::uint32_t>& athletes) {
    const auto name = [&](std::size_t at) { return snapshot.program.athletes[athletes[at]].name; };
    if (athletes.size() == 1) return name(0);
    if (athletes.size() == 2) return name(0) + " and " + name(1);
    return fmt::format("{} and {} others", name(0), athletes.size() - 1);
}

Span span_of(const Snapshot& snapshot, std::size_t issue_id) {
    const program::PlanSlot* const slot = slot_of(snapshot, source_of(snapshot, issue_id));
    return slot != nullptr ? slot->span : issue_source(snapshot, issue_id).session->when->span;
}

std::chrono::year_month_day date_of(const Snapshot& snapshot, std::size_t issue_id) {
    const auto [session, day] = issue_source(snapshot, issue_id);
    return day != nullptr ? day->date : session->when->date;
}

class Clashes {
public:
    explicit Clashes(Snapshot& snapshot) : snapshot_(snapshot) {}

    // `together`: they begin at one time.
    void add(Days days, std::uint32_t athlete_id, bool together) {
        const Source first = source_of(snapshot_, days.first);
        const Source second = source_of(snapshot_, days.second);
        const bool has_names = names_people(days.first) || names_people(days.second);
        if (!has_names && is_plan_overlap(snapshot_, first, second, together)) return;
        if (is_unknown_group(snapshot_, first) || is_unknown_group(snapshot_, second)) return;
        const std::pair<Source, Source> both = std::minmax(first, second);
        Clash& clash = clashes_.try_emplace(both, Clash{days, {}}).first->second;
        if (clash.days == days) clash.athletes.push_back(athlete_id);
    }

    void report() {
        for (const auto& [sources, clash] : clashes_)
            report(clash);
        snapshot_.sink.enter_session(std::nullopt);
    }

private:
    // Of two sources the first of their days that clash, and who is in both.
    struct Clash {
        Days days;
        std::vector<std::uint32_t> athletes;
    };

    [[nodiscard]] bool names_people(std::size_t issue_id) const {
        return !issue_source(snapshot_, issue_id).session->audience.empty();
    }

    void report(const Clash& clash) {
        const auto [first, second] = clash.days;
        const Source source = source_of(snapshot_, second);
        const program::Program& program = snapshot_.program;
        snapshot_.sink.enter_session(source.is_planned ? program.plans[source.id].span.begin
                                                       : program.sessions[source.id].span.begin);
        snapshot_.sink.report(
            {Code::double_booked,
             span_of(snapshot_, second),
             {name_of(snapshot_, first), name_of(snapshot_, second),
              civil::date_text(date_of(snapshot_, second)), names_of(snapshot_, clash.athletes)},
             {},
             {{span_of(snapshot_, first), "the other one"}}});
    }

    Snapshot& snapshot_;
    std::map<std::pair<Source, Source>, Clash> clashes_;
};

}  // namespace

void Bookings::add(const Issue& issue, std::size_t issue_id) {
    const program::Session& session = issue.session();
    if (!issue.is_held() || !session.when) return;
    const program::When& when = *session.when;
    Booking booking;
    booking.has_zone = when.instant.has_value();
    booking.begin = when.instant.value_or(std::chrono::sys_days(when.date) + when.clock);
    booking.end = booking.begin;
    if (when.time_limit) {
        booking.end += std::chrono::seconds(ceil(in_base_units(*when.time_limit)));
    } else {
        booking.end += std::chrono::minutes(timeline::minutes(issue.timeline()));
    }
    booking.issue_id = issue_id;
    bookings_.push_back(booking);
}

// In the order of their times each is held against the one of its athlete that ends last of those
// before it.
void Bookings::report(Snapshot& snapshot) {
    std::ranges::stable_sort(bookings_, {}, [](const Booking& booking) {
        return std::tuple(booking.has_zone, booking.begin);
    });
    std::vector<const Booking*> last(snapshot.program.athletes.size());
    Clashes clashes(snapshot);
    for (const Booking& booking : bookings_) {
        for (const std::uint32_t athlete_id : snapshot.people[booking.issue_id]) {
            const Booking*& before = last[athlete_id];
            const bool is_known = before != nullptr && before->has_zone == booking.has_zone;
            if (is_known && before->end > booking.begin) {
                clashes.add({before->issue_id, booking.issue_id}, athlete_id,
                            before->begin == booking.begin);
            }
            if (!is_known || booking.end > before->end) before = &booking;
        }
    }
    clashes.report();
}

}  // namespace stave::analysis
