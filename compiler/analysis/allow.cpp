#include "compiler/analysis/allow.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "compiler/compose/compose.hpp"
#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/names/edit_distance.hpp"
#include "compiler/names/names.hpp"

namespace stave::analysis {

namespace {

using grammar::LineKind;

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
        if (entry.severity == Severity::error) continue;
        const std::size_t distance = edit_distance(name, entry.name, least);
        if (distance >= least) continue;
        least = distance;
        best = entry.name;
    }
    return best;
}

// Found when cards are laid out, which may be later or never.
bool is_of_cards(Code code) {
    return code == Code::card_cues_dropped;
}

void report_unknown(const std::string& name, Span span, DiagnosticSink& sink) {
    const std::string near = nearest_code(name);
    std::vector<Fix> fixes;
    if (!near.empty()) fixes.push_back({near, {Edit{span, near}}});
    sink.report({Code::allow_unknown,
                 span,
                 {name, near.empty() ? "Write the name that stands behind the problem, in brackets."
                                     : "Write " + near + " if that is meant."},
                 std::move(fixes),
                 {}});
}

struct Read {
    Code code{};
    std::string name;
};

// "over-time, the tide leaves no choice"; nothing after an error.
std::optional<Read> read(const syntax::Word& text, DiagnosticSink& sink) {
    const std::size_t comma = text.text.find(',');
    const std::string name = clean_text(text.text.substr(0, comma));
    const std::string reason =
        comma == std::string_view::npos ? "" : clean_text(text.text.substr(comma + 1));
    const std::optional<Code> found = find_code(name);
    const auto size = static_cast<std::uint32_t>(std::min(comma, text.text.size()));
    const Span code{text.span.begin, text.span.begin + size};
    if (!found) {
        report_unknown(name, code, sink);
    } else if (catalogue_entry(*found).severity == Severity::error) {
        sink.report({Code::allow_error, code, {name}, {}, {}});
    } else if (reason.empty()) {
        sink.report({Code::allow_reason, text.span, {name}, {}, {}});
    } else {
        return Read{*found, name};
    }
    return std::nullopt;
}

// Where a part of the text begins and ends.
Span part_span(const SourceFile& source, std::size_t part) {
    const auto& parts = source.parts();
    const auto size = static_cast<std::uint32_t>(source.text().size());
    // The file itself speaks for all that it takes in.
    if (part == 0) return {0, size};
    return {parts[part].begin, part + 1 < parts.size() ? parts[part + 1].begin : size};
}

}  // namespace

bool Allowances::Scope::covers(std::uint32_t offset) const {
    const auto after = std::ranges::upper_bound(lines, offset, {}, &Span::begin);
    return after != lines.begin() && offset <= std::prev(after)->end;
}

Allowances::Allowances(const syntax::Document& document, const SourceFile& source,
                       DiagnosticSink& sink) {
    const std::vector<syntax::Line>& lines = document.lines;
    const auto is_allow = [](const syntax::Line& line) { return line.kind == LineKind::allow; };
    if (std::ranges::none_of(lines, is_allow)) return;
    const auto first = std::ranges::find(lines, LineKind::open_session, &syntax::Line::kind);
    // A scope for each part that allows something before the first session.
    std::map<std::uint32_t, Scope> files;
    for (auto line = lines.begin(); line != first; ++line) {
        if (!is_allow(*line)) continue;
        const std::uint32_t part = source.part_at(line->span.begin);
        Scope& scope = files[part];
        scope.lines = {part_span(source, part)};
        add(*line, scope, sink);
    }
    for (auto& [part, scope] : files)
        scopes_.push_back(std::move(scope));
    for (auto begin = first; begin != lines.end();) {
        const auto end = std::find_if(begin + 1, lines.end(), [](const syntax::Line& line) {
            return compose::is_first_rank(line.kind);
        });
        if (std::any_of(begin, end, is_allow)) add_scope({begin, end}, sink);
        begin = end;
    }
}

void Allowances::add_scope(std::span<const syntax::Line> lines, DiagnosticSink& sink) {
    Scope scope;
    for (const syntax::Line& line : lines) {
        scope.lines.push_back(line.span);
        if (line.kind == LineKind::allow) add(line, scope, sink);
    }
    std::ranges::sort(scope.lines, {}, &Span::begin);
    scopes_.push_back(std::move(scope));
}

void Allowances::add(const syntax::Line& line, Scope& scope, DiagnosticSink& sink) {
    const auto* text = std::get_if<syntax::Word>(&line.body);
    if (text == nullptr) return;
    auto one = read(*text, sink);
    if (!one) return;
    scope.allowed[one->code].push_back(lines_.size());
    lines_.push_back({text->span, std::move(one->name), is_of_cards(one->code)});
}

bool Allowances::takes(const Diagnostic& diagnostic) {
    bool taken = false;
    for (const Scope& scope : scopes_) {
        const auto found = scope.allowed.find(diagnostic.code);
        if (found == scope.allowed.end() || !scope.covers(diagnostic.span.begin)) continue;
        for (const std::size_t line : found->second)
            lines_[line].is_met = true;
        taken = true;
    }
    return taken;
}

void Allowances::report_unmet(DiagnosticSink& sink) const {
    for (const Line& line : lines_) {
        if (!line.is_met) sink.report({Code::allow_unused, line.span, {line.name}, {}, {}});
    }
}

}  // namespace stave::analysis
