#include "compiler/compose/blanks.hpp"

#include <algorithm>

namespace stave::compose {

namespace {

// "reps 8" of "$reps = 8", "[reps] 8" and "reps=8".
std::string without_signs(const std::string& text) {
    std::string plain;
    for (const char c : text) {
        if (c == '$' || c == '[' || c == ']' || c == '{' || c == '}') continue;
        const char sign = c == '=' ? ' ' : c;
        if (sign != ' ' || (!plain.empty() && plain.back() != ' ')) plain += sign;
    }
    return plain;
}

// "reps 8": a word and its usual value.
void add_parameter(const Workspace& workspace, const Piece& piece, Routine& routine) {
    if (const std::string plain = without_signs(piece.text); plain != piece.text) {
        return workspace.report(Code::routine_parameter, piece.span, {piece.text, plain},
                                {{plain, {Edit{piece.span, plain}}}});
    }
    const std::size_t blank = piece.text.find(' ');
    if (blank == std::string::npos) {
        return workspace.report(Code::routine_parameter, piece.span,
                                {piece.text, "routine Shoulder prep: reps 8, band heavy"});
    }
    const std::string name = fold_name(piece.text.substr(0, blank));
    if (std::ranges::count(routine.parameters, name, &Parameter::name) > 0) {
        return workspace.report(Code::routine_parameter_twice, piece.span, {name});
    }
    routine.parameters.push_back({name, piece.text.substr(blank + 1)});
}

// "10 reps" and "band light": the parameter's name is the last or the first word.
bool take(const Piece& piece, const Routine& routine, std::vector<std::string>& values) {
    if (piece.text.contains('=')) return false;
    const std::size_t first = piece.text.find(' ');
    const std::size_t last = piece.text.rfind(' ');
    if (first == std::string::npos) return false;
    const std::string before = fold_name(piece.text.substr(0, first));
    const std::string behind = fold_name(piece.text.substr(last + 1));
    for (std::size_t i = 0; i < routine.parameters.size(); ++i) {
        const std::string& name = routine.parameters[i].name;
        // A blank is filled once.
        if (!values[i].empty()) continue;
        if (name == before) {
            values[i] = piece.text.substr(first + 1);
            return true;
        }
        if (name == behind) {
            values[i] = piece.text.substr(0, last);
            return true;
        }
    }
    return false;
}

// "minutes 4" for "minutes=4", and for "4" where there is no other blank; or "".
std::string mended_value(const Piece& piece, const Routine& routine) {
    const Piece plain{without_signs(piece.text), piece.span};
    std::vector<std::string> values(routine.parameters.size());
    if (take(plain, routine, values)) return plain.text;
    const bool one_word = plain.text.find(' ') == std::string::npos;
    if (routine.parameters.size() != 1 || !one_word) return "";
    return routine.parameters.front().name + ' ' + plain.text;
}

void report_blank(const Workspace& workspace, Span span, const std::string& name,
                  const Routine& routine) {
    // "rep count 8" gives the blank "rep" with the usual value "count 8".
    const bool is_of_two_words = std::ranges::any_of(
        routine.parameters,
        [&](const Parameter& parameter) { return name.starts_with(parameter.name + ' '); });
    workspace.report(Code::routine_blank, span,
                     {workspace.text(span), routine.name,
                      is_of_two_words ? "Give it a name of one word in both places."
                                      : "Write it there, or correct the name."},
                     {}, {{routine.head, "it begins here"}});
}

}  // namespace

void add_parameters(const Workspace& workspace, const parse::Line& line, Routine& routine) {
    for (const Piece& piece : split_at_commas(workspace, line.body))
        add_parameter(workspace, piece, routine);
}

std::optional<std::vector<std::string>> values_of(const Workspace& workspace,
                                                  const parse::Line& line, const Routine& routine) {
    std::vector<std::string> values(routine.parameters.size());
    for (const Piece& piece : split_at_commas(workspace, line.body)) {
        if (take(piece, routine, values)) continue;
        std::string known;
        for (const Parameter& parameter : routine.parameters)
            known += (known.empty() ? "" : ", ") + parameter.name;
        const std::string mended = mended_value(piece, routine);
        std::vector<Fix> fixes;
        if (!mended.empty()) fixes.push_back({mended, {Edit{piece.span, mended}}});
        workspace.report(Code::routine_argument, piece.span,
                         {piece.text, routine.name, known.empty() ? "none" : known,
                          mended.empty() ? "10 reps" : mended},
                         std::move(fixes), {{routine.head, "it begins here"}});
        return std::nullopt;
    }
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (values[i].empty()) values[i] = routine.parameters[i].usual;
    }
    return values;
}

std::optional<std::string> filled_line(const Workspace& workspace, const parse::Line& line,
                                       const Routine& routine,
                                       const std::vector<std::string>& values) {
    const std::uint32_t end = line.remark.empty() ? line.span.end : line.remark.begin;
    const std::string text = workspace.text({line.span.begin, end});
    std::string filled;
    std::size_t at = 0;
    for (std::size_t open = text.find('['); open != std::string::npos; open = text.find('[', at)) {
        const std::size_t close = std::min(text.find(']', open), text.size() - 1);
        const std::string blank = text.substr(open, close + 1 - open);
        const std::string name =
            blank.ends_with(']') ? fold_name(blank.substr(1, blank.size() - 2)) : "";
        const auto found = std::ranges::find(routine.parameters, name, &Parameter::name);
        if (found == routine.parameters.end()) {
            const Span span{line.span.begin + static_cast<std::uint32_t>(open),
                            line.span.begin + static_cast<std::uint32_t>(close) + 1};
            report_blank(workspace, span, name, routine);
            return std::nullopt;
        }
        filled += text.substr(at, open - at);
        filled += values[static_cast<std::size_t>(found - routine.parameters.begin())];
        at = close + 1;
    }
    return filled + text.substr(at);
}

}  // namespace stave::compose
