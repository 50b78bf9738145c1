#include <fmt/format.h>

#include <iterator>
#include <utility>

#include "backends/report/columns.hpp"
#include "backends/report/session_rows.hpp"
#include "compiler/civil/date_text.hpp"
#include "compiler/wording/told.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::report {

namespace {

constexpr wording::Language english = wording::Language::english;

using Out = std::back_insert_iterator<std::string>;

std::string counted_sets(std::int64_t sets) {
    return fmt::format("{} set{}", sets, sets == 1 ? "" : "s");
}

std::string block_head(const program::Block& block, const timeline::BlockTotal& total) {
    std::string head = fmt::format("{}  {}", block.letter, wording::block_name(english, block));
    if (const std::string format = wording::format(english, block); !format.empty())
        head += ", " + format;
    return head + fmt::format("  ({}, {})", wording::duration(english, total.length_seconds),
                              counted_sets(total.sets));
}

// What is asked for, as the card says it; the rows behind it say when.
void add_doses(const program::Program& program, const program::Block& block, Out out) {
    using wording::Telling;
    for (const std::string& line : wording::below_block(english, block, Telling::full))
        fmt::format_to(out, "  {}\n", line);
    for (std::size_t i = 0; i < block.items.size(); ++i) {
        const program::Item& item = block.items[i];
        fmt::format_to(out, "  {}{}  {}\n", block.letter, i + 1,
                       wording::dosed(english, block, item));
        for (const std::string& line :
             wording::below_item(english, program, block, item, Telling::full))
            fmt::format_to(out, "      {}\n", line);
    }
    fmt::format_to(out, "\n");
}

void add_block(const SessionView& view, std::uint32_t block_id, Out out) {
    fmt::format_to(out, "\n{}\n",
                   block_head(view.session.blocks[block_id], view.timeline.blocks[block_id]));
    add_doses(view.program, view.session.blocks[block_id], out);
    std::vector<std::vector<std::string>> rows;
    for (const timeline::Entry& entry : view.timeline.entries) {
        if (entry.block_id != block_id) continue;
        const Row row = make_row(view.session, entry);
        rows.push_back({clock_text(entry.start_seconds), row.label, row.turn, row.name, row.side,
                        row.dose, row.load});
    }
    fmt::format_to(out, "{}", columns(rows, 2));
}

std::string total_text(Ratio value, Unit unit) {
    return fmt::format("{} {}", to_decimal(value, 2), plural(unit));
}

void add_movement_totals(const timeline::Timeline& timeline, Out out) {
    std::vector<std::vector<std::string>> rows;
    for (const timeline::MovementTotal& total : timeline.movements) {
        const Ratio all = total.both + total.left + total.right;
        std::string amount = all == Ratio(0) ? "" : total_text(all, total.unit);
        if (total.is_least) amount += " or more";
        if (total.open_sets > 0) {
            amount += fmt::format("{}{} × max", amount.empty() ? "" : " + ", total.open_sets);
        }
        if (total.has_open_rounds) amount += " a round";
        std::string sides;
        if (total.left != Ratio(0) || total.right != Ratio(0)) {
            sides = fmt::format("{} left, {} right", to_decimal(total.left, 2),
                                to_decimal(total.right, 2));
            if (total.both != Ratio(0))
                sides += fmt::format(", {} both", to_decimal(total.both, 2));
        }
        rows.push_back({total.name, counted_sets(total.sets), amount, sides});
    }
    fmt::format_to(out, "\nWhat it adds up to\n{}", columns(rows, 2));
}

void add_head(const program::Session& session, const timeline::Timeline& timeline, Out out) {
    fmt::format_to(out, "{}\n", wording::session_title(english, session));
    if (session.when) {
        fmt::format_to(out, "{}, {}{}{}\n", wording::date(english, session.when->date),
                       wording::clock(session.when->clock), session.when->zone.empty() ? "" : " ",
                       session.when->zone);
    }
    if (!session.place.empty()) fmt::format_to(out, "{}\n", session.place);
    if (!session.series.empty()) fmt::format_to(out, "Series: {}\n", session.series);
    if (!session.coach.empty()) fmt::format_to(out, "Coach: {}\n", session.coach);
    if (!session.link.empty()) fmt::format_to(out, "{}\n", session.link);
    if (session.pages > 1) fmt::format_to(out, "Its card may take {} pages\n", session.pages);
    if (session.effort) fmt::format_to(out, "Effort {} of 10\n", to_decimal(*session.effort, 4));
    if (!session.avoid.empty())
        fmt::format_to(out, "Somebody avoids: {}\n", wording::avoided(session));
    for (const std::string& stop : session.stops)
        fmt::format_to(out, "Stop: {}\n", stop);
    fmt::format_to(out, "{} min, {}, {} of work\n", timeline::minutes(timeline),
                   counted_sets(timeline.sets), wording::duration(english, timeline.work_seconds));
}

// Which of the days it is on which a plan holds the session, and for whom.
std::string plan_day(const program::Session& session) {
    if (session.day.empty() || !session.when) return "";
    std::string text = fmt::format(", {} {}", civil::date_text(session.when->date),
                                   civil::clock_text(session.when->clock));
    if (!session.group.empty()) text += ", group " + session.group;
    return text;
}

}  // namespace

std::string explain_text(const SessionView& view) {
    std::string text;
    const Out out(text);
    add_head(view.session, view.timeline, out);
    for (std::uint32_t i = 0; i < view.session.blocks.size(); ++i)
        add_block(view, i, out);
    add_movement_totals(view.timeline, out);
    text += volume_text(view);
    if (!view.timeline.assumptions.empty()) fmt::format_to(out, "\nAssumed\n");
    for (const timeline::Assumption& assumption : view.timeline.assumptions) {
        fmt::format_to(out, "  {}\n", wording::assumption(assumption));
    }
    return with_plain_blanks(std::move(text));
}

std::string summary(const SessionView& view, std::string_view whose) {
    std::string text = wording::session_title(english, view.session) + plan_day(view.session);
    if (!whose.empty()) text += fmt::format(", {}", whose);
    text += fmt::format(": {} min, {}", timeline::minutes(view.timeline),
                        counted_sets(view.timeline.sets));
    if (view.session.when && view.session.when->time_limit) {
        text +=
            fmt::format(", {} booked",
                        wording::duration(english, in_base_units(*view.session.when->time_limit)));
    }
    if (!view.session.when) text += ", no date, so no calendar entry";
    text += '\n';
    for (const timeline::Assumption& assumption : view.timeline.assumptions) {
        text += fmt::format("  assumed: {}\n", wording::assumption(assumption));
    }
    return with_plain_blanks(std::move(text));
}

}  // namespace stave::report
