#include <fmt/format.h>

#include "backends/report/columns.hpp"
#include "backends/report/report.hpp"

namespace stave::report {

namespace {

using timeline::MovementTotal;
using timeline::VolumeLoad;

std::string kilograms_text(Ratio kilograms) {
    return to_decimal(kilograms, 2) + " kg";
}

// "500 kg + 1125 lb", where that is not said by the kilograms themselves.
std::string written_text(const VolumeLoad& volume) {
    if (volume.as_written.size() == 1 && volume.as_written.front().unit == Unit::kilogram)
        return "";
    std::string text;
    for (const Quantity& moved : volume.as_written) {
        text += fmt::format("{}{} {}", text.empty() ? "= " : " + ", to_decimal(moved.value, 2),
                            plural(moved.unit));
    }
    return text;
}

std::string sides_text(const timeline::Sided& kilograms) {
    if (kilograms.left == Ratio(0) && kilograms.right == Ratio(0)) return "";
    std::string text = fmt::format("{} left, {} right", to_decimal(kilograms.left, 2),
                                   to_decimal(kilograms.right, 2));
    if (kilograms.both != Ratio(0)) text += fmt::format(", {} both", to_decimal(kilograms.both, 2));
    return text;
}

std::vector<std::string> row(const MovementTotal& total) {
    const VolumeLoad& volume = total.volume;
    // Shares and efforts are no kilograms.
    const std::string some = total.weighed_sets < total.sets
                                 ? fmt::format("in {} of {} sets", total.weighed_sets, total.sets)
                                 : "";
    return {total.name,
            to_decimal(volume.reps, 2) + " reps",
            kilograms_text(volume.kilograms.all()),
            kilograms_text(*mean_load(volume)) + " a rep",
            sides_text(volume.kilograms),
            written_text(volume),
            some};
}

}  // namespace

std::string volume_text(const SessionView& view) {
    std::vector<std::vector<std::string>> rows;
    for (const MovementTotal& total : view.timeline.movements) {
        if (total.volume.reps != Ratio(0)) rows.push_back(row(total));
    }
    if (rows.empty() && view.athletes.empty()) return "";
    const VolumeLoad all = volume_load(view.timeline);
    std::string text =
        fmt::format("\nVolume load: {}, {} a minute\n", kilograms_text(all.kilograms.all()),
                    kilograms_text(density(all, minutes(view.timeline))));
    text += columns(rows, 2);
    rows.clear();
    for (const AthleteVolume& athlete : view.athletes)
        rows.push_back({athlete.name, kilograms_text(athlete.volume.kilograms.all())});
    if (!rows.empty()) text += "  For each athlete, with loads of their own\n" + columns(rows, 4);
    return text;
}

}  // namespace stave::report
