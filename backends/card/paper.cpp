#include "backends/card/paper.hpp"

#include <algorithm>

namespace stave::card {

std::string_view name_of(Paper paper) {
    switch (paper) {
        case Paper::letter:
            return "letter";
        case Paper::a5:
            return "a5";
        case Paper::a6:
            return "a6";
        case Paper::a3:
            return "a3";
        case Paper::a4:
            break;
    }
    return "a4";
}

std::string_view spoken_name(Paper paper) {
    switch (paper) {
        case Paper::letter:
            return "Letter";
        case Paper::a5:
            return "A5";
        case Paper::a6:
            return "A6";
        case Paper::a3:
            return "A3";
        case Paper::a4:
            break;
    }
    return "A4";
}

std::optional<Paper> paper_named(std::string_view name) {
    const auto* const found =
        std::ranges::find_if(papers, [&](Paper paper) { return name_of(paper) == name; });
    if (found == papers.end()) return std::nullopt;
    return *found;
}

// Millimetres are 72 / 25.4 pt, rounded to a hundredth of a point.
PaperSize size_of(Paper paper) {
    switch (paper) {
        case Paper::letter:
            return {61200, 79200};
        case Paper::a5:
            return {41953, 59528};
        case Paper::a6:
            return {29764, 41953};
        case Paper::a3:
            return {84189, 119055};
        case Paper::a4:
            break;
    }
    return {59528, 84189};
}

}  // namespace stave::card
