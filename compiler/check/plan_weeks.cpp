#include "compiler/check/plan_weeks.hpp"

#include <fmt/format.h>

#include <string>
#include <variant>

#include "compiler/check/lines.hpp"

namespace stave::check {

bool add_lighter(const syntax::Line& line, program::Plan& plan, bool has_days,
                 DiagnosticSink& sink) {
    const auto& lighter = std::get<syntax::Lighter>(line.body);
    const Quantity& by = lighter.by.quantity;
    const bool is_share = lighter.by.has_unit && dimension(by.unit) == Dimension::share;
    const Ratio share = is_share ? in_base_units(by) : Ratio(0);
    if (share <= Ratio(0) || share >= Ratio(1)) {
        const std::string said =
            to_decimal(by.value) + (lighter.by.has_unit ? " " + std::string(plural(by.unit)) : "");
        sink.report({Code::lighter_share, lighter.by.span, {said}, {}, {}});
        return false;
    }
    const std::int64_t least = lighter.is_every ? 2 : 1;
    if (has_days && (lighter.week < least || lighter.week > plan.weeks)) {
        sink.report({Code::week_outside,
                     lighter.week_span,
                     {std::to_string(lighter.week), std::to_string(plan.weeks)},
                     {},
                     {}});
        return false;
    }
    plan.lighter_weeks.push_back({lighter.week, lighter.is_every, share, said_span(line)});
    return true;
}

bool add_waves(const syntax::Line& line, program::Plan& plan, DiagnosticSink& sink) {
    constexpr std::int64_t longest = 52;
    const auto& waves = std::get<syntax::Waves>(line.body);
    const bool is_good =
        waves.weeks >= 2 && waves.weeks <= longest && waves.steps >= 1 && waves.steps < waves.weeks;
    if (!is_good) {
        sink.report({Code::waves_range,
                     waves.span,
                     {fmt::format("{} {}", waves.weeks, waves.weeks == 1 ? "week" : "weeks"),
                      fmt::format("{} {}", waves.steps, waves.steps == 1 ? "step" : "steps")},
                     {},
                     {}});
        return false;
    }
    plan.waves = program::Waves{waves.weeks, waves.steps, waves.span};
    return true;
}

}  // namespace stave::check
