#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <string>

#include "compiler/compose/blanks.hpp"
#include "compiler/compose/workspace.hpp"
#include "compiler/parse/parse.hpp"

namespace stave::compose {

namespace {

using grammar::LineKind;

class RoutineUser {
public:
    explicit RoutineUser(const Workspace& workspace) : workspace_(workspace) {}

    UsedRoutines run(const Lines& lines) {
        const Lines others = collect(lines);
        for (const std::uint32_t index : others)
            add(index, result_.lines);
        try_unused();
        return std::move(result_);
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
        add_parameters(workspace_, line, routine);
        return &routine;
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
        const auto values =
            routine == nullptr ? std::nullopt : values_of(workspace_, line, *routine);
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
        if (too_much_) return;
        if (routine.lines.size() > most_added_lines - added_) return report_too_much(line);
        open_.push_back(&routine);
        const Lines filled = fill(routine, values, line);
        for (const std::uint32_t inner : filled) {
            // Others that it uses bring lines too.
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

    // Once is enough, and nothing is too much for what nobody uses.
    void report_too_much(const parse::Line& line) {
        if (!too_much_ && !tries_unused_) {
            workspace_.report(Code::routine_too_long, line.title,
                              {std::to_string(deepest_use), std::to_string(most_added_lines)});
        }
        too_much_ = true;
    }

    // Without those that would use themselves.
    [[nodiscard]] std::vector<std::string> other_names() const {
        std::vector<std::string> names;
        if (!workspace_.searches(routines_.size())) return names;
        for (const auto& [folded, routine] : routines_) {
            if (std::ranges::count(open_, &routine) == 0) names.push_back(folded);
        }
        return names;
    }

    // "use Prep(5):" of a routine Prep.
    [[nodiscard]] bool report_call(const parse::Line& line, const std::string& name) const {
        const std::size_t open = std::min(name.find('('), name.size());
        const auto found = routines_.find(fold_name(name.substr(0, open)));
        if (open == name.size() || !name.ends_with(')') || found == routines_.end()) return false;
        const Routine& routine = found->second;
        const std::string value = name.substr(open + 1, name.size() - open - 2);
        const std::string mended = fmt::format("{}: {}", routine.name, value);
        // What the value is of is asked behind the colon.
        std::vector<Fix> fixes;
        if (line.body.empty())
            fixes.push_back({mended, {Edit{{line.title.begin, line.colon.end}, mended}}});
        workspace_.report(Code::routine_call, line.title, {name, fmt::format("use {}", mended)},
                          std::move(fixes));
        return true;
    }

    void report_unknown(const parse::Line& line) const {
        const std::string name = workspace_.text(line.title);
        if (report_call(line, name)) return;
        const std::string near =
            workspace_.near_name(fold_name(name), other_names(), LineKind::open_routine);
        // It may be in the file that is missing.
        if (near.empty() && workspace_.lacks_file) return;
        std::vector<Fix> fixes;
        std::string mend = "Write its lines in this file below routine " + name +
                           ":, or take in the file that has them with include: FILE.";
        if (!near.empty()) {
            const std::string& right = routines_.at(near).name;
            mend = "Write use " + right + ": if that is meant.";
            fixes.push_back({right, {Edit{line.title, right}}});
        }
        workspace_.report(Code::routine_unknown, line.title, {name, mend}, std::move(fixes));
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
        std::vector<std::uint32_t> patterns;
        for (const std::uint32_t index : routine.lines) {
            filled.push_back(index);
            const parse::Line& line = workspace_.line(index);
            if (!line.is_deferred || line.is_broken) continue;
            const auto one = filled_line(workspace_, line, routine, values);
            workspace_.tree.lines[index].is_broken = !one;
            if (!one) continue;
            places.push_back(filled.size() - 1);
            patterns.push_back(line.span.begin);
            text += *one + '\n';
            if (is_too_long(text)) {
                report_too_much(user);
                return routine.lines;
            }
        }
        if (!places.empty()) {
            parse_filled(routine, user, {std::move(text), std::move(patterns)}, places, filled);
        }
        routine.filled.emplace(values, filled);
        return filled;
    }

    [[nodiscard]] bool is_too_long(const std::string& text) const {
        return workspace_.source.text().size() + text.size() > SourceFile::largest_together;
    }

    struct FilledText {
        std::string text;
        // Where each line's pattern begins.
        std::vector<std::uint32_t> patterns;
    };

    // Parses the filled lines as a part of their own and puts them in their places.
    void parse_filled(const Routine& routine, const parse::Line& user, FilledText filled_text,
                      const std::vector<std::size_t>& places, Lines& filled) {
        const std::string name = fmt::format("{}, routine {} as used in line {}",
                                             workspace_.source.path(user.span.begin), routine.name,
                                             workspace_.source.position(user.span.begin).line);
        filled_text.text.pop_back();
        const auto part = workspace_.source.add_part(name, std::move(filled_text.text),
                                                     std::move(filled_text.patterns));
        const auto first = static_cast<std::uint32_t>(workspace_.tree.lines.size());
        const SourcePart added = workspace_.source.parts()[part];
        parse::parse_part(workspace_.source, added, workspace_.tree, workspace_.sink);
        result_.filled.push_back(
            {{added.begin, static_cast<std::uint32_t>(workspace_.source.text().size())},
             user.title});
        const std::size_t count = workspace_.tree.lines.size() - first;
        for (std::size_t i = 0; i < places.size() && i < count; ++i)
            filled[places[i]] = first + static_cast<std::uint32_t>(i);
    }

    // What nobody uses is read with its usual values, so that it is known to be right.
    void try_unused() {
        tries_unused_ = true;
        for (auto& [folded, routine] : routines_) {
            if (routine.is_used) continue;
            std::vector<std::string> values;
            for (const Parameter& parameter : routine.parameters)
                values.push_back(parameter.usual);
            parse::Line head;
            head.title = head.span = routine.head;
            put_lines(routine, values, head, result_.unused);
        }
    }

    const Workspace& workspace_;
    UsedRoutines result_;
    // By folded name.
    std::map<std::string, Routine> routines_;
    // From the session to the use at hand.
    std::vector<const Routine*> open_;
    std::size_t added_ = 0;
    bool too_much_ = false;
    bool tries_unused_ = false;
};

}  // namespace

UsedRoutines add_routines(const Workspace& workspace, const Lines& lines) {
    const bool any = std::ranges::any_of(lines, [&](std::uint32_t index) {
        const LineKind kind = workspace.kind(index);
        return kind == LineKind::open_routine || kind == LineKind::open_use;
    });
    if (!any) return {lines, {}, {}};
    return RoutineUser(workspace).run(lines);
}

}  // namespace stave::compose
