#include "backends/card/fonts/outline.hpp"

#include <cmath>

namespace stave::card {

namespace {

using DrawHandle = std::unique_ptr<hb_draw_funcs_t, Destroyer<hb_draw_funcs_destroy>>;

std::int32_t halves(float units) {
    return static_cast<std::int32_t>(std::lround(units * 2.0F));
}

void add(void* outline, const OutlineStep& step) {
    static_cast<Outline*>(outline)->push_back(step);
}

}  // namespace

// Called from C.
extern "C" {
static void move_to(hb_draw_funcs_t* /*all*/, void* data, hb_draw_state_t* /*state*/, float x,
                    float y, void* /*user*/) {
    add(data, {OutlineStep::Kind::move, halves(x), halves(y)});
}
static void line_to(hb_draw_funcs_t* /*all*/, void* data, hb_draw_state_t* /*state*/, float x,
                    float y, void* /*user*/) {
    add(data, {OutlineStep::Kind::line, halves(x), halves(y)});
}
static void quadratic_to(hb_draw_funcs_t* /*all*/, void* data, hb_draw_state_t* /*state*/, float x1,
                         float y1, float x, float y, void* /*user*/) {
    add(data, {OutlineStep::Kind::quadratic, halves(x), halves(y), halves(x1), halves(y1)});
}
static void cubic_to(hb_draw_funcs_t* /*all*/, void* data, hb_draw_state_t* /*state*/, float x1,
                     float y1, float x2, float y2, float x, float y, void* /*user*/) {
    add(data, {OutlineStep::Kind::cubic, halves(x), halves(y), halves(x1), halves(y1), halves(x2),
               halves(y2)});
}
static void close_path(hb_draw_funcs_t* /*all*/, void* data, hb_draw_state_t* /*state*/,
                       void* /*user*/) {
    add(data, {OutlineStep::Kind::close});
}
}

Outline outline_of(hb_font_t* font, std::uint32_t glyph) {
    const DrawHandle functions{hb_draw_funcs_create()};
    hb_draw_funcs_set_move_to_func(functions.get(), move_to, nullptr, nullptr);
    hb_draw_funcs_set_line_to_func(functions.get(), line_to, nullptr, nullptr);
    hb_draw_funcs_set_quadratic_to_func(functions.get(), quadratic_to, nullptr, nullptr);
    hb_draw_funcs_set_cubic_to_func(functions.get(), cubic_to, nullptr, nullptr);
    hb_draw_funcs_set_close_path_func(functions.get(), close_path, nullptr, nullptr);
    Outline outline;
    hb_font_get_glyph_shape(font, glyph, functions.get(), &outline);
    return outline;
}

}  // namespace stave::card
