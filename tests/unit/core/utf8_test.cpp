// Texts that are cut: RFC 3629, section 3, says which bytes go on with a character.

#include "compiler/source/utf8.hpp"

#include <gtest/gtest.h>

#include <string>

namespace stave {
namespace {

TEST(Utf8, a_cut_text_keeps_whole_characters) {
    const std::string text = "aé→🚣";
    const std::size_t lengths[] = {0, 1, 1, 3, 3, 3, 6, 6, 6, 6, 10, 10};
    for (std::size_t most = 0; most < std::size(lengths); ++most)
        EXPECT_EQ(whole_start(text, most), text.substr(0, lengths[most])) << most;
    EXPECT_EQ(whole_start("", 3), "");
}

}  // namespace
}  // namespace stave
