#include "compiler/parse/parse.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "compiler/parse/classify.hpp"
#include "compiler/parse/failures.hpp"
#include "compiler/parse/line_scanner.hpp"
#include "compiler/parse/rules.hpp"
#include "compiler/parse/scene.hpp"
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
        if (auto bullet = find_bullet(scanned.content)) return report(std::move(*bullet), line);
        if (!scanned.colon) return report(describe_no_colon(text_, scanned), line);
        line.head = scanned.head;
        line.colon = *scanned.colon;
        line.body = scanned.body;
        if (scanned.clock_colon) return report(clock_in_head(scanned), line);
        read_head(line);
    }

    // "- squat: 5", "1. squat: 5", "A1: squat 5".
    [[nodiscard]] std::optional<Diagnostic> find_bullet(Span content) const {
        const std::string_view said = text_.substr(content.begin, content.size());
        std::size_t size = 0;
        for (const std::string_view sign : {"- ", "* ", "• ", "– ", "· "}) {
            if (said.starts_with(sign)) size = sign.size();
        }
        const std::size_t digits = said.find_first_not_of("0123456789");
        if (digits != std::string_view::npos && digits > 0 && digits < 4 &&
            (said[digits] == '.' || said[digits] == ')') &&
            said.substr(digits + 1).starts_with(' ')) {
            size = digits + 2;
        }
        const bool letter_and_digit = said.size() > 3 && said[0] >= 'A' && said[0] <= 'H' &&
                                      said[1] >= '1' && said[1] <= '9' &&
                                      (said[2] == ':' || said[2] == '.' || said[2] == ')');
        if (letter_and_digit) size = said[3] == ' ' ? 4 : 3;
        if (size == 0) return std::nullopt;
        const Span span{content.begin, content.begin + static_cast<std::uint32_t>(size)};
        const Span shown = trim(text_, span);
        return Diagnostic{Code::bullet,
                          shown,
                          {std::string(text_.substr(shown.begin, shown.size()))},
                          {{"leave it out", {Edit{span, ""}}}},
                          {}};
    }

    // A colon of a time stands before the one that ends the head.
    [[nodiscard]] Diagnostic clock_in_head(const ScannedLine& scanned) const {
        ScannedLine without = scanned;
        without.colon.reset();
        return describe_no_colon(text_, without);
    }

    void read_head(Line& line) {
        const std::string_view head = text_.substr(line.head.begin, line.head.size());
        const Classification found = classify(head);
        line.kind = found.kind;
        line.title = trim(text_, {line.head.begin + static_cast<std::uint32_t>(found.opener_size),
                                  line.head.end});
        if (auto problem = check_head(line, found)) return report(std::move(*problem), line);
        read_body(line, found.body);
    }

    [[nodiscard]] std::optional<Diagnostic> check_head(const Line& line,
                                                       const Classification& found) {
        const std::string head(text_.substr(line.head.begin, line.head.size()));
        const std::string_view title = text_.substr(line.title.begin, line.title.size());
        switch (found.kind) {
            case LineKind::open_session:
                return check_session_head(line, title);
            case LineKind::open_movement:
            case LineKind::open_substitute:
            case LineKind::open_plain_movement:
            case LineKind::open_game:
            case LineKind::open_test:
            case LineKind::open_grow:
            case LineKind::open_athlete:
            case LineKind::open_plan:
            case LineKind::open_routine:
            case LineKind::open_use:
            case LineKind::open_did:
                if (title.empty()) {
                    return Diagnostic{Code::title_missing, line.head, {head}, {}, {}};
                }
                break;
            case LineKind::movement_line:
                break;
            default:
                return std::nullopt;
        }
        const bool names_movements =
            found.kind == LineKind::movement_line || found.kind == LineKind::open_substitute ||
            found.kind == LineKind::open_plain_movement || found.kind == LineKind::open_game ||
            found.kind == LineKind::open_test;
        if (!names_movements) return std::nullopt;
        const bool has_letter = std::ranges::any_of(title, is_letter);
        if (!title.empty() && !has_letter) {
            return Diagnostic{Code::head_without_name, line.title, {std::string(title)}, {}, {}};
        }
        if (auto failure = run_head(text_, line.title, tree_.nodes)) {
            return describe_head(text_, *failure, line.title);
        }
        return std::nullopt;
    }

    // Only a number stands between `session` and the colon.
    [[nodiscard]] std::optional<Diagnostic> check_session_head(const Line& line,
                                                               std::string_view title) const {
        const bool number = title.size() <= 9 &&
                            std::ranges::all_of(title, [](char c) { return c >= '0' && c <= '9'; });
        if (number) return std::nullopt;
        const std::size_t digits = title.find_first_not_of("0123456789");
        const bool numbered = digits > 0 && title[digits] == ' ';
        const std::string mended = numbered ? fmt::format("session {}: {}", title.substr(0, digits),
                                                          title.substr(digits + 1))
                                            : fmt::format("session: {}", title);
        Diagnostic result{Code::session_title, line.title, {std::string(title), mended}, {}, {}};
        if (line.body.empty()) {
            result.fixes.push_back({mended, {Edit{{line.head.begin, line.colon.end}, mended}}});
        }
        return result;
    }

    void read_body(Line& line, BodyKind kind) {
        if (kind == BodyKind::nothing && !line.body.empty()) {
            return report({Code::body_not_here,
                           line.body,
                           {std::string(text_.substr(line.body.begin, line.body.size()))},
                           {},
                           {}},
                          line);
        }
        const bool words = kind == BodyKind::text;
        if (words && line.body.empty()) {
            const std::string head(text_.substr(line.head.begin, line.head.size()));
            return report({Code::text_missing, line.head, {head}, {}, {}}, line);
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
        std::string near(field_but_for_a_letter(head, shortest_field));
        const bool no_amount = failure.offset == line.body.begin;
        if (near.empty() && no_amount) near = near_field(head);
        if (near.empty()) return false;
        report(
            {Code::misspelt_head, line.head, {head, near}, {{near, {Edit{line.head, near}}}}, {}},
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

    void report(Diagnostic diagnostic, Line& line) {
        line.is_broken = true;
        tree_.nodes.resize(line.first_node);
        sink_.report(std::move(diagnostic));
    }

    std::string_view text_;
    DiagnosticSink& sink_;
    ParseTree& tree_;
};

}  // namespace

ParseTree parse(const SourceFile& source, DiagnosticSink& sink) {
    ParseTree tree;
    if (!is_readable(source, sink)) return tree;
    tree.lines.reserve(source.line_count());
    // A movement line leaves about six nodes.
    constexpr std::size_t nodes_per_line = 6;
    tree.nodes.reserve(source.line_count() * nodes_per_line);
    LineParser parser(source, sink, tree);
    for (std::uint32_t line = 0; line < source.line_count(); ++line)
        parser.parse(source.line(line));
    return tree;
}

}  // namespace stave::parse
