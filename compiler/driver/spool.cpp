#include "compiler/driver/spool.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <stdexcept>
#include <string_view>
#include <system_error>
#include <utility>

namespace stave::driver {

namespace {

namespace fs = std::filesystem;

// The folder itself or the one that it will be made in.
fs::path nearest_folder(const std::string& folder) {
    std::error_code problem;
    fs::path path = fs::absolute(folder, problem);
    while (!fs::is_directory(path, problem) && path.has_relative_path())
        path = path.parent_path();
    return path;
}

bool write_at(int descriptor, std::uint64_t offset, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written =
            ::pwrite(descriptor, bytes.data(), bytes.size(), static_cast<off_t>(offset));
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) return false;
        bytes.remove_prefix(static_cast<std::size_t>(written));
        offset += static_cast<std::uint64_t>(written);
    }
    return true;
}

}  // namespace

std::string Content::bytes() const {
    if (is_held()) return held_;
    std::string bytes(size_, '\0');
    for (std::size_t at = 0; at < size_;) {
        const ssize_t got = ::pread(file_->number(), bytes.data() + at, size_ - at,
                                    static_cast<off_t>(offset_ + at));
        if (got < 0 && errno == EINTR) continue;
        if (got <= 0) throw std::runtime_error("the disk has lost what waited on it");
        at += static_cast<std::size_t>(got);
    }
    return bytes;
}

bool Spool::is_open() {
    if (!file_ && !folder_.empty()) {
        constexpr mode_t owner_alone = 0600;
        file_ = std::make_shared<const Descriptor>(
            ::open(nearest_folder(folder_).c_str(), O_TMPFILE | O_RDWR | O_CLOEXEC, owner_alone));
    }
    return file_ && file_->is_open();
}

Content Spool::take(std::string bytes) {
    Content content(std::move(bytes));
    const bool has_room = held_ + content.size_ <= most_;
    if (has_room || !is_open() || !write_at(file_->number(), end_, content.held_)) {
        held_ += content.size_;
        return content;
    }
    content.file_ = file_;
    content.offset_ = end_;
    end_ += content.size_;
    std::string().swap(content.held_);
    return content;
}

}  // namespace stave::driver
