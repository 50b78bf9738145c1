#include "backends/report/columns.hpp"

#include <algorithm>

#include "compiler/source/utf8.hpp"

namespace stave::report {

namespace {

std::string padded(const std::string& text, std::size_t columns) {
    const std::size_t own = column_count(text);
    return own >= columns ? text : text + std::string(columns - own, ' ');
}

}  // namespace

std::string columns(const std::vector<std::vector<std::string>>& rows, std::size_t indent) {
    std::vector<std::size_t> widths;
    for (const auto& row : rows) {
        widths.resize(std::max(widths.size(), row.size()));
        for (std::size_t i = 0; i < row.size(); ++i)
            widths[i] = std::max(widths[i], column_count(row[i]));
    }
    std::string text;
    for (const auto& row : rows) {
        std::string line(indent, ' ');
        for (std::size_t i = 0; i < row.size(); ++i) {
            // A column that is empty throughout takes no room.
            if (widths[i] > 0) line += padded(row[i], widths[i] + 2);
        }
        while (line.ends_with(' '))
            line.pop_back();
        text += line + '\n';
    }
    return text;
}

}  // namespace stave::report
