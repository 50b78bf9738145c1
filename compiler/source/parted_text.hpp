// A text that is read part by part from wherever it is, so that one that is larger than a
// memory need not be held.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>

namespace stave {

struct PartedText {
    // Bytes.
    std::size_t size = 0;
    // Those from `offset` on, `count` or as many as there are; the same whenever it is asked. It
    // gives fewer where they can no longer be had.
    std::function<std::string(std::size_t offset, std::size_t count)> read = {};
};

// What a text is handed to part by part.
using PartSink = std::function<void(std::string_view)>;

// Of a text in memory, which must outlive it.
[[nodiscard]] inline PartedText in_memory(std::string_view text) {
    return {text.size(), [text](std::size_t offset, std::size_t count) {
                return std::string{text.substr(offset, count)};
            }};
}

}  // namespace stave
