// The entry that libFuzzer calls (https://llvm.org/docs/LibFuzzer.html). To run it:
//
//   cmake -S . -B build/fuzz -G Ninja -DCMAKE_C_COMPILER=clang-19
//     -DCMAKE_CXX_COMPILER=clang++-19 -DSTAVE_FUZZ=ON -DSTAVE_SANITIZE=ON
//   cmake --build build/fuzz --target fuzz_target
//   build/fuzz/bin/fuzz_target -max_len=1500 CORPUS_FOLDER examples tests/files/forms

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
