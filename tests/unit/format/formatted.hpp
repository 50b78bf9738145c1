// A text in its one true layout, and what it says.
#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "compiler/diagnostics/render.hpp"
#include "compiler/format/format.hpp"
#include "compiler/parse/parse.hpp"
#include "compiler/syntax/lower.hpp"

namespace stave::tests {

struct Formatted {
    // Empty where the text has errors.
    std::string text;
    std::string problems;
    // What every line says, without numbers of lines, blank lines and remarks that
    // say nothing.
    std::string meaning;
};

inline std::string squeezed(const std::string& line) {
    std::string text;
    for (const char c : line) {
        const bool is_blank = c == ' ' || c == '\t';
        if (!is_blank || !text.ends_with(' ')) text += is_blank ? ' ' : c;
    }
    return text;
}

inline std::string without_numbers(const std::string& dump) {
    std::istringstream lines(dump);
    std::string text;
    for (std::string line; std::getline(lines, line);) {
        const bool is_head = !line.starts_with(' ');
        if (is_head) line.erase(0, line.find(' ') + 1);
        if (line == "blank") continue;
        // A field's head is a keyword in any spelling.
        const bool is_named = line.starts_with("movement_line") || line.starts_with("open_");
        if (is_head && !is_named) line.erase(std::min(line.find(" \""), line.size()));
        if (const std::size_t remark = line.find(" (remark)"); remark != std::string::npos)
            line.erase(remark);
        text += squeezed(line) + '\n';
    }
    return text;
}

inline Formatted formatted(std::string text) {
    const SourceFile source("main.stave", std::move(text));
    DiagnosticSink sink;
    const parse::ParseTree tree = parse::parse(source, sink);
    const syntax::Document document = syntax::lower(tree, source, sink);
    const auto sorted = sink.sorted();
    Formatted result{"", render_line({&source, sorted, sink.dropped()}),
                     without_numbers(syntax::dump(document))};
    if (!sink.has_errors()) result.text = format::format(document, source.text());
    return result;
}

inline std::string file_text(const std::filesystem::path& path) {
    std::ostringstream text;
    text << std::ifstream(path, std::ios::binary).rdbuf();
    return text.str();
}

}  // namespace stave::tests
