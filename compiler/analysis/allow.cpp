#include "compiler/analysis/allow.hpp"

#include <algorithm>
#include <utility>

#include "compiler/compose/compose.hpp"
#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/names/edit_distance.hpp"
#include "compiler/names/names.hpp"
#include "compiler/parse/line_scanner.hpp"

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
std::optional<Read> read(const SourceFile& source, Span text, DiagnosticSink& sink) {
    const auto said = [&](std::uint32_t begin, std::uint32_t end) {
        return clean_text(source.text({begin, end}));
    };
    const Span comma = parse::find_comma(source.text(), text);
    const std::string name = said(text.begin, comma.begin);
    const std::string reason = said(comma.end, text.end);
    const std::optional<Code> found = find_code(name);
    const Span code{text.begin, comma.begin};
    if (!found) {
        report_unknown(name, code, sink);
    } else if (catalogue_entry(*found).severity == Severity::error) {
        sink.report({Code::allow_error, code, {name}, {}, {}});
    } else if (reason.empty()) {
        sink.report({Code::allow_reason, text, {name}, {}, {}});
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

// Walks the lines once.
struct Allowances::Reader {
    Allowances& allowances;
    const parse::ParseTree& tree;
    const SourceFile& source;
    DiagnosticSink& sink;
    // By their places, since sessions may share a line: what each allows, and its index
    // in `lines_`.
    std::map<std::uint32_t, std::pair<Code, std::size_t>> known{};

    using Order = std::span<const std::uint32_t>;

    void read_all(Order order) {
        const auto first = std::ranges::find(order, LineKind::open_session,
                                             [&](std::uint32_t i) { return tree.lines[i].kind; });
        read_files({order.begin(), first});
        const std::size_t of_files = allowances.lines_.size();
        for (auto begin = first; begin != order.end();) {
            const auto end = std::find_if(begin + 1, order.end(), [&](std::uint32_t index) {
                return compose::is_first_rank(tree.lines[index].kind);
            });
            read_session({begin, end});
            begin = end;
        }
        if (allowances.lines_.size() == of_files) allowances.sessions_.clear();
    }

    // A scope for each part that allows something before the first session.
    void read_files(Order order) {
        std::map<std::uint32_t, Scope> files;
        for (const std::uint32_t index : order) {
            const parse::Line& line = tree.lines[index];
            if (line.kind != LineKind::allow) continue;
            const std::uint32_t part = source.part_at(line.span.begin);
            Scope& scope = files[part];
            scope.lines = {part_span(source, part)};
            add(line, scope);
        }
        for (auto& [part, scope] : files)
            allowances.files_.push_back(std::move(scope));
    }

    void read_session(Order order) {
        Scope& scope = allowances.sessions_[tree.lines[order.front()].head.begin];
        for (const std::uint32_t index : order) {
            const parse::Line& line = tree.lines[index];
            scope.lines.push_back(line.span);
            if (line.kind == LineKind::allow) add(line, scope);
        }
        std::ranges::sort(scope.lines, {}, &Span::begin);
    }

    void add(const parse::Line& line, Scope& scope) {
        if (line.is_broken || line.is_deferred) return;
        auto found = known.find(line.span.begin);
        if (found == known.end()) {
            auto one = read(source, line.body, sink);
            if (!one) return;
            found = known.emplace(line.span.begin, std::pair{one->code, allowances.lines_.size()})
                        .first;
            allowances.lines_.push_back({line.body, std::move(one->name), is_of_cards(one->code)});
            allowances.codes_[static_cast<std::size_t>(one->code)] = true;
        }
        scope.allowed[found->second.first].push_back(found->second.second);
    }
};

bool Allowances::Scope::covers(std::uint32_t offset) const {
    const auto after = std::ranges::upper_bound(lines, offset, {}, &Span::begin);
    return after != lines.begin() && offset <= std::prev(after)->end;
}

Allowances::Allowances(const parse::ParseTree& tree, std::span<const std::uint32_t> order,
                       const SourceFile& source, DiagnosticSink& sink)
    : codes_(code_count) {
    const bool any = std::ranges::any_of(
        order, [&](std::uint32_t i) { return tree.lines[i].kind == LineKind::allow; });
    if (any) Reader{*this, tree, source, sink}.read_all(order);
}

bool Allowances::meet(const Scope& scope, Code code) {
    const auto found = scope.allowed.find(code);
    if (found == scope.allowed.end()) return false;
    for (const std::size_t line : found->second)
        lines_[line].is_met = true;
    return true;
}

bool Allowances::takes(const DiagnosticSink::Found& found) {
    if (!codes_[static_cast<std::size_t>(found.code)]) return false;
    bool taken = false;
    for (const Scope& file : files_) {
        if (file.covers(found.begin)) taken = meet(file, found.code) || taken;
    }
    if (found.session) {
        const auto session = sessions_.find(*found.session);
        return (session != sessions_.end() && meet(session->second, found.code)) || taken;
    }
    // Of a line that sessions share each of them has to allow it.
    bool any = false;
    bool all = true;
    for (const auto& [head, scope] : sessions_) {
        if (!scope.covers(found.begin)) continue;
        any = true;
        all = meet(scope, found.code) && all;
    }
    return taken || (any && all);
}

void Allowances::report_unmet(DiagnosticSink& sink) const {
    for (const Line& line : lines_) {
        if (!line.is_met) sink.report({Code::allow_unused, line.span, {line.name}, {}, {}});
    }
}

}  // namespace stave::analysis
