#include "backends/card/layout_technique.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <set>
#include <string_view>
#include <utility>

#include "backends/card/layout_fit.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

using program::MovementDefinition;

constexpr std::int32_t smallest_permille = 850;
constexpr std::int32_t step_permille = 50;

// A line that flows down the columns.
struct FlowLine {
    TextLine line;
    Centipoints indent = 0;
    Centipoints above = 0;
    // A movement's name, with which a column may begin.
    bool begins = false;

    [[nodiscard]] Centipoints height() const { return above + line_height(line.size); }
};

// A movement and what the coach calls it.
struct Called {
    const MovementDefinition* movement = nullptr;
    std::string_view name;
};

std::vector<Called> movements_with_steps(const Context& context) {
    std::vector<Called> found;
    std::set<std::uint32_t> met;
    for (const program::Block& block : context.session.blocks) {
        for (const program::Item& item : block.items) {
            for (const program::Part& part : item.parts) {
                if (!part.definition || !met.insert(*part.definition).second) continue;
                const MovementDefinition& movement = context.program.movements[*part.definition];
                if (!movement.technique.steps.empty()) found.push_back({&movement, part.name});
            }
        }
    }
    return found;
}

// The columns of a page and where the first of them begins.
struct Columns {
    std::size_t count = 2;
    Centipoints left = 0;
    Centipoints width = 0;
    Centipoints pitch = 0;
};

Columns columns_of(const Context& context) {
    const Grid& grid = context.grid();
    const Centipoints across = grid.right - grid.left;
    // A pocket is as wide as one column.
    if (!context.sheet().has_rail) return {1, grid.left, across, across};
    const Centipoints width = across / 2 - grid.gutter;
    return {2, grid.left, width, width + 2 * grid.gutter};
}

// All lines of all movements, in order, broken to the width of a column.
class Flow {
public:
    Flow(const Context& context, Centipoints width) : context_(context), width_(width) {}

    std::vector<FlowLine> run() {
        for (const Called& called : movements_with_steps(context_)) {
            add_name(called);
            add_steps(*called.movement);
        }
        return std::move(lines_);
    }

private:
    // The coach's name, and behind it the one that the steps are told of.
    void add_name(const Called& called) {
        const Style& style = context_.style;
        const std::string name = wording::capitalised(std::string(called.name));
        std::vector<Run> words{{style.name(), name}};
        if (name != wording::capitalised(called.movement->name))
            words.push_back({style.cue(), called.movement->name, style.across(6)});
        const std::size_t line = lines_.size();
        add_words(words, 0, style.space(11));
        if (line < lines_.size()) lines_[line].begins = true;
    }

    void add_steps(const MovementDefinition& movement) {
        const Style& style = context_.style;
        const TextStyle number = style.number();
        const Centipoints indent =
            context_.fonts.measure(number.face, number.size, "10") + style.across(5);
        for (std::size_t step = 0; step < movement.technique.steps.size(); ++step) {
            const std::size_t line = lines_.size();
            add_words({{style.plain(), movement.technique.steps[step]}}, indent, style.space(2));
            if (line == lines_.size()) continue;
            TextLine& begun = lines_[line].line;
            begun.parts.insert(begun.parts.begin(), {-indent, number, std::to_string(step + 1)});
        }
        add_advice(movement, indent);
    }

    void add_advice(const MovementDefinition& movement, Centipoints indent) {
        const Style& style = context_.style;
        const Centipoints above = style.space(2);
        add_words(cue_paragraph(context_, movement.cues), indent, above);
        for (const program::Fault& fault : movement.faults)
            add_words(fault_paragraph(context_, fault), indent, above);
        for (const std::string& caution : movement.technique.cautions) {
            const Centipoints gap = blank(context_.fonts, style.strong_cue());
            add_words({{style.strong_cue(), context_.label(wording::Word::take_care)},
                       {style.strong_cue(), caution, gap}},
                      indent, above);
        }
    }

    void add_words(const std::vector<Run>& runs, Centipoints indent, Centipoints above) {
        for (TextLine& line : wrap(context_.fonts, runs, width_ - indent).lines) {
            lines_.push_back({std::move(line), indent, above, false});
            above = 0;
        }
    }

    const Context& context_;
    Centipoints width_;
    std::vector<FlowLine> lines_;
};

// Where the movement ends that the line belongs to.
std::size_t movement_end(const std::vector<FlowLine>& lines, std::size_t line) {
    ++line;
    while (line < lines.size() && !lines[line].begins)
        ++line;
    return line;
}

Centipoints height_of(const std::vector<FlowLine>& lines, std::size_t first, std::size_t end) {
    Centipoints height = 0;
    for (std::size_t line = first; line < end; ++line)
        height += lines[line].height() - (line == first ? lines[line].above : 0);
    return height;
}

// The lines that fill a column of this height from `first` on: whole movements, one at
// least, for a line without the name above it belongs to nothing. A movement that is
// longer than the page, `most`, is cut.
std::size_t column_end(const std::vector<FlowLine>& lines, std::size_t first, Centipoints height,
                       Centipoints most) {
    std::size_t end = movement_end(lines, first);
    while (height_of(lines, first, end) > most && end > first + 1)
        --end;
    while (end < lines.size() && lines[end].begins) {
        const std::size_t next = movement_end(lines, end);
        if (height_of(lines, first, next) > height) break;
        end = next;
    }
    return end;
}

