#include "compiler/driver/files.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <chrono>
#include <sstream>

#include "compiler/source/source_file.hpp"
#include "tests/unit/driver/temporary_folder.hpp"

namespace stave::driver {
namespace {

using stave::testing::TemporaryFolder;

TEST(ReadFile, gives_the_bytes_as_they_are) {
    const TemporaryFolder folder;
    const std::string bytes("a\r\n\0\xff", 5);
    EXPECT_EQ(read_file(folder.write("a", bytes)).value(), bytes);
    EXPECT_EQ(read_file(folder.write("empty", "")).value(), "");
}

TEST(ReadFile, names_what_cannot_be_read_and_why) {
    const TemporaryFolder folder;
    const auto absent = read_file(folder.path("absent"));
    ASSERT_FALSE(absent.has_value());
    EXPECT_EQ(absent.error().code, Code::cannot_read);
    EXPECT_EQ(absent.error().arguments.at(0), folder.path("absent"));
    EXPECT_EQ(absent.error().arguments.at(1), "No such file or directory");
    EXPECT_EQ(read_file(folder.path("")).error().code, Code::is_folder);
}

TEST(ReadStream, takes_exactly_as_much_as_a_source_may_hold) {
    std::istringstream full(std::string(SourceFile::largest, 'a'));
    EXPECT_EQ(read_stream(full, "x").value().size(), SourceFile::largest);
    std::istringstream over(std::string(SourceFile::largest + 1, 'a'));
    const auto refused = read_stream(over, "standard input");
    ASSERT_FALSE(refused.has_value());
    EXPECT_EQ(refused.error().code, Code::file_too_large);
    EXPECT_EQ(refused.error().arguments, (std::vector<std::string>{"standard input", "16"}));
}

TEST(ReadIfThere, tells_nothing_from_an_empty_file) {
    const TemporaryFolder folder;
    EXPECT_EQ(read_if_there(folder.path("absent")).value(), std::nullopt);
    EXPECT_EQ(read_if_there(folder.path("absent/below")).value(), std::nullopt);
    EXPECT_EQ(read_if_there(folder.write("empty", "")).value(), "");
    EXPECT_EQ(read_if_there(folder.path("")).error().code, Code::cannot_write);
    EXPECT_EQ(read_if_there("/dev/zero").error().code, Code::cannot_write);
}

TEST(FileBatch, changes_no_place_before_all_are_ready) {
    const TemporaryFolder folder;
    const std::string first = folder.write("first", "old");
    FileBatch batch;
    EXPECT_FALSE(batch.add(first, "new"));
    EXPECT_FALSE(batch.add(folder.path("second"), "new too"));
    EXPECT_EQ(folder.read("first"), "old");
    EXPECT_FALSE(batch.put_in_place());
    EXPECT_EQ(folder.read("first"), "new");
    EXPECT_EQ(folder.read("second"), "new too");
    EXPECT_EQ(folder.file_count(), 2U);
}

TEST(FileBatch, leaves_nothing_behind_when_one_file_finds_no_place) {
    const TemporaryFolder folder;
    const std::string first = folder.write("first", "old");
    {
        FileBatch batch;
        EXPECT_FALSE(batch.add(first, "new"));
        const auto failed = batch.add(folder.path("no/such/folder"), "new");
        ASSERT_TRUE(failed);
        EXPECT_EQ(failed->code, Code::cannot_write);
        EXPECT_EQ(failed->arguments.at(0), folder.path("no/such/folder"));
    }
    EXPECT_EQ(folder.read("first"), "old");
    EXPECT_EQ(folder.file_count(), 1U);
}

TEST(FileBatch, writes_over_what_a_build_with_the_same_process_number_left) {
    const TemporaryFolder folder;
    const std::string leftover = "a.pdf." + std::to_string(::getpid()) + ".part";
    static_cast<void>(folder.write(leftover, "half a card of long ago"));
    FileBatch batch;
    EXPECT_FALSE(batch.add(folder.path("a.pdf"), "whole"));
    EXPECT_FALSE(batch.put_in_place());
    EXPECT_EQ(folder.read("a.pdf"), "whole");
    EXPECT_EQ(folder.file_count(), 1U);
}

TEST(RemoveLeftovers, takes_only_old_files_that_a_batch_names_so) {
    const TemporaryFolder folder;
    const auto long_ago = std::filesystem::file_time_type::clock::now() - std::chrono::hours(2);
    for (const std::string_view name : {"a.pdf.12.part", "b.ics.3.part", "c.part", "d.pdf.part",
                                        "e.pdf.1x.part", "f.txt.12.part", "g.pdf"}) {
        std::filesystem::last_write_time(folder.write(name, "half"), long_ago);
    }
    static_cast<void>(folder.write("fresh.pdf.13.part", "of a build that is still running"));
    remove_leftovers(folder.path(""));
    EXPECT_EQ(folder.file_count(), 6U);
    EXPECT_FALSE(std::filesystem::exists(folder.path("a.pdf.12.part")));
    EXPECT_FALSE(std::filesystem::exists(folder.path("b.ics.3.part")));
    remove_leftovers(folder.path("no such folder"));
}

TEST(RemoveLeftovers, takes_young_ones_too_where_nobody_else_writes) {
    const TemporaryFolder folder;
    for (const std::string_view name : {"a.pdf.12.part", "c.part", "f.txt.12.part", "g.pdf"})
        static_cast<void>(folder.write(name, "half"));
    remove_leftovers(folder.path(""), Leftovers::all);
    EXPECT_EQ(folder.file_count(), 3U);
    EXPECT_FALSE(std::filesystem::exists(folder.path("a.pdf.12.part")));
}

}  // namespace
}  // namespace stave::driver
