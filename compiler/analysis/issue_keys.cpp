#include "compiler/analysis/issue_keys.hpp"

#include <chrono>
#include <string>
#include <string_view>
#include <utility>

#include "compiler/analysis/issues.hpp"
#include "compiler/program/exact.hpp"
#include "compiler/schedule/days.hpp"

namespace stave::analysis {

namespace {

void add_text(WideHasher& hasher, std::string_view text) {
    hasher.add_number(text.size());
    hasher.add(text);
}

void add_number(WideHasher& hasher, std::int64_t number) {
    hasher.add_number(static_cast<std::uint64_t>(number));
}

void add_day(WideHasher& hasher, std::chrono::year_month_day day) {
    add_number(hasher, std::chrono::sys_days(day).time_since_epoch().count());
}

// What is the same for all of its sessions; what is made of its kit and of what it avoids follows
// from these.
WideHash key_of(const WideHash& athlete, const fit::Outfit& outfit) {
    const auto& [athlete_id, folded_squads, racks, avoided_words] = outfit;
    WideHasher hasher;
    hasher.add_hash(athlete);
    for (const std::string& squad : folded_squads)
        add_text(hasher, squad);
    return hasher.hash();
}

template <typename Value>
std::vector<WideHash> hashes_of(const program::Exact& exact, const std::vector<Value>& values) {
    std::vector<WideHash> hashes;
    hashes.reserve(values.size());
    for (const Value& value : values)
        hashes.push_back(exact.of(value));
    return hashes;
}

// Days of plans to their keys.
class Days {
public:
    Days(const program::Program& program, const program::Exact& exact,
         const std::vector<WideHash>& sessions)
        : program_(program), sessions_(sessions), plans_(hashes_of(exact, program.plans)) {
        for (const program::Plan& plan : program.plans)
            slots_.push_back(hashes_of(exact, plan.slots));
    }

    [[nodiscard]] WideHash key_of(const schedule::Occurrence& day) const {
        const auto& [plan_id, slot_id, session_id, planned, date, clock, instant, week, steps,
                     standing, is_lighter] = day;
        WideHasher hasher;
        hasher.add_hash(sessions_[session_id]);
        hasher.add_hash(plans_[plan_id]);
        hasher.add_hash(slots_[plan_id][slot_id]);
        // It hangs on the plan's other slots as well.
        add_text(hasher, schedule::day_key(program_, day));
        add_day(hasher, planned);
        add_day(hasher, date);
        add_number(hasher, clock.count());
        add_number(hasher, instant.has_value());
        if (instant) add_number(hasher, instant->time_since_epoch().count());
        add_number(hasher, static_cast<std::int64_t>(standing));
        // What the plan's lines say of the day, which are not part of the plan's key.
        add_text(hasher, schedule::reason_of(program_, day));
        add_number(hasher, week);
        add_number(hasher, program_.plans[plan_id].weeks);
        add_number(hasher, is_lighter);
        add_number(hasher, steps);
        const Ratio less = schedule::less_in(program_.plans[plan_id], week);
        add_number(hasher, less.numerator());
        add_number(hasher, less.denominator());
        return hasher.hash();
    }

private:
    const program::Program& program_;
    const std::vector<WideHash>& sessions_;
    std::vector<WideHash> plans_;
    std::vector<std::vector<WideHash>> slots_;
};

}  // namespace

IssueKeys::IssueKeys(const Snapshot& snapshot) {
    const program::Program& program = snapshot.program;
    const program::Exact exact(program.movements);
    movements_ = exact.of_all_movements();
    const std::vector<WideHash> sessions = hashes_of(exact, program.sessions);
    const Days days(program, exact, sessions);
    for (const std::uint32_t id : snapshot.by_themselves)
        issues_.push_back(sessions[id]);
    for (const schedule::Occurrence& day : snapshot.season)
        issues_.push_back(days.key_of(day));
    for (const fit::Outfit& outfit : snapshot.outfits)
        athletes_.push_back(key_of(exact.of(program.athletes[outfit.athlete_id]), outfit));
}

WideHash IssueKeys::of(std::size_t index, std::uint32_t athlete_id) const {
    WideHasher hasher;
    hasher.add_hash(issues_[index]);
    hasher.add_hash(athletes_[athlete_id]);
    return hasher.hash();
}

WideHash IssueKeys::with_all_movements(std::size_t index, std::uint32_t athlete_id) const {
    WideHasher hasher;
    hasher.add_hash(of(index, athlete_id));
    hasher.add_hash(movements_);
    return hasher.hash();
}

}  // namespace stave::analysis
