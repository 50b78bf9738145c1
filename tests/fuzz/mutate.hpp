// Broken texts made of good ones: bytes, words and lines deleted, inserted, doubled
// and swapped, the same ones for the same seed.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "tests/fuzz/varied_sessions.hpp"

namespace stave::testing {

// Texts to start from, and the words and lines that stand in them.
class Corpus {
public:
    explicit Corpus(std::vector<std::string> texts);

    [[nodiscard]] const std::vector<std::string>& texts() const { return texts_; }
    // A text of at most about 30 lines, broken in one to six places.
    [[nodiscard]] std::string broken(Chance& chance) const;

private:
    [[nodiscard]] std::string start(Chance& chance) const;
    void break_once(std::string& text, Chance& chance) const;

    std::vector<std::string> texts_;
    std::vector<std::string> lines_;
    std::vector<std::string> words_;
};

// The examples, the files of other tests and a list of lines that has a line of
// every kind.
[[nodiscard]] std::vector<std::string> starting_texts(const std::string& source_folder);

}  // namespace stave::testing
