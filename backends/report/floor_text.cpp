#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "backends/report/columns.hpp"
#include "backends/report/floor_report.hpp"
#include "backends/report/session_rows.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::report {

namespace {

constexpr wording::Language english = wording::Language::english;

using floors::BlockRota;
using floors::Bound;
using Rows = std::vector<std::vector<std::string>>;

std::string counted(std::int64_t count, std::string_view one) {
    return fmt::format("{} {}{}", count, one, count == 1 ? "" : "s");
}

std::string station_name(const program::Block& block, std::size_t item) {
    return fmt::format("{}{}", block.letter, item + 1);
}

// "1-3 7" of rising numbers.
std::string run_words(const std::vector<std::size_t>& numbers) {
    std::string text;
    for (std::size_t i = 0; i < numbers.size();) {
        std::size_t last = i;
        while (last + 1 < numbers.size() && numbers[last + 1] == numbers[last] + 1)
            ++last;
        text += text.empty() ? "" : " ";
        text += std::to_string(numbers[i]);
        if (last > i) text += fmt::format("{}{}", last == i + 1 ? ' ' : '-', numbers[last]);
        i = last + 1;
    }
    return text;
}

constexpr std::string_view own_way_mark = "*";

// What the mark means, where it stands in the block's rota.
std::string own_way_words(const FloorView& view, const BlockRota& one) {
    const bool is_marked =
        std::ranges::find(view.own_ways, one.block_id, &OwnWay::block_id) != view.own_ways.end();
    return is_marked ? fmt::format("{} does what their own card says", own_way_mark) : "";
}

// Teams, which count from 0, by their names, or all of them as runs of numbers.
std::vector<std::string> place_words(const FloorView& view, const BlockRota& one,
                                     const std::vector<std::size_t>& teams, std::size_t station) {
    if (teams.empty()) return {};
    std::vector<std::string> words;
    std::vector<std::size_t> numbers;
    for (const std::size_t team : teams) {
        numbers.push_back(team + 1);
        if (view.names.empty()) continue;
        words.push_back(team_name(view, one, team));
        if (has_own_way(view, one, team, station)) words.back() += own_way_mark;
    }
    return view.names.empty() ? std::vector{run_words(numbers)} : words;
}

// Who is at each station in an interval, and behind them who waits.
std::vector<std::vector<std::string>> places_at(const FloorView& view, const BlockRota& one,
                                                std::size_t interval) {
    const std::size_t stations = one.made.room.stations;
    std::vector<std::vector<std::size_t>> places(stations + 1);
    for (std::size_t team = 0; team < one.made.room.teams; ++team) {
        const auto visit = one.rota->where[interval][team];
        places[visit ? *visit % stations : stations].push_back(team);
    }
    std::vector<std::vector<std::string>> words;
    for (std::size_t station = 0; station < places.size(); ++station)
        words.push_back(place_words(view, one, places[station], station));
    return words;
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : ", ") + word;
    return text;
}

// A row for each interval: who is where, and who waits.
std::string wall_rota(const FloorView& view, const program::Block& block, const BlockRota& one) {
    const std::size_t stations = one.made.room.stations;
    Rows rows{{""}};
    for (std::size_t item = 0; item < stations; ++item)
        rows.front().push_back(station_name(block, item));
    rows.front().emplace_back("waits");
    for (std::size_t at = 0; at < one.rota->where.size(); ++at) {
        rows.push_back({std::to_string(at + 1)});
        for (const auto& place : places_at(view, one, at))
            rows.back().push_back(place.empty() ? "-" : joined(place));
    }
    return columns(rows, 2);
}

std::string teams_words(const BlockRota& one) {
    const floors::BlockRoom& made = one.made;
    if (made.team_size == 1)
        return made.people == 1 ? "1 person" : fmt::format("{} people", made.people);
    return fmt::format("{} people as {} of {}, each with one set of kit", made.people,
                       counted(static_cast<std::int64_t>(made.room.teams), "group"),
                       made.team_size);
}

