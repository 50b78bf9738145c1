// What a published folder answers to a request of HTTP: RFC 9110 and RFC 9111.
//
// A function of the request, of what is found in the folder, and of the time; it refuses nothing
// by diagnostics, since who is told is at the other end. It only gives: GET and HEAD.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "backends/server/request.hpp"

namespace stave::server {

// Puts bytes from a place on there, as many as there is room for at most, and says how many;
// 0 where they are not to be had any more.
using Read = std::function<std::size_t(std::uint64_t first, std::span<char> room)>;

// What is sent: bytes that are held in memory, or what is read piece by piece as it is sent, and
// stays the same until then.
class Body {
public:
    Body() : Body(std::string()) {}
    explicit Body(std::string bytes)
        : bytes_(std::make_shared<const std::string>(std::move(bytes))), size_(bytes_->size()) {}
    Body(std::uint64_t size, Read read) : read_(std::move(read)), size_(size) {}

    [[nodiscard]] std::uint64_t size() const { return size_; }
    // Null where they are not held.
    [[nodiscard]] const std::shared_ptr<const std::string>& bytes() const { return bytes_; }
    // Of those that are not held.
    [[nodiscard]] std::size_t read(std::uint64_t first, std::span<char> room) const {
        return read_(first, room);
    }

private:
    std::shared_ptr<const std::string> bytes_;
    Read read_;
    std::uint64_t size_ = 0;
};

// The bytes of a file in one coding, and its strong entity tag with the quotes. The tag belongs
// to these bytes alone (RFC 9110, section 8.8.3.3: each coding has its own).
struct Representation {
    std::string tag;
    Body body;
};

struct File {
    std::chrono::sys_seconds changed;
    Representation plain;
    // By gzip (RFC 1952), where that is worth it.
    std::optional<Representation> packed;
};

// What stands at a path.
struct Nothing {};
struct Folder {};
// It may be there, and cannot be read now.
struct Unreadable {};
using Found = std::variant<Nothing, Folder, File, Unreadable>;

// `path` as `Place` has it.
using Find = std::function<Found(const std::string& path)>;

struct Answer {
    int status = 0;
    // Without Content-Length, Date and Connection, which whoever sends it adds.
    std::vector<Field> fields;
    // What is sent to a GET: these bytes of it. To a HEAD, and with 304, only its length is told.
    Body body;
    std::uint64_t first = 0;
    std::uint64_t length = 0;
    // What a log may say was given: a path that is not private, escaped; else empty.
    std::string shown_path;
};

[[nodiscard]] Answer answer(const Request& request, const Find& find, std::chrono::sys_seconds now);

// The tag of bytes with this hash, or known by it, in gzip or plain.
[[nodiscard]] std::string entity_tag(std::string_view hash, bool is_packed);

// "200 GET /feeds/crew.ics": nothing that a client made up and no private address.
[[nodiscard]] std::string log_line(const Request& request, const Answer& answer);

}  // namespace stave::server
