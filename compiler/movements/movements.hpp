// The movements that ship with the compiler: their definitions in the notation, from
// the files of this folder, and an index of their names.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace stave::movements {

// All definitions, one below the other.
[[nodiscard]] std::string_view library_text();

struct Entry {
    // The main name, as it is written.
    std::string_view name;
    // The definition, from its first line to the next.
    std::string_view text;
};

// Reads the names once, when they are first asked for.
class Library {
public:
    // By a folded name, its main or another one.
    [[nodiscard]] std::optional<Entry> find(const std::string& folded_name);

    // The main name whose own or other name is nearest to the folded one: a slip away,
    // or two in a longer name; else "".
    [[nodiscard]] std::string near(const std::string& folded_name);

    [[nodiscard]] const std::vector<Entry>& all();

private:
    void read();

    std::vector<Entry> entries_;
    // Folded names.
    std::unordered_map<std::string, std::size_t> by_name_;
};

}  // namespace stave::movements
