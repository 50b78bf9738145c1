#include "compiler/driver/networks.hpp"

#include <arpa/inet.h>
#include <gtest/gtest.h>

#include <array>

namespace stave::driver {
namespace {

in6_addr address(const char* text) {
    in6_addr parsed{};
    EXPECT_EQ(::inet_pton(AF_INET6, text, &parsed), 1) << text;
    return parsed;
}

bool is_near_to_ours(const char* client) {
    // Of a link, for the place alone, and of documentation (RFC 3849) as if it led out.
    const std::array own{address("fe80::1"), address("fd12:3456:789a:1::20"),
                         address("2001:db8:aaaa:bbbb::20")};
    return is_near(address(client), own);
}

// Ranges are those of RFC 4291, sections 2.5.3, 2.5.5.2 and 2.5.6, and RFC 4193, section 3.1.
TEST(IsNear, takes_addresses_that_lead_nowhere_from_outside) {
    for (const char* client : {"::1", "fe80::abcd", "febf::1", "fd00::1", "fc00::1", "fdff::1",
                               "::ffff:192.168.1.5", "::ffff:203.0.113.9"})
        EXPECT_TRUE(is_near_to_ours(client)) << client;
}

// RFC 4291, section 2.5.1: the last 64 bits are those of the interface.
TEST(IsNear, takes_those_behind_the_same_64_bits_and_nobody_else) {
    EXPECT_TRUE(is_near_to_ours("2001:db8:aaaa:bbbb::1"));
    EXPECT_TRUE(is_near_to_ours("2001:db8:aaaa:bbbb:ffff:ffff:ffff:ffff"));
    for (const char* client : {"2001:db8:aaaa:bbbc::20", "2001:db8::20", "2a00::1", "fec0::1",
                               "fb00::1", "fe00::1", "::2", "::192.168.1.5", "64:ff9b::c0a8:105"})
        EXPECT_FALSE(is_near_to_ours(client)) << client;
}

TEST(NetworkAddresses, stand_as_in_the_address_of_a_page) {
    for (const std::string& shown : network_addresses()) {
        in6_addr six{};
        in_addr four{};
        const bool is_bracketed = shown.starts_with('[') && shown.ends_with(']');
        EXPECT_TRUE(is_bracketed ? ::inet_pton(AF_INET6, shown.substr(1, shown.size() - 2).c_str(),
                                               &six) == 1
                                 : ::inet_pton(AF_INET, shown.c_str(), &four) == 1)
            << shown;
    }
}

}  // namespace
}  // namespace stave::driver
