#include "compiler/driver/files.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <functional>
#include <system_error>

#include "compiler/driver/descriptor.hpp"
#include "compiler/driver/parted_file.hpp"

namespace stave::driver {

namespace {

namespace fs = std::filesystem;
using namespace std::string_view_literals;

Diagnostic file_problem(Code code, const std::string& path, std::string detail = {}) {
    return {code, {}, {path, std::move(detail)}, {}, {}};
}

std::string reason(int number) {
    return std::generic_category().message(number);
}

bool write_all(int descriptor, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) return false;
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

// The error number, or 0. Changing the owner takes rights away, so these come last.
int give(int descriptor, const FileBatch::Ownership& ownership) {
    constexpr unsigned others = 0007;
    constexpr unsigned group = 0070;
    constexpr unsigned as_group = 02000;
    struct stat status {};
    if (::fstat(descriptor, &status) != 0) return errno;
    unsigned rights = ownership.rights;
    const bool same_owner = status.st_uid == ownership.owner;
    if (!same_owner && ::fchown(descriptor, ownership.owner, ownership.group) != 0) return errno;
    if (same_owner && status.st_gid != ownership.group &&
        ::fchown(descriptor, ownership.owner, ownership.group) != 0) {
        // Theirs would be the rights of another group.
        rights &= ~(group | as_group) | (rights & others) << 3U;
    }
    return ::fchmod(descriptor, rights) == 0 ? 0 : errno;
}

// The error number, or 0. The name holds the process's own number, so whatever
// stands there was left by a build that is over.
int write_beside(const std::string& temporary, const PartedText& text,
                 const std::optional<FileBatch::Ownership>& ownership) {
    constexpr mode_t readable_by_all = 0644;
    ::unlink(temporary.c_str());
    Descriptor file(
        ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, readable_by_all));
    if (file.number() < 0) return errno;
    if (ownership) {
        if (const int failed = give(file.number(), *ownership); failed != 0) return failed;
    }
    int failed = 0;
    const bool is_whole = pass_on(text, [&](std::string_view part) {
        if (failed == 0 && !write_all(file.number(), part)) failed = errno;
    });
    if (failed != 0 || !is_whole) return failed != 0 ? failed : EIO;
    if (::fsync(file.number()) != 0) return errno;
    return file.close() ? 0 : errno;
}

// "slack.ics" of "slack.ics.4711.part", as FileBatch names what it writes, else "".
std::string_view place_of_leftover(std::string_view name) {
    constexpr std::string_view ending = ".part";
    if (!name.ends_with(ending)) return "";
    name.remove_suffix(ending.size());
    const std::size_t point = name.find_last_not_of("0123456789");
    if (point == std::string_view::npos || point + 1 == name.size()) return "";
    return name[point] == '.' ? name.substr(0, point) : "";
}

// Those of a killed run grow old, those of a run at work do not. Gives the folders in it.
std::vector<std::string> remove_leftovers(
    const fs::path& folder, Leftovers which,
    const std::function<bool(std::string_view)>& takes_place) {
    std::vector<std::string> folders;
    std::error_code problem;
    const auto old = fs::file_time_type::clock::now() - std::chrono::hours(1);
    for (fs::directory_iterator entry(folder, problem), end; !problem && entry != end;
         entry.increment(problem)) {
        std::error_code ignored;
        const std::string& path = entry->path().native();
        if (!entry->is_symlink(ignored) && entry->is_directory(ignored)) folders.push_back(path);
        const std::string_view name = std::string_view(path).substr(path.rfind('/') + 1);
        if (!takes_place(place_of_leftover(name))) continue;
        const bool is_over = which == Leftovers::all || entry->last_write_time(ignored) < old;
        if (is_over && !ignored) fs::remove(entry->path(), ignored);
    }
    return folders;
}

}  // namespace

std::expected<std::string, Diagnostic> read_stream(std::istream& in, const std::string& shown,
                                                   std::size_t largest) {
    constexpr std::size_t chunk_size = 65536;
    std::string text;
    std::array<char, chunk_size> chunk{};
    while (in.read(chunk.data(), chunk.size()) || in.gcount() > 0) {
        text.append(chunk.data(), static_cast<std::size_t>(in.gcount()));
        if (text.size() > largest) {
            return std::unexpected(
                file_problem(Code::file_too_large, shown, std::to_string(largest / 1024 / 1024)));
        }
    }
    if (in.bad()) return std::unexpected(file_problem(Code::cannot_read, shown, reason(EIO)));
    return text;
}

