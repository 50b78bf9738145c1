#include "compiler/format/format.hpp"

#include <algorithm>
#include <vector>

#include "compiler/format/lines.hpp"
#include "compiler/format/values.hpp"
#include "compiler/source/utf8.hpp"

namespace stave::format {

namespace {

using grammar::LineKind;

// A line on its way out.
struct Row {
    std::size_t indent = 0;
    std::string head;
    std::string body;
    std::string remark;
    // A movement, whose amount is aligned with its neighbours'.
    bool is_item = false;
    bool is_blank = false;
};

constexpr std::size_t step = 2;

class Indenter {
public:
    // Blanks before the line, by what it belongs to.
    std::size_t indent(LineKind kind) {
        switch (kind) {
            case LineKind::open_session:
                return enter(Level::header, 0);
            case LineKind::open_routine:
                return enter(Level::header, step);
            case LineKind::open_movement:
            case LineKind::open_athlete:
            case LineKind::open_plan:
            case LineKind::open_did:
            case LineKind::open_squad:
            case LineKind::open_named_kit:
                return enter(Level::record, 0);
            case LineKind::open_warm_up:
            case LineKind::open_sets:
            case LineKind::open_superset:
            case LineKind::open_circuit:
            case LineKind::open_stations:
            case LineKind::open_cool_down:
                level_ = Level::block;
                items_ = base_ + step;
                return base_;
            case LineKind::movement_line:
            case LineKind::open_plain_movement:
            case LineKind::open_game:
            case LineKind::open_use:
                return item();
            // They speak for the whole file or session, wherever they stand.
            case LineKind::include:
            case LineKind::allow:
                return 0;
            default:
                return other();
        }
    }

private:
    // Nothing yet; a session's or routine's first lines; right below a block's head;
    // below a movement; a definition or a record.
    enum class Level { file, header, block, item, record };

    // The first line of something stands at the margin; `base` is where its blocks do.
    std::size_t enter(Level level, std::size_t base) {
        level_ = level;
        base_ = items_ = base;
        return 0;
    }
    std::size_t item() {
        if (level_ == Level::record) return step;
        if (level_ == Level::file) return 0;
        level_ = Level::item;
        return items_;
    }
    [[nodiscard]] std::size_t other() const {
        switch (level_) {
            case Level::file:
                return 0;
            case Level::header:
                return base_;
            case Level::block:
                return items_;
            case Level::item:
                return items_ + step;
            case Level::record:
                break;
        }
        return step;
    }

    Level level_ = Level::file;
    std::size_t base_ = 0;
    std::size_t items_ = 0;
};

// Text and remark aligned with their neighbours are moved no further than this.
constexpr std::size_t widest_gap = 24;

std::string trimmed_right(std::string_view text) {
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t'))
        text.remove_suffix(1);
    return std::string(text);
}

// "Mara,# Jonas" holds no remark: no blank may come before the sign.
std::string without_remarks(std::string text) {
    for (std::size_t at = text.find(" #"); at != std::string::npos; at = text.find(" #", at)) {
        const bool opens = at + 2 == text.size() || text[at + 2] == ' ';
        if (opens) text.erase(at, 1);
        ++at;
    }
    return text;
}

std::vector<Row> make_rows(const syntax::Document& document, std::string_view text) {
    std::vector<Row> rows;
    Indenter indenter;
    // Remarks wait for the line they stand above.
    std::vector<std::size_t> waiting;
    for (const syntax::Line& line : document.lines) {
        Row row;
        if (!line.remark.empty()) {
            row.remark = trimmed_right(text.substr(line.remark.begin, line.remark.size()));
        }
        // A remark that says nothing has nothing to keep.
        if (row.remark == "#" && line.kind != LineKind::remark) row.remark.clear();
        if (line.kind == LineKind::blank) {
            row.is_blank = true;
        } else if (line.kind == LineKind::remark) {
            waiting.push_back(rows.size());
        } else {
            row.indent = indenter.indent(line.kind);
            row.body = without_remarks(body(line, text));
            row.head = without_remarks(head(line, row.body)) + ':';
            row.is_item = grammar::is_item(line.kind);
            for (const std::size_t index : waiting)
                rows[index].indent = row.indent;
            waiting.clear();
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

// One blank line where there are several, none at the ends.
void thin_out(std::vector<Row>& rows) {
    std::vector<Row> kept;
    for (Row& row : rows) {
        if (row.is_blank && (kept.empty() || kept.back().is_blank)) continue;
        kept.push_back(std::move(row));
    }
    while (!kept.empty() && kept.back().is_blank)
        kept.pop_back();
    rows = std::move(kept);
}

// Amounts of neighbouring movements begin in one column, unless a name is much longer
// than another. Lines below a movement do not part it from the next.
void align_amounts(std::vector<Row>& rows) {
    for (std::size_t begin = 0; begin < rows.size(); ++begin) {
        if (!rows[begin].is_item) continue;
        std::vector<Row*> run;
        std::size_t least = column_count(rows[begin].head);
        std::size_t most = least;
        std::size_t i = begin;
        for (; i < rows.size(); ++i) {
            Row& row = rows[i];
            const bool below =
                !row.is_blank && !row.head.empty() && row.indent > rows[begin].indent;
            if (below) continue;
            if (!row.is_item || row.indent != rows[begin].indent) break;
            if (row.body.empty()) continue;
            run.push_back(&row);
            least = std::min(least, column_count(row.head));
            most = std::max(most, column_count(row.head));
        }
        if (most - least <= widest_gap) {
            for (Row* row : run)
                row->head.append(most - column_count(row->head), ' ');
        }
        begin = i - 1;
    }
}

std::string line_text(const Row& row) {
    std::string text(row.indent, ' ');
    text += row.head;
    if (!row.body.empty()) text += ' ' + row.body;
    return row.head.empty() ? text : trimmed_right(text);
}

// Remarks behind neighbouring lines begin in one column, as far as those are of much the
// same length.
std::string write(const std::vector<Row>& rows) {
    constexpr std::size_t gap = 3;
    std::string out;
    for (std::size_t i = 0; i < rows.size();) {
        std::vector<std::string> texts;
        std::size_t least = std::string::npos;
        std::size_t most = 0;
        for (std::size_t row = i; row < rows.size(); ++row) {
            const bool has_remark = !rows[row].remark.empty() && !rows[row].head.empty();
            std::string text = line_text(rows[row]);
            const std::size_t width = column_count(text);
            const bool fits =
                has_remark && std::max(most, width) - std::min(least, width) <= widest_gap;
            if (!fits && row > i) break;
            texts.push_back(std::move(text));
            least = std::min(least, width);
            most = std::max(most, width);
            if (!has_remark) break;
        }
        for (std::string& text : texts) {
            const Row& row = rows[i++];
            const bool has_remark = !row.remark.empty() && !row.head.empty();
            if (has_remark) text.append(most + gap - column_count(text), ' ');
            if (!row.is_blank) out += text + row.remark;
            out += '\n';
        }
    }
    return out;
}

}  // namespace

std::string format(const syntax::Document& document, std::string_view text) {
    std::vector<Row> rows = make_rows(document, text);
    thin_out(rows);
    align_amounts(rows);
    return write(rows);
}

}  // namespace stave::format
