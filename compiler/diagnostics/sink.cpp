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

void DiagnosticSink::remove_if(const std::function<bool(const Diagnostic&)>& takes) {
    std::erase_if(diagnostics_, takes);
}

bool DiagnosticSink::has_warnings() const {
    return std::ranges::any_of(diagnostics_, [](const Diagnostic& diagnostic) {
        return catalogue_entry(diagnostic.code).severity == Severity::warning;
    });
}

std::vector<Diagnostic> DiagnosticSink::sorted() const {
    std::vector<Diagnostic> result = diagnostics_;
    std::ranges::stable_sort(result, {}, [](const Diagnostic& diagnostic) {
        return std::pair{diagnostic.span.begin, diagnostic.span.end};
    });
    return result;
}

}  // namespace stave
