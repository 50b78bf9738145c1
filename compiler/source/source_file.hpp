// A source text: owned bytes, split into lines.
//
// It may have several parts, each with a name of its own: the file first, then
// what is taken in from elsewhere. Spans and lines count through all parts, places
// as people know them begin anew in each. Adding a part moves the text, so views
// into it are taken once all parts are there.
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

// Lines and bytes of one text among several.
struct SourcePart {
    // As people know it: the path as given, "standard input" for -.
    std::string name;
    std::uint32_t begin = 0;
    std::uint32_t first_line = 0;
    std::uint32_t line_count = 0;
    // Of a part that was filled in from a pattern elsewhere in the text: for each of its
    // lines an offset in the pattern's line. Empty for what is a file of its own.
    std::vector<std::uint32_t> patterns;
};

// Neither copied nor moved, so that views into its text stay good as long as it
// lives and no part is added.
class SourceFile {
public:
    // Bytes of one part, and of all together.
    static constexpr std::size_t largest = std::size_t{16} * 1024 * 1024;
    static constexpr std::size_t largest_together = 4 * largest;

    SourceFile(std::string path, std::string text);
    SourceFile(const SourceFile&) = delete;
    SourceFile& operator=(const SourceFile&) = delete;

    // Gives the part's index; `parts().front()` is the file. Patterns are of lines that
    // are no filled ones, one for each line of the text, or none.
    std::uint32_t add_part(std::string name, std::string text,
                           std::vector<std::uint32_t> patterns = {});
    [[nodiscard]] const std::vector<SourcePart>& parts() const { return parts_; }
    // The part that holds the offset.
    [[nodiscard]] std::uint32_t part_at(std::uint32_t offset) const;

    // Of the file.
    [[nodiscard]] const std::string& path() const { return parts_.front().name; }
    // Of the part that holds the offset.
    [[nodiscard]] const std::string& path(std::uint32_t offset) const {
        return parts_[part_at(offset)].name;
    }
    [[nodiscard]] std::string_view text() const { return text_; }
    [[nodiscard]] std::string_view text(Span span) const {
        return text().substr(span.begin, span.size());
    }

    [[nodiscard]] std::uint32_t line_count() const {
        return static_cast<std::uint32_t>(line_begins_.size());
    }
    // The line's bytes without its end; `line` counts from 0 through all parts.
    [[nodiscard]] Span line(std::uint32_t line) const;
    // The line that holds the offset.
    [[nodiscard]] Span line_at(std::uint32_t offset) const;
    // In the part that holds the offset; `offset` <= size of the text. The line of what was
    // filled in is its pattern's, the column that of the filled text.
    [[nodiscard]] Position position(std::uint32_t offset) const;
    // Where an editor finds it: the span itself, or all of the pattern's line.
    [[nodiscard]] Span typed(Span span) const;

private:
    [[nodiscard]] std::uint32_t line_index(std::uint32_t offset) const;
    // The offset in the pattern of its line; the offset itself where it was not filled in.
    [[nodiscard]] std::uint32_t pattern_at(std::uint32_t offset) const;

    std::vector<SourcePart> parts_;
    std::string text_;
    // Offset of each line's first byte; the first is 0.
    std::vector<std::uint32_t> line_begins_;
};

}  // namespace stave
