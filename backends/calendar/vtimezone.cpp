#include "backends/calendar/vtimezone.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

#include "backends/calendar/stamp.hpp"

namespace stave::calendar {

namespace {

// The year in which the rules of a VTIMEZONE begin: before every event, and the
// one that calendar programs are used to.
constexpr std::chrono::year rules_begin{1970};

constexpr std::array<std::string_view, 7> weekday_codes{"SU", "MO", "TU", "WE", "TH", "FR", "SA"};

// A change of a zone's offset as the clock that is being changed shows it.
struct Change {
    std::chrono::year_month_day date;
    std::chrono::seconds time_of_day{0};
    std::chrono::seconds offset_from{0};
    std::chrono::seconds offset_to{0};
    std::string abbreviation;
};

Change describe(const civil::ZonePeriod& before, const civil::ZonePeriod& after) {
    const std::chrono::local_seconds shown{(after.begins + before.offset).time_since_epoch()};
    const auto day = std::chrono::floor<std::chrono::days>(shown);
    return {std::chrono::year_month_day{day}, shown - day, before.offset, after.offset,
            after.abbreviation};
}

// The changes from the start of `first_year` on, and the offset before them.
// Entries that leave the offset as it was are none.
struct Changes {
    civil::ZonePeriod at_start;
    std::vector<Change> list;
};

Changes changes_from(const civil::Zone& zone, std::chrono::year first_year) {
    const std::chrono::sys_seconds start{std::chrono::sys_days{first_year / 1 / 1}};
    Changes changes{zone.periods.front(), {}};
    civil::ZonePeriod current = zone.periods.front();
    for (const civil::ZonePeriod& period : zone.periods) {
        if (period.begins <= start) {
            changes.at_start = period;
        } else if (period.offset != current.offset) {
            changes.list.push_back(describe(current, period));
        }
        current = period;
    }
    return changes;
}

// The date of a rule in one year.
std::chrono::year_month_day date_in(const YearlyChange& rule, std::chrono::year year) {
    if (rule.which < 0) {
        return std::chrono::sys_days{year / rule.month / rule.weekday[std::chrono::last]};
    }
    return std::chrono::sys_days{year / rule.month /
                                 rule.weekday[static_cast<unsigned>(rule.which)]};
}

bool fits(const YearlyChange& rule, const Change& change) {
    return date_in(rule, change.date.year()) == change.date &&
           rule.time_of_day == change.time_of_day && rule.offset_from == change.offset_from &&
           rule.offset_to == change.offset_to;
}

// The rule behind every second change from `begin` on, one a year.
std::optional<YearlyChange> find_rule(const std::vector<Change>& changes, std::size_t begin) {
    const Change& model = changes[begin];
    YearlyChange rule{model.date.month(),
                      std::chrono::weekday{std::chrono::sys_days{model.date}},
                      -1,
                      model.time_of_day,
                      model.offset_from,
                      model.offset_to,
                      model.abbreviation};
    for (const int which : {-1, 1, 2, 3, 4}) {
        rule.which = which;
        bool holds = true;
        for (std::size_t change_id = begin; change_id < changes.size(); change_id += 2) {
            holds = holds && fits(rule, changes[change_id]);
        }
        if (holds) return rule;
    }
    return {};
}

// Two changes in each year from `first_year` to the last year known.
bool are_two_a_year(const std::vector<Change>& changes, std::chrono::year first_year) {
    int year = static_cast<int>(first_year);
    const int years = civil::last_year - year + 1;
    if (years < 1 || changes.size() != 2 * static_cast<std::size_t>(years)) return false;
    for (std::size_t change_id = 0; change_id < changes.size(); change_id += 2, ++year) {
        const std::chrono::year wanted{year};
        if (changes[change_id].date.year() != wanted) return false;
        if (changes[change_id + 1].date.year() != wanted) return false;
    }
    return true;
}

// RFC 5545, section 3.3.14; seconds only where they are not 0.
std::string offset_text(std::chrono::seconds offset) {
    const std::chrono::hh_mm_ss<std::chrono::seconds> parts{offset};
    std::string text = fmt::format("{}{:02}{:02}", parts.is_negative() ? '-' : '+',
                                   parts.hours().count(), parts.minutes().count());
    if (parts.seconds().count() != 0) text += fmt::format("{:02}", parts.seconds().count());
    return text;
}

std::string rule_text(const YearlyChange& rule) {
    return fmt::format("RRULE:FREQ=YEARLY;BYMONTH={};BYDAY={}{}", static_cast<unsigned>(rule.month),
                       rule.which, weekday_codes.at(rule.weekday.c_encoding()));
}

void append_observance(ContentLines& lines, std::string_view name, const YearlyChange& rule,
                       bool repeats) {
    const std::chrono::year_month_day date =
        repeats ? date_in(rule, rules_begin) : rules_begin / 1 / 1;
    const std::chrono::local_seconds begins =
        std::chrono::local_days{date} + std::chrono::seconds{rule.time_of_day};
    lines.push_back(fmt::format("BEGIN:{}", name));
    lines.push_back("DTSTART:" + local_stamp(begins));
    if (repeats) lines.push_back(rule_text(rule));
    lines.push_back("TZOFFSETFROM:" + offset_text(rule.offset_from));
    lines.push_back("TZOFFSETTO:" + offset_text(rule.offset_to));
    lines.push_back("TZNAME:" + escape(clean(rule.abbreviation, Lines::one)));
    lines.push_back(fmt::format("END:{}", name));
}

}  // namespace

std::optional<ZoneRules> find_rules(const civil::Zone& zone, std::chrono::year first_year) {
    const Changes changes = changes_from(zone, first_year);
    if (changes.list.empty()) {
        YearlyChange constant;
        constant.offset_from = changes.at_start.offset;
        constant.offset_to = changes.at_start.offset;
        constant.abbreviation = changes.at_start.abbreviation;
        return ZoneRules{constant, {}};
    }
    if (!are_two_a_year(changes.list, first_year)) return {};
    const std::optional<YearlyChange> first = find_rule(changes.list, 0);
    const std::optional<YearlyChange> second = find_rule(changes.list, 1);
    if (!first || !second || first->offset_from != second->offset_to) return {};
    if (first->offset_to > second->offset_to) return ZoneRules{*second, first};
    return ZoneRules{*first, second};
}

void append_vtimezone(ContentLines& lines, std::string_view zone_name, const ZoneRules& rules) {
    lines.emplace_back("BEGIN:VTIMEZONE");
    lines.push_back(fmt::format("TZID:{}", zone_name));
    append_observance(lines, "STANDARD", rules.standard, rules.daylight.has_value());
    if (rules.daylight) append_observance(lines, "DAYLIGHT", *rules.daylight, true);
    lines.emplace_back("END:VTIMEZONE");
}

}  // namespace stave::calendar
