// What kind of line a head announces (a field, an opener, else a movement), and
// which word of the vocabulary a mistyped one is near.
#pragma once

#include <span>
#include <string_view>

#include "compiler/source/span.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::parse {

struct Classification {
    grammar::LineKind kind = grammar::LineKind::movement_line;
    grammar::BodyKind body = grammar::BodyKind::dose;
    // Bytes of the head that the opener takes, without the blank behind it.
    std::size_t opener_size = 0;
};

// `head` is trimmed; letter case and runs of blanks do not matter.
[[nodiscard]] Classification classify(std::string_view head);

// The closest opener within two typing slips, or "".
[[nodiscard]] std::string_view near_opener(std::string_view word);

// A field within one typing slip behind its first letter, or "". Only for lines that
// make no sense as a movement: many short names are a slip from a field.
[[nodiscard]] std::string_view near_field(std::string_view head);

// A field of at least so many letters that has one letter more or less, or "".
[[nodiscard]] std::string_view field_but_for_a_letter(std::string_view head,
                                                      std::size_t least_size);

// The closest unit within one typing slip, or "".
[[nodiscard]] std::string_view near_unit(std::string_view word);

// The closest of the words within one typing slip, two in a long word, or "".
[[nodiscard]] std::string_view near_word(std::string_view word,
                                         std::span<const std::string_view> words);

}  // namespace stave::parse
