#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <string_view>
#include <utility>

#include "backends/report/floor_report.hpp"
#include "backends/report/session_rows.hpp"
#include "compiler/civil/date_text.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::report {

namespace {

constexpr wording::Language english = wording::Language::english;

using Json = nlohmann::ordered_json;
using floors::BlockRota;

std::string_view method_name(floors::Method method) {
    switch (method) {
        case floors::Method::rotation:
            return "rotation";
        case floors::Method::coloured:
            return "coloured";
        case floors::Method::list:
            break;
    }
    return "list";
}

Json lacks(const std::vector<floors::Lack>& list) {
    Json found = Json::array();
    for (const floors::Lack& lack : list) {
        found.push_back({{"station", lack.item_id + 1},
                         {"what", lack.what},
                         {"wants", lack.wants},
                         {"has", lack.has}});
    }
    return found;
}

Json kit_bounds(const floors::Room& room) {
    Json found = Json::array();
    for (const floors::Bound& bound : floors::bounds(room)) {
        const floors::Resource& resource = room.resources[bound.resource_id];
        found.push_back({{"what", resource.name},
                         {"count", resource.count},
                         {"places", bound.places},
                         {"turns", bound.visits},
                         {"in_units", bound.is_in_units},
                         {"least_intervals", bound.intervals}});
    }
    return found;
}

Json advice(const BlockRota& one) {
    const floors::Room& room = one.made.room;
    Json found{{"queue_for", Json::array()}, {"buy", nullptr}, {"swap", nullptr}};
    for (const floors::Bound& bound : one.advice.tightest)
        found["queue_for"].push_back(room.resources[bound.resource_id].name);
    if (one.advice.buying) {
        Json things = Json::array();
        for (const floors::Purchase& purchase : one.advice.buying->purchases) {
            things.push_back(
                {{"what", room.resources[purchase.resource_id].name}, {"more", purchase.more}});
        }
        found["buy"] = {{"things", std::move(things)}, {"intervals", one.advice.buying->intervals}};
    }
    if (one.advice.swap) {
        found["swap"] = {{"station", one.advice.swap->station_id + 1},
                         {"without", room.resources[one.advice.swap->resource_id].name},
                         {"intervals", one.advice.swap->intervals}};
    }
    return found;
}

// For each interval and team its station and round.
Json intervals(const BlockRota& one) {
    const std::size_t stations = one.made.room.stations;
    Json rows = Json::array();
    for (const auto& interval : one.rota->where) {
        Json row = Json::array();
        for (const auto& visit : interval) {
            if (!visit) {
                row.push_back(nullptr);
            } else {
                row.push_back(
                    {{"station", *visit % stations + 1}, {"round", *visit / stations + 1}});
            }
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

Json team_names(const FloorView& view, const BlockRota& one) {
    Json names = Json::array();
    for (std::size_t team = 0; team < one.made.room.teams && !view.names.empty(); ++team)
        names.push_back(team_name(view, one, team));
    return names;
}

Json own_ways(const FloorView& view, const BlockRota& one) {
    Json pairs = Json::array();
    for (std::size_t team = 0; team < one.made.room.teams; ++team) {
        for (std::size_t station = 0; station < one.made.room.stations; ++station) {
            if (has_own_way(view, one, team, station))
                pairs.push_back({{"team", team + 1}, {"station", station + 1}});
        }
    }
    return pairs;
}

Json to_json(const FloorView& view, const BlockRota& one) {
    const program::Block& block = view.session.blocks[one.block_id];
    const floors::BlockRoom& made = one.made;
    Json stations = Json::array();
    for (const program::Item& item : block.items)
        stations.push_back(wording::name(item));
    Json object{{"letter", std::string(1, block.letter)},
                {"name", wording::block_name(english, block)},
                {"stations", std::move(stations)},
                {"rounds", made.room.rounds},
                {"people", made.people},
                {"team_size", made.team_size},
                {"teams", made.room.teams},
                {"team_names", team_names(view, one)},
                {"own_ways", own_ways(view, one)},
                {"interval_seconds", to_decimal(made.beat_seconds)},
                {"missing", lacks(made.missing)},
                {"too_few", lacks(made.too_few)},
                {"laid_out", one.rota.has_value()}};
    if (!one.rota) return object;
    object["method"] = method_name(one.rota->method);
    object["least_intervals"] = floors::least_intervals(made.room);
    object["kit"] = kit_bounds(made.room);
    object["advice"] = advice(one);
    object["intervals"] = intervals(one);
    return object;
}

}  // namespace

std::string floor_json(std::span<const FloorView> views) {
    Json list = Json::array();
    for (const FloorView& view : views) {
        Json object{{"number", view.session.number},
                    {"title", view.session.title},
                    {"name", view.session.slug},
                    {"date", view.session.when ? Json(civil::date_text(view.session.when->date))
                                               : Json(nullptr)},
                    {"has_kit_line", !view.session.kit.empty()},
                    {"blocks", Json::array()}};
        for (const BlockRota& one : view.rotas)
            object["blocks"].push_back(to_json(view, one));
        list.push_back(std::move(object));
    }
    return with_plain_blanks(list.dump(2) + "\n");
}

}  // namespace stave::report
