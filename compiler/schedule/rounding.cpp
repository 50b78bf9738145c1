#include "compiler/schedule/rounding.hpp"

namespace stave::schedule {

Ratio nearest(Ratio value, Ratio step) {
    const Ratio multiples = value / step;
    const std::int64_t below = floor(multiples);
    const bool is_above_half = multiples - Ratio(below) > Ratio(1, 2);
    return Ratio(below + (is_above_half ? 1 : 0)) * step;
}

Ratio rounded_amount(Quantity value) {
    constexpr std::int64_t minute = 60;
    constexpr std::int64_t far = 100;
    const Ratio base = in_base_units(value);
    switch (dimension(value.unit)) {
        case Dimension::mass:
            return nearest(value.value, Ratio(1, 2));
        case Dimension::count:
        case Dimension::power:
        case Dimension::energy:
            return nearest(value.value, Ratio(1));
        case Dimension::time: {
            const Ratio seconds = nearest(base, base < Ratio(minute) ? Ratio(1) : Ratio(5));
            return convert({seconds, Unit::second}, value.unit).value;
        }
        case Dimension::length: {
            const Ratio metres = nearest(base, base < Ratio(far) ? Ratio(1) : Ratio(10));
            const bool is_metric = value.unit == Unit::metre || value.unit == Unit::kilometre;
            if (is_metric) return convert({metres, Unit::metre}, value.unit).value;
            return nearest(value.value, Ratio(1, 10));
        }
        case Dimension::angle:
        case Dimension::share:
            break;
    }
    return value.value;
}

}  // namespace stave::schedule
