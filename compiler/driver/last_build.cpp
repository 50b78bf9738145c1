#include "compiler/driver/last_build.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <system_error>
#include <utility>

#include "compiler/driver/files.hpp"
#include "compiler/driver/hashes.hpp"
#include "compiler/driver/parted_file.hpp"

namespace stave::driver {

namespace {

namespace fs = std::filesystem;
using Json = nlohmann::json;
using Made = LastBuild::Made;

// Changes with what is kept and how.
constexpr int form = 1;
constexpr std::size_t most_kept = 32;
constexpr std::size_t largest = std::size_t{64} << 20U;

std::int64_t ticks(fs::file_time_type time) {
    return time.time_since_epoch().count();
}

// Nothing where no plain file is.
std::optional<Made> look_at(const std::string& path) {
    std::error_code problem;
    const fs::directory_entry entry(path, problem);
    if (problem || !entry.is_regular_file(problem)) return std::nullopt;
    Made made;
    made.path = path;
    made.size = entry.file_size(problem);
    if (problem) return std::nullopt;
    made.saved = ticks(entry.last_write_time(problem));
    return problem ? std::nullopt : std::optional(std::move(made));
}

// Empty where the text could not be had.
std::string hash_of(const PartedText& text) {
    Sha256 hash;
    const bool is_whole = pass_on(text, [&](std::string_view part) { hash.add(part); });
    return is_whole ? hash.digits() : "";
}

bool has_hash(const std::string& path, const std::string& hash, std::size_t most) {
    const auto text = open_if_there(path, most);
    return text && *text && hash_of(**text) == hash;
}

// Another program, or other rules of the zones: a new one of either has another time.
std::string mark_of_file(const std::string& path) {
    std::error_code problem;
    const auto saved = fs::last_write_time(path, problem);
    return problem ? "" : std::to_string(ticks(saved));
}

bool can_be_known(const Options& options, const Environment& environment) {
    // What is read from elsewhere is not compared.
    const bool reads_all_from_files = std::ranges::find(options.files, "-") == options.files.end();
    return !environment.cache.empty() && reads_all_from_files && options.previous.empty() &&
           options.font.empty();
}

std::string question(const std::vector<std::string>& words, const Environment& environment) {
    std::error_code problem;
    const auto day = std::chrono::floor<std::chrono::days>(environment.now());
    const Json whole{form,
                     words,
                     fs::current_path(problem).string(),
                     environment.colour,
                     environment.fixed_clock.value_or(""),
                     day.time_since_epoch().count(),
                     mark_of_file("/proc/self/exe"),
                     mark_of_file("/usr/share/zoneinfo")};
    return whole.dump(-1, ' ', false, Json::error_handler_t::replace);
}

// The folder holds what is read by nobody but its owner.
bool make_own_folder(const std::string& folder) {
    if (make_folder(folder)) return false;
    std::error_code problem;
    fs::permissions(folder, fs::perms::owner_all, problem);
    return !problem;
}

void forget_oldest(const std::string& folder) {
    std::vector<std::pair<fs::file_time_type, fs::path>> kept;
    std::error_code problem;
    for (const auto& entry : fs::directory_iterator(folder, problem)) {
        if (entry.path().extension() != ".json") continue;
        kept.emplace_back(entry.last_write_time(problem), entry.path());
    }
    std::ranges::sort(kept);
    for (std::size_t i = 0; i + most_kept < kept.size(); ++i)
        fs::remove(kept[i].second, problem);
}

Json to_json(const LastBuild& build) {
    Json outputs = Json::array();
    for (const Made& made : build.outputs)
        outputs.push_back({made.kind, made.path, made.size, made.saved, made.hash});
    return {{"form", form},
            {"sources", build.sources},
            {"outputs", std::move(outputs)},
            {"summaries", build.summaries},
            {"problems", build.problems}};
}

// Throws what the library throws where the text has another form.
LastBuild from_json(const Json& json) {
    LastBuild build;
    build.sources = json.at("sources").get<SourceHashes>();
    for (const Json& one : json.at("outputs")) {
        build.outputs.push_back({one.at(0).get<std::string>(), one.at(1).get<std::string>(),
                                 one.at(2).get<std::uintmax_t>(), one.at(3).get<std::int64_t>(),
                                 one.at(4).get<std::string>()});
    }
    build.summaries = json.at("summaries").get<std::string>();
    build.problems = json.at("problems").get<std::string>();
    return build;
}

bool is_as_left(const Made& made) {
    const auto now = look_at(made.path);
    return now && now->size == made.size && now->saved == made.saved &&
           (made.hash.empty() || has_hash(made.path, made.hash, made.size));
}

bool is_as_read(const SourceHashes::value_type& source) {
    return has_hash(source.first, source.second, SourceFile::largest);
}

}  // namespace

BuildMemory::BuildMemory(const std::vector<std::string>& words, const Options& options,
                         const Environment& environment) {
    if (!can_be_known(options, environment)) return;
    folder_ = environment.cache;
    path_ = (fs::path(folder_) / (sha256(question(words, environment)) + ".json")).string();
}

std::optional<LastBuild> BuildMemory::recall() const {
    if (path_.empty()) return std::nullopt;
    const auto text = read_if_there(path_, largest);
    if (!text || !*text) return std::nullopt;
    try {
        LastBuild build = from_json(Json::parse(**text));
        const bool is_known = std::ranges::all_of(build.sources, is_as_read) &&
                              std::ranges::all_of(build.outputs, is_as_left);
        return is_known ? std::optional(std::move(build)) : std::nullopt;
    } catch (const Json::exception&) {
        // Damaged: as if there were none.
        return std::nullopt;
    }
}

void BuildMemory::keep(const SourceHashes& sources, const OutputSet& outputs,
                       const std::string& list, std::string summaries, std::string problems) const {
    if (path_.empty()) return;
    LastBuild build{sources, {}, std::move(summaries), std::move(problems)};
    // The times of files go by the ticks of the system's clock, some milliseconds long.
    constexpr auto tick = std::chrono::milliseconds(50);
    const std::int64_t young = ticks(fs::file_time_type::clock::now() - tick);
    const auto add = [&](std::string_view kind, const std::string& path, const Content& content) {
        auto made = look_at(path);
        if (!made || made->size != content.size()) return false;
        made->kind = kind;
        if (made->saved >= young) made->hash = hash_of(content.parts());
        build.outputs.push_back(std::move(*made));
        return true;
    };
    for (const auto& [path, output] : outputs) {
        if (!add(output.kind, path, output.content)) return;
    }
    auto listed = read_if_there(list, largest);
    if (!listed || !*listed || !add("", list, Content(std::move(**listed)))) return;
    if (!make_own_folder(folder_)) return;
    FileBatch batch;
    const std::string text = to_json(build).dump(-1, ' ', false, Json::error_handler_t::replace);
    if (batch.add(path_, text) || batch.put_in_place()) return;
    forget_oldest(folder_);
}

}  // namespace stave::driver
