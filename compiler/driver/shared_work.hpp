// Things that do not wait for one another, made on several threads.
//
// Who calls puts each result into a place of its own, so that nothing depends on how many
// threads there are or which of them is first.
#pragma once

#include <cstddef>
#include <functional>

namespace stave::driver {

// Makes one of several things, by its number.
using Work = std::function<void(std::size_t)>;

// How many threads are worth it: one for a few things, never more than the machine's cores.
[[nodiscard]] std::size_t threads_for(std::size_t count);

// The same for things that wait for the disk more than they work.
[[nodiscard]] std::size_t threads_for_disk(std::size_t count);

// Has each number below `count` worked on once and returns when all are done. Every thread,
// the calling one among them, asks `worker` for a Work of its own, which may own tools that
// no two threads can use at once. Throws what the work of the lowest number threw; then some
// of the later ones have not been worked on.
void share_work(std::size_t count, std::size_t threads, const std::function<Work()>& worker);

}  // namespace stave::driver
