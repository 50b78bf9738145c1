#include "backends/server/refusal.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "compiler/wording/language.hpp"

namespace stave::server {
namespace {

std::string page_for(std::string accept_language) {
    Request request{"GET", "/absent", "HTTP/1.1", {{"Host", "a"}}};
    request.fields.push_back({"Accept-Language", std::move(accept_language)});
    return *refusal(404, request).body.bytes();
}

// RFC 9110, section 12.5.4.
TEST(AbsentPage, speaks_the_language_that_is_liked_best) {
    for (const wording::Language language : wording::languages) {
        const std::string tag(wording::tag(language));
        EXPECT_TRUE(page_for(tag).contains("<html lang=\"" + tag + "\">"));
    }
    EXPECT_TRUE(page_for("de-AT, en;q=0.5").contains("lang=\"de\""));
    EXPECT_TRUE(page_for("fi, pl;q=0.2, el;q=0.7").contains("lang=\"el\""));
    EXPECT_TRUE(page_for("de;q=0, fi").contains("lang=\"en\""));
    EXPECT_TRUE(page_for("").contains("lang=\"en\""));
}

TEST(Refusal, says_its_status_and_is_kept_by_nobody) {
    const Answer answer = refusal(412, {"GET", "/", "HTTP/1.1", {}});
    EXPECT_EQ(*answer.body.bytes(), "412 Precondition Failed\n");
    EXPECT_EQ(answer.length, answer.body.size());
    EXPECT_TRUE(std::ranges::find(answer.fields, Field{"Cache-Control", "no-store"}) !=
                answer.fields.end());
    EXPECT_TRUE(answer.shown_path.empty());
}

}  // namespace
}  // namespace stave::server
