#include "backends/card/page.hpp"

#include <gtest/gtest.h>

namespace stave::card {
namespace {

TEST(PageDump, GivesEachPrimitiveALineWithAllItsFields) {
    Page page;
    page.primitives = {
        Text{3600, 5400, Face::condensed_bold, 4000, 30, 20, "Haul & Hold"},
        Line{1, 2, 3, 4, 160, 40, 300},
        Box{10, -20, 30, 40, 5, -1, 60, 7},
        Circle{100, 200, 300, 80, 9},
        Triangle{1, 2, 3, 4, 5, 6, 50},
        Modules{1, 2, 142, 21, {{0, 0, 7, 1}, {0, 1, 1, 6}}},
        Open{Role::figure, "A bar"},
        Link{1, 2, 3, 4, "https://skerry.example/\"9\""},
        Close{},
    };
    EXPECT_EQ(dump(page),
              "text 3600 5400 condensed_bold 4000 grey 30 tracking 20 \"Haul & Hold\"\n"
              "line 1 2 3 4 width 160 grey 40 dots 300\n"
              "box 10 -20 30 40 radius 5 fill -1 stroke 60 grey 7\n"
              "circle 100 200 300 stroke 80 grey 9\n"
              "triangle 1 2 3 4 5 6 grey 50\n"
              "modules 1 2 module 142 side 21 dark 0,0,7,1 0,1,1,6\n"
              "open figure \"A bar\"\n"
              "link 1 2 3 4 \"https://skerry.example/\\\"9\\\"\"\n"
              "close\n");
}

TEST(PageDump, NamesEveryFace) {
    Page page;
    for (const Face face :
         {Face::condensed_bold, Face::condensed_regular, Face::regular, Face::medium}) {
        page.primitives.emplace_back(Text{.face = face, .text = ""});
    }
    EXPECT_EQ(dump(page),
              "text 0 0 condensed_bold 0 grey 0 tracking 0 \"\"\n"
              "text 0 0 condensed_regular 0 grey 0 tracking 0 \"\"\n"
              "text 0 0 regular 0 grey 0 tracking 0 \"\"\n"
              "text 0 0 medium 0 grey 0 tracking 0 \"\"\n");
}

TEST(PageDump, NamesEveryRole) {
    Page page;
    for (const Role role : {Role::heading1, Role::heading2, Role::section, Role::paragraph,
                            Role::list, Role::item, Role::figure, Role::link, Role::artifact}) {
        page.primitives.emplace_back(Open{role, {}});
    }
    EXPECT_EQ(dump(page),
              "open heading1\nopen heading2\nopen section\nopen paragraph\nopen list\n"
              "open item\nopen figure\nopen link\nopen artifact\n");
}

TEST(PageDump, EscapesWhatWouldBreakALine) {
    Page page;
    page.primitives = {Text{.text = "say \"go\" \\ hold\nrest"}};
    EXPECT_EQ(dump(page),
              "text 0 0 regular 0 grey 0 tracking 0 \"say \\\"go\\\" \\\\ hold\\nrest\"\n");
}

}  // namespace
}  // namespace stave::card
