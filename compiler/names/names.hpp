// Names and texts: as they compare, as they print, as they name files.
#pragma once

#include <string>
#include <string_view>

namespace stave {

// Two names are one movement when these are equal: NFC, letter case folded
// (Unicode, no locale), dashes of any kind as -, runs of blanks as one,
// zero-width and direction marks dropped.
[[nodiscard]] std::string fold_name(std::string_view name);

// For printing: NFC, runs of blanks as one space, zero-width and direction marks
// dropped.
[[nodiscard]] std::string clean_text(std::string_view text);

// Lower-case ASCII letters and digits of the text with hyphens between its
// words, accents dropped ("Río Alto" -> "rio-alto"), at most 50 bytes. Where it
// is cut, or no letter is left (Greek, say), a hash of the folded text ends it,
// which makes at most 59 of them; empty only for an empty text.
[[nodiscard]] std::string slug(std::string_view text);

}  // namespace stave
