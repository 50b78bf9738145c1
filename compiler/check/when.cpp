#include "compiler/check/when.hpp"

#include <array>
#include <string>

#include "compiler/civil/date_text.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

constexpr std::array<std::string_view, 7> weekdays{"Sunday",   "Monday", "Tuesday", "Wednesday",
                                                   "Thursday", "Friday", "Saturday"};

}  // namespace

bool weekday_agrees(const std::optional<syntax::Word>& weekday, std::chrono::year_month_day date,
                    DiagnosticSink& sink) {
    if (!weekday) return true;
    const std::chrono::weekday day{std::chrono::sys_days(date)};
    const std::string_view right = weekdays[day.c_encoding()];
    const std::string said = fold_name(weekday->text);
    const std::string right_folded = fold_name(right);
    // "Thu" says it as well.
    if (said.size() >= 3 && right_folded.starts_with(said)) return true;
    sink.report({Code::weekday_differs,
                 weekday->span,
                 {civil::date_text(date), std::string(weekday->text), std::string(right)},
                 {{std::string(right), {Edit{weekday->span, std::string(right)}}}},
                 {}});
    return false;
}

const civil::Zone* find_zone(const syntax::Word& name, const Options& options,
                             DiagnosticSink& sink) {
    const civil::Zone* zone = options.zones ? options.zones(name.text) : nullptr;
    if (zone == nullptr) {
        sink.report({Code::zone_unknown,
                     name.span,
                     {std::string(name.text), "Write a name like Europe/Lisbon."},
                     {},
                     {}});
    }
    return zone;
}

std::optional<program::When> check_when(const syntax::When& when,
                                        const std::optional<syntax::Word>& zone_line,
                                        const Options& options, DiagnosticSink& sink) {
    if (!weekday_agrees(when.weekday, when.date, sink)) return std::nullopt;
    program::When result;
    result.date = when.date;
    result.clock = when.clock;
    if (when.time_limit) result.time_limit = when.time_limit->quantity;
    if (when.zone && zone_line && fold_name(when.zone->text) != fold_name(zone_line->text)) {
        sink.report(
            {Code::field_twice, zone_line->span, {"zone"}, {}, {{when.zone->span, "here"}}});
        return std::nullopt;
    }
    const std::optional<syntax::Word>& zone_name = when.zone ? when.zone : zone_line;
    if (!zone_name) return result;
    const civil::Zone* zone = find_zone(*zone_name, options, sink);
    if (zone == nullptr) return std::nullopt;
    result.zone = zone->name;
    const std::chrono::local_seconds local =
        std::chrono::local_days(when.date) + std::chrono::seconds(when.clock);
    const civil::LocalTime time = civil::resolve(*zone, local);
    if (time.kind != civil::LocalTimeKind::unique) {
        const Code code =
            time.kind == civil::LocalTimeKind::skipped ? Code::time_skipped : Code::time_repeated;
        sink.report({code, when.clock_span, {civil::clock_text(when.clock), zone->name}, {}, {}});
        return std::nullopt;
    }
    result.instant = time.instant;
    return result;
}

}  // namespace stave::check
