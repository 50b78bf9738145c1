#include "compiler/driver/source_search.hpp"

#include <cstddef>
#include <deque>
#include <set>
#include <system_error>
#include <utility>

namespace stave::driver {

namespace {

namespace fs = std::filesystem;

constexpr int deepest = 4;
constexpr std::size_t most_files = 20'000;

}  // namespace

std::optional<std::string> find_file(const std::vector<std::string>& folders,
                                     const std::function<bool(const fs::path&)>& is_it) {
    std::deque<std::pair<fs::path, int>> waiting;
    std::set<fs::path> met;
    for (const std::string& folder : folders) {
        if (met.insert(folder).second) waiting.emplace_back(folder, 0);
    }
    std::size_t count = 0;
    for (; !waiting.empty() && count < most_files; waiting.pop_front()) {
        const auto& [folder, depth] = waiting.front();
        std::error_code problem;
        for (fs::directory_iterator entry(folder, problem), end;
             !problem && entry != end && count < most_files; entry.increment(problem)) {
            std::error_code unknown;
            const fs::path& path = entry->path();
            if (entry->is_regular_file(unknown)) {
                ++count;
                if (is_it(path)) return path.string();
            }
            const bool is_folder = !entry->is_symlink(unknown) && entry->is_directory(unknown);
            const bool is_hidden = path.filename().string().starts_with('.');
            if (is_folder && !is_hidden && depth < deepest && met.insert(path).second)
                waiting.emplace_back(path, depth + 1);
        }
    }
    return std::nullopt;
}

}  // namespace stave::driver