std::expected<std::string, Diagnostic> read_file(const std::string& path, std::size_t largest) {
    std::error_code problem;
    if (fs::is_directory(path, problem)) {
        return std::unexpected(file_problem(Code::is_folder, path));
    }
    errno = 0;
    std::ifstream in(path, std::ios::binary);
    if (!in) {
        const int number = errno != 0 ? errno : EIO;
        return std::unexpected(file_problem(Code::cannot_read, path, reason(number)));
    }
    return read_stream(in, path, largest);
}

std::expected<bool, Diagnostic> is_file_there(const std::string& path) {
    std::error_code problem;
    const fs::file_type type = fs::status(path, problem).type();
    if (type == fs::file_type::not_found) return false;
    if (type == fs::file_type::directory) {
        return std::unexpected(file_problem(Code::cannot_write, path, reason(EISDIR)));
    }
    // A pipe or a device would be waited for, or never end.
    if (type != fs::file_type::regular && type != fs::file_type::none) {
        return std::unexpected(file_problem(Code::cannot_write, path, "it is no plain file"));
    }
    return true;
}

std::expected<std::optional<std::string>, Diagnostic> read_if_there(const std::string& path,
                                                                    std::size_t largest) {
    const auto is_there = is_file_there(path);
    if (!is_there) return std::unexpected(is_there.error());
    if (!*is_there) return std::nullopt;
    return read_file(path, largest);
}

std::optional<Diagnostic> make_folder(const std::string& path) {
    std::error_code problem;
    fs::create_directories(path, problem);
    if (problem) return file_problem(Code::cannot_write, path, problem.message());
    return std::nullopt;
}

std::vector<std::string> remove_leftovers(const std::string& folder, Leftovers which) {
    constexpr std::array endings{".pdf"sv, ".svg"sv, ".png"sv, ".ics"sv, ".html"sv, ".json"sv};
    return remove_leftovers(fs::path(folder), which, [&](std::string_view place) {
        return std::ranges::any_of(endings, [&](auto ending) { return place.ends_with(ending); });
    });
}

std::optional<Diagnostic> replace_source(const std::string& path, std::string_view bytes) {
    constexpr unsigned all_rights = 07777;
    constexpr unsigned write_rights = 0222;
    std::error_code problem;
    const fs::path place = fs::canonical(path, problem);
    struct stat status {};
    if (problem || ::stat(place.c_str(), &status) != 0) {
        return file_problem(Code::cannot_write, path, problem ? problem.message() : reason(errno));
    }
    if (!S_ISREG(status.st_mode)) {
        return file_problem(Code::cannot_write, path, "it is no plain file");
    }
    // An administrator may write all; what is marked as not to be written stays.
    const bool closed = (status.st_mode & write_rights) == 0;
    if (closed || ::access(place.c_str(), W_OK) != 0) {
        return file_problem(Code::cannot_write, path, reason(closed ? EACCES : errno));
    }
    const std::string name = place.filename().string();
    // No lock covers sources.
    remove_leftovers(place.parent_path(), Leftovers::of_an_hour_ago,
                     [&](std::string_view other) { return other == name; });
    FileBatch batch;
    auto failed =
        batch.add(place.string(), bytes,
                  FileBatch::Ownership{status.st_uid, status.st_gid, status.st_mode & all_rights});
    if (!failed) failed = batch.put_in_place();
    // As it was named.
    if (failed) failed->arguments.front() = path;
    return failed;
}

FileBatch::~FileBatch() {
    for (const Waiting& file : waiting_)
        ::unlink(file.temporary.c_str());
}

std::optional<Diagnostic> FileBatch::add(const std::string& path, std::string_view bytes,
                                         const std::optional<Ownership>& ownership) {
    return add(path, in_memory(bytes), ownership);
}

std::optional<Diagnostic> FileBatch::add(const std::string& path, const PartedText& text,
                                         const std::optional<Ownership>& ownership) {
    std::error_code unknown;
    if (fs::is_symlink(fs::symlink_status(path, unknown)))
        return Diagnostic{Code::output_link, {}, {path}, {}, {}};
    const std::string temporary = fmt::format("{}.{}.part", path, ::getpid());
    {
        const std::scoped_lock lock(mutex_);
        waiting_.push_back({temporary, path});
    }
    const int number = write_beside(temporary, text, ownership);
    if (number != 0) return file_problem(Code::cannot_write, path, reason(number));
    return std::nullopt;
}

std::optional<Diagnostic> FileBatch::put_in_place() {
    while (!waiting_.empty()) {
        const auto& [temporary, path] = waiting_.back();
        if (::rename(temporary.c_str(), path.c_str()) != 0) {
            return file_problem(Code::cannot_write, path, reason(errno));
        }
        waiting_.pop_back();
    }
    return std::nullopt;
}

}  // namespace stave::driver
