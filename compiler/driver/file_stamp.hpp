// Whether a file is still the one that it was, without reading it.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>

namespace stave::driver {

struct FileStamp {
    std::uint64_t device = 0;
    std::uint64_t number = 0;
    std::uint64_t size = 0;
    // When its bytes were last written, and when anything about it was changed.
    std::chrono::nanoseconds saved{0};
    std::chrono::nanoseconds changed{0};

    friend bool operator==(const FileStamp&, const FileStamp&) = default;
};

// Nothing where no plain file is.
[[nodiscard]] std::optional<FileStamp> stamp_of(const std::string& path);

// A file of which it is known what it holds.
class KnownFile {
public:
    // The hash is that of its bytes alone.
    KnownFile(std::string path, std::string hash, std::uint64_t size)
        : path_(std::move(path)), hash_(std::move(hash)), size_(size) {}

    [[nodiscard]] const std::string& path() const { return path_; }
    [[nodiscard]] const std::string& hash() const { return hash_; }
    [[nodiscard]] std::uint64_t size() const { return size_; }

    // Whether it still holds that. It is read where its stamp is another one, or is so young that
    // it may have been written once more without a later time.
    [[nodiscard]] bool holds_still();

private:
    std::string path_;
    std::string hash_;
    std::uint64_t size_ = 0;
    // Under which the file has been read, and does not change unseen.
    std::optional<FileStamp> stamp_;
};

}  // namespace stave::driver
