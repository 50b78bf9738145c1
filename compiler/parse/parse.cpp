#include "compiler/parse/parse.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "compiler/parse/classify.hpp"
#include "compiler/parse/failures.hpp"
#include "compiler/parse/heads.hpp"
#include "compiler/parse/line_scanner.hpp"
#include "compiler/parse/rules.hpp"
#include "compiler/parse/text_check.hpp"

namespace stave::parse {

namespace {

using grammar::BodyKind;
using grammar::LineKind;

class LineParser {
public:
    LineParser(const SourceFile& source, DiagnosticSink& sink, ParseTree& tree)
        : text_(source.text()), sink_(sink), tree_(tree) {}

    void parse(Span span) {
        Line line;
        line.span = span;
        line.first_node = static_cast<std::uint32_t>(tree_.nodes.size());
        if (span.size() > longest_line) {
            line.kind = LineKind::unclassified;
            report({Code::line_too_long,
                    {span.begin, span.begin},
                    {std::to_string(span.size()), std::to_string(longest_line)},
                    {},
                    {}},
                   line);
        } else {
            parse_scanned(scan_line(text_, span), line);
        }
        line.after_nodes = static_cast<std::uint32_t>(tree_.nodes.size());
        tree_.lines.push_back(line);
    }

private:
    void parse_scanned(const ScannedLine& scanned, Line& line) {
        line.kind = LineKind::unclassified;
        line.remark = scanned.remark;
        if (scanned.content.empty()) {
            line.kind = scanned.remark.empty() ? LineKind::blank : LineKind::remark;
            return;
        }
        if (auto bullet = find_bullet(text_, scanned.content)) {
            return report(std::move(*bullet), line);
        }
        if (!scanned.colon) return read_without_colon(scanned, line);
        line.head = scanned.head;
        line.colon = *scanned.colon;
        line.body = scanned.body;
        if (scanned.clock_colon) {
            return report(describe_clock_in_head(text_, scanned), line);
        }
        read_head(line);
    }

    // What its head would say still gives the lines below their place.
    void read_without_colon(const ScannedLine& scanned, Line& line) {
        line.head = scanned.content;
        report(describe_no_colon(text_, scanned), line);
        const Classification found = classify(text_.substr(line.head.begin, line.head.size()));
        if (line.kind == LineKind::unclassified) {
            line.head = {};
            return;
        }
        line.title = trim(text_, {line.head.begin + static_cast<std::uint32_t>(found.opener_size),
                                  line.head.end});
    }

    void read_head(Line& line) {
        const std::string_view head = text_.substr(line.head.begin, line.head.size());
        const Classification found = classify(head);
        line.kind = found.kind;
        follow_routine(found.kind);
        line.title = trim(text_, {line.head.begin + static_cast<std::uint32_t>(found.opener_size),
                                  line.head.end});
        if (in_routine_ && has_blank(line)) {
            line.is_deferred = true;
            return;
        }
        const bool may_hold_blank =
            in_routine_ && found.body != BodyKind::text && found.kind != LineKind::open_routine;
        if (may_hold_blank) {
            if (auto sign = find_blank_sign(text_, line)) return report(std::move(*sign), line);
        }
        if (auto problem = check_head(line)) return report(std::move(*problem), line);
        read_body(line, found.body);
    }

    // A routine holds the lines below it up to the next line of the first rank.
    void follow_routine(LineKind kind) {
        switch (kind) {
            case LineKind::open_routine:
                in_routine_ = true;
                return;
            case LineKind::open_session:
            case LineKind::open_movement:
            case LineKind::open_athlete:
            case LineKind::open_plan:
            case LineKind::open_did:
            case LineKind::open_squad:
            case LineKind::open_named_kit:
                in_routine_ = false;
                return;
            default:
                return;
        }
    }

    // "band pull-apart: [reps]" below a routine's head.
    [[nodiscard]] bool has_blank(const Line& line) const {
        if (line.kind == LineKind::open_routine) return false;
        return text_.substr(line.span.begin, line.span.size()).contains('[');
    }

    [[nodiscard]] std::optional<Diagnostic> check_head(const Line& line) {
        if (auto slip = find_head_slip(text_, line)) return slip;
        switch (line.kind) {
            case LineKind::movement_line:
            case LineKind::open_substitute:
            case LineKind::open_plain_movement:
            case LineKind::open_game:
            case LineKind::open_test:
                break;
            default:
                return std::nullopt;
        }
        if (auto failure = run_head(text_, line.title, tree_.nodes)) {
            return describe_head(text_, *failure, line);
        }
        return std::nullopt;
    }

