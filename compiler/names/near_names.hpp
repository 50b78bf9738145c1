// Which known name an unknown one may be meant as, for a message.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <unordered_map>

namespace stave {

// As typed, by folded names.
using KnownNames = std::unordered_map<std::string, std::string>;

// Each search compares with all names, and a file may have thousands of both; so of one text
// there are only so many searches, more than anybody reads messages.
class NearNames {
public:
    static constexpr std::size_t most_searches = 500;

    // The first in the order of folded names of those that are one slip away; nothing where there
    // is none, where the name is so short that it is near to anything, or where it has been looked
    // for often enough.
    [[nodiscard]] std::optional<std::string> find(const std::string& folded,
                                                  const KnownNames& names);

private:
    std::size_t searches_ = 0;
};

}  // namespace stave
