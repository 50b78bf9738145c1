// What a build that is not the first of its process need not make again.
#pragma once

#include <chrono>

#include "compiler/driver/made_memory.hpp"
#include "compiler/driver/output_keys.hpp"

namespace stave::driver {

// One thing that is to be made: its key, and what an earlier build made of it, which stands; else
// null.
struct Recalled {
    WideHash key;
    const MadeMemory::Kept* before = nullptr;
};

// Of one build, which the memory must outlive.
struct Recall {
    MadeMemory& memory;
    OutputKeys keys;
    std::chrono::sys_seconds now;

    // Can be called by several threads.
    [[nodiscard]] Recalled find(const WideHash& key) const { return {key, memory.find(key, now)}; }
};

}  // namespace stave::driver
