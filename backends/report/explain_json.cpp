#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <utility>

#include "backends/report/session_rows.hpp"
#include "compiler/wording/told.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::report {

namespace {

constexpr wording::Language english = wording::Language::english;

using Json = nlohmann::ordered_json;

// Whole numbers as numbers, others as "3/2", so that nothing is rounded.
Json exact(Ratio value) {
    if (value.is_whole()) return value.numerator();
    return fmt::format("{}/{}", value.numerator(), value.denominator());
}

Json to_json(const program::Session& session, const timeline::Entry& entry) {
    const Row row = make_row(session, entry);
    Json object{{"start_seconds", exact(entry.start_seconds)},
                {"length_seconds", exact(entry.length_seconds)},
                {"kind", entry.kind == timeline::EntryKind::work ? "work" : "rest"},
                {"block", std::string(1, session.blocks[entry.block_id].letter)}};
    if (entry.kind == timeline::EntryKind::rest) {
        object["what"] = row.name;
        return object;
    }
    object["label"] = row.label;
    object["set"] = entry.set + 1;
    object["movement"] = row.name;
    object["side"] = row.side;
    object["dose"] = row.dose;
    object["load"] = row.load;
    return object;
}

Json to_json(const program::Program& program, const program::Block& block,
             const program::Item& item) {
    return {{"movement", wording::name(item)},
            {"dose", wording::dose(english, block, item)},
            {"below", wording::below_item(english, program, block, item, wording::Telling::full)}};
}

Json to_json(const program::Program& program, const program::Block& block,
             const timeline::BlockTotal& total) {
    Json items = Json::array();
    for (const program::Item& item : block.items)
        items.push_back(to_json(program, block, item));
    return {{"letter", std::string(1, block.letter)},
            {"name", wording::block_name(english, block)},
            {"rounds", block.rounds},
            {"runs", wording::format(english, block)},
            {"columns", block.columns},
            {"start_seconds", exact(total.start_seconds)},
            {"length_seconds", exact(total.length_seconds)},
            {"sets", total.sets},
            {"below", wording::below_block(english, block, wording::Telling::full)},
            {"items", std::move(items)}};
}

Json to_json(const timeline::MovementTotal& total) {
    return {{"movement", total.name},
            {"unit", plural(total.unit)},
            {"sets", total.sets},
            {"both", exact(total.both)},
            {"left", exact(total.left)},
            {"right", exact(total.right)},
            {"open_sets", total.open_sets},
            {"or_more", total.is_least},
            {"open_rounds", total.has_open_rounds},
            {"work_seconds", exact(total.work_seconds)},
            {"weighed_sets", total.weighed_sets},
            {"moved_kg", exact(total.volume.kilograms.all())}};
}

Json to_json(const timeline::VolumeLoad& volume) {
    Json written = Json::array();
    for (const Quantity& moved : volume.as_written)
        written.push_back({{"amount", exact(moved.value)}, {"unit", plural(moved.unit)}});
    return {{"kilograms", exact(volume.kilograms.all())},
            {"both", exact(volume.kilograms.both)},
            {"left", exact(volume.kilograms.left)},
            {"right", exact(volume.kilograms.right)},
            {"reps", exact(volume.reps)},
            {"as_written", std::move(written)}};
}

// Means are rounded, so they are decimals.
Json volume_json(const SessionView& view) {
    const timeline::VolumeLoad all = volume_load(view.timeline);
    Json object = to_json(all);
    object["kilograms_per_minute"] = to_decimal(density(all, minutes(view.timeline)), 2);
    object["movements"] = Json::array();
    for (const timeline::MovementTotal& total : view.timeline.movements) {
        const auto mean = mean_load(total.volume);
        if (!mean) continue;
        Json row{{"movement", total.name}};
        row.update(to_json(total.volume));
        row["kilograms_per_rep"] = to_decimal(*mean, 2);
        object["movements"].push_back(std::move(row));
    }
    object["athletes"] = Json::array();
    for (const AthleteVolume& athlete : view.athletes) {
        Json row{{"athlete", athlete.name}};
        row.update(to_json(athlete.volume));
        object["athletes"].push_back(std::move(row));
    }
    return object;
}

Json to_json(const SessionView& view) {
    const program::Session& session = view.session;
    Json object{{"number", session.number}, {"title", session.title}, {"name", session.slug}};
    if (session.when) {
        object["date"] = fmt::format("{}-{:02}-{:02}", static_cast<int>(session.when->date.year()),
                                     static_cast<unsigned>(session.when->date.month()),
                                     static_cast<unsigned>(session.when->date.day()));
        object["time"] = wording::clock(session.when->clock);
        object["zone"] = session.when->zone;
    }
    object["series"] = session.series;
    object["coach"] = session.coach;
    object["link"] = session.link;
    object["pages"] = session.pages;
    if (session.effort) object["effort"] = to_decimal(*session.effort, 4);
    object["minutes"] = timeline::minutes(view.timeline);
    object["total_seconds"] = exact(view.timeline.total_seconds);
    object["work_seconds"] = exact(view.timeline.work_seconds);
    object["sets"] = view.timeline.sets;
    object["blocks"] = Json::array();
    for (std::size_t i = 0; i < session.blocks.size(); ++i) {
        object["blocks"].push_back(
            to_json(view.program, session.blocks[i], view.timeline.blocks[i]));
    }
    object["entries"] = Json::array();
    for (const timeline::Entry& entry : view.timeline.entries) {
        object["entries"].push_back(to_json(session, entry));
    }
    object["movements"] = Json::array();
    for (const timeline::MovementTotal& total : view.timeline.movements) {
        object["movements"].push_back(to_json(total));
    }
    object["volume"] = volume_json(view);
    object["assumed"] = Json::array();
    for (const timeline::Assumption& assumption : view.timeline.assumptions) {
        object["assumed"].push_back(wording::assumption(assumption));
    }
    return object;
}

}  // namespace

std::string explain_json(std::span<const SessionView> views) {
    Json list = Json::array();
    for (const SessionView& view : views)
        list.push_back(to_json(view));
    return with_plain_blanks(list.dump(2) + "\n");
}

}  // namespace stave::report
