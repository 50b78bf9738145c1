#include "backends/server/target.hpp"

#include <gtest/gtest.h>

namespace stave::server {
namespace {

using namespace std::string_view_literals;

TEST(Place, is_the_path_without_its_escapes) {
    EXPECT_EQ(place_of("/").value().path, "");
    EXPECT_TRUE(place_of("/").value().is_folder);
    EXPECT_EQ(place_of("/feeds/crew.ics").value().path, "feeds/crew.ics");
    EXPECT_FALSE(place_of("/feeds/crew.ics").value().is_folder);
    EXPECT_EQ(place_of("/feeds/").value().path, "feeds");
    EXPECT_TRUE(place_of("/feeds/").value().is_folder);
    // RFC 3986, section 6.2.2: an escape is what it stands for, in either letter case.
    EXPECT_EQ(place_of("/%66eeds/%CE%BA%cf%8d%CE%BC%CE%B1.ics").value().path, "feeds/κύμα.ics");
    EXPECT_EQ(place_of("/a%20b.pdf?x=/../y").value().path, "a b.pdf");
}

// RFC 9112, section 3.2.2: a server must accept the absolute form.
TEST(Place, is_found_in_the_absolute_form) {
    EXPECT_EQ(place_of("http://crew.example/feeds/a.ics").value().path, "feeds/a.ics");
    EXPECT_EQ(place_of("HTTPS://crew.example:7828/a.ics?b").value().path, "a.ics");
    EXPECT_EQ(place_of("http://crew.example").value().path, "");
    EXPECT_EQ(place_of("http://crew.example?x").value().path, "");
}

TEST(Place, is_refused_where_the_target_is_malformed) {
    for (const std::string_view target :
         {""sv, "*"sv, "feeds/a.ics"sv, "crew.example:80"sv, "ftp://a/b"sv, "/%"sv, "/%4"sv,
          "/a%zz"sv, "/a%00.ics"sv, "/a\0b"sv, "/%0d%0aSet-Cookie:x"sv, "/a\tb"sv, "/%7f"sv}) {
        const auto place = place_of(target);
        ASSERT_FALSE(place.has_value()) << target;
        EXPECT_EQ(place.error(), Refusal::malformed) << target;
    }
}

TEST(Place, never_leads_out_of_the_folder_or_to_what_is_hidden) {
    for (const char* target : {"/..",
                               "/../etc/passwd",
                               "/feeds/../../etc/passwd",
                               "/%2e%2e/etc/passwd",
                               "/.%2e/etc/passwd",
                               "/%2E%2E%2Fetc%2Fpasswd",
                               "/feeds%2fa.ics",
                               "//etc/passwd",
                               "//",
                               "/feeds//a.ics",
                               "/./feeds/a.ics",
                               "/.git/config",
                               "/feeds/.hidden",
                               "/%2egit/config",
                               "/crew.addresses",
                               "/stave-manifest.json",
                               "/%73tave-manifest.json",
                               "/stave-manifest.json/",
                               "/cards/x.pdf.12.part",
                               "http://a//b"}) {
        const auto place = place_of(target);
        ASSERT_FALSE(place.has_value()) << target;
        EXPECT_EQ(place.error(), Refusal::hidden) << target;
    }
}

TEST(Private, is_what_stands_below_its_folder) {
    EXPECT_TRUE(is_private("private/abc/index.html"));
    EXPECT_TRUE(is_private("private"));
    EXPECT_FALSE(is_private("privateer.html"));
    EXPECT_FALSE(is_private("feeds/private/x"));
}

TEST(EscapedPath, holds_visible_signs_alone) {
    EXPECT_EQ(escaped_path("feeds/a.ics"), "feeds/a.ics");
    EXPECT_EQ(escaped_path("a b\n\x1b[2J%<ü\"?#"), "a%20b%0A%1B%5B2J%25%3C%C3%BC%22%3F%23");
}

}  // namespace
}  // namespace stave::server
