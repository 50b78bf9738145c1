#include "backends/card/rota_sheet.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "backends/card/paper.hpp"
#include "compiler/source/utf8.hpp"

namespace stave::card {

namespace {

constexpr Centipoints margin = points(36);
constexpr Centipoints number_width = points(34);
constexpr Centipoints cell_padding = points(4);
constexpr Centipoints title_size = points(22);
constexpr Centipoints facts_size = points(12);
// Where the table begins, below the title, the block and the facts.
constexpr Centipoints head_height = points(66);
constexpr int shade = 93;
constexpr int quiet = 35;
// From across a room 18 pt are read, at the wall 8 (common practice, no source).
constexpr std::array sizes_of_one_page{points(24), points(20), points(18), points(16), points(14),
                                       points(12), points(11), points(10), points(9)};
constexpr std::array sizes_of_several{points(14), points(12), points(10), points(8)};

constexpr Centipoints line_height(Centipoints size) {
    return size * 5 / 4;
}

using Lines = std::vector<std::string>;

struct Row {
    std::vector<Lines> cells;
    std::size_t lines = 1;
};

// The sheet in one size of type.
class RotaLayout {
public:
    RotaLayout(const RotaSheet& sheet, Fonts& fonts, Centipoints size)
        : sheet_(sheet), fonts_(fonts), size_(size) {
        const auto columns = static_cast<Centipoints>(sheet.heads.size());
        column_width_ = (width() - 2 * margin - number_width) / columns;
        head_.cells.reserve(sheet.heads.size());
        for (const std::string& head : sheet.heads)
            head_.cells.push_back(wrapped(words_of(head), Face::condensed_bold, " "));
        count_lines(head_);
        for (const auto& row : sheet.rows) {
            Row made;
            for (const Lines& people : row)
                made.cells.push_back(wrapped(people, Face::condensed_regular, ", "));
            count_lines(made);
            rows_.push_back(std::move(made));
        }
    }

    [[nodiscard]] bool is_cut() const { return is_cut_; }

    // Whether all rows stand on one page with no text cut.
    [[nodiscard]] bool fits_one_page() const {
        Centipoints needed = row_height(head_);
        for (const Row& row : rows_)
            needed += row_height(row);
        return !is_cut_ && needed <= room();
    }

    std::vector<Page> pages() {
        std::vector<Page> pages;
        std::size_t next = 0;
        do {
            pages.push_back(begin_page(pages.empty()));
            Centipoints y = margin + head_height;
            draw_row(pages.back(), head_, y, "", Face::condensed_bold);
            y += row_height(head_);
            pages.back().primitives.emplace_back(
                Line{margin, y - points(1), width() - margin, y - points(1), points(1), 0, 0});
            const Centipoints bottom = height() - margin;
            do {
                if (next >= rows_.size()) break;
                if (next % 2 == 0) draw_shade(pages.back(), y, row_height(rows_[next]));
                draw_row(pages.back(), rows_[next], y, std::to_string(next + 1),
                         Face::condensed_regular);
                y += row_height(rows_[next]);
                ++next;
            } while (next < rows_.size() && y + row_height(rows_[next]) <= bottom);
        } while (next < rows_.size());
        return pages;
    }

private:
    // A4 that lies across.
    static Centipoints width() { return size_of(Paper::a4).height; }
    static Centipoints height() { return size_of(Paper::a4).width; }
    static Centipoints room() { return height() - 2 * margin - head_height; }

    [[nodiscard]] Centipoints row_height(const Row& row) const {
        return static_cast<Centipoints>(row.lines) * line_height(size_) + cell_padding;
    }

    static void count_lines(Row& row) {
        for (const Lines& cell : row.cells)
            row.lines = std::max(row.lines, cell.size());
    }

    static Lines words_of(std::string_view text) {
        Lines words;
        while (!text.empty()) {
            const std::size_t end = std::min(text.find(' '), text.size());
            if (end > 0) words.emplace_back(text.substr(0, end));
            text.remove_prefix(std::min(end + 1, text.size()));
        }
        return words;
    }

    // As many on a line as there is room for.
    Lines wrapped(const Lines& parts, Face face, std::string_view between) {
        const Centipoints room = column_width_ - 2 * cell_padding;
        Lines lines;
        for (const std::string& part : parts) {
            if (!lines.empty()) {
                const std::string longer = lines.back() + std::string(between) + part;
                if (fonts_.measure(face, size_, longer) <= room) {
                    lines.back() = longer;
                    continue;
                }
            }
            lines.push_back(cut(part, face, room));
        }
        return lines;
    }

    std::string cut(const std::string& text, Face face, Centipoints room) {
        // No face has a narrower sign that is worth measuring.
        constexpr std::size_t most_bytes = 200;
        if (text.size() <= most_bytes && fonts_.measure(face, size_, text) <= room) return text;
        is_cut_ = true;
        std::string kept(whole_start(text, most_bytes));
        while (!kept.empty() && fonts_.measure(face, size_, kept + "…") > room)
            kept.resize(whole_start(kept, kept.size() - 1).size());
        return kept + "…";
    }

    [[nodiscard]] Page begin_page(bool is_first) const {
        Page page{width(), height(), sheet_.title, "en", {}};
        auto& all = page.primitives;
        all.emplace_back(Open{is_first ? Role::heading1 : Role::artifact, ""});
        all.emplace_back(Text{margin, margin + title_size, Face::condensed_bold, title_size, 0, 0,
                              sheet_.title});
        all.emplace_back(Close{});
        all.emplace_back(Open{is_first ? Role::heading2 : Role::artifact, ""});
        const Centipoints y = margin + title_size + 2 * facts_size;
        all.emplace_back(Text{margin, y, Face::medium, facts_size, 0, 0, sheet_.block});
        all.emplace_back(Close{});
        all.emplace_back(Text{margin, y + line_height(facts_size), Face::regular, facts_size, quiet,
                              0, sheet_.facts});
        return page;
    }

    static void draw_shade(Page& page, Centipoints y, Centipoints row_height) {
        Box box{margin, y, width() - 2 * margin, row_height};
        box.fill_grey = shade;
        page.primitives.emplace_back(box);
    }

    void draw_row(Page& page, const Row& row, Centipoints y, const std::string& number,
                  Face face) const {
        auto& all = page.primitives;
        all.emplace_back(Open{Role::paragraph, ""});
        if (!number.empty())
            all.emplace_back(
                Text{margin + cell_padding, y + size_, Face::condensed_bold, size_, 0, 0, number});
        Centipoints x = margin + number_width + cell_padding;
        for (const Lines& cell : row.cells) {
            Centipoints baseline = y + size_;
            for (const std::string& line : cell) {
                all.emplace_back(Text{x, baseline, face, size_, 0, 0, line});
                baseline += line_height(size_);
            }
            x += column_width_;
        }
        all.emplace_back(Close{});
    }

    const RotaSheet& sheet_;
    Fonts& fonts_;
    Centipoints size_;
    Centipoints column_width_ = 0;
    Row head_;
    std::vector<Row> rows_;
    bool is_cut_ = false;
};

}  // namespace

std::vector<Page> lay_out_rota(const RotaSheet& sheet, Fonts& fonts) {
    for (const Centipoints size : sizes_of_one_page) {
        RotaLayout layout(sheet, fonts, size);
        if (layout.fits_one_page()) return layout.pages();
    }
    for (const Centipoints size : sizes_of_several) {
        RotaLayout layout(sheet, fonts, size);
        if (!layout.is_cut()) return layout.pages();
    }
    return RotaLayout(sheet, fonts, sizes_of_several.back()).pages();
}

}  // namespace stave::card
