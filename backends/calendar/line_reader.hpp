// A text's content lines one after the other, unfolded (RFC 5545, section 3.1), with any
// line ends. The last one may be missing.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

#include "compiler/source/parted_text.hpp"

namespace stave::calendar {

class LineReader {
public:
    // The text must outlive the reader.
    explicit LineReader(std::string_view text) : size_(text.size()), window_(text) {}
    // Holds a part of the text at a time. Ends at a line of a megabyte or more, which nothing
    // that is a feed has, and where the text ends before its size.
    explicit LineReader(PartedText text) : source_(std::move(text)), size_(source_.size) {}

    LineReader(const LineReader&) = delete;
    LineReader& operator=(const LineReader&) = delete;

    // Moves to the next line; false behind the last.
    bool next();

    // Valid until the next move.
    [[nodiscard]] std::string_view line();
    // The same as far as the first fold where that is at least as many bytes as asked for:
    // long lines cost nothing then.
    [[nodiscard]] std::string_view beginning(std::size_t least);
    // Where the line stands in the text, its end and folds included.
    [[nodiscard]] std::size_t begin() const { return begin_; }
    [[nodiscard]] std::size_t end() const { return end_; }

private:
    // False where the line at `begin_` goes on behind the window.
    bool take();
    // Reads more of the text from `begin_` on; false where there is no more to be had.
    bool widen();

    PartedText source_;
    std::size_t size_ = 0;
    std::string part_;
    // What can be looked at, and where that begins in the text.
    std::string_view window_;
    std::size_t base_ = 0;
    // The line with its end and folds, and up to the first of them.
    std::string_view raw_;
    std::string_view first_piece_;
    // Of a folded line that has been asked for.
    std::string joined_;
    std::size_t begin_ = 0;
    std::size_t end_ = 0;
};

}  // namespace stave::calendar
