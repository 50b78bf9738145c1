#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>

#include "compiler/compose/workspace.hpp"
#include "compiler/parse/parse.hpp"

namespace stave::compose {

namespace {

using grammar::LineKind;

struct Parameter {
    std::string name;
    std::string usual;
};

struct Routine {
    std::string name;
    Span head;
    std::vector<Parameter> parameters;
    Lines lines;
    // Lines with the blanks filled in, by the values that fill them.
    std::map<std::vector<std::string>, Lines> filled;
    bool is_used = false;
};

class RoutineUser {
public:
    explicit RoutineUser(const Workspace& workspace) : workspace_(workspace) {}

    Lines run(const Lines& lines) {
        const Lines others = collect(lines);
        Lines result;
        for (const std::uint32_t index : others)
            add(index, result);
        try_unused();
        return result;
    }

private:
    // Takes the routines out of the lines.
    Lines collect(const Lines& lines) {
        Lines others;
        Routine* open = nullptr;
        bool in_routine = false;
        for (const std::uint32_t index : lines) {
            const LineKind kind = workspace_.kind(index);
            if (kind == LineKind::open_routine) {
                in_routine = true;
                open = open_routine(index);
                continue;
            }
            if (is_first_rank(kind)) in_routine = false;
            if (!in_routine) {
                others.push_back(index);
            } else if (open != nullptr && kind != LineKind::blank && kind != LineKind::remark) {
                open->lines.push_back(index);
            }
        }
        return others;
    }

    // Null where the name is taken already.
    Routine* open_routine(std::uint32_t index) {
        const parse::Line& line = workspace_.line(index);
        if (line.is_broken) return nullptr;
        const std::string folded = workspace_.title(index);
        const auto [found, added] = routines_.emplace(folded, Routine{});
        Routine& routine = found->second;
        if (!added) {
            workspace_.report(Code::routine_twice, line.title, {workspace_.text(line.title)}, {},
                              {{routine.head, "the first one"}});
            return nullptr;
        }
        routine.name = clean_text(workspace_.text(line.title));
        routine.head = line.title;
        for (const Piece& piece : split_at_commas(workspace_, line.body))
            add_parameter(piece, routine);
        return &routine;
    }

    // "reps 8": a word and its usual value.
    void add_parameter(const Piece& piece, Routine& routine) const {
        const std::size_t blank = piece.text.find(' ');
        if (blank == std::string::npos || piece.text.empty()) {
            return workspace_.report(Code::routine_parameter, piece.span, {piece.text});
        }
        const std::size_t value = piece.text.find_first_not_of(' ', blank);
        routine.parameters.push_back(
            {fold_name(piece.text.substr(0, blank)), piece.text.substr(value)});
    }

    void add(std::uint32_t index, Lines& result) {
        if (workspace_.kind(index) != LineKind::open_use || workspace_.line(index).is_broken) {
            result.push_back(index);
            return;
        }
        use(index, result);
    }

    void use(std::uint32_t index, Lines& result) {
        const parse::Line line = workspace_.line(index);
        const auto found = routines_.find(workspace_.title(index));
        if (found == routines_.end()) return report_unknown(line);
        Routine& routine = found->second;
        routine.is_used = true;
        const bool cycle = std::ranges::find(open_, &routine) != open_.end();
        if (cycle || open_.size() == deepest_use) {
            return workspace_.report(Code::routine_cycle, line.title, {routine.name}, {},
                                     {{routine.head, "it begins here"}});
        }
        const auto values = values_of(line, routine);
        if (!values) return;
        open_.push_back(&routine);
        const Lines filled = fill(routine, *values, line);
        for (const std::uint32_t inner : filled) {
            if (!has_room(line)) break;
            add(inner, result);
            ++added_;
        }
        open_.pop_back();
    }

    // Says once that the uses add up to too much.
    bool has_room(const parse::Line& line) {
        if (added_ < most_added_lines) return true;
        if (!too_much_) {
            workspace_.report(Code::routine_too_long, line.title,
                              {std::to_string(most_added_lines)});
        }
        too_much_ = true;
        return false;
    }

    void report_unknown(const parse::Line& line) const {
        std::vector<std::string> names;
        for (const auto& [folded, routine] : routines_)
            names.push_back(folded);
        const std::string name = workspace_.text(line.title);
        const std::string near = near_name(fold_name(name), names);
        std::vector<Fix> fixes;
        std::string mend = "Write its lines below: routine " + name + ":";
        if (!near.empty()) {
            const std::string& right = routines_.at(near).name;
            mend = "Write use " + right + ": if that is meant.";
            fixes.push_back({right, {Edit{line.title, right}}});
        }
        workspace_.report(Code::routine_unknown, line.title, {name, mend}, std::move(fixes));
    }

    // A value for each parameter; nothing after an error.
    std::optional<std::vector<std::string>> values_of(const parse::Line& line,
                                                      const Routine& routine) const {
        std::vector<std::string> values;
        for (const Parameter& parameter : routine.parameters)
            values.push_back(parameter.usual);
        for (const Piece& piece : split_at_commas(workspace_, line.body)) {
            if (take(piece, routine, values)) continue;
            std::string known;
            for (const Parameter& parameter : routine.parameters)
                known += (known.empty() ? "" : ", ") + parameter.name;
            workspace_.report(Code::routine_argument, piece.span,
                              {piece.text, routine.name, known.empty() ? "none" : known}, {},
                              {{routine.head, "it begins here"}});
            return std::nullopt;
        }
        return values;
    }

