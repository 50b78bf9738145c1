#include "compiler/driver/parted_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <memory>
#include <string_view>
#include <system_error>
#include <utility>

#include "compiler/driver/descriptor.hpp"
#include "compiler/driver/files.hpp"

namespace stave::driver {

namespace {

// Bytes that are read at once where one part follows the other.
constexpr std::size_t window_size = std::size_t{256} << 10U;

class OpenFile {
public:
    OpenFile(Descriptor file, std::size_t size) : file_(std::move(file)), size_(size) {}

    std::string read(std::size_t offset, std::size_t count) {
        const std::size_t begin = std::min(offset, size_);
        const std::size_t end = begin + std::min(count, size_ - begin);
        if (begin >= base_ && end <= base_ + window_.size())
            return window_.substr(begin - base_, end - begin);
        // Who goes from place to place is not helped by what stands around each.
        const bool goes_on = begin >= base_ && begin <= base_ + window_.size();
        if (!goes_on || end - begin >= window_size) {
            base_ = end;
            window_.clear();
            return read_at(file_.number(), begin, end - begin);
        }
        base_ = begin;
        window_ = read_at(file_.number(), begin, std::min(window_size, size_ - begin));
        return window_.substr(0, end - begin);
    }

private:
    Descriptor file_;
    std::size_t size_;
    // What was read around the last place, and where it begins.
    std::string window_;
    std::size_t base_ = 0;
};

PartedText held(std::string bytes) {
    const auto text = std::make_shared<const std::string>(std::move(bytes));
    return {text->size(), [text](std::size_t offset, std::size_t count) {
                return text->substr(std::min(offset, text->size()), count);
            }};
}

}  // namespace

std::string read_at(int descriptor, std::uint64_t offset, std::size_t count) {
    std::string bytes(count, '\0');
    std::size_t have = 0;
    while (have < count) {
        const ssize_t got = ::pread(descriptor, bytes.data() + have, count - have,
                                    static_cast<off_t>(offset + have));
        if (got < 0 && errno == EINTR) continue;
        if (got <= 0) break;
        have += static_cast<std::size_t>(got);
    }
    bytes.resize(have);
    return bytes;
}

std::expected<PartedText, Diagnostic> open_file(const std::string& path, std::size_t largest) {
    Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    struct stat status {};
    const bool is_plain =
        file.is_open() && ::fstat(file.number(), &status) == 0 && S_ISREG(status.st_mode);
    const auto size = static_cast<std::size_t>(status.st_size);
    if (is_plain && size <= largest) {
        const auto open = std::make_shared<OpenFile>(std::move(file), size);
        return PartedText{size, [open](std::size_t offset, std::size_t count) {
                              return open->read(offset, count);
                          }};
    }
    // A pipe gives its bytes once; what is no file at all has its words there.
    auto bytes = read_file(path, largest);
    if (!bytes) return std::unexpected(std::move(bytes.error()));
    return held(std::move(*bytes));
}

std::expected<std::optional<PartedText>, Diagnostic> open_if_there(const std::string& path,
                                                                   std::size_t largest) {
    const auto is_there = is_file_there(path);
    if (!is_there) return std::unexpected(is_there.error());
    if (!*is_there) return std::nullopt;
    auto text = open_file(path, largest);
    if (!text) return std::unexpected(std::move(text.error()));
    return std::move(*text);
}

bool pass_on(const PartedText& text, const PartSink& sink) {
    std::size_t done = 0;
    while (done < text.size) {
        const std::string part = text.read(done, window_size);
        if (part.empty()) return false;
        sink(part);
        done += part.size();
    }
    return true;
}

}  // namespace stave::driver
