// What a run makes is bounded in memory, whatever there is of it: a count of bytes, no time.
#include "compiler/driver/spool.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <thread>
#include <vector>

#include "compiler/driver/output_set.hpp"
#include "tests/unit/driver/temporary_folder.hpp"

namespace stave::driver {
namespace {

using stave::testing::TemporaryFolder;

std::string card(std::size_t number) {
    return std::to_string(number) + std::string(1000, static_cast<char>('a' + number % 26));
}

TEST(Spool, holds_no_more_than_it_may_and_gives_all_back) {
    const TemporaryFolder folder;
    constexpr std::size_t most = 10'000;
    Spool spool(folder.path("not/yet"), most);
    std::vector<Content> contents;
    for (std::size_t number = 0; number < 200; ++number) {
        contents.push_back(spool.take(card(number)));
        EXPECT_LE(spool.held(), most);
    }
    EXPECT_EQ(std::ranges::count_if(contents, &Content::is_held), 9);
    for (std::size_t number = 0; number < contents.size(); ++number) {
        EXPECT_EQ(contents[number].bytes(), card(number));
        EXPECT_EQ(contents[number].size(), card(number).size());
    }
    // The file has no name, so nothing is left of a run that is killed.
    EXPECT_EQ(folder.file_count(), 0U);
    EXPECT_FALSE(std::filesystem::exists(folder.path("not")));
}

TEST(Spool, gives_back_to_several_threads_and_when_it_is_gone_itself) {
    const TemporaryFolder folder;
    std::vector<Content> contents;
    {
        Spool spool(folder.path("."), 0);
        for (std::size_t number = 0; number < 300; ++number)
            contents.push_back(spool.take(card(number)));
    }
    std::vector<std::jthread> threads;
    for (int i = 0; i < 4; ++i) {
        threads.emplace_back([&contents] {
            for (std::size_t number = 0; number < contents.size(); ++number)
                EXPECT_EQ(contents[number].bytes(), card(number));
        });
    }
}

TEST(Spool, leaves_in_memory_what_has_nowhere_to_wait) {
    for (const char* const folder : {"", "/proc/nowhere"}) {
        Spool spool(folder, 100);
        const Content content = spool.take(card(1));
        EXPECT_TRUE(content.is_held()) << folder;
        EXPECT_EQ(content.bytes(), card(1));
    }
}

TEST(Spool, bounds_what_the_outputs_of_a_run_take) {
    const TemporaryFolder folder;
    constexpr std::size_t megabyte = std::size_t{1} << 20U;
    OutputSet outputs(folder.path("out"));
    for (int number = 0; number < 80; ++number) {
        const std::string path = "card " + std::to_string(number);
        EXPECT_TRUE(outputs.add(path, "card", std::string(megabyte, 'x')));
        EXPECT_FALSE(outputs.add(path, "card", "another"));
    }
    std::size_t held = 0;
    for (const auto& [path, output] : outputs)
        held += output.content.is_held() ? output.content.size() : 0;
    EXPECT_EQ(outputs.size(), 80U);
    EXPECT_LE(held, Spool::most_held);
}

}  // namespace
}  // namespace stave::driver
