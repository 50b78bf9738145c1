#include "compiler/analysis/allow.hpp"

#include <fmt/format.h>

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
    return code == Code::card_cues_dropped || code == Code::technique_unknown;
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
        const Order behind{first, order.end()};
        if (!allows(behind)) return;
        allowances.scopes_.emplace_back();
        for (auto begin = behind.begin(); begin != behind.end();) {
            const auto end = std::find_if(begin + 1, behind.end(), [&](std::uint32_t index) {
                return compose::is_first_rank(tree.lines[index].kind);
            });
            read_session({begin, end});
            begin = end;
        }
        sort_occurrences();
    }

    [[nodiscard]] bool allows(Order order) const {
        return std::ranges::any_of(
            order, [&](std::uint32_t i) { return tree.lines[i].kind == LineKind::allow; });
    }

    // A scope for each part that allows something before the first session.
    void read_files(Order order) {
        std::map<std::uint32_t, File> files;
        for (const std::uint32_t index : order) {
            const parse::Line& line = tree.lines[index];
            if (line.kind != LineKind::allow) continue;
            const std::uint32_t part = source.part_at(line.span.begin);
            File& file = files[part];
            file.span = part_span(source, part);
            add(line, Reach::whole, file.scope);
        }
        for (auto& [part, file] : files)
            allowances.files_.push_back(std::move(file));
    }

    void read_session(Order order) {
        Session session;
        session.first_place = next_place();
        Place place;
        place.session = session.scope = new_scope();
        allowances.places_.push_back(place);
        Reach reach = Reach::whole;
        for (std::size_t i = 0; i < order.size(); ++i) {
            const parse::Line& line = tree.lines[order[i]];
            const bool is_block = grammar::is_block(line.kind);
            if (is_block || grammar::is_item(line.kind)) {
                reach = is_block ? Reach::block : Reach::movement;
                if (is_block) place.block = 0;
                place.movement = 0;
                open(order.subspan(i + 1), reach, place);
            }
            if (line.kind == LineKind::blank) continue;
            allowances.occurrences_.push_back({line.span.begin, line.span.end, next_place() - 1});
            if (line.kind == LineKind::allow) add(line, reach, scope_of(place, reach));
        }
        session.after_places = next_place();
        allowances.sessions_[tree.lines[order.front()].head.begin] = session;
    }

    // A place of its own for a block or movement that allows something in the lines below
    // its own; else it shares that of the lines around it.
    void open(Order below, Reach reach, Place& place) {
        const auto end = std::ranges::find_if(below, [&](std::uint32_t index) {
            const LineKind kind = tree.lines[index].kind;
            return grammar::is_block(kind) || grammar::is_item(kind);
        });
        if (allows({below.begin(), end})) {
            (reach == Reach::block ? place.block : place.movement) = new_scope();
        }
        const Place& last = allowances.places_.back();
        const bool is_same = last.block == place.block && last.movement == place.movement;
        if (!is_same) allowances.places_.push_back(place);
    }

    Scope& scope_of(const Place& place, Reach reach) {
        return allowances.scopes_[reach == Reach::movement ? place.movement
                                  : reach == Reach::block  ? place.block
                                                           : place.session];
    }

    std::size_t new_scope() {
        allowances.scopes_.emplace_back();
        return allowances.scopes_.size() - 1;
    }

    [[nodiscard]] std::uint32_t next_place() const {
        return static_cast<std::uint32_t>(allowances.places_.size());
    }

    void sort_occurrences() {
        const auto order = [](const Occurrence& one) { return std::pair{one.begin, one.place}; };
        auto& all = allowances.occurrences_;
        std::ranges::sort(all, {}, order);
        const auto twice = std::ranges::unique(all, {}, order);
        all.erase(twice.begin(), twice.end());
    }

    void add(const parse::Line& line, Reach reach, Scope& scope) {
        if (line.is_broken || line.is_deferred) return;
        auto found = known.find(line.span.begin);
        if (found == known.end()) {
            auto one = read(source, line.body, sink);
            if (!one) return;
            found = known.emplace(line.span.begin, std::pair{one->code, allowances.lines_.size()})
                        .first;
            allowances.lines_.push_back(
                {line.body, std::move(one->name), reach, is_of_cards(one->code)});
            allowances.codes_[static_cast<std::size_t>(one->code)] = true;
        }
        Line& known_line = allowances.lines_[found->second.second];
        known_line.reach = std::max(known_line.reach, reach);
        scope[found->second.first].push_back(found->second.second);
    }
};

Allowances::Allowances(const parse::ParseTree& tree, std::span<const std::uint32_t> order,
                       const SourceFile& source, DiagnosticSink& sink)
    : codes_(code_count) {
    Reader reader{*this, tree, source, sink};
    if (reader.allows(order)) reader.read_all(order);
}

bool Allowances::meet(Scope& scope, Code code) {
    const auto found = scope.find(code);
    if (found == scope.end()) return false;
    for (const std::size_t line : found->second)
        lines_[line].is_met = true;
    // Those that are met need not be gone through again.
    if (found->second.size() > 1)
        found->second.erase(found->second.begin() + 1, found->second.end());
    return true;
}

bool Allowances::meet_in_places(std::uint32_t offset, Code code, std::uint32_t first,
                                std::uint32_t after) {
    auto next = std::ranges::upper_bound(occurrences_, offset, {}, &Occurrence::begin);
    if (next == occurrences_.begin() || offset > std::prev(next)->end) return false;
    const std::uint32_t begin = std::prev(next)->begin;
    next = std::ranges::lower_bound(occurrences_, std::pair{begin, first}, {},
                                    [](const Occurrence& one) {
                                        return std::pair{one.begin, one.place};
                                    });
    bool any = false;
    bool all = true;
    for (; next != occurrences_.end() && next->begin == begin && next->place < after; ++next) {
        const Place& place = places_[next->place];
        bool is_met = meet(scopes_[place.session], code);
        is_met = meet(scopes_[place.block], code) || is_met;
        is_met = meet(scopes_[place.movement], code) || is_met;
        any = true;
        all = all && is_met;
    }
    return any && all;
}

bool Allowances::takes(const DiagnosticSink::Found& found) {
    if (!codes_[static_cast<std::size_t>(found.code)]) return false;
    bool taken = false;
    for (File& file : files_) {
        if (found.begin >= file.span.begin && found.begin <= file.span.end) {
            taken = meet(file.scope, found.code) || taken;
        }
    }
    if (occurrences_.empty()) return taken;
    if (!found.session) {
        const auto after = static_cast<std::uint32_t>(places_.size());
        return meet_in_places(found.begin, found.code, 0, after) || taken;
    }
    const auto known = sessions_.find(*found.session);
    if (known == sessions_.end()) return taken;
    const Session& session = known->second;
    taken = meet(scopes_[session.scope], found.code) || taken;
    return meet_in_places(found.begin, found.code, session.first_place, session.after_places) ||
           taken;
}

void Allowances::report_unmet(DiagnosticSink& sink) const {
    for (const Line& line : lines_) {
        if (line.is_met) continue;
        std::vector<std::string> arguments{line.name, "here", "", ""};
        if (line.reach != Reach::whole) {
            const std::string what = line.reach == Reach::block ? "block" : "movement";
            arguments[1] = "in the lines of this " + what;
            arguments[2] = fmt::format("; below a {}'s line it covers that {} alone", what, what);
            arguments[3] =
                ", or move it to the session's head, where it holds for the whole session";
        }
        sink.report({Code::allow_unused, line.span, std::move(arguments), {}, {}});
    }
}

}  // namespace stave::analysis
