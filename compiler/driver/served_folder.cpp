#include "compiler/driver/served_folder.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <memory>
#include <span>
#include <string_view>
#include <system_error>
#include <utility>

#include "backends/server/media.hpp"
#include "backends/site/site.hpp"
#include "compiler/driver/descriptor.hpp"
#include "compiler/driver/gzip.hpp"
#include "compiler/driver/hashes.hpp"

namespace stave::driver {

namespace {

// Of the files that are held in memory: a card has some 25 kB, a large feed 1 MB.
constexpr std::size_t largest_held = std::size_t{8} << 20U;
// Of the files that are kept to be sent again.
constexpr std::size_t most_kept = std::size_t{64} << 20U;
// What is smaller fits one packet anyway.
constexpr std::size_t worth_packing = 500;

std::int64_t nanoseconds(const timespec& time) {
    constexpr std::int64_t in_a_second = 1'000'000'000;
    return time.tv_sec * in_a_second + time.tv_nsec;
}

// Opens what stands at the path, or nothing with `errno` set.
Descriptor open_below(const std::string& folder, std::string_view path) {
    Descriptor at(::open(folder.c_str(), O_PATH | O_DIRECTORY | O_CLOEXEC));
    while (at.is_open()) {
        const std::size_t stroke = path.find('/');
        const bool is_last = stroke == std::string_view::npos;
        const std::string name(path.substr(0, stroke));
        // A pipe would be waited for without O_NONBLOCK.
        const int how = is_last ? O_RDONLY | O_NONBLOCK | O_NOCTTY : O_PATH | O_DIRECTORY;
        at = Descriptor(::openat(at.number(), name.c_str(), how | O_NOFOLLOW | O_CLOEXEC));
        if (is_last) break;
        path.remove_prefix(stroke + 1);
    }
    return at;
}

// Up to the end, or up to one byte too many.
std::optional<std::string> read_all(int descriptor, std::size_t expected) {
    std::string bytes(std::min(expected, largest_held) + 1, '\0');
    std::size_t count = 0;
    while (count <= largest_held) {
        if (count == bytes.size()) bytes.resize(std::min(2 * count, largest_held + 1));
        const ssize_t got = ::read(descriptor, bytes.data() + count, bytes.size() - count);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) return std::nullopt;
        if (got == 0) break;
        count += static_cast<std::size_t>(got);
    }
    bytes.resize(count);
    bytes.shrink_to_fit();
    return bytes;
}

server::Representation represented(std::string bytes, std::string_view hash, bool is_packed) {
    return {server::entity_tag(hash, is_packed), server::Body(std::move(bytes))};
}

std::chrono::sys_seconds time_of(const timespec& changed) {
    return std::chrono::floor<std::chrono::seconds>(std::chrono::sys_time<std::chrono::nanoseconds>(
        std::chrono::nanoseconds(nanoseconds(changed))));
}

// Reads from the file for as long as nobody has written to it. What takes its place in the folder
// is another file.
server::Read reader_of(Descriptor file, const struct stat& before) {
    return [held = std::make_shared<const Descriptor>(std::move(file)), before](
               std::uint64_t first, std::span<char> room) -> std::size_t {
        ssize_t got = -1;
        do {
            got = ::pread(held->number(), room.data(), room.size(), static_cast<off_t>(first));
        } while (got < 0 && errno == EINTR);
        struct stat now {};
        const bool is_same = ::fstat(held->number(), &now) == 0 && now.st_size == before.st_size &&
                             nanoseconds(now.st_mtim) == nanoseconds(before.st_mtim);
        return got > 0 && is_same ? static_cast<std::size_t>(got) : 0;
    };
}

server::File file_of(std::string_view path, std::string bytes, std::chrono::sys_seconds changed) {
    server::File file;
    file.changed = changed;
    const std::string hash = sha256(bytes);
    if (server::media_of(path).packs && bytes.size() >= worth_packing) {
        std::string packed = gzipped(bytes);
        if (packed.size() < bytes.size()) file.packed = represented(std::move(packed), hash, true);
    }
    file.plain = represented(std::move(bytes), hash, false);
    return file;
}

// A second change within one tick of the clock leaves no trace in the times.
bool may_change_unseen(std::int64_t changed_nanoseconds, std::chrono::nanoseconds now) {
    return std::chrono::nanoseconds(changed_nanoseconds) > now - std::chrono::seconds(2);
}

std::chrono::nanoseconds clock_now() {
    return std::chrono::system_clock::now().time_since_epoch();
}

Diagnostic fault(Code code, const std::string& path, std::string reason = {}) {
    return {code, {}, {path, std::move(reason)}, {}, {}};
}

}  // namespace

