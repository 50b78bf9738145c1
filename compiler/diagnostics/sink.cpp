#include "compiler/diagnostics/sink.hpp"

#include <algorithm>
#include <utility>

#include "compiler/diagnostics/catalogue.hpp"

namespace stave {

void DiagnosticSink::report(Diagnostic diagnostic) {
    if (catalogue_entry(diagnostic.code).severity == Severity::error) ++errors_;
    if (diagnostics_.size() == limit) {
        ++dropped_;
        return;
    }
    diagnostics_.push_back(std::move(diagnostic));
}

std::vector<Diagnostic> DiagnosticSink::sorted() const {
    std::vector<Diagnostic> result = diagnostics_;
    std::ranges::stable_sort(result, {}, [](const Diagnostic& diagnostic) {
        return std::pair{diagnostic.span.begin, diagnostic.span.end};
    });
    return result;
}

}  // namespace stave
