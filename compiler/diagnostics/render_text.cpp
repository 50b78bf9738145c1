#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/diagnostics/render.hpp"
#include "compiler/source/utf8.hpp"

namespace stave {

namespace {

using Out = std::back_insert_iterator<std::string>;

struct Palette {
    std::string_view severity;
    std::string_view strong;
    std::string_view quiet;
    std::string_view off;
};

Palette palette(Severity severity, bool colour) {
    if (!colour) return {};
    constexpr std::string_view red = "\033[1;31m";
    constexpr std::string_view yellow = "\033[1;33m";
    constexpr std::string_view blue = "\033[1;34m";
    const std::string_view own = severity == Severity::error     ? red
                                 : severity == Severity::warning ? yellow
                                                                 : blue;
    return {own, "\033[1m", "\033[2m", "\033[0m"};
}

// One character of a line as it is shown. What cannot be seen, or would garble the
// terminal, is shown as a question mark.
struct ShownCharacter {
    std::size_t begin = 0;
    std::string_view text;
    std::size_t columns = 1;
};

bool is_control(std::int32_t code_point) {
    const bool turns_direction = (code_point >= 0x202A && code_point <= 0x202E) ||
                                 (code_point >= 0x2066 && code_point <= 0x2069);
    return code_point < 0x20 || (code_point >= 0x7F && code_point < 0xA0) || turns_direction;
}

std::vector<ShownCharacter> split(std::string_view line) {
    std::vector<ShownCharacter> characters;
    for (std::size_t i = 0; i < line.size();) {
        const Character character = character_at(line, i);
        const std::size_t size = std::max<std::size_t>(1, character.size);
        if (character.code_point == '\t' && character.size > 0) {
            characters.push_back({i, " ", 1});
        } else if (character.size == 0 || is_control(character.code_point)) {
            characters.push_back({i, "?", 1});
        } else {
            characters.push_back({i, line.substr(i, size), column_count(character.code_point)});
        }
        i += size;
    }
    return characters;
}

// The part of a long line around the place, and the marks below it.
struct Snippet {
    std::string text;
    std::string marks;
};

Snippet make_snippet(std::string_view line, std::size_t begin, std::size_t end) {
    constexpr std::size_t widest = 100;
    constexpr std::size_t before = 30;
    const std::vector<ShownCharacter> characters = split(line);
    const auto at = [&](std::size_t offset) {
        return static_cast<std::size_t>(
            std::ranges::lower_bound(characters, offset, {}, &ShownCharacter::begin) -
            characters.begin());
    };
    const std::size_t first = at(begin);
    const std::size_t last = std::max(at(end), first + 1);
    const std::size_t from = characters.size() > widest && first > before ? first - before : 0;
    const std::size_t to = std::min(characters.size(), from + widest);
    Snippet snippet;
    if (from > 0) {
        snippet.text = "... ";
        snippet.marks = "    ";
    }
    for (std::size_t i = from; i < to; ++i) {
        const ShownCharacter& character = characters[i];
        snippet.text += character.text;
        const bool marked = i >= first && i < last;
        snippet.marks.append(character.columns, marked ? '^' : ' ');
    }
    if (snippet.marks.find('^') == std::string::npos) snippet.marks += '^';
    if (to < characters.size()) snippet.text += " ...";
    while (snippet.marks.ends_with(' '))
        snippet.marks.pop_back();
    return snippet;
}

void add_place(const SourceFile& source, Span span, std::string_view label, const Palette& colours,
               Out out) {
    const Position position = source.position(span.begin);
    const Span line = source.line_at(span.begin);
    const Snippet snippet = make_snippet(source.text(line), span.begin - line.begin,
                                         std::min(span.end, line.end) - line.begin);
    const std::string number = std::to_string(position.line);
    fmt::format_to(out, "  {}{}, line {}, column {}{}{}\n", colours.quiet, source.path(span.begin),
                   number, position.column, colours.off, label);
    fmt::format_to(out, "  {}{} |{} {}\n", colours.quiet, number, colours.off, snippet.text);
    fmt::format_to(out, "  {}{:{}} |{} {}{}{}\n", colours.quiet, "", number.size(), colours.off,
                   colours.severity, snippet.marks, colours.off);
}

void add_sentence(std::string_view label, const std::string& sentence, const Palette& colours,
                  Out out) {
    if (sentence.empty()) return;
    fmt::format_to(out, "  {}{}{}: {}\n", colours.strong, label, colours.off, sentence);
}

void add_diagnostic(const SourceFile* source, const Diagnostic& diagnostic, bool colour, Out out) {
    const CatalogueEntry& entry = catalogue_entry(diagnostic.code);
    const Palette colours = palette(entry.severity, colour);
    fmt::format_to(out, "{}{}{}: {}{}{} ({})\n", colours.severity, severity_name(entry.severity),
                   colours.off, colours.strong, what(diagnostic), colours.off, entry.name);
    if (source != nullptr) {
        add_place(*source, diagnostic.span, "", colours, out);
        for (const Related& related : diagnostic.related) {
            add_place(*source, related.span, ": " + related.label, colours, out);
        }
    }
    add_sentence("why", why(diagnostic), colours, out);
    add_sentence("mend", mend(diagnostic), colours, out);
    fmt::format_to(out, "\n");
}

}  // namespace

std::optional<Diagnostic> of_dropped(const FileDiagnostics& file) {
    if (file.dropped == 0) return std::nullopt;
    return Diagnostic{Code::more_problems,
                      {},
                      {std::to_string(file.dropped), file.source->path(),
                       std::to_string(file.diagnostics.size())},
                      {},
                      {}};
}

std::string render_text(const FileDiagnostics& file, bool colour) {
    std::string text;
    const Out out(text);
    for (const Diagnostic& diagnostic : file.diagnostics) {
        add_diagnostic(file.source, diagnostic, colour, out);
    }
    if (const auto more = of_dropped(file)) add_diagnostic(nullptr, *more, colour, out);
    return text;
}

std::string render_line(const FileDiagnostics& file) {
    std::string text;
    const Out out(text);
    for (const Diagnostic& diagnostic : file.diagnostics) {
        const CatalogueEntry& entry = catalogue_entry(diagnostic.code);
        if (file.source != nullptr) {
            const Span typed = file.source->typed(diagnostic.span);
            const Position position = file.source->position(typed.begin);
            fmt::format_to(out, "{}:{}:{}: ", file.source->path(typed.begin), position.line,
                           position.column);
        } else {
            fmt::format_to(out, "stave: ");
        }
        fmt::format_to(out, "{}: {} [{}]\n", severity_name(entry.severity), what(diagnostic),
                       entry.name);
    }
    if (const auto more = of_dropped(file)) {
        const CatalogueEntry& entry = catalogue_entry(more->code);
        fmt::format_to(out, "stave: {}: {} [{}]\n", severity_name(entry.severity), what(*more),
                       entry.name);
    }
    return text;
}

}  // namespace stave
