#include "compiler/check/unused_lines.hpp"

#include "compiler/check/line_groups.hpp"
#include "compiler/check/places.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;

// Of athletes, plans and results alone.
bool is_of_records_alone(LineKind kind) {
    switch (kind) {
        case LineKind::weight:
        case LineKind::age_group:
        case LineKind::units:
        case LineKind::language:
        case LineKind::rounding:
        case LineKind::estimate_by:
        case LineKind::from:
        case LineKind::weeks:
        case LineKind::away:
        case LineKind::cancelled:
        case LineKind::moved:
        case LineKind::lighter:
        case LineKind::monday:
        case LineKind::tuesday:
        case LineKind::wednesday:
        case LineKind::thursday:
        case LineKind::friday:
        case LineKind::saturday:
        case LineKind::sunday:
        case LineKind::score:
        case LineKind::open_test:
        case LineKind::open_grow:
            return true;
        default:
            return false;
    }
}

}  // namespace

void check_unused(const syntax::Document& document, DiagnosticSink& sink) {
    for (const syntax::Line& line : document.lines) {
        const bool is_misplaced =
            is_of_definitions_alone(line.kind) || is_of_records_alone(line.kind);
        if (line.is_broken || !is_misplaced) continue;
        report_not_here(line, Surroundings::session, sink);
    }
}

}  // namespace stave::check