    void read_body(Line& line, BodyKind kind) {
        if (kind == BodyKind::nothing && !line.body.empty()) {
            return report(describe_stray_body(text_, line), line);
        }
        const bool words = kind == BodyKind::text;
        if (words && line.body.empty()) {
            const std::string head(text_.substr(line.head.begin, line.head.size()));
            return report({Code::text_missing, line.body, {head}, {}, {}}, line);
        }
        const auto failure = run_body(kind, text_, line.body, tree_.nodes);
        const bool is_movement = line.kind == LineKind::movement_line;
        if (failure && is_movement && report_misspelt_field(line, *failure)) return;
        if (failure) {
            return report(describe_body(text_, *failure, kind, line.head, line.body), line);
        }
        if (is_movement) warn_of_near_field(line);
    }

    // "kitt: 2 kettlebells": no amount, and a slip from a field.
    bool report_misspelt_field(Line& line, const Failure& failure) {
        constexpr std::size_t shortest_field = 3;
        const std::string head(text_.substr(line.head.begin, line.head.size()));
        // "core: 3 rounds" is a block without its kind.
        if (reads(BodyKind::format, text_.substr(line.body.begin, line.body.size()))) return false;
        std::string near(field_but_for_a_letter(head, shortest_field));
        const bool no_amount = failure.offset == line.body.begin;
        if (near.empty() && no_amount) near = near_field(head);
        if (near.empty()) return no_amount && report_misspelt_opener(line);
        report(
            {Code::misspelt_head, line.head, {head, near}, {{near, {Edit{line.head, near}}}}, {}},
            line);
        return true;
    }

    // "sesion 3: Slack water".
    bool report_misspelt_opener(Line& line) {
        const std::string_view head = text_.substr(line.head.begin, line.head.size());
        const std::string_view first = head.substr(0, head.find(' '));
        const std::string near(near_opener(first));
        if (near.empty() || classify(near).body != BodyKind::raw) return false;
        const Span word{line.head.begin,
                        line.head.begin + static_cast<std::uint32_t>(first.size())};
        // "sesion3" has its number with it.
        const std::size_t digits = first.find_last_not_of("0123456789") + 1;
        const std::string mended =
            near + (digits < first.size() ? " " + std::string(first.substr(digits)) : "");
        report({Code::misspelt_head,
                line.head,
                {std::string(head), mended},
                {{mended, {Edit{word, mended}}}},
                {}},
               line);
        return true;
    }

    // "rests: 3 min" is a movement as it stands.
    void warn_of_near_field(const Line& line) {
        const std::string head(text_.substr(line.head.begin, line.head.size()));
        // Shorter fields are near too many names.
        constexpr std::size_t least_size = 4;
        const std::string near(field_but_for_a_letter(head, least_size));
        if (near.empty()) return;
        sink_.report(
            {Code::near_keyword, line.head, {head, near}, {{near, {Edit{line.head, near}}}}, {}});
    }

    // A broken line keeps the kind that its mend has: what stands below a block or a
    // session would seem out of place without it.
    void take_mended_kind(const Diagnostic& diagnostic, Line& line) {
        if (diagnostic.fixes.empty()) return;
        const Edit& edit = diagnostic.fixes.front().edits.front();
        if (edit.span.begin != line.head.begin) return;
        std::string head = edit.text.substr(0, edit.text.find(':'));
        if (head.size() == edit.text.size() && edit.span.end < line.head.end) {
            head += text_.substr(edit.span.end, line.head.end - edit.span.end);
        }
        const Classification mended = classify(head);
        if (mended.kind == LineKind::movement_line) return;
        line.kind = mended.kind;
        follow_routine(mended.kind);
    }

    void report(Diagnostic diagnostic, Line& line) {
        const bool unclear =
            line.kind == LineKind::movement_line || line.kind == LineKind::unclassified;
        if (unclear) take_mended_kind(diagnostic, line);
        line.is_broken = true;
        tree_.nodes.resize(line.first_node);
        sink_.report(std::move(diagnostic));
    }

    std::string_view text_;
    DiagnosticSink& sink_;
    ParseTree& tree_;
    bool in_routine_ = false;
};

}  // namespace

ParseTree parse(const SourceFile& source, DiagnosticSink& sink) {
    ParseTree tree;
    parse_part(source, source.parts().front(), tree, sink);
    return tree;
}

void parse_part(const SourceFile& source, const SourcePart& part, ParseTree& tree,
                DiagnosticSink& sink) {
    if (!is_readable(source, part, sink)) return;
    if (tree.lines.empty()) {
        tree.lines.reserve(part.line_count);
        // A movement line leaves about six nodes; to grow would be to copy them all.
        constexpr std::size_t nodes_per_line = 8;
        tree.nodes.reserve(part.line_count * nodes_per_line);
    }
    LineParser parser(source, sink, tree);
    for (std::uint32_t line = 0; line < part.line_count; ++line)
        parser.parse(source.line(part.first_line + line));
}

}  // namespace stave::parse
