// What a run touches outside itself: streams, the clock, the terminal. Handed in
// by main, or by a test.
#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <istream>
#include <optional>
#include <ostream>
#include <string>

namespace stave::driver {

// References must outlive the run.
struct Environment {
    std::istream& in;
    std::ostream& out;
    std::ostream& err;
    // Whether `err` is a terminal that shows colours.
    bool colour = false;
    // For the stamps of calendar entries that are new or changed.
    std::function<std::chrono::sys_seconds()> now;
    // When cards say they were made; nothing, and they say nothing, so that an unchanged
    // session gives the same bytes on any day.
    std::optional<std::chrono::sys_seconds> made = std::nullopt;
    // How many threads make cards; 0: as many as are worth it on this machine.
    std::size_t threads = 0;
    // SOURCE_DATE_EPOCH as it is set; what it means for `now` and `made`, `with_clock` says.
    std::optional<std::string> fixed_clock = std::nullopt;
    // Whether `out` is a terminal that shows colours, and so a code that can be scanned.
    bool shows_codes = false;
    // Whether `out` takes a line now, so that nobody waits for whoever should read it.
    std::function<bool()> out_is_ready = [] { return true; };
    // Where what may be lost is kept for the next run; empty: nothing is kept.
    std::string cache = {};
};

}  // namespace stave::driver
