// The entry that libFuzzer calls (https://llvm.org/docs/LibFuzzer.html). Build it
// with clang and -DSTAVE_FUZZ=ON; DEVELOPERS.md says how to run it.

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "tests/fuzz/check_text.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static stave::testing::TextChecker checker;
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    if (const auto complaint = checker.complaint(text, stave::testing::Depth::outputs)) {
        std::fprintf(stderr, "%s\n", complaint->c_str());
        std::abort();
    }
    return 0;
}
