// The four faces of cards as font files: the program's own (Roboto, Apache-2.0), or those
// chosen among the files of a coach's folder.
//
// Takes bytes, never paths to open. A file that is damaged, a collection, without
// TrueType outlines or forbidden to be embedded is refused by a diagnostic.
#pragma once

#include <array>
#include <cstddef>
#include <expected>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "backends/card/page.hpp"
#include "compiler/diagnostics/diagnostic.hpp"

namespace stave::card {

// A file of a folder of fonts, whole; `path` as people know it.
struct FontFile {
    std::string path;
    std::string bytes;
};

struct FaceFile {
    // Its PostScript name.
    std::string name;
    std::span<const std::byte> bytes;
};

// Copies share the bytes, which live as long as one of them.
class Family {
public:
    // The program's own.
    Family();
    Family(std::vector<FontFile> files, std::array<FaceFile, face_count> faces);

    [[nodiscard]] const FaceFile& face(Face which) const {
        return faces_[static_cast<std::size_t>(which)];
    }
    [[nodiscard]] bool is_own() const { return files_ == nullptr; }
    // Differs between families; empty for the program's own.
    [[nodiscard]] const std::string& mark() const { return mark_; }

private:
    std::shared_ptr<const std::vector<FontFile>> files_;
    std::array<FaceFile, face_count> faces_;
    std::string mark_;
};

struct ChosenFamily {
    Family family;
    // Notes for whoever named the folder.
    std::vector<Diagnostic> notes;
};

// `folder` is for messages. A file counts that stands upright and has Latin letters and
// figures. Files belong together by their family's name without words for weights and
// widths. The family is taken whose files come nearest to the four faces; of those as
// near, the one with the shortest name. Each face takes the nearest file by weight and
// width: 25 % of width count as 100 of weight; of those as near, the heavier.
[[nodiscard]] std::expected<ChosenFamily, Diagnostic> choose_family(const std::string& folder,
                                                                    std::vector<FontFile> files);

}  // namespace stave::card