std::string bound_words(const BlockRota& one, const Bound& bound) {
    const std::string& name = one.made.room.resources[bound.resource_id].name;
    if (bound.is_in_units) {
        return fmt::format("{} of {} for {} uses: at least {}", bound.places, name, bound.visits,
                           counted(bound.intervals, "interval"));
    }
    return fmt::format("{} of {}, enough for {} at a time, {}: at least {}",
                       one.made.room.resources[bound.resource_id].count, name, bound.places,
                       counted(bound.visits, "turn"), counted(bound.intervals, "interval"));
}

std::string who_one_is(const BlockRota& one) {
    return one.made.team_size == 1 ? "person" : "group";
}

// Why no rota can be shorter, and whether this one is as short.
std::string proof(const BlockRota& one) {
    const floors::Room& room = one.made.room;
    std::string text =
        fmt::format("  Each {} has {} x {} = {}.\n", who_one_is(one),
                    counted(static_cast<std::int64_t>(room.stations), "station"),
                    counted(static_cast<std::int64_t>(room.rounds), "round"),
                    counted(static_cast<std::int64_t>(room.stations * room.rounds), "interval"));
    for (const Bound& bound : floors::bounds(room))
        text += "  " + bound_words(one, bound) + ".\n";
    const std::int64_t least = floors::least_intervals(room);
    const auto length = static_cast<std::int64_t>(one.rota->where.size());
    if (length == least) {
        text += fmt::format("  No rota can be shorter than {}, and this one is as short.\n",
                            counted(least, "interval"));
    } else {
        text += fmt::format(
            "  No rota can be shorter than {}; this one has {}, and whether there is one "
            "between is not known.\n",
            counted(least, "interval"), length);
    }
    if (one.rota->method != floors::Method::rotation)
        text += "  Stations are not taken in the written order: follow the rota.\n";
    return text;
}

std::string purchases(const BlockRota& one) {
    std::vector<std::string> texts;
    for (const floors::Purchase& purchase : one.advice.buying->purchases) {
        texts.push_back(fmt::format("{} more of {}", purchase.more,
                                    one.made.room.resources[purchase.resource_id].name));
    }
    return wording::list(texts);
}

std::string advice_words(const program::Block& block, const BlockRota& one) {
    std::string text;
    const std::string_view best = floors::is_promised(one.made.room) ? "" : " at best";
    for (const Bound& bound : one.advice.tightest) {
        text += fmt::format("  The queue is for {}.\n",
                            one.made.room.resources[bound.resource_id].name);
    }
    if (one.advice.buying) {
        text += fmt::format("  With {}: {}{}.\n", purchases(one),
                            counted(one.advice.buying->intervals, "interval"), best);
    }
    if (one.advice.swap) {
        const floors::Swap& swap = *one.advice.swap;
        text += fmt::format("  With something else at {}, without {}: {}{}.\n",
                            station_name(block, swap.station_id),
                            one.made.room.resources[swap.resource_id].name,
                            counted(swap.intervals, "interval"), best);
    }
    return text;
}

std::string lacks(const program::Block& block, const BlockRota& one) {
    std::string text;
    for (const floors::Lack& lack : one.made.missing) {
        text += fmt::format("  {}: the kit line has no fitting {}; taken as enough for all.\n",
                            station_name(block, lack.item_id), lack.what);
    }
    for (const floors::Lack& lack : one.made.too_few) {
        text += fmt::format("  {}: takes {} of {}, and there is {}; no rota is made.\n",
                            station_name(block, lack.item_id), lack.wants, lack.what, lack.has);
    }
    return text;
}

std::string no_rota(const BlockRota& one) {
    if (!one.made.too_few.empty()) return "";
    return fmt::format(
        "  Not laid out: {} turns. The most are {} in a block and {} in all files together.\n",
        one.made.room.visits(), floors::most_visits, floors::most_visits_of_run);
}

