#include "compiler/driver/shared_work.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace stave::driver {

namespace {

// What a thread needs to begin with is worth about as many cards (a card takes 2 ms, the
// first of a thread 5).
constexpr std::size_t least_for_a_thread = 8;
// More of them only compete for memory.
constexpr std::size_t most_threads = 16;
// Files that are flushed at the same time share the disk's work.
constexpr std::size_t disk_threads = 8;

class Share {
public:
    Share(std::size_t count, const std::function<Work()>& worker)
        : count_(count), worker_(worker) {}

    void work() {
        std::size_t id = count_;
        try {
            const Work work = worker_();
            while (!has_failed_ && (id = next_++) < count_)
                work(id);
        } catch (...) {
            fail(id);
        }
    }

    void rethrow() const {
        if (thrown_) std::rethrow_exception(thrown_);
    }

private:
    // Numbers are given out in order, so the lowest that fails has begun whoever is first.
    void fail(std::size_t id) {
        const std::scoped_lock lock(mutex_);
        if (!thrown_ || id < thrown_by_) {
            thrown_ = std::current_exception();
            thrown_by_ = id;
        }
        has_failed_ = true;
    }

    const std::size_t count_;
    const std::function<Work()>& worker_;
    std::atomic<std::size_t> next_ = 0;
    std::atomic<bool> has_failed_ = false;
    std::mutex mutex_;
    std::exception_ptr thrown_;
    std::size_t thrown_by_ = 0;
};

// Whether the machine gave another thread; without it, those there are do all of the work.
bool start(std::vector<std::jthread>& others, Share& share) {
    try {
        others.emplace_back([&share] { share.work(); });
        return true;
    } catch (const std::system_error&) {
        return false;
    }
}

}  // namespace

std::size_t threads_for(std::size_t count) {
    const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
    return std::clamp<std::size_t>(count / least_for_a_thread, 1, std::min(cores, most_threads));
}

std::size_t threads_for_disk(std::size_t count) {
    return std::clamp<std::size_t>(count / least_for_a_thread, 1, disk_threads);
}

void share_work(std::size_t count, std::size_t threads, const std::function<Work()>& worker) {
    Share share(count, worker);
    {
        std::vector<std::jthread> others;
        while (others.size() + 1 < std::min(threads, count) && start(others, share)) {
        }
        share.work();
    }
    share.rethrow();
}

}  // namespace stave::driver
