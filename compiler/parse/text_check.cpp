#include "compiler/parse/text_check.hpp"

#include <fmt/format.h>
#include "compiler/source/utf8.hpp"

namespace stave::parse {

namespace {

// The controls of the Unicode Bidirectional Algorithm (UAX 9, section 2), marks included.
bool turns_direction(std::int32_t character) {
    return character == 0x061C || character == 0x200E || character == 0x200F ||
           (character >= 0x202A && character <= 0x202E) ||
           (character >= 0x2066 && character <= 0x2069);
}

// C0 and C1 except the ends of lines and tabs; U+0085 counts as a blank.
bool is_control(std::int32_t character) {
    if (character == '\t' || character == '\n' || character == '\r' || character == 0x85) {
        return false;
    }
    return character < 0x20 || (character >= 0x7F && character < 0xA0);
}

}  // namespace

bool is_readable(const SourceFile& source, const SourcePart& part, DiagnosticSink& sink) {
    if (part.line_count > most_lines) {
        sink.report({Code::too_many_lines,
                     {part.begin, part.begin},
                     {std::to_string(part.line_count), std::to_string(most_lines)},
                     {},
                     {}});
        return false;
    }
    const std::string_view text = source.text();
    const std::size_t end = source.line(part.first_line + part.line_count - 1).end;
    for (std::size_t i = part.begin; i < end;) {
        const auto byte = static_cast<unsigned char>(text[i]);
        if (byte >= 0x20 && byte < 0x7F) {
            ++i;
            continue;
        }
        const Character character = character_at(text, i);
        const auto begin = static_cast<std::uint32_t>(i);
        if (character.size == 0) {
            sink.report(
                {Code::not_utf8, {begin, begin + 1}, {fmt::format("{:#04x}", byte)}, {}, {}});
            return false;
        }
        if (is_control(character.code_point) || turns_direction(character.code_point)) {
            const Span span{begin, begin + static_cast<std::uint32_t>(character.size)};
            sink.report({Code::control_character,
                         span,
                         {fmt::format("U+{:04X}", character.code_point)},
                         {},
                         {}});
            return false;
        }
        i += character.size;
    }
    return true;
}

}  // namespace stave::parse
