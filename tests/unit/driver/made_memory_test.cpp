// What is not made again.
#include "compiler/driver/made_memory.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <chrono>
#include <filesystem>
#include <optional>
#include <string>
#include <thread>

#include "compiler/driver/hashes.hpp"
#include "tests/unit/driver/temporary_folder.hpp"

namespace stave::driver {
namespace {

using stave::testing::TemporaryFolder;

constexpr std::chrono::sys_seconds now{std::chrono::seconds(1'800'000'000)};
constexpr WideHash key{1, 2};

// Longer than the ticks of the clock of files.
void wait_a_tick() {
    std::this_thread::sleep_for(std::chrono::milliseconds(80));
}

// Another text of the same length, with the times as they were.
void write_unseen(const TemporaryFolder& folder, const std::string& name, const char* bytes) {
    struct stat before {};
    ASSERT_EQ(::stat(folder.path(name).c_str(), &before), 0);
    static_cast<void>(folder.write(name, bytes));
    const timespec times[] = {before.st_atim, before.st_mtim};
    ASSERT_EQ(::utimensat(AT_FDCWD, folder.path(name).c_str(), times, 0), 0);
}

TEST(KnownFile, holds_still_what_it_held) {
    const TemporaryFolder folder;
    KnownFile file(folder.write("a.pdf", "abc"), sha256("abc"), 3);
    EXPECT_TRUE(file.holds_still());
    wait_a_tick();
    EXPECT_TRUE(file.holds_still());
    EXPECT_TRUE(file.holds_still());
    // The same once more, in a new file.
    std::filesystem::remove(file.path());
    static_cast<void>(folder.write("a.pdf", "abc"));
    EXPECT_TRUE(file.holds_still());
}

TEST(KnownFile, does_not_when_it_is_gone_or_another) {
    const TemporaryFolder folder;
    KnownFile file(folder.write("a.pdf", "abc"), sha256("abc"), 3);
    for (const bool is_old : {false, true}) {
        static_cast<void>(folder.write("a.pdf", "abc"));
        if (is_old) wait_a_tick();
        EXPECT_TRUE(file.holds_still());
        static_cast<void>(folder.write("a.pdf", "abd"));
        EXPECT_FALSE(file.holds_still());
        static_cast<void>(folder.write("a.pdf", "abcd"));
        EXPECT_FALSE(file.holds_still());
    }
    std::filesystem::remove(file.path());
    EXPECT_FALSE(file.holds_still());
    std::filesystem::create_directory(file.path());
    EXPECT_FALSE(file.holds_still());
}

TEST(KnownFile, does_not_when_its_times_were_put_back) {
    const TemporaryFolder folder;
    KnownFile file(folder.write("a.pdf", "abc"), sha256("abc"), 3);
    wait_a_tick();
    EXPECT_TRUE(file.holds_still());
    write_unseen(folder, "a.pdf", "abd");
    EXPECT_FALSE(file.holds_still());
}

class Memory : public ::testing::Test {
protected:
    // A build that makes a card, or finds that it stands.
    const MadeMemory::Kept* build(
        const WideHash& of, std::chrono::sys_seconds until = std::chrono::sys_seconds::max()) {
        memory_.begin();
        const MadeMemory::Kept* const kept = memory_.find(of, now);
        OutputSet outputs;
        if (kept == nullptr) {
            const std::string path = folder_.write("a.pdf", "abc");
            outputs.add(path, "card", std::string("abc"));
            outputs.at(path).hash = sha256("abc");
            memory_.note(of, {"source", {path}, "said", now, until});
        } else {
            EXPECT_EQ(add_standing(outputs, *kept), std::nullopt);
        }
        memory_.keep(outputs, {"source"});
        return kept;
    }

    TemporaryFolder folder_;
    MadeMemory memory_;
};

TEST_F(Memory, knows_what_was_made) {
    EXPECT_EQ(build(key), nullptr);
    const MadeMemory::Kept* const kept = build(key);
    ASSERT_NE(kept, nullptr);
    EXPECT_EQ(kept->made.summary, "said");
    OutputSet outputs;
    EXPECT_EQ(add_standing(outputs, *kept), std::nullopt);
    const Output& output = outputs.at(folder_.path("a.pdf"));
    EXPECT_TRUE(output.as_before);
    EXPECT_EQ(output.size(), 3U);
    EXPECT_EQ(output.hash, sha256("abc"));
    EXPECT_EQ(output.source, "source");
    EXPECT_TRUE(add_standing(outputs, *kept).has_value());
}

TEST_F(Memory, forgets_what_does_not_come_up) {
    EXPECT_EQ(build(key), nullptr);
    EXPECT_EQ(build({3, 4}), nullptr);
    EXPECT_EQ(build(key), nullptr);
}

TEST_F(Memory, forgets_what_a_build_that_failed_has_made) {
    EXPECT_EQ(build(key), nullptr);
    memory_.note({3, 4}, {"source", {folder_.path("b.pdf")}, ""});
    EXPECT_NE(build(key), nullptr);
    EXPECT_EQ(memory_.find({3, 4}, now), nullptr);
}

TEST_F(Memory, keeps_what_other_sources_made) {
    EXPECT_EQ(build(key), nullptr);
    memory_.begin();
    memory_.keep(OutputSet(), {"another"});
    EXPECT_NE(build(key), nullptr);
}

TEST_F(Memory, knows_nothing_of_other_times) {
    EXPECT_EQ(build(key, now + std::chrono::hours(1)), nullptr);
    EXPECT_NE(memory_.find(key, now), nullptr);
    EXPECT_EQ(memory_.find(key, now - std::chrono::seconds(1)), nullptr);
    EXPECT_EQ(memory_.find(key, now + std::chrono::hours(1)), nullptr);
}

}  // namespace
}  // namespace stave::driver
