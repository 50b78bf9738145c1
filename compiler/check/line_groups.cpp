#include "compiler/check/line_groups.hpp"

namespace stave::check {

using grammar::LineKind;

bool is_of_definitions_alone(LineKind kind) {
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
            return true;
        default:
            return false;
    }
}

bool belongs_to_definition(LineKind kind) {
    return is_of_definitions_alone(kind) || kind == LineKind::cue || kind == LineKind::fault ||
           kind == LineKind::kit || kind == LineKind::unclassified;
}

bool opens_record(LineKind kind) {
    return kind == LineKind::open_athlete || kind == LineKind::open_plan ||
           kind == LineKind::open_did || kind == LineKind::open_squad ||
           kind == LineKind::open_named_kit;
}

bool is_session_fact(LineKind kind) {
    switch (kind) {
        case LineKind::when:
        case LineKind::zone:
        case LineKind::place:
        case LineKind::series:
        case LineKind::coach:
        case LineKind::link:
        case LineKind::pages:
        case LineKind::effort:
        case LineKind::audience:
        case LineKind::avoid:
        case LineKind::kit:
            return true;
        default:
            return false;
    }
}

bool opens_training(LineKind kind) {
    return grammar::is_block(kind) || grammar::is_item(kind);
}

}  // namespace stave::check
