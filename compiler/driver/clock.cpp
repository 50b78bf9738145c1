#include "compiler/driver/clock.hpp"

#include <charconv>
#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "backends/calendar/stamp.hpp"

namespace stave::driver {

namespace {

using Moment = std::optional<std::chrono::sys_seconds>;

// Whole seconds since 1970, at most the last of the year 9999, as far as RFC 5545 can write.
Moment from_seconds(std::string_view digits) {
    constexpr std::int64_t last_second = 253'402'300'799;
    std::int64_t seconds = 0;
    const auto [end, problem] =
        std::from_chars(digits.data(), digits.data() + digits.size(), seconds);
    if (problem != std::errc() || end != digits.data() + digits.size()) return {};
    if (seconds < 0 || seconds > last_second) return {};
    return std::chrono::sys_seconds(std::chrono::seconds(seconds));
}

// "2026-12-01T12:00:00Z" and no other form (RFC 3339).
Moment from_date(std::string_view text) {
    constexpr std::string_view shape = "0000-00-00T00:00:00Z";
    if (text.size() != shape.size()) return {};
    std::string compact;
    for (std::size_t i = 0; i < shape.size(); ++i) {
        const bool is_mark = shape[i] == '-' || shape[i] == ':';
        if (!is_mark) compact += text[i];
        if (is_mark && text[i] != shape[i]) return {};
    }
    const Moment moment = calendar::parse_utc_stamp(compact);
    return moment && moment->time_since_epoch().count() >= 0 ? moment : Moment{};
}

std::unexpected<Diagnostic> problem(std::string name, const std::string& value, std::string form) {
    return std::unexpected(
        Diagnostic{Code::odd_clock, {}, {std::move(name), value, std::move(form)}, {}, {}});
}

}  // namespace

std::expected<Environment, Diagnostic> with_clock(const Options& options,
                                                  const Environment& environment) {
    Environment result = environment;
    if (environment.fixed_clock) {
        const Moment moment = from_seconds(*environment.fixed_clock);
        if (!moment) {
            return problem("SOURCE_DATE_EPOCH", *environment.fixed_clock,
                           "whole seconds since 1970");
        }
        result.made = moment;
        result.now = [moment] { return *moment; };
    }
    if (options.now) {
        const Moment moment = from_date(*options.now);
        if (!moment) return problem("--now", *options.now, "2026-12-01T12:00:00Z, a time in UTC");
        result.now = [moment] { return *moment; };
    }
    return result;
}

}  // namespace stave::driver