std::optional<Diagnostic> ServedFolder::find_fault() {
    const Descriptor folder(::open(path_.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (!folder.is_open())
        return fault(Code::serve_folder, path_, std::generic_category().message(errno));
    const server::Found index = find("index.html");
    const auto* file = std::get_if<server::File>(&index);
    const auto bytes = file == nullptr ? nullptr : file->plain.body.bytes();
    if (!bytes || !bytes->contains(site::generator_mark)) return fault(Code::not_published, path_);
    return std::nullopt;
}

server::Found ServedFolder::find(const std::string& path) {
    Descriptor file = open_below(path_, path);
    if (!file.is_open()) {
        constexpr std::array absent{ENOENT, ENOTDIR, ELOOP, ENAMETOOLONG, ENXIO};
        if (std::ranges::find(absent, errno) != absent.end()) return server::Nothing{};
        return server::Unreadable{};
    }
    struct stat status {};
    if (::fstat(file.number(), &status) != 0) return server::Unreadable{};
    if (S_ISDIR(status.st_mode)) return server::Folder{};
    if (!S_ISREG(status.st_mode)) return server::Nothing{};
    if (std::cmp_greater(status.st_size, largest_held)) return in_pieces(std::move(file), status);
    const auto kept = kept_.find(path);
    if (kept != kept_.end() && kept->second.identity == identity_of(status))
        return kept->second.file;
    return read(path, std::move(file), status);
}

ServedFolder::Identity ServedFolder::identity_of(const struct stat& status) {
    return {static_cast<std::int64_t>(status.st_dev), static_cast<std::int64_t>(status.st_ino),
            status.st_size, nanoseconds(status.st_mtim), nanoseconds(status.st_ctim)};
}

// Its content is not read for its tag. So while it may change unseen no tag is given twice: a
// strong one must not stand for two contents (RFC 9110, section 8.8.1).
server::File ServedFolder::in_pieces(Descriptor file, const struct stat& status) {
    std::string known = fmt::format("{}", fmt::join(identity_of(status), " "));
    const std::int64_t last = std::max(nanoseconds(status.st_mtim), nanoseconds(status.st_ctim));
    const std::chrono::nanoseconds now = clock_now();
    if (may_change_unseen(last, now)) known += fmt::format(" at {}", now.count());
    server::File found;
    found.changed = time_of(status.st_mtim);
    found.plain = {server::entity_tag(sha256(known), false),
                   server::Body(static_cast<std::uint64_t>(status.st_size),
                                reader_of(std::move(file), status))};
    return found;
}

server::Found ServedFolder::read(const std::string& path, Descriptor file,
                                 const struct stat& before) {
    std::optional<std::string> bytes =
        read_all(file.number(), static_cast<std::size_t>(before.st_size));
    if (!bytes) return server::Unreadable{};
    if (bytes->size() > largest_held) {
        // It has grown since.
        struct stat grown {};
        if (::fstat(file.number(), &grown) != 0) return server::Unreadable{};
        return in_pieces(std::move(file), grown);
    }
    const bool is_still = std::cmp_equal(bytes->size(), before.st_size);
    Kept kept{identity_of(before), file_of(path, std::move(*bytes), time_of(before.st_mtim)), 0};
    server::File found = kept.file;
    const std::int64_t last = std::max(nanoseconds(before.st_mtim), nanoseconds(before.st_ctim));
    if (is_still && !may_change_unseen(last, clock_now())) keep(path, std::move(kept));
    return found;
}

void ServedFolder::keep(const std::string& path, Kept kept) {
    kept.bytes = kept.file.plain.body.size();
    if (kept.file.packed) kept.bytes += kept.file.packed->body.size();
    // Those that are asked for are soon there again.
    if (kept_bytes_ + kept.bytes > most_kept) {
        kept_.clear();
        kept_bytes_ = 0;
    }
    Kept& place = kept_[path];
    kept_bytes_ += kept.bytes - place.bytes;
    place = std::move(kept);
}

}  // namespace stave::driver
