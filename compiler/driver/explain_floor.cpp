#include "compiler/driver/explain_floor.hpp"

#include <algorithm>
#include <filesystem>
#include <list>
#include <optional>
#include <stdexcept>
#include <string_view>
#include <utility>
#include <vector>

#include "backends/card/fonts.hpp"
#include "backends/card/pdf/pdf_writer.hpp"
#include "backends/card/rota_sheet.hpp"
#include "backends/report/floor_report.hpp"
#include "compiler/analysis/issues.hpp"
#include "compiler/civil/date_text.hpp"
#include "compiler/driver/folder_lock.hpp"
#include "compiler/driver/folder_update.hpp"
#include "compiler/driver/output_set.hpp"
#include "compiler/fit/needs.hpp"
#include "compiler/fit/people.hpp"
#include "compiler/names/names.hpp"

namespace stave::driver {

namespace {

constexpr std::string_view floor_folder = "floor";

// A session of which a rota is made, with the indices of all athletes who do it.
struct Held {
    const analysis::Snapshot* snapshot = nullptr;
    analysis::Issue issue;
    std::vector<std::uint32_t> people;
};

bool is_on(const program::Session& session, const std::string& day) {
    return session.when && civil::date_text(session.when->date) == day;
}

// A list, since views point at its sessions.
std::list<Held> sessions_on(const std::string& day, const Loaded& loaded) {
    std::list<Held> found;
    for (const analysis::Snapshot& snapshot : loaded.snapshots) {
        for (const std::size_t id : analysis::held_issues(snapshot)) {
            analysis::Issue one = analysis::issue(snapshot, id);
            if (!is_on(one.session(), day)) continue;
            found.push_back(
                {&snapshot, std::move(one),
                 snapshot.people.empty() ? std::vector<std::uint32_t>{} : snapshot.people[id]});
        }
    }
    return found;
}

// Of a squad or of one athlete, by index; nothing where the file knows neither.
std::optional<std::vector<std::uint32_t>> members(const program::Program& program,
                                                  const std::string& folded) {
    const auto squad = std::ranges::find(program.squads, folded, &program::Squad::folded_name);
    if (squad != program.squads.end()) return squad->athlete_ids;
    const auto athlete =
        std::ranges::find(program.athletes, folded, &program::Athlete::folded_name);
    if (athlete == program.athletes.end()) return std::nullopt;
    return std::vector{static_cast<std::uint32_t>(athlete - program.athletes.begin())};
}

class FloorExplainer {
public:
    FloorExplainer(const Options& options, Loaded& loaded) : options_(options), loaded_(loaded) {}

    std::vector<report::FloorView> run() {
        if (!options_.squad.empty() && !is_name_known()) {
            report(Code::floor_name, {options_.squad});
            return {};
        }
        if (options_.day.empty()) {
            add_as_written();
        } else {
            held_ = sessions_on(options_.day, loaded_);
            if (held_.empty() && loaded_.exit_code() == 0) report(Code::floor_day, {options_.day});
            for (const Held& one : held_)
                add(*one.snapshot, one.issue.session(), one.issue.timeline(), one.people);
        }
        return std::move(views_);
    }

private:
    // Files with errors know nobody, and have said so.
    [[nodiscard]] bool is_name_known() const {
        const std::string folded = fold_name(options_.squad);
        return loaded_.exit_code() != 0 ||
               std::ranges::any_of(loaded_.snapshots, [&](const analysis::Snapshot& snapshot) {
                   return members(snapshot.program, folded).has_value();
               });
    }

    void add_as_written() {
        for (const analysis::Snapshot& snapshot : loaded_.snapshots) {
            for (std::size_t i = 0; i < snapshot.timelines.size(); ++i) {
                const program::Session& session = snapshot.program.sessions[i];
                add(snapshot, session, snapshot.timelines[i],
                    fit::people_of(snapshot.program, session));
            }
        }
    }

