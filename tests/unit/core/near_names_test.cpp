// Names that nobody knows are compared with known ones only so often. The bounds are our own: 900
// sessions for 20 unknown people each, among 3000 athletes, once took 30 s to check.
#include "compiler/names/near_names.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "compiler/check/audiences.hpp"
#include "compiler/names/names.hpp"

namespace stave {
namespace {

TEST(NearNames, are_one_slip_away) {
    NearNames near;
    const KnownNames names{{"mara", "Mara"}, {"jonas", "Jonas"}, {"maro", "Maro"}, {"xy", "XY"}};
    EXPECT_EQ(near.find("marra", names), "Mara");
    EXPECT_EQ(near.find("mar", names), "Mara");
    EXPECT_EQ(near.find("joans", names), "Jonas");
    EXPECT_EQ(near.find("marrra", names), std::nullopt);
    EXPECT_EQ(near.find("xx", names), std::nullopt);
    EXPECT_EQ(near.find("mara", {}), std::nullopt);
}

TEST(NearNames, are_looked_for_so_often_and_no_more) {
    NearNames near;
    const KnownNames names{{"mara", "Mara"}};
    for (std::size_t i = 0; i < NearNames::most_searches; ++i) {
        // It costs nothing, and so does not count.
        EXPECT_EQ(near.find("xx", names), std::nullopt);
        ASSERT_EQ(near.find("marra", names), "Mara");
    }
    EXPECT_EQ(near.find("marra", names), std::nullopt);
}

// Each of the messages could name an athlete.
std::size_t mends_that_name_somebody(DiagnosticSink& sink, std::size_t session_count) {
    program::Program program;
    for (const char letter : std::string("abcdefghijklmnopqrst")) {
        program::Athlete athlete;
        athlete.name = std::string(5, letter);
        athlete.folded_name = fold_name(athlete.name);
        program.athletes.push_back(std::move(athlete));
    }
    for (std::size_t i = 0; i < session_count; ++i) {
        program::Session session;
        session.audience_span.begin = static_cast<std::uint32_t>(i);
        for (const program::Athlete& athlete : program.athletes)
            session.audience.push_back(athlete.name + 'x');
        program.sessions.push_back(std::move(session));
    }
    check::check_audiences(program, sink);
    const auto found = sink.sorted();
    return static_cast<std::size_t>(std::ranges::count_if(found, [](const Diagnostic& diagnostic) {
        return diagnostic.code == Code::audience_unknown &&
               diagnostic.arguments.at(1).starts_with("Write ");
    }));
}

TEST(NearNames, are_not_looked_for_where_nobody_reads_on) {
    constexpr std::size_t all = 100'000;
    DiagnosticSink few(all);
    EXPECT_EQ(mends_that_name_somebody(few, 4), 80U);
    DiagnosticSink many(all);
    EXPECT_EQ(mends_that_name_somebody(many, 40), DiagnosticSink::limit + 1);
    EXPECT_EQ(many.kept(), 800U);
}

}  // namespace
}  // namespace stave
