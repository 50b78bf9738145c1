#include "backends/calendar/line_reader.hpp"

#include <algorithm>

namespace stave::calendar {

namespace {

// Bytes that are read at once.
constexpr std::size_t part_size = 65536;
constexpr std::size_t longest_line = 1'000'000;

std::string_view without_return(std::string_view piece) {
    if (piece.ends_with('\r')) piece.remove_suffix(1);
    return piece;
}

}  // namespace

bool LineReader::take() {
    const std::string_view rest = window_.substr(begin_ - base_);
    const bool is_end = base_ + window_.size() >= size_;
    std::size_t at = 0;
    do {
        const std::size_t line_feed = rest.find('\n', at);
        // Whether the next line goes on with this one is seen behind the line feed.
        if (!is_end && (line_feed == std::string_view::npos || line_feed + 1 == rest.size()))
            return false;
        const std::size_t stop = std::min(line_feed, rest.size());
        if (at == 0) first_piece_ = without_return(rest.substr(0, stop));
        at = std::min(stop + 1, rest.size());
    } while (at < rest.size() && (rest[at] == ' ' || rest[at] == '\t'));
    raw_ = rest.substr(0, at);
    joined_.clear();
    end_ = begin_ + at;
    return true;
}

std::string_view LineReader::line() {
    // A line break of two bytes at most ends a line without folds.
    if (raw_.size() <= first_piece_.size() + 2) return first_piece_;
    if (!joined_.empty()) return joined_;
    joined_ = first_piece_;
    std::string_view rest = raw_.substr(std::min(raw_.find('\n'), raw_.size() - 1) + 1);
    while (!rest.empty()) {
        const std::size_t stop = std::min(rest.find('\n'), rest.size());
        // Without the blank that says that it goes on.
        joined_ += without_return(rest.substr(0, stop)).substr(1);
        rest.remove_prefix(std::min(stop + 1, rest.size()));
    }
    return joined_;
}

std::string_view LineReader::beginning(std::size_t least) {
    return first_piece_.size() < least ? line() : first_piece_;
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
