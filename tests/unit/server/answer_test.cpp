// Sections are those of RFC 9110 where no other is named.
#include "backends/server/answer.hpp"

#include <gtest/gtest.h>

#include <map>

namespace stave::server {
namespace {

using namespace std::chrono_literals;
using std::chrono::sys_days;

constexpr auto changed = sys_days{1994y / 10 / 29} + 19h + 43min + 31s;
constexpr auto now = sys_days{2026y / 11 / 26} + 12h;
const std::string token = "abcdefghijklmnopqrstuvwxyz";

Representation representation(const std::string& tag, const std::string& bytes) {
    return {tag, Body(bytes)};
}

// Of a file that is too large to be held: the last digits of each place in it.
std::size_t read_film(std::uint64_t first, std::span<char> room) {
    for (char& c : room)
        c = static_cast<char>('0' + first++ % 10);
    return room.size();
}
const Representation film{"\"film\"", Body(std::uint64_t{1} << 40U, read_film)};

// A folder with a feed that packs, a card that does not, and a private page.
Found sample(const std::string& path) {
    const File card{changed, representation("\"card\"", "0123456789"), {}};
    const std::map<std::string, Found> folder{
        {"index.html", File{changed, representation("\"index\"", "<p>"), {}}},
        {"cards", Folder{}},
        {"cards/a.pdf", card},
        {"feeds", Folder{}},
        {"feeds/index.html", card},
        {"feeds/a.ics", File{changed, representation("\"feed\"", "BEGIN:VCALENDAR"),
                             representation("\"feed-gzip\"", "packed")}},
        {"feeds/torn.ics", Unreadable{}},
        {"film.txt", File{changed, film, {}}},
        {"private/" + token + "/film.txt", File{changed, film, {}}},
        {"later.txt", File{now + 1h, representation("\"later\"", "x"), {}}},
        {"private/" + token + "/index.html", card},
    };
    const auto found = folder.find(path);
    return found == folder.end() ? Found{Nothing{}} : found->second;
}

Answer ask(const std::string& target, std::vector<Field> fields = {},
           const std::string& method = "GET") {
    fields.push_back({"Host", "crew.example"});
    return answer({method, target, "HTTP/1.1", std::move(fields)}, sample, now);
}

std::string field(const Answer& answer, std::string_view name) {
    std::string value;
    for (const Field& one : answer.fields) {
        if (one.name != name) continue;
        EXPECT_TRUE(value.empty()) << name << " stands twice";
        value = one.value;
    }
    return value;
}

std::string body(const Answer& answer) {
    if (answer.body.bytes()) return answer.body.bytes()->substr(answer.first, answer.length);
    std::string bytes(answer.length, '\0');
    EXPECT_EQ(answer.body.read(answer.first, bytes), answer.length);
    return bytes;
}

TEST(Answer, gives_a_file_and_says_what_it_is) {
    const Answer feed = ask("/feeds/a.ics");
    EXPECT_EQ(feed.status, 200);
    EXPECT_EQ(body(feed), "BEGIN:VCALENDAR");
    // RFC 5545, section 8.1.
    EXPECT_EQ(field(feed, "Content-Type"), "text/calendar; charset=utf-8");
    EXPECT_EQ(field(feed, "ETag"), "\"feed\"");
    EXPECT_EQ(field(feed, "Last-Modified"), "Sat, 29 Oct 1994 19:43:31 GMT");
    EXPECT_EQ(field(feed, "Accept-Ranges"), "bytes");
    EXPECT_EQ(field(feed, "Cache-Control"), "public, max-age=300, must-revalidate");
    EXPECT_EQ(field(feed, "X-Content-Type-Options"), "nosniff");
    EXPECT_EQ(field(feed, "Content-Security-Policy"), "");
    EXPECT_NE(field(ask("/"), "Content-Security-Policy"), "");
    EXPECT_EQ(body(ask("/")), "<p>");
}

// Sections 8.8.3.3 and 12.5.5: another coding has another tag, and caches are told.
TEST(Answer, packs_for_those_who_ask) {
    const Answer packed = ask("/feeds/a.ics", {{"Accept-Encoding", "gzip"}});
    EXPECT_EQ(body(packed), "packed");
    EXPECT_EQ(field(packed, "Content-Encoding"), "gzip");
    EXPECT_EQ(field(packed, "ETag"), "\"feed-gzip\"");
    EXPECT_EQ(field(packed, "Vary"), "Accept-Encoding");
    EXPECT_EQ(field(ask("/feeds/a.ics"), "Vary"), "Accept-Encoding");
    const Answer card = ask("/cards/a.pdf", {{"Accept-Encoding", "gzip"}});
    EXPECT_EQ(field(card, "Content-Encoding") + field(card, "Vary"), "");
    // A tag of the other coding is that of other bytes.
    EXPECT_EQ(
        ask("/feeds/a.ics", {{"If-None-Match", "\"feed\""}, {"Accept-Encoding", "gzip"}}).status,
        200);
}

// Section 15.4.5: what a 304 has.
TEST(Answer, is_short_where_nothing_has_changed) {
    const Answer same = ask("/feeds/a.ics", {{"If-None-Match", "\"feed\""}});
    EXPECT_EQ(same.status, 304);
    EXPECT_EQ(field(same, "ETag"), "\"feed\"");
    EXPECT_EQ(field(same, "Vary"), "Accept-Encoding");
    EXPECT_EQ(field(same, "Cache-Control"), "public, max-age=300, must-revalidate");
    EXPECT_EQ(field(same, "Content-Type"), "");
    EXPECT_EQ(ask("/feeds/a.ics", {{"If-Match", "\"old\""}}).status, 412);
}

// Sections 14.2, 14.4, 15.3.7 and 15.5.17.
TEST(Answer, gives_a_part) {
    const Answer part = ask("/cards/a.pdf", {{"Range", "bytes=2-4"}});
    EXPECT_EQ(part.status, 206);
    EXPECT_EQ(body(part), "234");
    EXPECT_EQ(field(part, "Content-Range"), "bytes 2-4/10");
    EXPECT_EQ(field(part, "ETag"), "\"card\"");
    const Answer none = ask("/cards/a.pdf", {{"Range", "bytes=10-"}});
    EXPECT_EQ(none.status, 416);
    EXPECT_EQ(field(none, "Content-Range"), "bytes */10");
    EXPECT_EQ(ask("/cards/a.pdf", {{"Range", "bytes=0-1"}}, "HEAD").status, 200);
    EXPECT_EQ(ask("/cards/a.pdf", {{"Range", "bytes=0-1"}, {"If-Range", "\"card\""}}).status, 206);
    EXPECT_EQ(body(ask("/cards/a.pdf", {{"Range", "bytes=0-1"}, {"If-Range", "\"old\""}})),
              "0123456789");
    // Section 13.2.2, steps 1 to 5: other conditions come first.
    EXPECT_EQ(ask("/cards/a.pdf", {{"Range", "bytes=0-1"}, {"If-None-Match", "\"card\""}}).status,
              304);
    EXPECT_EQ(body(ask("/feeds/a.ics", {{"Range", "bytes=0-2"}, {"Accept-Encoding", "gzip"}})),
              "pac");
}

// As of any other: sections 8.8.3, 9.3.2, 14.2, 15.3.7 and 15.4.5.
TEST(Answer, gives_what_is_not_held_in_memory) {
    const Answer whole = ask("/film.txt", {{"Accept-Encoding", "gzip"}});
    EXPECT_EQ(whole.status, 200);
    EXPECT_EQ(whole.length, std::uint64_t{1} << 40U);
    EXPECT_EQ(field(whole, "ETag"), "\"film\"");
    EXPECT_EQ(field(whole, "Content-Encoding"), "");
    EXPECT_EQ(ask("/film.txt", {}, "HEAD").length, whole.length);
    const Answer part = ask("/film.txt", {{"Range", "bytes=1000000000007-1000000000011"}});
    EXPECT_EQ(part.status, 206);
    EXPECT_EQ(field(part, "Content-Range"), "bytes 1000000000007-1000000000011/1099511627776");
    EXPECT_EQ(body(part), "78901");
    EXPECT_EQ(body(ask("/film.txt", {{"Range", "bytes=-3"}})), "345");
    EXPECT_EQ(ask("/film.txt", {{"If-None-Match", "\"film\""}}).status, 304);
    EXPECT_EQ(ask("/film.txt", {{"Range", "bytes=1099511627776-"}}).status, 416);
}

// Section 8.8.2.1: an origin server never says a time that is later than its own.
TEST(Answer, is_never_older_than_its_file) {
    EXPECT_EQ(field(ask("/later.txt"), "Last-Modified"), "Thu, 26 Nov 2026 12:00:00 GMT");
}

// Sections 9.1, 15.5.6 and 15.6.2.
TEST(Answer, only_gives) {
    for (const char* method : {"POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT"}) {
        const Answer refused = ask("/feeds/a.ics", {}, method);
        EXPECT_EQ(refused.status, 405) << method;
        EXPECT_EQ(field(refused, "Allow"), "GET, HEAD");
    }
    EXPECT_EQ(ask("/feeds/a.ics", {}, "BREW").status, 501);
    // Section 9.1: letter case counts.
    EXPECT_EQ(ask("/feeds/a.ics", {}, "get").status, 501);
}

// RFC 9112, section 3.2.
TEST(Answer, wants_one_host) {
    const auto status = [](const std::string& version, std::vector<Field> fields) {
        return answer({"GET", "/", version, std::move(fields)}, sample, now).status;
    };
    EXPECT_EQ(status("HTTP/1.1", {{"Host", "a"}}), 200);
    EXPECT_EQ(status("HTTP/1.1", {}), 400);
    EXPECT_EQ(status("HTTP/1.0", {}), 200);
    EXPECT_EQ(status("HTTP/1.1", {{"Host", "a"}, {"host", "b"}}), 400);
}

// RFC 9112, section 6.3.
TEST(Answer, wants_a_length_that_is_one) {
    for (const char* length : {"0", "5", "000", "123456789012345678"})
        EXPECT_EQ(ask("/", {{"Content-Length", length}}).status, 200) << length;
    for (const char* length : {"", "-5", "+5", "5 6", "5, 6", "0x5", "1e3", "1234567890123456789"})
        EXPECT_EQ(ask("/", {{"Content-Length", length}}).status, 400) << length;
    EXPECT_EQ(ask("/", {{"Content-Length", "5"}, {"content-length", "6"}}).status, 400);
}

// RFC 9112, section 5.1, and RFC 9110, section 5.6.2.
TEST(Answer, wants_names_of_fields_that_are_names) {
    EXPECT_EQ(ask("/", {{"X-Mark_1.a~", "x"}}).status, 200);
    for (const char* name : {"X ", "", "X:", "X\t", "Ξ"})
        EXPECT_EQ(ask("/", {{name, "x"}}).status, 400) << name;
}

TEST(Answer, lists_no_folder) {
    EXPECT_EQ(ask("/cards/").status, 404);
    EXPECT_EQ(ask("/cards").status, 404);
    EXPECT_EQ(ask("/absent").status, 404);
    EXPECT_EQ(ask("/feeds/a.ics/").status, 404);
    EXPECT_EQ(ask("/../index.html").status, 404);
    EXPECT_EQ(ask("/%zz").status, 400);
    EXPECT_EQ(ask("/feeds/torn.ics").status, 500);
    // Section 15.4.2: relative links of a page need the stroke.
    EXPECT_EQ(ask("/feeds").status, 301);
    EXPECT_EQ(field(ask("/feeds"), "Location"), "/feeds/");
    EXPECT_EQ(field(ask("http://elsewhere.example/feeds"), "Location"), "/feeds/");
}

TEST(Answer, keeps_private_pages_from_caches_and_search_engines) {
    const Answer page = ask("/private/" + token + "/");
    EXPECT_EQ(page.status, 200);
    EXPECT_EQ(field(page, "Cache-Control"), "private, max-age=300, must-revalidate");
    EXPECT_EQ(field(page, "X-Robots-Tag"), "noindex, nofollow, noarchive");
    EXPECT_EQ(ask("/private/").status, 404);
}

TEST(LogLine, says_what_was_given_and_nothing_that_is_private_or_made_up) {
    const auto line = [](const std::string& target, const std::string& method = "GET") {
        return log_line({method, target, "HTTP/1.1", {}}, ask(target, {}, method));
    };
    EXPECT_EQ(line("/feeds/a.ics"), "200 GET /feeds/a.ics");
    EXPECT_EQ(line("/"), "200 GET /index.html");
    for (const std::string& target :
         {"/private/" + token + "/", "/private/" + token, "/Private/" + token + "/",
          "/%70rivate/" + token + "/", "/private%2f" + token, "http://a/private/" + token + "/",
          "/x?" + token})
        EXPECT_FALSE(line(target).contains(token)) << target;
    EXPECT_EQ(line("/private/" + token + "/"), "200 GET");
    EXPECT_EQ(line("/film.txt"), "200 GET /film.txt");
    EXPECT_EQ(line("/private/" + token + "/film.txt"), "200 GET");
    EXPECT_EQ(line("/", "\x1b[2J"), "501 ?");
}

}  // namespace
}  // namespace stave::server
