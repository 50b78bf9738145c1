// What must hold for every text, however broken: shared by the mutation test and
// the fuzzer.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "backends/card/fonts.hpp"
#include "compiler/zones/zone_loader.hpp"

namespace stave::testing {

// How far a text without errors is taken.
enum class Depth { analysis, outputs, pdf };

class TextChecker {
public:
    // What is wrong with what the compiler makes of the text; nothing where all
    // holds: no exception, every place inside the text and on the edge of a
    // character, all arguments of every sentence given, edits that do not overlap,
    // problems told in printable characters, a whole feed, a card or the reason why
    // there is none.
    [[nodiscard]] std::optional<std::string> complaint(std::string_view text, Depth depth);

    [[nodiscard]] int texts_without_errors() const { return texts_without_errors_; }

private:
    std::optional<std::string> check(std::string_view text, Depth depth);

    zones::ZoneLoader zones_;
    card::Fonts fonts_;
    int texts_without_errors_ = 0;
};

}  // namespace stave::testing
