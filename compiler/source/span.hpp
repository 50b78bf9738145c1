// Places in a source text, as byte offsets. Everything below the driver speaks
// offsets; SourceFile::position alone turns them into lines and columns for people.
#pragma once

#include <cstdint>

namespace stave {

// Half-open range of bytes of one SourceFile: begin <= end <= its size.
struct Span {
    std::uint32_t begin = 0;
    std::uint32_t end = 0;

    [[nodiscard]] constexpr std::uint32_t size() const { return end - begin; }
    [[nodiscard]] constexpr bool empty() const { return begin == end; }
    friend constexpr bool operator==(Span, Span) = default;
};

// The smallest span that covers both.
[[nodiscard]] constexpr Span cover(Span first, Span second) {
    return {first.begin < second.begin ? first.begin : second.begin,
            first.end > second.end ? first.end : second.end};
}

}  // namespace stave
