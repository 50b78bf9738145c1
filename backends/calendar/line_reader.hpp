// A text's content lines one after the other, unfolded (RFC 5545, section 3.1), with any
// line ends. The last one may be missing.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace stave::calendar {

class LineReader {
public:
    // The text must outlive the reader.
    explicit LineReader(std::string_view text) : text_(text) {}

    // Moves to the next line; false behind the last.
    bool next();

    // Valid until the next move.
    [[nodiscard]] std::string_view line() const { return line_; }
    // Where the line stands in the text, its end and folds included.
    [[nodiscard]] std::size_t begin() const { return begin_; }
    [[nodiscard]] std::size_t end() const { return end_; }

private:
    // The physical line at `end_`, which moves behind it.
    std::string_view take();

    std::string_view text_;
    std::string_view line_;
    std::string joined_;
    std::size_t begin_ = 0;
    std::size_t end_ = 0;
};

}  // namespace stave::calendar
