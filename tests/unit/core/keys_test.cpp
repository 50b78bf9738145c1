// Keys of what issues are made of.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/analysis/analyse.hpp"
#include "compiler/analysis/issue_keys.hpp"
#include "compiler/program/dump.hpp"
#include "compiler/program/exact.hpp"
#include "compiler/source/wide_hash.hpp"
#include "compiler/zones/zone_loader.hpp"
#include "tests/unit/core/expectations.hpp"

namespace stave::tests {
namespace {

WideHash wide_hash(std::string_view text) {
    WideHasher hasher;
    hasher.add(text);
    return hasher.hash();
}

// The vectors that come with the algorithm's description (draft-eastlake-fnv).
TEST(WideHash, is_fnv_1a) {
    EXPECT_EQ(wide_hash(""), (WideHash{0x6C62272E07BB0142U, 0x62B821756295C58DU}));
    EXPECT_EQ(wide_hash("a"), (WideHash{0xD228CB696F1A8CAFU, 0x78912B704E4A8964U}));
    EXPECT_EQ(wide_hash("foobar"), (WideHash{0x343E1662793C64BFU, 0x6F0D3597BA446F18U}));
}

const std::string season = R"(kit Loft: barbell 20 kg, rack, 2 pairs of plates 20 10 5 kg

movement tarp drag:
  counted in: m
  cue: low hips

movement keel walk:
  counted in: m

athlete Mara:
  weight: 60 kg
  kit: Loft
  test deadlift: 3 @ 100 kg on 2026-12-20

athlete Jonas:
  weight: 80 kg
  test deadlift: 3 @ 140 kg on 2026-12-20

squad Lifters: Mara

session 1: Lee shore
sets: rest 2 min
  deadlift: 3 x 5 @ 70 %
  tarp drag: 2 x 20 m

session 2: Ebb
plank: 3 x 30 s

session 3: Flood
sets: rest 2 min
  rack pull: 3 x 5 @ 50 % of deadlift

plan Winter tides:
  from: 2027-01-04
  weeks: 2
  zone: Europe/Lisbon
  Tuesday: 18:30, session 1
  Friday: 19:00, session 2 then session 3
  grow deadlift: 2.5 % of max each week
)";

// Of each issue: as it stands, for Mara, for Jonas. In the order of the season: Lee shore, Ebb,
// Lee shore, Flood.
using Keys = std::vector<WideHash>;

Keys keys_of(std::string text) {
    zones::ZoneLoader zones;
    const auto snapshot = analysis::analyse("season.stave", std::move(text), {zones.finder(), {}});
    EXPECT_FALSE(snapshot.sink.has_errors());
    const analysis::IssueKeys issue_keys(snapshot);
    Keys keys;
    for (std::size_t id = 0; id < snapshot.season.size(); ++id) {
        keys.push_back(issue_keys.of(id));
        for (std::uint32_t athlete = 0; athlete < snapshot.outfits.size(); ++athlete)
            keys.push_back(issue_keys.of(id, athlete));
    }
    return keys;
}

std::string with(std::string_view old_words, std::string_view new_words) {
    std::string text = season;
    const std::size_t at = text.find(old_words);
    EXPECT_NE(at, std::string::npos) << old_words;
    return text.replace(at, old_words.size(), new_words);
}

// Which of the keys are others, as digits.
std::string changes(const std::string& text) {
    const Keys before = keys_of(season);
    const Keys after = keys_of(text);
    EXPECT_EQ(before.size(), after.size());
    std::string changed;
    for (std::size_t i = 0; i < std::min(before.size(), after.size()); ++i) {
        if (i > 0 && i % 3 == 0) changed += ' ';
        changed += before[i] == after[i] ? '0' : '1';
    }
    return changed;
}

TEST(IssueKeys, are_all_different) {
    Keys keys = keys_of(season);
    EXPECT_EQ(keys.size(), 12U);
    std::ranges::sort(keys);
    EXPECT_EQ(std::ranges::unique(keys).size(), 0U);
}

TEST(IssueKeys, know_no_places_in_the_text) {
    EXPECT_EQ(changes("# a line\n\n" + season), "000 000 000 000");
    EXPECT_EQ(changes(with("session 2", "# a line\n\nsession 2")), "000 000 000 000");
    EXPECT_EQ(changes(with("plank: 3 x", "  plank:   3 x")), "000 000 000 000");
}

TEST(IssueKeys, change_with_their_session) {
    EXPECT_EQ(changes(with("plank: 3", "plank: 4")), "000 111 000 000");
    EXPECT_EQ(changes(with("3 x 5 @ 70 %", "3 x 5 @ 75 %")), "111 000 111 000");
}

TEST(IssueKeys, change_with_their_day) {
    const std::string last = "each week\n";
    EXPECT_EQ(changes(with(last, last + "  cancelled: 2027-01-12, ice\n")), "000 000 111 000");
    EXPECT_EQ(changes(with(last, last + "  moved: 2027-01-08 to 2027-01-09\n")), "000 111 000 000");
    // The second Tuesday is lighter.
    EXPECT_EQ(changes(with(last, last + "  lighter: week 2 by 40 %\n")), "000 000 111 111");
}

TEST(IssueKeys, change_with_their_plan) {
    const std::string all = "111 111 111 111";
    EXPECT_EQ(changes(with("Lisbon", "Athens")), all);
    EXPECT_EQ(changes(with("2.5 % of max", "1 % of max")), all);
    EXPECT_EQ(changes(with("18:30", "18:40")), "111 000 111 000");
    EXPECT_EQ(changes(with("  zone", "  place: Slipway\n  zone")), all);
}

TEST(IssueKeys, change_with_their_athlete) {
    const std::string mara = "010 010 010 010";
    EXPECT_EQ(changes(with("100 kg", "105 kg")), mara);
    EXPECT_EQ(changes(with("60 kg", "61 kg")), mara);
    EXPECT_EQ(changes(with("20 10 5 kg", "20 10 kg")), mara);
    EXPECT_EQ(changes(with("Lifters: Mara", "Lifters: Mara, Jonas")), "001 001 001 001");
}

TEST(IssueKeys, change_with_their_movements_alone) {
    EXPECT_EQ(changes(with("low hips", "long arms")), "111 000 111 000");
    EXPECT_EQ(changes(with("keel walk:\n", "keel walk:\n  cue: slow\n")), "000 000 000 000");
    // A share of the max of whatever movement is called so.
    EXPECT_EQ(changes(with("keel walk:\n", "keel march:\n")), "000 000 000 111");
}

struct Version {
    std::string dump;
    WideHash key;
};

std::vector<Version> versions_of(const std::string& text) {
    zones::ZoneLoader zones;
    const auto snapshot = analysis::analyse("form.stave", text, {zones.finder(), {}});
    const program::Exact exact(snapshot.program.movements);
    std::vector<Version> versions;
    for (const program::Session& session : snapshot.program.sessions)
        versions.push_back({program::dump(session), exact.of(session)});
    return versions;
}

// A session's revision is a hash of its dump: what changes the one changes the other.
TEST(Exact, tells_apart_whatever_dumps_tell_apart) {
    std::size_t told_apart = 0;
    for (const auto& path : test_files("tests/files/forms")) {
        const std::string text = read_text(path);
        const std::vector<Version> before = versions_of(text);
        constexpr std::size_t step = 7;
        for (std::size_t at = 0; at < text.size(); at += step) {
            const std::size_t digit = text.find_first_of("123456789", at);
            if (digit == std::string::npos) break;
            std::string other = text;
            other[digit] = other[digit] == '9' ? '8' : static_cast<char>(other[digit] + 1);
            const std::vector<Version> after = versions_of(other);
            if (after.size() != before.size()) continue;
            for (std::size_t i = 0; i < after.size(); ++i) {
                if (after[i].dump == before[i].dump) continue;
                ++told_apart;
                EXPECT_NE(after[i].key, before[i].key) << path << ", at " << digit;
            }
            at = digit;
        }
    }
    EXPECT_GT(told_apart, 100U);
}

}  // namespace
}  // namespace stave::tests
