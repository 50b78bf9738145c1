#include "backends/card/family.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <limits>
#include <map>
#include <tuple>
#include <utility>

#include "backends/card/fonts/inspect.hpp"
#include "compiler/source/text_hash.hpp"

// From faces.S.
extern "C" {
extern const std::byte stave_face_condensed_bold[];
extern const std::uint64_t stave_face_condensed_bold_size;
extern const std::byte stave_face_condensed_regular[];
extern const std::uint64_t stave_face_condensed_regular_size;
extern const std::byte stave_face_regular[];
extern const std::uint64_t stave_face_regular_size;
extern const std::byte stave_face_medium[];
extern const std::uint64_t stave_face_medium_size;
}

namespace stave::card {

namespace {

// What cards are designed with, in the order of Face: weights and widths of OpenType's OS/2
// table, where condensed is 75 % wide.
struct Wanted {
    int weight = 0;
    int width = 0;
};
constexpr std::array<Wanted, face_count> wanted{{{700, 75}, {400, 75}, {400, 100}, {500, 100}}};

// Of one family: indices of files.
using Members = std::vector<std::size_t>;

struct Choice {
    int distance = 0;
    std::array<std::size_t, face_count> files{};
};

Choice choose(const Members& members, const std::vector<Inspected>& fonts) {
    Choice choice;
    for (std::size_t face = 0; face < wanted.size(); ++face) {
        // A larger weight is the lesser number.
        const auto rank = [&](std::size_t id) {
            const Inspected& font = fonts[id];
            const int distance = std::abs(font.weight - wanted[face].weight) +
                                 4 * std::abs(font.width - wanted[face].width);
            return std::tuple(distance, -font.weight, id);
        };
        const std::size_t best = *std::ranges::min_element(members, {}, rank);
        choice.files[face] = best;
        choice.distance += std::get<0>(rank(best));
    }
    return choice;
}

// One font at least stands in each family.
std::pair<std::string, Choice> best_family(const std::map<std::string, Members>& families,
                                           const std::vector<Inspected>& fonts) {
    std::pair<std::string, Choice> best;
    best.second.distance = std::numeric_limits<int>::max();
    for (const auto& [name, members] : families) {
        const Choice choice = choose(members, fonts);
        if (std::pair(choice.distance, name.size()) <
            std::pair(best.second.distance, best.first.size())) {
            best = {name, choice};
        }
    }
    return best;
}

Diagnostic note_of_families(const std::string& folder, const std::string& taken,
                            const std::map<std::string, Members>& families) {
    std::string others;
    for (const auto& [name, members] : families) {
        if (name == taken) continue;
        others += (others.empty() ? "" : ", ") + name;
    }
    return {Code::font_families, {}, {folder, taken, others}, {}, {}};
}

// The diagnostic for a folder of which no file will do.
Diagnostic without_font(const std::string& folder, const std::vector<Inspected>& fonts) {
    const bool has_slanted =
        std::ranges::any_of(fonts, [](const Inspected& font) { return font.has_letters; });
    return {has_slanted ? Code::font_slanted : Code::font_none, {}, {folder}, {}, {}};
}

}  // namespace

Family::Family()
    : faces_{{{"RobotoCondensed-Bold", {stave_face_condensed_bold, stave_face_condensed_bold_size}},
              {"RobotoCondensed-Regular",
               {stave_face_condensed_regular, stave_face_condensed_regular_size}},
              {"Roboto-Regular", {stave_face_regular, stave_face_regular_size}},
              {"Roboto-Medium", {stave_face_medium, stave_face_medium_size}}}} {}

Family::Family(std::vector<FontFile> files, std::array<FaceFile, face_count> faces)
    : files_(std::make_shared<const std::vector<FontFile>>(std::move(files))),
      faces_(std::move(faces)) {
    std::string names;
    for (const FaceFile& face : faces_)
        names += face.name + ' ';
    mark_ = fmt::format("{:08x}", text_hash(names) & 0xFFFFFFFFU);
}

std::expected<ChosenFamily, Diagnostic> choose_family(const std::string& folder,
                                                      std::vector<FontFile> files) {
    std::vector<Inspected> fonts;
    std::map<std::string, Members> families;
    for (const FontFile& file : files) {
        auto inspected = inspect(file);
        if (!inspected) return std::unexpected(std::move(inspected.error()));
        if (!inspected->is_slanted && inspected->has_letters) {
            families[inspected->family].push_back(fonts.size());
        }
        fonts.push_back(std::move(*inspected));
    }
    if (families.empty()) return std::unexpected(without_font(folder, fonts));
    const auto [name, choice] = best_family(families, fonts);
    // Only what is used is kept.
    std::vector<FontFile> kept;
    std::map<std::size_t, std::size_t> places;
    for (const std::size_t id : choice.files) {
        if (places.contains(id)) continue;
        if (auto allowed = may_be_embedded(files[id], fonts[id]); !allowed) {
            return std::unexpected(std::move(allowed.error()));
        }
        places.emplace(id, places.size());
    }
    std::array<std::string, face_count> names;
    for (std::size_t face = 0; face < choice.files.size(); ++face)
        names[face] = fonts[choice.files[face]].name;
    fonts.clear();
    kept.resize(places.size());
    for (const auto& [id, place] : places)
        kept[place] = std::move(files[id]);
    // The vector's buffer, and so the bytes of short files too, stay where they are.
    std::array<FaceFile, face_count> faces;
    for (std::size_t face = 0; face < choice.files.size(); ++face)
        faces[face] = {names[face], bytes_of(kept[places.at(choice.files[face])])};
    ChosenFamily chosen{Family(std::move(kept), std::move(faces)), {}};
    if (families.size() > 1) chosen.notes.push_back(note_of_families(folder, name, families));
    return chosen;
}

}  // namespace stave::card
