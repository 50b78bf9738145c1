#include "compiler/check/unused_lines.hpp"

#include "compiler/check/places.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;

// Of definitions, athletes, plans and results alone.
bool is_of_no_session(LineKind kind) {
    switch (kind) {
        case LineKind::counted_in:
        case LineKind::sides:
        case LineKind::pattern:
        case LineKind::speed:
        case LineKind::loaded_with:
        case LineKind::joint:
        case LineKind::starts:
        case LineKind::how:
        case LineKind::easier:
        case LineKind::harder:
        case LineKind::caution:
        case LineKind::also:
        case LineKind::demands:
        case LineKind::directions:
        case LineKind::weight:
        case LineKind::units:
        case LineKind::language:
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
        case LineKind::effort:
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
        if (line.is_broken || !is_of_no_session(line.kind)) continue;
        report_not_here(line, Surroundings::session, sink);
    }
}

}  // namespace stave::check
