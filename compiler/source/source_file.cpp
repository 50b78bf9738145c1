#include "compiler/source/source_file.hpp"

#include <algorithm>
#include <utility>

namespace stave {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

// Adds the begin of every line from the offset on.
void find_lines(std::string_view text, std::size_t from, std::vector<std::uint32_t>& begins) {
    begins.push_back(static_cast<std::uint32_t>(from));
    for (std::size_t i = from; i < text.size(); ++i) {
        // Everything at or above a blank is inside a line.
        if (static_cast<unsigned char>(text[i]) >= ' ') continue;
        if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') continue;
        if (text[i] == '\n' || text[i] == '\r') begins.push_back(static_cast<std::uint32_t>(i) + 1);
    }
}

}  // namespace

SourceFile::SourceFile(std::string path, std::string text) {
    static_cast<void>(add_part(std::move(path), std::move(text)));
}

std::uint32_t SourceFile::add_part(std::string name, std::string text,
                                   std::vector<std::uint32_t> patterns) {
    if (text.starts_with(byte_order_mark)) text.erase(0, byte_order_mark.size());
    // Ends the last line of the part before.
    if (!parts_.empty()) text_ += '\n';
    SourcePart part{std::move(name), static_cast<std::uint32_t>(text_.size()), line_count(), 0,
                    std::move(patterns)};
    if (parts_.empty()) {
        text_ = std::move(text);
    } else {
        text_ += text;
    }
    find_lines(text_, part.begin, line_begins_);
    part.line_count = line_count() - part.first_line;
    parts_.push_back(std::move(part));
    return static_cast<std::uint32_t>(parts_.size() - 1);
}

std::uint32_t SourceFile::part_at(std::uint32_t offset) const {
    const auto after = std::ranges::upper_bound(parts_, offset, {}, &SourcePart::begin);
    return static_cast<std::uint32_t>(after - parts_.begin()) - 1;
}

Span SourceFile::line(std::uint32_t line) const {
    const std::uint32_t begin = line_begins_[line];
    const bool last = line + 1 == line_begins_.size();
    std::uint32_t end = last ? static_cast<std::uint32_t>(text_.size()) : line_begins_[line + 1];
    while (end > begin && (text_[end - 1] == '\n' || text_[end - 1] == '\r'))
        --end;
    return {begin, end};
}

std::uint32_t SourceFile::line_index(std::uint32_t offset) const {
    const auto after = std::ranges::upper_bound(line_begins_, offset);
    return static_cast<std::uint32_t>(after - line_begins_.begin()) - 1;
}

Span SourceFile::line_at(std::uint32_t offset) const {
    return line(line_index(offset));
}

Position SourceFile::position(std::uint32_t offset) const {
    const std::uint32_t line = line_index(offset);
    const std::string_view before = text({line_begins_[line], offset});
    const auto characters = std::ranges::count_if(
        before, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
    const std::uint32_t pattern = pattern_at(offset);
    return {line_index(pattern) - parts_[part_at(pattern)].first_line + 1,
            static_cast<std::uint32_t>(characters) + 1};
}

std::uint32_t SourceFile::pattern_at(std::uint32_t offset) const {
    const SourcePart& part = parts_[part_at(offset)];
    const std::uint32_t line = line_index(offset) - part.first_line;
    return line < part.patterns.size() ? part.patterns[line] : offset;
}

Span SourceFile::typed(Span span) const {
    const std::uint32_t pattern = pattern_at(span.begin);
    if (pattern == span.begin) return span;
    Span whole = line_at(pattern);
    while (whole.begin < whole.end && (text_[whole.begin] == ' ' || text_[whole.begin] == '\t'))
        ++whole.begin;
    return whole;
}

}  // namespace stave
