// A folder for one test, removed with all that is in it.
#pragma once

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <string_view>

namespace stave::testing {

class TemporaryFolder {
public:
    TemporaryFolder() {
        std::string name = ::testing::TempDir() + "stave test XXXXXX";
        path_ = ::mkdtemp(name.data());
    }
    ~TemporaryFolder() { std::filesystem::remove_all(path_); }
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;

    [[nodiscard]] std::string path(std::string_view name) const {
        return (path_ / std::filesystem::path(name)).string();
    }
    // Writes the file and answers with its path.
    [[nodiscard]] std::string write(std::string_view name, std::string_view bytes) const {
        std::ofstream(path(name), std::ios::binary) << bytes;
        return path(name);
    }
    [[nodiscard]] std::string read(std::string_view name) const {
        std::ostringstream bytes;
        bytes << std::ifstream(path(name), std::ios::binary).rdbuf();
        return bytes.str();
    }
    // Files at any depth.
    [[nodiscard]] std::size_t file_count() const {
        std::size_t count = 0;
        for (const auto& entry : std::filesystem::recursive_directory_iterator(path_))
            count += entry.is_regular_file() ? 1 : 0;
        return count;
    }

private:
    std::filesystem::path path_;
};

}  // namespace stave::testing
