#include "compiler/analysis/booked_time.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>

namespace stave::analysis {

namespace {

constexpr std::int64_t seconds_per_minute = 60;

// "The session", or "In week 5 the session".
std::string subject(const program::Session& session) {
    if (!session.plan_week) return "The session";
    return fmt::format("In week {} the session", session.plan_week->week);
}

}  // namespace

bool check_booked_time(const program::Session& session, const timeline::Timeline& timeline,
                       DiagnosticSink& sink) {
    if (!session.when || !session.when->time_limit) return false;
    const Ratio booked = in_base_units(*session.when->time_limit);
    if (timeline.total_seconds <= booked || timeline.blocks.empty()) return false;
    const auto longest =
        std::ranges::max_element(timeline.blocks, {}, &timeline::BlockTotal::length_seconds);
    const auto block_id = static_cast<std::size_t>(longest - timeline.blocks.begin());
    const program::Block& block = session.blocks[block_id];
    const std::string name = block.title.empty()
                                 ? fmt::format("Block {}", block.letter)
                                 : fmt::format("Block {}, {},", block.letter, block.title);
    const Ratio minutes(timeline::minutes(timeline));
    const Ratio booked_minutes = booked / Ratio(seconds_per_minute);
    sink.report({Code::over_time,
                 session.when->span,
                 {to_decimal(minutes), to_decimal(booked_minutes, 1), name,
                  std::to_string(ceil(longest->length_seconds / Ratio(seconds_per_minute))),
                  to_decimal(minutes - booked_minutes, 1), subject(session)},
                 {},
                 {{block.span, "it begins here"}}});
    return true;
}

}  // namespace stave::analysis
