// Bytes on their way to the disk, so that what a run makes need not fit into memory.
//
// The first megabytes stay in memory. What comes behind them waits in a file that has no name
// and is gone with the process, however that ends. Where there is no such file, or no room in
// it, all stays in memory: whether there is room for the outputs is told when they are written.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <utility>

#include "compiler/driver/descriptor.hpp"
#include "compiler/source/parted_text.hpp"

namespace stave::driver {

class Content {
public:
    Content() = default;
    explicit Content(std::string bytes) : held_(std::move(bytes)), size_(held_.size()) {}

    [[nodiscard]] std::size_t size() const { return size_; }
    // Whether it is in memory.
    [[nodiscard]] bool is_held() const { return file_ == nullptr; }
    // Can be called by several threads. Throws where the disk does not give back what it took,
    // as for want of memory.
    [[nodiscard]] std::string bytes() const;
    // The same part by part, of a content that must outlive it; fewer where the disk does not
    // give them back.
    [[nodiscard]] PartedText parts() const;

private:
    friend class Spool;

    [[nodiscard]] std::string read(std::size_t offset, std::size_t count) const;

    std::string held_;
    std::shared_ptr<const Descriptor> file_;
    std::uint64_t offset_ = 0;
    std::size_t size_ = 0;
};

class Spool {
public:
    // About a thousand cards.
    static constexpr std::size_t most_held = std::size_t{24} << 20U;

    // The file stands on the disk of the folder, which need not be there yet; where it is empty,
    // all stays in memory.
    explicit Spool(std::string folder = {}, std::size_t most = most_held)
        : folder_(std::move(folder)), most_(most) {}

    // What comes out outlives the spool.
    [[nodiscard]] Content take(std::string bytes);
    // What `write` hands over. Nothing else is taken meanwhile.
    [[nodiscard]] Content take_parts(const std::function<void(const PartSink&)>& write);

    // Bytes that it has left in memory.
    [[nodiscard]] std::size_t held() const { return held_; }

private:
    [[nodiscard]] bool is_open();
    // Puts the bytes behind what waits on the disk; false where there is no room.
    bool put_away(std::string_view bytes, std::uint64_t offset);

    std::string folder_;
    std::size_t most_;
    std::size_t held_ = 0;
    std::shared_ptr<const Descriptor> file_;
    std::uint64_t end_ = 0;
};

}  // namespace stave::driver
