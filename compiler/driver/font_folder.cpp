#include "compiler/driver/font_folder.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <system_error>
#include <utility>
#include <vector>

namespace stave::driver {

namespace {

namespace fs = std::filesystem;

// A typeface with all its weights and widths has some fifty files.
constexpr std::size_t most_fonts = 100;
constexpr std::size_t most_megabytes = 64;

std::unexpected<Diagnostic> refused(Code code, std::vector<std::string> arguments) {
    return std::unexpected(Diagnostic{code, {}, std::move(arguments), {}, {}});
}

std::string ending_of(const fs::path& path) {
    std::string ending = path.extension().string();
    std::ranges::transform(ending, ending.begin(), [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    });
    return ending;
}

// The plain files of the folder with one of these endings, links to such files too.
std::expected<std::vector<fs::path>, std::error_code> files_in(
    const std::string& folder, const std::vector<std::string>& endings) {
    std::error_code problem;
    std::vector<fs::path> paths;
    fs::directory_iterator entries(folder, problem);
    while (!problem && entries != fs::directory_iterator()) {
        std::error_code unknown;
        if (std::ranges::find(endings, ending_of(entries->path())) != endings.end() &&
            entries->is_regular_file(unknown)) {
            paths.push_back(entries->path());
        }
        entries.increment(problem);
    }
    if (problem) return std::unexpected(problem);
    std::ranges::sort(paths);
    return paths;
}

std::expected<std::string, Diagnostic> read_font(const fs::path& path, std::size_t size) {
    errno = 0;
    std::ifstream file(path, std::ios::binary);
    std::string bytes(size, '\0');
    file.read(bytes.data(), static_cast<std::streamsize>(size));
    if (!file.is_open() || file.bad()) {
        const std::error_code reason(errno != 0 ? errno : EIO, std::generic_category());
        return refused(Code::cannot_read, {path.string(), reason.message()});
    }
    // Shorter where somebody is writing it.
    bytes.resize(static_cast<std::size_t>(file.gcount()));
    return bytes;
}

}  // namespace

std::expected<card::ChosenFamily, Diagnostic> read_family(const std::string& folder) {
    auto paths = files_in(folder, {".ttf"});
    // Without any, one of another kind tells what is wrong with the folder.
    if (paths && paths->empty()) paths = files_in(folder, {".otf", ".ttc", ".otc"});
    if (!paths) return refused(Code::font_folder, {folder, paths.error().message()});
    const auto too_much = [&] {
        return refused(Code::font_too_much,
                       {folder, std::to_string(most_fonts), std::to_string(most_megabytes)});
    };
    if (paths->size() > most_fonts) return too_much();
    std::vector<card::FontFile> files;
    std::size_t room = most_megabytes * 1'000'000;
    for (const fs::path& path : *paths) {
        std::error_code problem;
        const std::uintmax_t size = fs::file_size(path, problem);
        if (problem) return refused(Code::cannot_read, {path.string(), problem.message()});
        if (size > room) return too_much();
        room -= size;
        auto bytes = read_font(path, size);
        if (!bytes) return std::unexpected(std::move(bytes.error()));
        files.push_back({path.string(), std::move(*bytes)});
    }
    return card::choose_family(folder, std::move(files));
}

}  // namespace stave::driver
