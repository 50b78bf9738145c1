// Looks for a file that is known by what it is and not by its path.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace stave::driver {

// The first plain file below the folders that the function takes, near ones first. Goes some
// folders deep and looks at some thousands of files, follows no link to a folder, and leaves
// out folders whose names begin with a point. The folders are whole paths without links.
[[nodiscard]] std::optional<std::string> find_file(
    const std::vector<std::string>& folders,
    const std::function<bool(const std::filesystem::path&)>& is_it);

}  // namespace stave::driver
