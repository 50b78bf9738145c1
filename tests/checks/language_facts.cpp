// Writes what wording does with numbers and dates in every language, one fact a line, for
// languages.py: "de plural 3/2 other", "de decimal 2,5", "de date 2026-12-03 Do., ...".
#include <chrono>
#include <cstdlib>
#include <iostream>
#include <string_view>

#include "compiler/wording/wording.hpp"
#include "compiler/wording/words.hpp"

namespace {

using stave::Ratio;
using stave::wording::Language;
using stave::wording::tag;

constexpr std::string_view names[] = {"one", "few", "many", "other"};

void write_plural(Language language, Ratio number) {
    const auto plural = static_cast<std::size_t>(stave::wording::plural_of(language, number));
    std::cout << tag(language) << " plural " << number.numerator() << '/' << number.denominator()
              << ' ' << names[plural] << '\n';
}

void write_dates(Language language) {
    using namespace std::chrono;
    const sys_days first{2027y / January / 1};
    for (sys_days day = first; day < first + days{365}; day += days{1}) {
        const year_month_day date{day};
        std::cout << tag(language) << " date " << static_cast<int>(date.year()) << '-'
                  << static_cast<unsigned>(date.month()) << '-' << static_cast<unsigned>(date.day())
                  << ' ' << stave::wording::date(language, date) << '\n';
    }
}

}  // namespace

int main() {
    for (const Language language : stave::wording::languages) {
        for (std::int64_t number = 0; number <= 200; ++number)
            write_plural(language, number);
        for (std::int64_t half = 1; half <= 41; half += 2)
            write_plural(language, Ratio(half, 2));
        std::cout << tag(language) << " decimal " << stave::wording::decimal(language, Ratio(5, 2))
                  << '\n';
        write_dates(language);
    }
    return std::cout ? EXIT_SUCCESS : EXIT_FAILURE;
}