std::size_t columns_end(const std::vector<FlowLine>& lines, std::size_t columns, Centipoints height,
                        Centipoints most) {
    std::size_t end = 0;
    for (std::size_t column = 0; column < columns && end < lines.size(); ++column)
        end = column_end(lines, end, height, most);
    return end;
}

// How many columns of this height hold all.
std::size_t columns_needed(const std::vector<FlowLine>& lines, Centipoints most) {
    std::size_t columns = 0;
    for (std::size_t end = 0; end < lines.size(); ++columns)
        end = column_end(lines, end, most, most);
    return columns;
}

// The least height with which so many columns hold all, so that they end alike.
Centipoints balanced(const std::vector<FlowLine>& lines, std::size_t columns, Centipoints most) {
    Centipoints low = 0;
    Centipoints high = most;
    while (low + 1 < high) {
        const Centipoints middle = (low + high) / 2;
        (columns_end(lines, columns, middle, most) >= lines.size() ? high : low) = middle;
    }
    return high;
}

struct Heights {
    // Of all columns, and of the page.
    Centipoints column = 0;
    Centipoints most = 0;
};

// The columns of one page from the line `first` on, which moves to the next page's.
Piece draw_page(const std::vector<FlowLine>& lines, std::size_t& first, const Columns& columns,
                Heights heights) {
    Piece piece;
    for (std::size_t column = 0; column < columns.count && first < lines.size(); ++column) {
        const Centipoints left = columns.left + static_cast<Centipoints>(column) * columns.pitch;
        const std::size_t last = column_end(lines, first, heights.column, heights.most);
        Centipoints y = 0;
        for (std::size_t id = first; id < last; ++id) {
            const FlowLine& flowing = lines[id];
            if (id > first) y += flowing.above;
            y = draw(piece, left + flowing.indent, y, TextBlock{{flowing.line}});
        }
        piece.height = std::max(piece.height, y);
        first = last;
    }
    return piece;
}

Piece lay_out_head(const Context& context) {
    const Style& style = context.style;
    const Grid& grid = context.grid();
    Piece piece;
    const TextBlock words = wrap(
        context.fonts,
        {{style.head(), title_of(context)},
         {style.plain(), std::string(context.word(wording::Word::technique)), style.across(9)}},
        grid.right - grid.left);
    open(piece, Role::heading2);
    const Centipoints y = draw(piece, grid.left, 0, words) + style.space(3);
    close(piece);
    rule(piece, grid.left, grid.right, y, style.across(1.6), grey::black);
    piece.height = y + style.space(8);
    return piece;
}

struct Room {
    Piece head;
    Piece footer;
    Centipoints height = 0;
};

Room room_of(const Context& context, const CardText& text) {
    Room room{lay_out_head(context), lay_out_footer(context, text), 0};
    const Grid& grid = context.grid();
    room.height = grid.bottom - room.footer.height - footer_gap - grid.top - room.head.height;
    return room;
}

// All lines in type of one size, and the page they are for.
struct Attempt {
    Columns columns;
    std::vector<FlowLine> lines;
    Room room;
    std::size_t pages = 0;
};

Attempt attempt_with(Context context, const CardText& text, std::int32_t permille) {
    context.style.permille = permille;
    Attempt attempt{columns_of(context), {}, room_of(context, text), 0};
    attempt.lines = Flow(context, attempt.columns.width).run();
    const std::size_t needed = columns_needed(attempt.lines, attempt.room.height);
    attempt.pages = (needed + attempt.columns.count - 1) / attempt.columns.count;
    return attempt;
}

// The largest type that takes no more pages than the smallest does.
Attempt best_attempt(const Context& context, const CardText& text) {
    Attempt smallest = attempt_with(context, text, smallest_permille);
    for (std::int32_t permille = 1000; permille > smallest_permille; permille -= step_permille) {
        Attempt larger = attempt_with(context, text, permille);
        if (larger.pages <= smallest.pages) return larger;
    }
    return smallest;
}

}  // namespace

std::vector<Piece> lay_out_technique(const Context& context, const CardText& text) {
    const Attempt best = best_attempt(context, text);
    const Centipoints most = best.room.height;
    const Heights heights{balanced(best.lines, best.pages * best.columns.count, most), most};
    const Grid& grid = context.grid();
    std::vector<Piece> pages;
    for (std::size_t first = 0; first < best.lines.size();) {
        Piece page;
        place(page, best.room.head, grid.top);
        place(page, draw_page(best.lines, first, best.columns, heights),
              grid.top + best.room.head.height);
        place(page, best.room.footer, grid.bottom - best.room.footer.height);
        pages.push_back(std::move(page));
    }
    return pages;
}

std::vector<std::string> without_steps(const program::Program& program,
                                       const program::Session& session) {
    std::vector<std::string> names;
    for (const program::Block& block : session.blocks) {
        for (const program::Item& item : block.items) {
            for (const program::Part& part : item.parts) {
                const bool has_steps =
                    part.definition && !program.movements[*part.definition].technique.steps.empty();
                if (has_steps || part.is_game) continue;
                if (std::ranges::find(names, part.name) == names.end()) names.push_back(part.name);
            }
        }
    }
    return names;
}

}  // namespace stave::card::layout
