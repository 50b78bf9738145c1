// The private addresses of a file, which stand beside it: NAME.addresses for NAME.stave.
//
// A line for each: its name, a colon, its token. A line that is deleted is an address that is no
// more; the next one that is asked for is new. Made with rights for its owner alone.
#pragma once

#include <expected>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "compiler/diagnostics/diagnostic.hpp"

namespace stave::driver {

inline constexpr std::string_view addresses_ending = ".addresses";

struct Addresses {
    std::string path;
    // As it shall be written; remarks stay.
    std::string text;
    // By name. No two are the same.
    std::map<std::string, std::string> tokens;
    bool is_changed = false;
};

// Of the source with this path; none where there is no such file yet. Refuses a line that it
// does not understand.
[[nodiscard]] std::expected<Addresses, Diagnostic> read_addresses(const std::string& source);

// The names of addresses that are one athlete's begin so.
inline constexpr std::string_view athlete_word = "athlete ";

// The name of the address that all share: that of the first such name, which stays when plans
// and sessions are called otherwise. Nothing where there is none yet, which is named `title`.
[[nodiscard]] std::optional<std::string> shared_name(const Addresses& addresses,
                                                     const std::string& title);

// The token of the name, a new one where it has none.
[[nodiscard]] std::string address_of(Addresses& addresses, const std::string& name);

// Does nothing where nothing is new.
[[nodiscard]] std::optional<Diagnostic> write_addresses(const Addresses& addresses);

}  // namespace stave::driver
