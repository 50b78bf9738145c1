#include "compiler/driver/manifest.hpp"

#include <gtest/gtest.h>

#include <set>

#include "compiler/driver/addresses.hpp"
#include "compiler/driver/hashes.hpp"
#include "tests/unit/driver/temporary_folder.hpp"

namespace stave::driver {
namespace {

using stave::testing::TemporaryFolder;

// FIPS 180-4, examples of its section on SHA-256, as NIST publishes them.
TEST(Sha256, is_that_of_the_standard) {
    EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(Tokens, have_128_bits_and_never_come_twice) {
    std::set<std::string> met;
    for (int i = 0; i < 1000; ++i) {
        const std::string token = make_token();
        // RFC 4648, section 6: 26 digits hold 130 bits, so the last one has two zeros.
        EXPECT_TRUE(is_token(token)) << token;
        EXPECT_NE(std::string("aeimquy4").find(token.back()), std::string::npos) << token;
        EXPECT_TRUE(met.insert(token).second);
    }
    EXPECT_FALSE(is_token("abc"));
    EXPECT_FALSE(is_token(std::string(25, 'a') + "A"));
    EXPECT_FALSE(is_token(std::string(25, 'a') + "/"));
}

TEST(Manifest, comes_back_as_it_was_written) {
    Manifest manifest;
    manifest["cards/a.pdf"] = {{sha256("a"), sha256("b")}, sha256("../a.stave")};
    manifest[listed_name("private/x/y.pdf")] = {{listed_hash("private/x/y.pdf", "c")}, ""};
    manifest["feeds/a.ics"] = {{sha256("d")}, "", sha256("../a.stave")};
    const auto read = read_manifest(to_json(manifest));
    ASSERT_TRUE(read.has_value());
    EXPECT_EQ(*read, manifest);
}

TEST(Manifest, knows_whose_a_feed_is_however_it_was_made) {
    const ManifestEntry built{{sha256("a")}, sha256("../a.stave")};
    const ManifestEntry published{{sha256("a")}, "", sha256("../a.stave")};
    EXPECT_EQ(built.origin(), published.origin());
    EXPECT_EQ((ManifestEntry{{sha256("a")}, ""}).origin(), "");
}

TEST(Manifest, names_no_private_path_and_does_not_confirm_what_it_holds) {
    const std::string name = listed_name("private/secret/ana.pdf");
    EXPECT_EQ(name.find("secret"), std::string::npos);
    EXPECT_NE(listed_hash("private/secret/ana.pdf", "x"), sha256("x"));
    EXPECT_NE(listed_hash("private/secret/ana.pdf", "x"),
              listed_hash("private/other/ana.pdf", "x"));
    EXPECT_EQ(listed_hash("privately.pdf", "x"), sha256("x"));
}

TEST(Manifest, is_refused_where_it_is_not_whole) {
    const std::string good = to_json({{"a", {{sha256("a")}, ""}}});
    for (std::size_t size = 0; size + 2 < good.size(); size += 7) {
        EXPECT_EQ(read_manifest(good.substr(0, size)).error(), Code::manifest_damaged) << size;
    }
    for (const std::string_view text :
         {"[]", "{}", "null", R"({"version": 0, "files": {}})", R"({"version": "1", "files": {}})",
          R"({"version": 1, "files": []})", R"({"version": 1, "files": {"a": {"sha256": []}}})",
          R"({"version": 1, "files": {"a": {"sha256": ["b"]}}})"}) {
        EXPECT_EQ(read_manifest(text).error(), Code::manifest_damaged) << text;
    }
    EXPECT_EQ(read_manifest(R"({"version": 2, "files": 7})").error(), Code::manifest_newer);
}

TEST(Manifest, names_nothing_outside_its_folder) {
    for (const std::string name : {"../a", "/etc/a", "a/../../b", "", ".", "a/", "private:x"}) {
        const std::string text = to_json({{name, {{sha256("a")}, ""}}});
        EXPECT_EQ(read_manifest(text).error(), Code::manifest_damaged) << name;
    }
}

TEST(Addresses, stay_until_their_line_is_deleted) {
    const TemporaryFolder folder;
    const std::string source = folder.path("winter.stave");
    auto first = read_addresses(source).value();
    const std::string token = address_of(first, "Winter: group A");
    EXPECT_FALSE(write_addresses(first).has_value());
    auto again = read_addresses(source).value();
    EXPECT_EQ(address_of(again, "Winter: group A"), token);
    EXPECT_FALSE(again.is_changed);
    const std::string other = folder.write("winter.addresses", "# mine\n\n");
    auto anew = read_addresses(source).value();
    EXPECT_NE(address_of(anew, "Winter: group A"), token);
    EXPECT_FALSE(write_addresses(anew).has_value());
    EXPECT_TRUE(folder.read("winter.addresses").starts_with("# mine\n\nWinter: group A: "));
}

TEST(Addresses, are_refused_where_a_line_is_not_understood) {
    const TemporaryFolder folder;
    const std::string token = "abcdefghijklmnopqrstuvwxyz";
    for (const std::string& text :
         {std::string("Ana"), std::string("Ana: short"), ": " + token,
          "Ana: " + token + "\nBo: " + token, "Ana: " + token + "\nAna: " + make_token()}) {
        static_cast<void>(folder.write("a.addresses", "# remark\n" + text + "\n"));
        const auto read = read_addresses(folder.path("a.stave"));
        ASSERT_FALSE(read.has_value()) << text;
        EXPECT_EQ(read.error().code, Code::addresses_damaged);
    }
}

}  // namespace
}  // namespace stave::driver
