#include "compiler/check/line_groups.hpp"

namespace stave::check {

using grammar::LineKind;

bool belongs_to_definition(LineKind kind) {
    switch (kind) {
        case LineKind::counted_in:
        case LineKind::sides:
        case LineKind::pattern:
        case LineKind::speed:
        case LineKind::cue:
        case LineKind::fault:
        case LineKind::kit:
        case LineKind::unclassified:
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
            return true;
        default:
            return false;
    }
}

bool opens_record(LineKind kind) {
    return kind == LineKind::open_athlete || kind == LineKind::open_plan ||
           kind == LineKind::open_did || kind == LineKind::open_named_kit;
}

bool opens_training(LineKind kind) {
    return grammar::is_block(kind) || grammar::is_item(kind);
}

}  // namespace stave::check