    void add(const analysis::Snapshot& snapshot, const program::Session& session,
             const timeline::Timeline& timeline, const std::vector<std::uint32_t>& all) {
        report::FloorView view{session, {}, {}, options_.day, {}};
        int people = options_.people;
        if (!options_.squad.empty()) {
            const std::vector<std::uint32_t> ids = who_comes(snapshot.program, all);
            for (const std::uint32_t id : ids)
                view.names.push_back(snapshot.program.athletes[id].name);
            view.own_ways = own_ways(snapshot.program, session, ids);
            people = static_cast<int>(ids.size());
            if (people == 0) return;
            if (people > floors::most_in_room) return report_many(ids.size());
        }
        view.rotas = floors::rotas(snapshot.program, session, timeline, people, visits_left_);
        views_.push_back(std::move(view));
    }

    // Those who come to a session of all who do it, in the order of the file.
    [[nodiscard]] std::vector<std::uint32_t> who_comes(
        const program::Program& program, const std::vector<std::uint32_t>& all) const {
        std::vector<std::uint32_t> ids =
            members(program, fold_name(options_.squad)).value_or(std::vector<std::uint32_t>{});
        std::erase_if(ids,
                      [&](std::uint32_t id) { return std::ranges::find(all, id) == all.end(); });
        return ids;
    }

    // Where they are to avoid what is asked for.
    static std::vector<report::OwnWay> own_ways(const program::Program& program,
                                                const program::Session& session,
                                                const std::vector<std::uint32_t>& ids) {
        std::vector<report::OwnWay> ways;
        for (std::size_t person_id = 0; person_id < ids.size(); ++person_id) {
            const program::Athlete& athlete = program.athletes[ids[person_id]];
            for (std::size_t block_id = 0; block_id < session.blocks.size(); ++block_id) {
                const auto& items = session.blocks[block_id].items;
                for (std::size_t item_id = 0; item_id < items.size(); ++item_id) {
                    if (fit::to_be_avoided(program, athlete, items[item_id]))
                        ways.push_back({person_id, block_id, item_id});
                }
            }
        }
        return ways;
    }

    void report_many(std::size_t count) {
        if (std::exchange(is_many_told_, true)) return;
        report(Code::floor_people,
               {options_.squad, std::to_string(count), std::to_string(floors::most_in_room)});
    }

    void report(Code code, std::vector<std::string> arguments) {
        loaded_.file_problems.push_back({code, {}, std::move(arguments), {}, {}});
    }

    const Options& options_;
    Loaded& loaded_;
    std::list<Held> held_;
    std::vector<report::FloorView> views_;
    std::size_t visits_left_ = floors::most_visits_of_run;
    bool is_many_told_ = false;
};

// A PDF for each rota.
void write_sheets(const Options& options, Loaded& loaded,
                  const std::vector<report::FloorView>& views, Environment& environment) {
    const std::filesystem::path folder = std::filesystem::path(options.out) / floor_folder;
    OutputSet outputs;
    card::Fonts fonts(loaded.family);
    for (report::FloorTable& table : report::floor_tables(views)) {
        const card::RotaSheet sheet{std::move(table.title), std::move(table.block),
                                    std::move(table.facts), std::move(table.heads),
                                    std::move(table.rows)};
        auto bytes = card::write_pdf(card::lay_out_rota(sheet, fonts), fonts, environment.made);
        if (!bytes) throw std::runtime_error(bytes.error().detail);
        const std::string path = (folder / (table.file_name + ".pdf")).string();
        if (auto twice = add_output(outputs, "rota", path, std::move(*bytes)))
            loaded.file_problems.push_back(std::move(*twice));
    }
    if (loaded.exit_code() != 0) return;
    const auto lock = lock_for(options.out, loaded);
    if (!lock) return loaded.file_problems.push_back(lock.error());
    FolderUpdate update;
    update.folder = options.out;
    update.subfolders = {std::string(floor_folder)};
    update.is_alone = is_held(*lock);
    update.covers = [](const auto&...) { return false; };
    update.may_replace = [](const auto&...) { return true; };
    if (auto cleared = update_folder(update, outputs); !cleared) {
        loaded.file_problems.push_back(std::move(cleared.error()));
    } else {
        say_outputs(outputs, environment.out);
    }
}

}  // namespace

void explain_floor(const Options& options, Loaded& loaded, Environment& environment) {
    FloorExplainer explainer(options, loaded);
    const std::vector<report::FloorView> views = explainer.run();
    if (options.wall) return write_sheets(options, loaded, views, environment);
    environment.out << (options.json ? report::floor_json(views) : report::floor_text(views));
}

}  // namespace stave::driver
