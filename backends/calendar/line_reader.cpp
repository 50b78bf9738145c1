#include "backends/calendar/line_reader.hpp"

#include <algorithm>

namespace stave::calendar {

namespace {

// Bytes that are read at once.
constexpr std::size_t part_size = 65536;
constexpr std::size_t longest_line = 1'000'000;

}  // namespace

bool LineReader::take() {
    const std::string_view rest = window_.substr(begin_ - base_);
    const bool is_end = base_ + window_.size() >= size_;
    line_ = {};
    joined_.clear();
    std::size_t at = 0;
    for (bool is_first = true;; is_first = false) {
        const std::size_t line_feed = rest.find('\n', at);
        // Whether the next line goes on with this one is seen behind the line feed.
        if (!is_end && (line_feed == std::string_view::npos || line_feed + 1 == rest.size()))
            return false;
        const std::size_t stop = std::min(line_feed, rest.size());
        std::string_view piece = rest.substr(at, stop - at);
        if (piece.ends_with('\r')) piece.remove_suffix(1);
        at = std::min(stop + 1, rest.size());
        const bool continues = at < rest.size() && (rest[at] == ' ' || rest[at] == '\t');
        if (is_first) {
            line_ = piece;
            if (!continues) break;
            joined_ = piece;
            continue;
        }
        joined_ += piece.substr(1);
        line_ = joined_;
        if (!continues) break;
    }
    end_ = begin_ + at;
    return true;
}

bool LineReader::widen() {
    const std::size_t known = window_.size() - (begin_ - base_);
    if (!source_.read || known > longest_line) return false;
    part_ = source_.read(begin_, std::max(part_size, 2 * known));
    base_ = begin_;
    window_ = part_;
    return window_.size() > known;
}

bool LineReader::next() {
    if (end_ >= size_) return false;
    begin_ = end_;
    while (!take()) {
        if (!widen()) {
            end_ = size_;
            return false;
        }
    }
    return true;
}

}  // namespace stave::calendar
