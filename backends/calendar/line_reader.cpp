#include "backends/calendar/line_reader.hpp"

#include <algorithm>

namespace stave::calendar {

std::string_view LineReader::take() {
    const std::size_t size = std::min(text_.find('\n', end_), text_.size()) - end_;
    std::string_view piece = text_.substr(end_, size);
    end_ = std::min(end_ + size + 1, text_.size());
    if (piece.ends_with('\r')) piece.remove_suffix(1);
    return piece;
}

bool LineReader::next() {
    const auto continues = [this] {
        return end_ < text_.size() && (text_[end_] == ' ' || text_[end_] == '\t');
    };
    if (end_ >= text_.size()) return false;
    begin_ = end_;
    line_ = take();
    if (!continues()) return true;
    joined_ = line_;
    while (continues())
        joined_ += take().substr(1);
    line_ = joined_;
    return true;
}

}  // namespace stave::calendar
