#include "compiler/analysis/allow.hpp"

#include <algorithm>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/names/edit_distance.hpp"
#include "compiler/names/names.hpp"

namespace stave::analysis {

namespace {

using grammar::LineKind;

struct Allowance {
    Code code{};
    // Offsets of the text that it covers.
    Span covers;
    Span span;
    std::string name;
    bool is_met = false;
};

std::optional<Code> find_code(const std::string& name) {
    for (std::size_t i = 0; i < code_count; ++i) {
        if (catalogue_entry(static_cast<Code>(i)).name == name) return static_cast<Code>(i);
    }
    return std::nullopt;
}

std::string nearest_code(const std::string& name) {
    std::string best;
    std::size_t least = 4;
    for (std::size_t i = 0; i < code_count; ++i) {
        const CatalogueEntry& entry = catalogue_entry(static_cast<Code>(i));
        const std::size_t distance = edit_distance(name, entry.name, least);
        if (distance >= least) continue;
        least = distance;
        best = entry.name;
    }
    return best;
}

class AllowanceReader {
public:
    explicit AllowanceReader(DiagnosticSink& sink) : sink_(sink) {}

    std::vector<Allowance> run(const syntax::Document& document) {
        constexpr std::uint32_t end = std::numeric_limits<std::uint32_t>::max();
        Span covers{0, end};
        std::size_t first_of_session = 0;
        for (const syntax::Line& line : document.lines) {
            if (line.kind == LineKind::open_session) {
                close(first_of_session, line.span.begin);
                first_of_session = allowances_.size();
                covers = {line.span.begin, end};
            }
            const auto* text = std::get_if<syntax::Word>(&line.body);
            if (line.kind != LineKind::allow || text == nullptr) continue;
            if (auto one = read(*text, covers)) allowances_.push_back(std::move(*one));
        }
        return std::move(allowances_);
    }

private:
    // What a session's lines cover ends where the next session begins.
    void close(std::size_t first, std::uint32_t end) {
        for (std::size_t i = first; i < allowances_.size(); ++i) {
            if (allowances_[i].covers.begin > 0) allowances_[i].covers.end = end;
        }
    }

    // "over-time, the tide leaves no choice".
    std::optional<Allowance> read(const syntax::Word& text, Span covers) {
        const std::size_t comma = text.text.find(',');
        const std::string name = clean_text(text.text.substr(0, comma));
        const std::string reason =
            comma == std::string_view::npos ? "" : clean_text(text.text.substr(comma + 1));
        const std::optional<Code> found = find_code(name);
        const Span code{text.span.begin, text.span.begin + static_cast<std::uint32_t>(
                                                               std::min(comma, text.text.size()))};
        if (!found) {
            report_unknown(name, code);
        } else if (catalogue_entry(*found).severity == Severity::error) {
            sink_.report({Code::allow_error, code, {name}, {}, {}});
        } else if (reason.empty()) {
            sink_.report({Code::allow_reason, text.span, {name}, {}, {}});
        } else {
            return Allowance{*found, covers, text.span, name, false};
        }
        return std::nullopt;
    }

    void report_unknown(const std::string& name, Span span) {
        const std::string near = nearest_code(name);
        std::vector<Fix> fixes;
        if (!near.empty()) fixes.push_back({near, {Edit{span, near}}});
        sink_.report(
            {Code::allow_unknown,
             span,
             {name, near.empty() ? "Write the name that stands behind the problem, in brackets."
                                 : "Write " + near + " if that is meant."},
             std::move(fixes),
             {}});
    }

    DiagnosticSink& sink_;
    std::vector<Allowance> allowances_;
};

}  // namespace

void apply_allowances(const syntax::Document& document, DiagnosticSink& sink) {
    std::vector<Allowance> allowances = AllowanceReader(sink).run(document);
    if (allowances.empty()) return;
    sink.remove_if([&](const Diagnostic& diagnostic) {
        bool removed = false;
        for (Allowance& one : allowances) {
            const bool covered =
                one.covers.begin <= diagnostic.span.begin && diagnostic.span.begin < one.covers.end;
            if (one.code != diagnostic.code || !covered) continue;
            one.is_met = removed = true;
        }
        return removed;
    });
    // Where errors stopped the passes nobody knows what would have been met.
    if (sink.has_errors()) return;
    for (const Allowance& one : allowances) {
        if (!one.is_met) sink.report({Code::allow_unused, one.span, {one.name}, {}, {}});
    }
}

}  // namespace stave::analysis