std::string length_words(const BlockRota& one) {
    const auto length = static_cast<std::int64_t>(one.rota->where.size());
    return fmt::format("{} of {}, {} in all", counted(length, "interval"),
                       wording::duration(english, one.made.beat_seconds),
                       wording::duration(english, one.made.beat_seconds * Ratio(length)));
}

std::string title_of(const FloorView& view) {
    return wording::session_title(english, view.session) +
           (view.day.empty() ? "" : ", " + view.day);
}

// Where nobody ever waits nobody asks who does.
void drop_empty_end(FloorTable& table) {
    if (std::ranges::any_of(table.rows, [](const auto& row) { return !row.back().empty(); }))
        return;
    table.heads.pop_back();
    for (auto& row : table.rows)
        row.pop_back();
}

FloorTable table_of(const FloorView& view, const BlockRota& one) {
    const program::Block& block = view.session.blocks[one.block_id];
    FloorTable table;
    table.file_name = view.session.slug + (view.day.empty() ? "-" : "-" + view.day + "-") +
                      static_cast<char>(block.letter - 'A' + 'a');
    table.title = title_of(view);
    table.block = fmt::format("{}  {}", block.letter, wording::block_name(english, block));
    table.facts = teams_words(one) + ", " + length_words(one);
    if (const std::string own = own_way_words(view, one); !own.empty()) table.facts += "; " + own;
    for (std::size_t item = 0; item < block.items.size(); ++item)
        table.heads.push_back(station_name(block, item) + " " + wording::name(block.items[item]));
    table.heads.emplace_back("waits");
    for (std::size_t at = 0; at < one.rota->where.size(); ++at)
        table.rows.push_back(places_at(view, one, at));
    drop_empty_end(table);
    return table;
}

std::string block_text(const FloorView& view, const BlockRota& one) {
    const program::Block& block = view.session.blocks[one.block_id];
    std::string text = fmt::format("\n{}  {}: {}", block.letter,
                                   wording::block_name(english, block), teams_words(one));
    if (!one.rota) return text + '\n' + lacks(block, one) + no_rota(one);
    text += ", " + length_words(one) + '\n';
    for (std::size_t item = 0; item < block.items.size(); ++item) {
        text +=
            fmt::format("  {}  {}\n", station_name(block, item), wording::name(block.items[item]));
    }
    text += lacks(block, one) + '\n' + wall_rota(view, block, one) + '\n';
    if (const std::string own = own_way_words(view, one); !own.empty())
        text += fmt::format("  {}.\n", own);
    return text + proof(one) + advice_words(block, one);
}

}  // namespace

std::string team_name(const FloorView& view, const floors::BlockRota& rota, std::size_t team) {
    const auto size = static_cast<std::size_t>(rota.made.team_size);
    std::string text;
    for (std::size_t i = team * size; i < std::min((team + 1) * size, view.names.size()); ++i)
        text += (text.empty() ? "" : "+") + view.names[i];
    return text;
}

bool has_own_way(const FloorView& view, const floors::BlockRota& rota, std::size_t team,
                 std::size_t station) {
    const auto size = static_cast<std::size_t>(rota.made.team_size);
    return std::ranges::any_of(view.own_ways, [&](const OwnWay& way) {
        return way.block_id == rota.block_id && way.item_id == station &&
               way.person_id / size == team;
    });
}

std::vector<FloorTable> floor_tables(std::span<const FloorView> views) {
    std::vector<FloorTable> tables;
    for (const FloorView& view : views) {
        for (const BlockRota& one : view.rotas) {
            if (one.rota) tables.push_back(table_of(view, one));
        }
    }
    return tables;
}

std::string floor_text(std::span<const FloorView> views) {
    std::string text;
    for (const FloorView& view : views) {
        if (!text.empty()) text += "\n\n";
        text += title_of(view) + '\n';
        if (view.session.kit.empty()) text += "No kit line: nothing is taken to be short.\n";
        if (view.rotas.empty()) text += "No circuit, stations or superset to share out.\n";
        for (const BlockRota& one : view.rotas)
            text += block_text(view, one);
    }
    return with_plain_blanks(text);
}

}  // namespace stave::report
