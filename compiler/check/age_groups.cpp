#include "compiler/check/age_groups.hpp"

#include <charconv>
#include <system_error>

namespace stave::check {

namespace {

using program::AgeGroup;

// Groups of the young end with their studies, and older ones begin where some sports begin to
// count them by themselves (common practice, no source).
constexpr int least_under = 6;
constexpr int most_under = 23;
constexpr int least_over = 35;
constexpr int most_over = 90;

std::optional<AgeGroup> with_years(AgeGroup::Bound bound, std::string_view digits, int least,
                                   int most) {
    AgeGroup group{bound, 0};
    const char* const end = digits.data() + digits.size();
    const auto read = std::from_chars(digits.data(), end, group.years);
    if (read.ec != std::errc() || read.ptr != end) return std::nullopt;
    if (group.years < least || group.years > most) return std::nullopt;
    return group;
}

}  // namespace

std::optional<AgeGroup> read_age_group(std::string_view folded) {
    constexpr std::string_view under = "under ";
    constexpr std::string_view over = "over ";
    if (folded == "adult") return AgeGroup{};
    if (folded.starts_with(under)) {
        return with_years(AgeGroup::Bound::under, folded.substr(under.size()), least_under,
                          most_under);
    }
    if (folded.starts_with(over)) {
        return with_years(AgeGroup::Bound::over, folded.substr(over.size()), least_over, most_over);
    }
    return std::nullopt;
}

}  // namespace stave::check
