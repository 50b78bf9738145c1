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
    RoutineUser(const Workspace& workspace, std::vector<Filled>& filled)
        : workspace_(workspace), filled_(filled) {}

    Lines run(const Lines& lines) {
        const Lines others = collect(lines);
        for (const auto& [folded, routine] : routines_)
            names_.push_back(folded);
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
        const std::size_t before = result.size();
        Routine* routine = too_much_ ? nullptr : find_routine(line);
        const auto values = routine == nullptr ? std::nullopt : values_of(line, *routine);
        if (values && open_.size() < deepest_use) {
            put_lines(*routine, *values, line, result);
        } else if (values) {
            report_too_much(line);
        }
        if (values && !too_much_) return;
        // What a part of it would give is no ground for further problems.
        result.resize(before);
        // Nothing is said of a block that is empty for want of it.
        workspace_.tree.lines[index].is_broken = true;
        result.push_back(index);
    }

    void put_lines(Routine& routine, const std::vector<std::string>& values,
                   const parse::Line& line, Lines& result) {
        open_.push_back(&routine);
        const Lines filled = fill(routine, values, line);
        for (const std::uint32_t inner : filled) {
            if (added_ == most_added_lines) report_too_much(line);
            if (too_much_) break;
            ++added_;
            add(inner, result);
        }
        open_.pop_back();
    }

    // The one that is used; null after an error.
    Routine* find_routine(const parse::Line& line) {
        const auto found = routines_.find(fold_name(workspace_.text(line.title)));
        if (found == routines_.end()) {
            report_unknown(line);
            return nullptr;
        }
        Routine& routine = found->second;
        routine.is_used = true;
        if (std::ranges::find(open_, &routine) == open_.end()) return &routine;
        workspace_.report(Code::routine_cycle, line.title, {routine.name}, {},
                          {{routine.head, "it begins here"}});
        return nullptr;
    }

    // Once is enough.
    void report_too_much(const parse::Line& line) {
        if (!too_much_) {
            workspace_.report(Code::routine_too_long, line.title,
                              {std::to_string(deepest_use), std::to_string(most_added_lines)});
        }
        too_much_ = true;
    }

    void report_unknown(const parse::Line& line) const {
        const std::string name = workspace_.text(line.title);
        const std::string near = workspace_.near_name(fold_name(name), names_);
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
        std::vector<std::string> values(routine.parameters.size());
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
        for (std::size_t i = 0; i < values.size(); ++i) {
            if (values[i].empty()) values[i] = routine.parameters[i].usual;
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
            // A blank is filled once.
            if (!values[i].empty()) continue;
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
            const parse::Line& line = workspace_.line(index);
            if (!line.is_deferred || line.is_broken) continue;
            const auto one = filled_line(line, routine, values);
            workspace_.tree.lines[index].is_broken = !one;
            if (!one) continue;
            places.push_back(filled.size() - 1);
            text += *one + '\n';
        }
        if (!places.empty()) parse_filled(routine, user, std::move(text), places, filled);
        routine.filled.emplace(values, filled);
        return filled;
    }

    // The line without its remark; nothing after an error.
    std::optional<std::string> filled_line(const parse::Line& line, const Routine& routine,
                                           const std::vector<std::string>& values) const {
        const std::uint32_t end = line.remark.empty() ? line.span.end : line.remark.begin;
        const std::string text = workspace_.text({line.span.begin, end});
        std::string filled;
        std::size_t at = 0;
        for (std::size_t open = text.find('['); open != std::string::npos;
             open = text.find('[', at)) {
            const std::size_t close = std::min(text.find(']', open), text.size() - 1);
            const std::string blank = text.substr(open, close + 1 - open);
            const std::string name =
                blank.ends_with(']') ? fold_name(blank.substr(1, blank.size() - 2)) : "";
            const auto found = std::ranges::find(routine.parameters, name, &Parameter::name);
            if (found == routine.parameters.end()) {
                const Span span{line.span.begin + static_cast<std::uint32_t>(open),
                                line.span.begin + static_cast<std::uint32_t>(close) + 1};
                workspace_.report(Code::routine_blank, span, {blank, routine.name}, {},
                                  {{routine.head, "it begins here"}});
                return std::nullopt;
            }
            filled += text.substr(at, open - at);
            filled += values[static_cast<std::size_t>(found - routine.parameters.begin())];
            at = close + 1;
        }
        return filled + text.substr(at);
    }

    // Parses the filled lines as a part of their own and puts them in their places.
    void parse_filled(const Routine& routine, const parse::Line& user, std::string text,
                      const std::vector<std::size_t>& places, Lines& filled) {
        if (workspace_.source.text().size() + text.size() > SourceFile::largest_together) {
            return report_too_much(user);
        }
        const std::string name = fmt::format("{}, routine {} as used in line {}",
                                             workspace_.source.path(user.span.begin), routine.name,
                                             workspace_.source.position(user.span.begin).line);
        text.pop_back();
        const auto part = workspace_.source.add_part(name, std::move(text));
        const auto first = static_cast<std::uint32_t>(workspace_.tree.lines.size());
        const SourcePart added = workspace_.source.parts()[part];
        parse::parse_part(workspace_.source, added, workspace_.tree, workspace_.sink);
        filled_.push_back(
            {{added.begin, static_cast<std::uint32_t>(workspace_.source.text().size())},
             user.title});
        const std::size_t count = workspace_.tree.lines.size() - first;
        for (std::size_t i = 0; i < places.size() && i < count; ++i)
            filled[places[i]] = first + static_cast<std::uint32_t>(i);
    }

    // What nobody uses is read with its usual values, so that it is known to be right.
    void try_unused() {
        for (auto& [folded, routine] : routines_) {
            if (routine.is_used) continue;
            std::vector<std::string> values;
            for (const Parameter& parameter : routine.parameters)
                values.push_back(parameter.usual);
            parse::Line head;
            head.title = head.span = routine.head;
            static_cast<void>(fill(routine, values, head));
        }
    }

    const Workspace& workspace_;
    std::vector<Filled>& filled_;
    // By folded name.
    std::map<std::string, Routine> routines_;
    std::vector<std::string> names_;
    // From the session to the use at hand.
    std::vector<const Routine*> open_;
    std::size_t added_ = 0;
    bool too_much_ = false;
};

}  // namespace

Lines add_routines(const Workspace& workspace, const Lines& lines, std::vector<Filled>& filled) {
    const bool any = std::ranges::any_of(lines, [&](std::uint32_t index) {
        const LineKind kind = workspace.kind(index);
        return kind == LineKind::open_routine || kind == LineKind::open_use;
    });
    return any ? RoutineUser(workspace, filled).run(lines) : lines;
}

}  // namespace stave::compose
