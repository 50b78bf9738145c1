#include "backends/card/png/png_writer.hpp"

#include <cairo.h>

#include <algorithm>
#include <memory>
#include <new>
#include <numbers>

namespace stave::card {

namespace {

struct SurfaceFree {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct ContextFree {
    void operator()(cairo_t* context) const { cairo_destroy(context); }
};
using SurfaceHandle = std::unique_ptr<cairo_surface_t, SurfaceFree>;
using ContextHandle = std::unique_ptr<cairo_t, ContextFree>;

// Cairo's lengths are points here.
double in_points(Centipoints length) {
    return length / 100.0;
}

int pixels(Centipoints length, int dots_per_inch) {
    return static_cast<int>((std::int64_t{length} * dots_per_inch + 3600) / 7200);
}

// Draws one primitive after the other on a context that is scaled to points.
class Drawer {
public:
    Drawer(cairo_t* context, Fonts& fonts) : context_(context), fonts_(fonts) {}

    void operator()(const Text& text) const;
    void operator()(const Line& line) const;
    void operator()(const Box& box) const;
    void operator()(const Circle& circle) const;
    void operator()(const Triangle& triangle) const;
    void operator()(const Modules& code) const;
    void operator()(const Link& /*area*/) const {}
    void operator()(const Open& /*mark*/) const {}
    void operator()(const Close& /*mark*/) const {}

private:
    void grey(int level) const {
        cairo_set_source_rgb(context_, level / 100.0, level / 100.0, level / 100.0);
    }
    void stroke(Centipoints width, int level) const {
        grey(level);
        cairo_set_line_width(context_, in_points(width));
        cairo_stroke(context_);
    }
    void rounded(const Box& box, Centipoints radius) const;
    void trace(const Outline& outline) const;

