#include "compiler/schedule/growth_checks.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "compiler/schedule/growing.hpp"

namespace stave::schedule {

namespace {

using program::Growth;
using program::GrowthOf;

// "82.5 kg", "6 reps", "4 rounds".
std::string shown(const Growth& growth, const Quantity& value) {
    const std::string number = to_decimal(value.value, 2);
    const bool is_one = value.value == Ratio(1);
    if (growth.of == GrowthOf::sets) return number + (is_one ? " set" : " sets");
    if (growth.of == GrowthOf::rounds) return number + (is_one ? " round" : " rounds");
    return number + ' ' + std::string(is_one ? singular(value.unit) : plural(value.unit));
}

std::pair<std::string, std::string> nothing_grows(const Growth& growth) {
    switch (growth.of) {
        case GrowthOf::load:
            return {"None of its lines has a load in kilograms, pounds or watts.",
                    "Write its load in the session, or let its amount grow."};
        case GrowthOf::share_of_max:
            return {"None of its lines is loaded with a share of its tested max.",
                    "Write its load as such, 5 @ 75 %, or let it grow by kilograms."};
        case GrowthOf::amount:
            return {"None of its lines is counted like that.",
                    "Let it grow by what it is counted in in the session."};
        case GrowthOf::sets:
            return {
                "Sets are those of a movement that is not done in rounds.",
                "Write the movement's name; in rounds, the block's title and 1 round each week."};
        case GrowthOf::rounds:
            break;
    }
    return {"Rounds are those of a block that is done in rounds, and a block goes by its title.",
            "Write the block's title; give it one if it has none: circuit Legs: 3 rounds"};
}

// A step of one is the least that can be added to what is counted.
bool is_least_step(const Growth& growth, const Quantity& before, const Quantity& after) {
    const bool is_counted = growth.of == GrowthOf::sets || growth.of == GrowthOf::rounds ||
                            dimension(before.unit) == Dimension::count;
    return is_counted && after.value - before.value <= Ratio(1);
}

// How far growth comes in each session of a plan.
using MostSteps = std::map<std::uint32_t, std::int64_t>;

class GrowthCheck {
public:
    GrowthCheck(const program::Program& program, std::span<const Occurrence> days,
                const Growth& growth, DiagnosticSink& sink)
        : program_(program), days_(days), growth_(growth), sink_(sink) {}

    void run(const MostSteps& most_steps) {
        bool grows = false;
        for (const auto& [session_id, steps] : most_steps)
            grows = check_session(session_id, steps) || grows;
        if (grows) return;
        const auto [why, mend] = nothing_grows(growth_);
        report(Code::grow_nothing, {growth_.target, step(), why, mend});
    }

private:
    void report(Code code, std::vector<std::string> arguments) {
        // A warning of its speed says nothing of where it ends.
        bool& said = code == Code::growth_fast ? is_warned_ : is_refused_;
        if (std::exchange(said, true)) return;
        sink_.report({code, growth_.span, std::move(arguments), {}, {}});
    }

    [[nodiscard]] std::string step() const { return shown(growth_, growth_.step); }

    // Whether anything in it grows.
    bool check_session(std::uint32_t session_id, std::int64_t most_steps) {
        const program::Session& session = program_.sessions[session_id];
        const std::vector<Quantity> start = grown_values(session, growth_, 0);
        if (start.empty()) return false;
        check_limit(start);
        check_speed(start, grown_values(session, growth_, 1));
        check_end(session_id, most_steps);
        return true;
    }

    void check_limit(const std::vector<Quantity>& start) {
        if (!growth_.limit) return;
        for (const Quantity& value : start) {
            const Quantity limit = convert(*growth_.limit, value.unit);
            if (value.value <= limit.value) continue;
            return report(Code::grow_limit, {shown(growth_, *growth_.limit), step(),
                                             "it begins at " + shown(growth_, value)});
        }
    }

    void check_speed(const std::vector<Quantity>& before, const std::vector<Quantity>& after) {
        for (std::size_t i = 0; i < before.size(); ++i) {
            const Ratio more = after[i].value - before[i].value;
            const bool is_fast = more * Ratio(10) > before[i].value;
            if (!is_fast || is_least_step(growth_, before[i], after[i])) continue;
            return report(Code::growth_fast,
                          {growth_.target, shown(growth_, before[i]), shown(growth_, after[i])});
        }
    }

    // The first week that holds more than a session can.
    void check_end(std::uint32_t session_id, std::int64_t most_steps) {
        if (is_refused_ || !beyond(session_id, most_steps)) return;
        for (const Occurrence& day : days_) {
            if (day.session_id != session_id) continue;
            const auto value = beyond(session_id, day.steps);
            if (!value) continue;
            const bool is_share = growth_.of == GrowthOf::share_of_max;
            return report(
                Code::grow_too_far,
                {growth_.target, shown(growth_, *value), std::to_string(day.week),
                 is_share ? "Nobody lifts more than the max." : "No session holds so much.",
                 is_share ? "up to 85 %" : step() + " each week, up to a value"});
        }
    }

    // A value that has grown out of bounds after so many steps.
    [[nodiscard]] std::optional<Quantity> beyond(std::uint32_t session_id,
                                                 std::int64_t steps) const {
        for (const Quantity& value : grown_values(program_.sessions[session_id], growth_, steps)) {
            if (is_beyond(growth_, value)) return value;
        }
        return std::nullopt;
    }

    const program::Program& program_;
    std::span<const Occurrence> days_;
    const Growth& growth_;
    DiagnosticSink& sink_;
    // One error and one warning for each growth.
    bool is_refused_ = false;
    bool is_warned_ = false;
};

}  // namespace

void check_growth(const program::Program& program, std::span<const Occurrence> days,
                  DiagnosticSink& sink) {
    if (days.empty()) return;
    MostSteps most_steps;
    for (const Occurrence& day : days) {
        std::int64_t& steps = most_steps[day.session_id];
        steps = std::max<std::int64_t>(steps, day.steps);
    }
    for (const Growth& growth : program.plans[days.front().plan_id].growths)
        GrowthCheck(program, days, growth, sink).run(most_steps);
}

}  // namespace stave::schedule
