// The memory that a benchmark's process has held at once.
#pragma once

#include <sys/resource.h>

namespace stave::testing {

[[nodiscard]] inline double most_megabytes() {
    rusage usage{};
    ::getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

}  // namespace stave::testing