    // "10 reps" and "band light": the parameter's name is the last or the first word.
    static bool take(const Piece& piece, const Routine& routine, std::vector<std::string>& values) {
        const std::size_t first = piece.text.find(' ');
        const std::size_t last = piece.text.rfind(' ');
        if (first == std::string::npos) return false;
        const std::string before = fold_name(piece.text.substr(0, first));
        const std::string behind = fold_name(piece.text.substr(last + 1));
        for (std::size_t i = 0; i < routine.parameters.size(); ++i) {
            const std::string& name = routine.parameters[i].name;
            if (name == before) {
                values[i] = clean_text(piece.text.substr(first + 1));
                return true;
            }
            if (name == behind) {
                values[i] = clean_text(piece.text.substr(0, last));
                return true;
            }
        }
        return false;
    }

    // The routine's lines with their blanks filled in.
    Lines fill(Routine& routine, const std::vector<std::string>& values, const parse::Line& user) {
        const bool as_it_is = std::ranges::none_of(
            routine.lines, [&](std::uint32_t index) { return workspace_.line(index).is_deferred; });
        if (as_it_is) return routine.lines;
        const auto known = routine.filled.find(values);
        if (known != routine.filled.end()) return known->second;
        Lines filled;
        std::string text;
        std::vector<std::size_t> places;
        for (const std::uint32_t index : routine.lines) {
            filled.push_back(index);
            if (!workspace_.line(index).is_deferred) continue;
            places.push_back(filled.size() - 1);
            text += filled_line(workspace_.line(index), routine, values) + '\n';
        }
        text.pop_back();
        parse_filled(routine, user, std::move(text), places, filled);
        routine.filled.emplace(values, filled);
        return filled;
    }

    std::string filled_line(const parse::Line& line, const Routine& routine,
                            const std::vector<std::string>& values) const {
        std::string text = workspace_.text({line.span.begin, line.span.end});
        std::size_t at = 0;
        while ((at = text.find('[', at)) != std::string::npos) {
            const std::size_t close = text.find(']', at);
            const std::string name =
                close == std::string::npos ? "" : fold_name(text.substr(at + 1, close - at - 1));
            const auto found = std::ranges::find(routine.parameters, name, &Parameter::name);
            if (found == routine.parameters.end()) {
                report_blank(line, at, close, text, routine);
                return "";
            }
            const std::string& value =
                values[static_cast<std::size_t>(found - routine.parameters.begin())];
            text.replace(at, close + 1 - at, value);
            at += value.size();
        }
        return text;
    }

    void report_blank(const parse::Line& line, std::size_t at, std::size_t close,
                      const std::string& text, const Routine& routine) const {
        const std::size_t end = close == std::string::npos ? text.size() : close + 1;
        workspace_.report(Code::routine_blank, line.span, {text.substr(at, end - at), routine.name},
                          {}, {{routine.head, "it begins here"}});
    }

    // Parses the filled lines as a part of their own and puts them in their places.
    void parse_filled(const Routine& routine, const parse::Line& user, std::string text,
                      const std::vector<std::size_t>& places, Lines& filled) {
        if (workspace_.source.text().size() + text.size() > SourceFile::largest_together) {
            too_much_ = true;
            return workspace_.report(Code::routine_too_long, user.title,
                                     {std::to_string(most_added_lines)});
        }
        const std::string name = fmt::format("{}, routine {} as used in line {}",
                                             workspace_.source.path(user.span.begin), routine.name,
                                             workspace_.source.position(user.span.begin).line);
        const auto part = workspace_.source.add_part(name, std::move(text));
        const auto first = static_cast<std::uint32_t>(workspace_.tree.lines.size());
        const SourcePart added = workspace_.source.parts()[part];
        DiagnosticSink own;
        parse::parse_part(workspace_.source, added, workspace_.tree, own);
        for (Diagnostic problem : own.sorted()) {
            problem.related.push_back({user.title, "used here"});
            workspace_.sink.report(std::move(problem));
        }
        const std::size_t count = workspace_.tree.lines.size() - first;
        for (std::size_t i = 0; i < places.size() && i < count; ++i)
            filled[places[i]] = first + static_cast<std::uint32_t>(i);
    }

    // What nobody uses is read with its usual values, so that it is known to be right.
    void try_unused() {
        for (auto& [folded, routine] : routines_) {
            if (routine.is_used || routine.parameters.empty()) continue;
            std::vector<std::string> values;
            for (const Parameter& parameter : routine.parameters)
                values.push_back(parameter.usual);
            parse::Line head;
            head.title = head.span = routine.head;
            static_cast<void>(fill(routine, values, head));
        }
    }

    const Workspace& workspace_;
    // By folded name.
    std::map<std::string, Routine> routines_;
    // From the session to the use at hand.
    std::vector<const Routine*> open_;
    std::size_t added_ = 0;
    bool too_much_ = false;
};

}  // namespace

Lines add_routines(const Workspace& workspace, const Lines& lines) {
    const bool any = std::ranges::any_of(lines, [&](std::uint32_t index) {
        const LineKind kind = workspace.kind(index);
        return kind == LineKind::open_routine || kind == LineKind::open_use;
    });
    return any ? RoutineUser(workspace).run(lines) : lines;
}

}  // namespace stave::compose
