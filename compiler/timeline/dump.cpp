#include "compiler/timeline/dump.hpp"

#include <fmt/format.h>

#include <iterator>

namespace stave::timeline {

std::string dump(const Timeline& timeline) {
    constexpr std::string_view sides[] = {"both", "left", "right"};
    constexpr std::string_view places[] = {"sets",  "rounds",   "movements",
                                           "sides", "interval", "blocks"};
    constexpr std::string_view assumptions[] = {
        "counted_as_reps",        "default_rep_seconds", "default_step_cadence",
        "default_breath_seconds", "default_carry_speed", "default_travel_speed",
        "default_count_seconds",  "max_seconds",         "explosive_counts_one_second",
        "range_counts_upper_end", "kilocalorie_seconds", "at_least_counts_least",
        "best_of_seconds",        "build_up_sets",       "open_ladder_counts_first",
        "several_directions",     "one_load_counted",    "rest_as_needed",
        "walk_back_pace",         "one_round_counted",   "no_rest_said",
        "no_change_time",
    };
    std::string text;
    const auto out = std::back_inserter(text);
    for (const Entry& entry : timeline.entries) {
        fmt::format_to(out, "{} +{} ", to_decimal(entry.start_seconds),
                       to_decimal(entry.length_seconds));
        if (entry.kind == EntryKind::work) {
            fmt::format_to(out, "work block {} item {} part {} set {} {}", entry.block_id,
                           entry.item_id, entry.part_id, entry.set,
                           sides[static_cast<std::size_t>(entry.side)]);
            if (entry.pause_seconds > Ratio(0)) {
                fmt::format_to(out, " pausing {}", to_decimal(entry.pause_seconds));
            }
            text += '\n';
        } else if (entry.kind == EntryKind::more_rounds) {
            fmt::format_to(out, "more rounds block {}\n", entry.block_id);
        } else {
            fmt::format_to(out, "rest block {} item {} set {} between {}\n", entry.block_id,
                           entry.item_id, entry.set,
                           places[static_cast<std::size_t>(entry.rest_place)]);
        }
    }
    for (const BlockTotal& block : timeline.blocks) {
        fmt::format_to(out, "block from {} length {} sets {}\n", to_decimal(block.start_seconds),
                       to_decimal(block.length_seconds), block.sets);
    }
    for (const MovementTotal& total : timeline.movements) {
        fmt::format_to(
            out, "total \"{}\" {} sets {} both {} left {} right {} open {} work {} kg {}{}{}\n",
            total.name, plural(total.unit), total.sets, to_decimal(total.both),
            to_decimal(total.left), to_decimal(total.right), total.open_sets,
            to_decimal(total.work_seconds), to_decimal(total.volume.kilograms.all()),
            total.is_least ? " or more" : "", total.has_open_rounds ? " a round" : "");
    }
    for (const Assumption& assumption : timeline.assumptions) {
        fmt::format_to(out, "assumed {}", assumptions[static_cast<std::size_t>(assumption.kind)]);
        for (const std::string& movement : assumption.movements) {
            fmt::format_to(out, " \"{}\"", movement);
        }
        text += '\n';
    }
    fmt::format_to(out, "all {} work {} sets {}\n", to_decimal(timeline.total_seconds),
                   to_decimal(timeline.work_seconds), timeline.sets);
    return text;
}

}  // namespace stave::timeline
