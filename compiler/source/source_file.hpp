// A source text: owned bytes at a fixed address, split into lines.
//
// Takes any bytes. A leading byte order mark is not part of the text. Only LF,
// CRLF and CR end a line, as in the editors coaches use. Texts over
// `SourceFile::largest` bytes are refused by the loader, not here.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/source/span.hpp"

namespace stave {

// A place as people count it: both from 1; the column in characters (code
// points), not bytes.
struct Position {
    std::uint32_t line = 1;
    std::uint32_t column = 1;

    friend bool operator==(Position, Position) = default;
};

// Neither copied nor moved, so that views into its text stay good as long as it
// lives.
class SourceFile {
public:
    static constexpr std::size_t largest = std::size_t{16} * 1024 * 1024;

    SourceFile(std::string path, std::string text);
    SourceFile(const SourceFile&) = delete;
    SourceFile& operator=(const SourceFile&) = delete;

    // As people know it: the path as given, "standard input" for -.
    [[nodiscard]] const std::string& path() const { return path_; }
    [[nodiscard]] std::string_view text() const { return text_; }
    [[nodiscard]] std::string_view text(Span span) const {
        return text().substr(span.begin, span.size());
    }

    [[nodiscard]] std::uint32_t line_count() const {
        return static_cast<std::uint32_t>(line_begins_.size());
    }
    // The line's bytes without its end; `line` counts from 0.
    [[nodiscard]] Span line(std::uint32_t line) const;
    // `offset` <= size of the text.
    [[nodiscard]] Position position(std::uint32_t offset) const;

private:
    std::string path_;
    std::string text_;
    // Offset of each line's first byte; the first is 0.
    std::vector<std::uint32_t> line_begins_;
};

}  // namespace stave
