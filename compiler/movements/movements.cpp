#include "compiler/movements/movements.hpp"

#include <algorithm>

#include "compiler/names/edit_distance.hpp"
#include "compiler/names/names.hpp"

namespace stave::movements {

namespace {

constexpr std::string_view opener = "movement ";
constexpr std::string_view other_names = "  also: ";

std::string_view line_at(std::string_view text, std::size_t begin) {
    return text.substr(begin, text.find('\n', begin) - begin);
}

// Where the next line begins that starts with the words; the size where there is
// none.
std::size_t find_line(std::string_view text, std::string_view words, std::size_t from) {
    for (std::size_t at = text.find(words, from); at != std::string_view::npos;
         at = text.find(words, at + 1)) {
        if (at == 0 || text[at - 1] == '\n') return at;
    }
    return text.size();
}

}  // namespace

void Library::read() {
    if (!entries_.empty()) return;
    const std::string_view text = library_text();
    for (std::size_t begin = find_line(text, opener, 0); begin < text.size();) {
        const std::size_t end = find_line(text, opener, begin + 1);
        const std::string_view head = line_at(text, begin);
        const Entry entry{head.substr(opener.size(), head.rfind(':') - opener.size()),
                          text.substr(begin, end - begin)};
        const std::size_t id = entries_.size();
        by_name_.emplace(fold_name(entry.name), id);
        if (const std::size_t at = find_line(entry.text, other_names, 0); at < entry.text.size()) {
            std::string_view names = line_at(entry.text, at).substr(other_names.size());
            while (!names.empty()) {
                const std::size_t comma = std::min(names.find(','), names.size());
                by_name_.emplace(fold_name(names.substr(0, comma)), id);
                names.remove_prefix(std::min(comma + 1, names.size()));
                while (names.starts_with(' '))
                    names.remove_prefix(1);
            }
        }
        entries_.push_back(entry);
        begin = end;
    }
}

std::optional<Entry> Library::find(const std::string& folded_name) {
    read();
    const auto found = by_name_.find(folded_name);
    if (found == by_name_.end()) return std::nullopt;
    return entries_[found->second];
}

std::string Library::near(const std::string& folded_name) {
    read();
    constexpr std::size_t shortest = 4;
    constexpr std::size_t long_name = 8;
    if (folded_name.size() < shortest) return "";
    std::size_t least = folded_name.size() < long_name ? 2 : 3;
    std::size_t best = entries_.size();
    for (const auto& [name, id] : by_name_) {
        const std::size_t distance = edit_distance(folded_name, name, least);
        // Names have no order of their own, so equals are told apart by their place.
        if (distance > least || (distance == least && id >= best)) continue;
        if (distance == least && best == entries_.size()) continue;
        least = distance;
        best = id;
    }
    return best == entries_.size() ? std::string() : std::string(entries_[best].name);
}

const std::vector<Entry>& Library::all() {
    read();
    return entries_;
}

}  // namespace stave::movements
