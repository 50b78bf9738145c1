#include "compiler/names/near_names.hpp"

#include "compiler/names/edit_distance.hpp"

namespace stave {

std::optional<std::string> NearNames::find(const std::string& folded, const KnownNames& names) {
    constexpr std::size_t shortest = 3;
    if (folded.size() < shortest || searches_ == most_searches) return std::nullopt;
    ++searches_;
    const KnownNames::value_type* near = nullptr;
    for (const auto& one : names) {
        const bool is_nearer = near == nullptr || one.first < near->first;
        if (is_nearer && edit_distance(folded, one.first, 1) <= 1) near = &one;
    }
    return near == nullptr ? std::nullopt : std::optional(near->second);
}

}  // namespace stave
