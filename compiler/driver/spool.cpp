#include "compiler/driver/spool.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <stdexcept>
#include <string_view>
#include <system_error>
#include <utility>

#include "compiler/driver/parted_file.hpp"

namespace stave::driver {

namespace {

namespace fs = std::filesystem;

// What comes in parts goes to the disk from this size on.
constexpr std::size_t most_part = std::size_t{1} << 20U;

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

std::string Content::read(std::size_t offset, std::size_t count) const {
    const std::size_t begin = std::min(offset, size_);
    const std::size_t size = std::min(count, size_ - begin);
    if (is_held()) return held_.substr(begin, size);
    return read_at(file_->number(), offset_ + begin, size);
}

std::string Content::bytes() const {
    std::string bytes = read(0, size_);
    if (bytes.size() < size_) throw std::runtime_error("the disk has lost what waited on it");
    return bytes;
}

PartedText Content::parts() const {
    return {size_, [this](std::size_t offset, std::size_t count) { return read(offset, count); }};
}

bool Spool::is_open() {
    if (!file_ && !folder_.empty()) {
        constexpr mode_t owner_alone = 0600;
        file_ = std::make_shared<const Descriptor>(
            ::open(nearest_folder(folder_).c_str(), O_TMPFILE | O_RDWR | O_CLOEXEC, owner_alone));
    }
    return file_ && file_->is_open();
}

bool Spool::put_away(std::string_view bytes, std::uint64_t offset) {
    return is_open() && write_at(file_->number(), end_ + offset, bytes);
}

Content Spool::take(std::string bytes) {
    Content content(std::move(bytes));
    const bool has_room = held_ + content.size_ <= most_;
    if (has_room || !put_away(content.held_, 0)) {
        held_ += content.size_;
        return content;
    }
    content.file_ = file_;
    content.offset_ = end_;
    end_ += content.size_;
    std::string().swap(content.held_);
    return content;
}

Content Spool::take_parts(const std::function<void(const PartSink&)>& write) {
    // What has gone to the disk, and what follows it.
    Content content;
    std::string rest;
    write([&](std::string_view part) {
        rest += part;
        if (rest.size() < most_part || !put_away(rest, content.size_)) return;
        content.size_ += rest.size();
        rest.clear();
    });
    if (content.size_ == 0) return take(std::move(rest));
    content.file_ = file_;
    content.offset_ = end_;
    if (put_away(rest, content.size_)) {
        content.size_ += rest.size();
        end_ += content.size_;
        return content;
    }
    // The disk has become full on the way.
    return take(content.bytes() + rest);
}

}  // namespace stave::driver
