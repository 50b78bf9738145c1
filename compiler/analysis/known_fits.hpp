// Fits of which there is nothing to say, by keys of all that they depend on, so that they are not
// looked through again in the next version of their file.
#pragma once

#include <cstddef>
#include <unordered_set>
#include <utility>

#include "compiler/source/wide_hash.hpp"

namespace stave::analysis {

class KnownFits {
public:
    // What does not come up in this version is forgotten with the next.
    void begin_version() { before_ = std::exchange(now_, {}); }

    [[nodiscard]] bool contains(const WideHash& key) const {
        return before_.contains(key) || now_.contains(key);
    }
    void add(const WideHash& key) { now_.insert(key); }

private:
    struct Low {
        std::size_t operator()(const WideHash& key) const { return key.low; }
    };
    using Keys = std::unordered_set<WideHash, Low>;

    Keys before_;
    Keys now_;
};

}  // namespace stave::analysis
