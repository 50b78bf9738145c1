// Tells at a glance that a word is none of a list: every movement's line asks for several
// lists, and hardly ever is one of their words in it.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>

#include "grammar/vocabulary.hpp"

namespace stave::parse {

class WordSieve {
public:
    // The words begin with ASCII letters.
    template <typename Words, typename Projection>
    constexpr WordSieve(const Words& words, Projection word_of) {
        for (const auto& one : words) {
            const std::string_view word = word_of(one);
            letters_[word.size() % sizes] |= bit(word.front());
        }
    }

    // Whether the word may be one of them: it has the size and the first letter of one.
    [[nodiscard]] constexpr bool may_hold(std::string_view word) const {
        return !word.empty() && (letters_[word.size() % sizes] & bit(word.front())) != 0;
    }

private:
    static constexpr std::size_t sizes = 32;

    static constexpr std::uint32_t bit(char letter) {
        constexpr std::uint32_t letter_bits = 31;
        return 1U << (static_cast<unsigned char>(grammar::to_lower(letter)) & letter_bits);
    }

    // By the words' sizes, a bit for each first letter.
    std::array<std::uint32_t, sizes> letters_{};
};

}  // namespace stave::parse
