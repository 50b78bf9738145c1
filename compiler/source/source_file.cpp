#include "compiler/source/source_file.hpp"

#include <algorithm>
#include <utility>

namespace stave {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

std::vector<std::uint32_t> find_line_begins(std::string_view text) {
    std::vector<std::uint32_t> begins{0};
    for (std::size_t i = 0; i < text.size(); ++i) {
        // Everything at or above a blank is inside a line.
        if (static_cast<unsigned char>(text[i]) >= ' ') continue;
        if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') continue;
        if (text[i] == '\n' || text[i] == '\r') begins.push_back(static_cast<std::uint32_t>(i) + 1);
    }
    return begins;
}

}  // namespace

SourceFile::SourceFile(std::string path, std::string text)
    : path_(std::move(path)), text_(std::move(text)) {
    if (text_.starts_with(byte_order_mark)) text_.erase(0, byte_order_mark.size());
    line_begins_ = find_line_begins(text_);
}

Span SourceFile::line(std::uint32_t line) const {
    const std::uint32_t begin = line_begins_[line];
    const bool last = line + 1 == line_begins_.size();
    std::uint32_t end = last ? static_cast<std::uint32_t>(text_.size()) : line_begins_[line + 1];
    while (end > begin && (text_[end - 1] == '\n' || text_[end - 1] == '\r'))
        --end;
    return {begin, end};
}

Position SourceFile::position(std::uint32_t offset) const {
    const auto after = std::ranges::upper_bound(line_begins_, offset);
    const auto line = static_cast<std::uint32_t>(after - line_begins_.begin());
    const std::string_view before = text({line_begins_[line - 1], offset});
    const auto characters = std::ranges::count_if(
        before, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
    return {line, static_cast<std::uint32_t>(characters) + 1};
}

}  // namespace stave
