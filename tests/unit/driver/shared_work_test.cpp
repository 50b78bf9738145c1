#include "compiler/driver/shared_work.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

namespace stave::driver {
namespace {

TEST(SharedWork, does_each_thing_once_with_any_number_of_threads) {
    for (const std::size_t threads : {0U, 1U, 2U, 7U, 40U}) {
        for (const std::size_t count : {0U, 1U, 3U, 500U}) {
            std::vector<int> done(count, 0);
            share_work(count, threads, [&] { return [&done](std::size_t id) { ++done[id]; }; });
            EXPECT_EQ(done, std::vector<int>(count, 1)) << threads;
        }
    }
}

TEST(SharedWork, gives_each_thread_tools_of_its_own_and_one_thread_those_of_the_caller) {
    std::atomic<int> workers = 0;
    std::thread::id thread;
    share_work(100, 1, [&] {
        ++workers;
        return [&thread](std::size_t) { thread = std::this_thread::get_id(); };
    });
    EXPECT_EQ(workers, 1);
    EXPECT_EQ(thread, std::this_thread::get_id());
    workers = 0;
    share_work(100, 4, [&] {
        ++workers;
        return [](std::size_t) {};
    });
    EXPECT_EQ(workers, 4);
}

TEST(SharedWork, throws_what_the_first_thing_threw_that_cannot_be_made) {
    for (const std::size_t threads : {1U, 2U, 8U}) {
        for (int again = 0; again < 20; ++again) {
            std::string thrown;
            try {
                share_work(200, threads, [] {
                    return [](std::size_t id) {
                        if (id >= 50 && id % 3 == 0) throw std::runtime_error(std::to_string(id));
                    };
                });
            } catch (const std::runtime_error& error) {
                thrown = error.what();
            }
            EXPECT_EQ(thrown, "51");
        }
    }
}

TEST(SharedWork, throws_what_a_thread_threw_before_it_began) {
    const auto no_tools = []() -> Work { throw std::runtime_error("no tools"); };
    EXPECT_THROW(share_work(10, 2, no_tools), std::runtime_error);
}

TEST(SharedWork, starts_no_thread_for_a_few_things) {
    EXPECT_EQ(threads_for(0), 1U);
    EXPECT_EQ(threads_for(6), 1U);
    EXPECT_LE(threads_for(1'000'000), 16U);
}

}  // namespace
}  // namespace stave::driver
