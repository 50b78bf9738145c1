#include "compiler/diagnostics/sink.hpp"

#include <algorithm>
#include <utility>

#include "compiler/diagnostics/catalogue.hpp"

namespace stave {

void DiagnosticSink::report(Diagnostic diagnostic) {
    if (leaves_out(diagnostic)) return;
    const Severity severity = catalogue_entry(diagnostic.code).severity;
    const bool is_full = diagnostics_.size() == most_kept_;
    if (!is_full && is_kept(diagnostic)) return;
    if (severity == Severity::error) ++errors_;
    if (severity == Severity::warning) ++warnings_;
    if (!is_full) {
        diagnostics_.push_back(std::move(diagnostic));
        return;
    }
    ++dropped_;
    if (!left_out_ && severity != Severity::error) {
        undecided_.push_back({diagnostic.code, diagnostic.span.begin, session_});
    }
}

bool DiagnosticSink::is_kept(const Diagnostic& diagnostic) const {
    return std::ranges::any_of(diagnostics_, [&](const Diagnostic& other) {
        return other.code == diagnostic.code && other.span == diagnostic.span &&
               other.arguments == diagnostic.arguments;
    });
}

void DiagnosticSink::leave_out(Judge takes) {
    const auto forget = [&](const Found& found) {
        if (!takes(found)) return false;
        if (catalogue_entry(found.code).severity == Severity::warning) --warnings_;
        return true;
    };
    std::erase_if(diagnostics_, [&](const Diagnostic& diagnostic) {
        return forget({diagnostic.code, diagnostic.span.begin, std::nullopt});
    });
    dropped_ -= static_cast<std::size_t>(std::ranges::count_if(undecided_, forget));
    undecided_ = {};
    left_out_ = std::move(takes);
}

void DiagnosticSink::keep_at_most(std::size_t most) {
    most_kept_ = most;
    if (diagnostics_.size() <= most) return;
    dropped_ += diagnostics_.size() - most;
    diagnostics_.erase(diagnostics_.begin() + static_cast<std::ptrdiff_t>(most),
                       diagnostics_.end());
}

void DiagnosticSink::amend(const std::function<void(Diagnostic&)>& adds) {
    std::ranges::for_each(diagnostics_, adds);
}

std::vector<Diagnostic> DiagnosticSink::sorted() const {
    std::vector<Diagnostic> result = diagnostics_;
    std::ranges::stable_sort(result, {}, [](const Diagnostic& diagnostic) {
        return std::pair{diagnostic.span.begin, diagnostic.span.end};
    });
    return result;
}

}  // namespace stave
