#include "compiler/driver/file_stamp.hpp"

#include <sys/stat.h>

#include <algorithm>

#include "compiler/driver/hashes.hpp"
#include "compiler/driver/parted_file.hpp"

namespace stave::driver {

namespace {

std::chrono::nanoseconds since_epoch(const timespec& time) {
    return std::chrono::seconds(time.tv_sec) + std::chrono::nanoseconds(time.tv_nsec);
}

// The times of files go by the ticks of the system's clock, some milliseconds long.
bool is_old(const FileStamp& stamp, std::chrono::system_clock::time_point moment) {
    constexpr auto tick = std::chrono::milliseconds(50);
    return std::max(stamp.saved, stamp.changed) + tick < moment.time_since_epoch();
}

bool has_hash(const std::string& path, std::uint64_t size, const std::string& hash) {
    const auto text = open_if_there(path, size);
    if (!text || !*text || (*text)->size != size) return false;
    Sha256 found;
    return pass_on(**text, [&](std::string_view part) { found.add(part); }) &&
           found.digits() == hash;
}

}  // namespace

std::optional<FileStamp> stamp_of(const std::string& path) {
    struct stat status {};
    if (::stat(path.c_str(), &status) != 0 || !S_ISREG(status.st_mode)) return std::nullopt;
    return FileStamp{status.st_dev, status.st_ino, static_cast<std::uint64_t>(status.st_size),
                     since_epoch(status.st_mtim), since_epoch(status.st_ctim)};
}

bool KnownFile::holds_still() {
    const auto moment = std::chrono::system_clock::now();
    const auto now = stamp_of(path_);
    if (!now || now->size != size_) return false;
    if (now == stamp_) return true;
    if (!has_hash(path_, size_, hash_)) return false;
    if (is_old(*now, moment)) stamp_ = now;
    return true;
}

}  // namespace stave::driver
