#include "compiler/check/stands_apart.hpp"

#include <string>
#include <utility>

#include "compiler/check/blocks.hpp"

namespace stave::check {

static std::uint32_t column(const syntax::Line& line) {
    return line.head.span.begin - line.span.begin;
}

void StandsApart::open_block(const syntax::Line& head) {
    *this = {};
    head_column_ = column(head);
}

void StandsApart::meet_movement(const syntax::Line& line, DiagnosticSink& sink) {
    const bool is_below = options_column_ && column(line) > *options_column_;
    if (!is_below) options_column_.reset();
    if (!is_below || is_below_said_ || line.is_broken) return;
    is_below_said_ = true;
    sink.report({Code::stands_below, line.head.span, {std::string(line.title.text)}, {}, {}});
}

void StandsApart::meet(const syntax::Line& line, const program::Block& block,
                       DiagnosticSink& sink) {
    if (grammar::is_item(line.kind)) meet_movement(line, sink);
    if (line.kind == grammar::LineKind::options) options_column_ = column(line);
    const bool is_behind_gap = std::exchange(is_behind_gap_, false);
    if (!head_column_) return;
    if (column(line) > *head_column_) {
        is_indented_ = true;
        return;
    }
    if (!is_behind_gap || !is_indented_ || is_said_) return;
    is_said_ = true;
    sink.report({Code::stands_apart,
                 line.head.span,
                 {std::string(line.head.text), block_name(block)},
                 {},
                 {}});
}

}  // namespace stave::check
