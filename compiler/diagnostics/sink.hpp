// Where passes put what they find. A pass never stops at a problem: it reports
// it here and goes on with the best it has.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"

namespace stave {

// Keeps diagnostics in the order of their places. At most `limit` are kept; the
// rest are counted, so that a hostile file cannot fill the memory.
class DiagnosticSink {
public:
    static constexpr std::size_t limit = 200;

    void report(Diagnostic diagnostic);

    // Forgets the kept diagnostics that the function takes; they must be no errors.
    void remove_if(const std::function<bool(const Diagnostic&)>& takes);

    [[nodiscard]] bool has_errors() const { return errors_ > 0; }
    [[nodiscard]] std::size_t errors() const { return errors_; }
    [[nodiscard]] bool has_warnings() const;
    // Reported but not kept.
    [[nodiscard]] std::size_t dropped() const { return dropped_; }
    // Sorted by place, equal places in the order of their reports.
    [[nodiscard]] std::vector<Diagnostic> sorted() const;

private:
    std::vector<Diagnostic> diagnostics_;
    std::size_t errors_ = 0;
    std::size_t dropped_ = 0;
};

}  // namespace stave