    cairo_t* context_;
    Fonts& fonts_;
};

void Drawer::operator()(const Line& line) const {
    if (line.width <= 0) return;
    cairo_move_to(context_, in_points(line.x1), in_points(line.y1));
    cairo_line_to(context_, in_points(line.x2), in_points(line.y2));
    if (line.dots > 0) {
        // Dashes of no length with round caps are round dots.
        const double dashes[] = {0, in_points(line.dots)};
        cairo_set_dash(context_, dashes, 2, 0);
        cairo_set_line_cap(context_, CAIRO_LINE_CAP_ROUND);
    }
    stroke(line.width, line.grey);
    cairo_set_dash(context_, nullptr, 0, 0);
    cairo_set_line_cap(context_, CAIRO_LINE_CAP_BUTT);
}

void Drawer::rounded(const Box& box, Centipoints radius) const {
    constexpr double quarter = std::numbers::pi / 2;
    const double bend = in_points(radius);
    const double left = in_points(box.x) + bend;
    const double top = in_points(box.y) + bend;
    const double right = in_points(box.x + box.width) - bend;
    const double bottom = in_points(box.y + box.height) - bend;
    cairo_new_sub_path(context_);
    cairo_arc(context_, right, top, bend, -quarter, 0);
    cairo_arc(context_, right, bottom, bend, 0, quarter);
    cairo_arc(context_, left, bottom, bend, quarter, 2 * quarter);
    cairo_arc(context_, left, top, bend, 2 * quarter, 3 * quarter);
    cairo_close_path(context_);
}

void Drawer::operator()(const Box& box) const {
    const Centipoints radius = std::min({box.radius, box.width / 2, box.height / 2});
    if (radius > 0) {
        rounded(box, radius);
    } else {
        cairo_rectangle(context_, in_points(box.x), in_points(box.y), in_points(box.width),
                        in_points(box.height));
    }
    if (box.fill_grey >= 0) {
        grey(box.fill_grey);
        cairo_fill_preserve(context_);
    }
    if (box.stroke_width > 0) stroke(box.stroke_width, box.stroke_grey);
    cairo_new_path(context_);
}

void Drawer::operator()(const Circle& circle) const {
    if (circle.stroke_width <= 0) return;
    cairo_new_sub_path(context_);
    cairo_arc(context_, in_points(circle.x), in_points(circle.y), in_points(circle.radius), 0,
              2 * std::numbers::pi);
    stroke(circle.stroke_width, circle.grey);
}

void Drawer::operator()(const Triangle& triangle) const {
    cairo_move_to(context_, in_points(triangle.x1), in_points(triangle.y1));
    cairo_line_to(context_, in_points(triangle.x2), in_points(triangle.y2));
    cairo_line_to(context_, in_points(triangle.x3), in_points(triangle.y3));
    cairo_close_path(context_);
    grey(triangle.grey);
    cairo_fill(context_);
}

void Drawer::operator()(const Modules& code) const {
    for (const Modules::Rectangle& part : code.dark) {
        cairo_rectangle(context_, in_points(code.x + part.x * code.module),
                        in_points(code.y + part.y * code.module),
                        in_points(part.width * code.module), in_points(part.height * code.module));
    }
    grey(0);
    cairo_fill(context_);
}

// Outlines come in half font units; the context is scaled to them.
void Drawer::trace(const Outline& outline) const {
    double x = 0;
    double y = 0;
    for (const OutlineStep& step : outline) {
        switch (step.kind) {
            case OutlineStep::Kind::move:
                cairo_move_to(context_, step.x, step.y);
                break;
            case OutlineStep::Kind::line:
                cairo_line_to(context_, step.x, step.y);
                break;
            case OutlineStep::Kind::quadratic:
                // The cubic curve that is the same.
                cairo_curve_to(context_, x + (step.x1 - x) * 2 / 3, y + (step.y1 - y) * 2 / 3,
                               step.x + (step.x1 - step.x) * 2.0 / 3,
                               step.y + (step.y1 - step.y) * 2.0 / 3, step.x, step.y);
                break;
            case OutlineStep::Kind::cubic:
                cairo_curve_to(context_, step.x1, step.y1, step.x2, step.y2, step.x, step.y);
                break;
            case OutlineStep::Kind::close:
                cairo_close_path(context_);
                continue;
        }
        x = step.x;
        y = step.y;
    }
}

void Drawer::operator()(const Text& text) const {
    const ShapedText& shaped = fonts_.shape(text.face, text.text);
    const double scale = in_points(text.size) / fonts_.units_per_em(text.face);
    if (scale <= 0) return;
    double x = in_points(text.x);
    for (const Glyph& glyph : shaped.glyphs) {
        cairo_save(context_);
        cairo_translate(context_, x + glyph.x_offset * scale,
                        in_points(text.y) - glyph.y_offset * scale);
        cairo_scale(context_, scale / 2, -scale / 2);
        trace(fonts_.outline(text.face, glyph.id));
        cairo_restore(context_);
        x += glyph.advance * scale + in_points(text.tracking);
    }
    grey(text.grey);
    cairo_fill(context_);
}

}  // namespace

// Called from C.
extern "C" {
static cairo_status_t append(void* out, const unsigned char* data, unsigned size) {
    // Nothing may be thrown through C.
    try {
        static_cast<std::string*>(out)->append(
            static_cast<const char*>(static_cast<const void*>(data)), size);
    } catch (const std::bad_alloc&) {
        return CAIRO_STATUS_NO_MEMORY;
    }
    return CAIRO_STATUS_SUCCESS;
}
}

std::optional<std::string> write_png(const Page& page, Fonts& fonts, int dots_per_inch) {
    const SurfaceHandle surface{cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, pixels(page.width, dots_per_inch), pixels(page.height, dots_per_inch))};
    const ContextHandle context{cairo_create(surface.get())};
    cairo_set_source_rgb(context.get(), 1, 1, 1);
    cairo_paint(context.get());
    cairo_scale(context.get(), dots_per_inch / 72.0, dots_per_inch / 72.0);
    const Drawer drawer(context.get(), fonts);
    for (const bool texts : {false, true}) {
        for (const Primitive& primitive : page.primitives) {
            if (std::holds_alternative<Text>(primitive) == texts) std::visit(drawer, primitive);
        }
    }
    std::string bytes;
    if (cairo_status(context.get()) != CAIRO_STATUS_SUCCESS ||
        cairo_surface_write_to_png_stream(surface.get(), append, &bytes) != CAIRO_STATUS_SUCCESS) {
        return std::nullopt;
    }
    return bytes;
}

}  // namespace stave::card
