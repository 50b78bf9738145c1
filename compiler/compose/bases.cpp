#include <algorithm>
#include <optional>
#include <span>
#include <unordered_map>

#include "compiler/compose/session_parts.hpp"
#include "compiler/compose/workspace.hpp"

namespace stave::compose {

namespace {

using grammar::LineKind;
using SessionLines = std::span<const std::uint32_t>;

class BaseWriter {
public:
    BaseWriter(const Workspace& workspace, const Lines& lines)
        : workspace_(workspace), lines_(lines) {}

    Lines run() {
        find_sessions();
        Lines result;
        for (std::size_t i = 0; i < lines_.size();) {
            // A plan of an included file is held by that file.
            if (workspace_.kind(lines_[i]) == LineKind::open_plan && is_foreign(lines_[i])) {
                i += session_at(i).size();
                continue;
            }
            if (workspace_.kind(lines_[i]) != LineKind::open_session) {
                result.push_back(lines_[i++]);
                continue;
            }
            const SessionLines session = session_at(i);
            if (!is_foreign(lines_[i])) write(session, result);
            i += session.size();
        }
        return result;
    }

private:
    struct Found {
        // As it is written.
        std::string name;
        SessionLines lines;
    };
    // A session written out, with the number of its lines and of the others that it is
    // based on in turn.
    struct Whole {
        Session session;
        std::size_t depth = 0;
        std::size_t size = 0;
    };

    [[nodiscard]] SessionLines session_at(std::size_t begin) const {
        std::size_t end = begin + 1;
        while (end < lines_.size() && !is_first_rank(workspace_.kind(lines_[end])))
            ++end;
        return SessionLines(lines_).subspan(begin, end - begin);
    }

    // Of an included file.
    [[nodiscard]] bool is_foreign(std::uint32_t index) const {
        return workspace_.source.part_at(workspace_.line(index).span.begin) != 0;
    }

    // Sessions by their number and by their title, the file's own first.
    void find_sessions() {
        for (const bool foreign : {false, true}) {
            for (std::size_t i = 0; i < lines_.size(); ++i) {
                if (workspace_.kind(lines_[i]) != LineKind::open_session) continue;
                if (is_foreign(lines_[i]) == foreign) add_names(session_at(i));
            }
        }
    }

    void add_names(SessionLines session) {
        const parse::Line& line = workspace_.line(session.front());
        for (const std::string& name : {"session " + clean_text(workspace_.text(line.title)),
                                        clean_text(workspace_.text(line.body))}) {
            if (!name.empty() && name != "session ") {
                sessions_.emplace(fold_name(name), Found{name, session});
            }
        }
    }

    // The session's lines, written out where it is based on another.
    void write(SessionLines lines, Lines& result) {
        const bool plain = std::ranges::none_of(
            lines, [&](std::uint32_t index) { return is_of_a_base(workspace_.kind(index)); });
        if (plain) {
            result.insert(result.end(), lines.begin(), lines.end());
            return;
        }
        open_.clear();
        // Without its base a session is not whole, and nothing more is said of it.
        const Whole* whole = resolve(lines);
        if (whole == nullptr) return;
        append_lines(whole->session, result);
    }

    static bool is_of_a_base(LineKind kind) {
        return kind == LineKind::based_on || kind == LineKind::leave_out;
    }

    // The session with all that it takes over; null after an error.
    const Whole* resolve(SessionLines lines) {
        const auto known = whole_.find(lines.front());
        if (known != whole_.end()) return known->second ? &*known->second : nullptr;
        Session own = take_apart(workspace_, clear_lines(lines));
        const auto based = std::ranges::find(own.header, LineKind::based_on,
                                             [&](std::uint32_t i) { return workspace_.kind(i); });
        std::optional<Whole> whole;
        if (based == own.header.end()) {
            whole = Whole{std::move(own), 0, 0};
        } else if (const Whole* base = resolve_base(workspace_.line(*based), own.head)) {
            whole = Whole{put_on(workspace_, base->session, own), base->depth + 1, 0};
        }
        if (whole) whole->size = line_count(whole->session);
        const auto& kept = whole_.emplace(lines.front(), std::move(whole)).first->second;
        return kept ? &*kept : nullptr;
    }

    // Without the lines that say in a wrong place what the session is based on.
    [[nodiscard]] Lines clear_lines(SessionLines lines) const {
        Lines result;
        bool in_header = true;
        bool is_based = false;
        for (const std::uint32_t index : lines) {
            const parse::Line& line = workspace_.line(index);
            in_header = in_header && !grammar::is_block(line.kind) && !grammar::is_item(line.kind);
            if (is_of_a_base(line.kind) && !in_header) {
                report_not_here(line, "It belongs to the session's head, above its blocks.",
                                "Move it right below the line that opens the session.");
            } else if (line.kind == LineKind::based_on && is_based) {
                workspace_.report(Code::field_twice, line.head, {workspace_.text(line.head)});
            } else {
                is_based = is_based || line.kind == LineKind::based_on;
                result.push_back(index);
            }
        }
        if (is_based) return result;
        std::erase_if(result, [&](std::uint32_t index) {
            if (workspace_.kind(index) != LineKind::leave_out) return false;
            report_not_here(workspace_.line(index),
                            "It belongs to a session that is based on another.",
                            "Write above it which one: based on: session 9, or delete it.");
            return true;
        });
        return result;
    }

    void report_not_here(const parse::Line& line, std::string why, std::string mend) const {
        workspace_.report(Code::line_not_here, line.head,
                          {workspace_.text(line.head), std::move(why), std::move(mend)});
    }

    // "session 9", "9", "Slack water" and "session Slack water".
    [[nodiscard]] const Found* find_session(Span said) const {
        constexpr std::string_view word = "session ";
        const std::string name = fold_name(workspace_.text(said));
        const std::string bare = name.starts_with(word) ? name.substr(word.size()) : "";
        const bool digits = name.find_first_not_of("0123456789") == std::string::npos;
        const std::string number = digits ? std::string(word) + name : "";
        for (const std::string& one : {name, bare, number}) {
            const auto found = sessions_.find(one);
            if (!one.empty() && found != sessions_.end()) return &found->second;
        }
        return nullptr;
    }

    const Whole* resolve_base(const parse::Line& line, std::uint32_t head) {
        if (line.is_broken) return nullptr;
        open_.push_back(head);
        const Found* found = find_session(line.body);
        if (found == nullptr) {
            report_unknown(line);
            return nullptr;
        }
        const SessionLines base = found->lines;
        if (std::ranges::find(open_, base.front()) != open_.end()) {
            workspace_.report(
                Code::base_cycle, line.body, {workspace_.text(line.body)}, {},
                {{workspace_.line(base.front()).head, "it is based on this one in turn"}});
            return nullptr;
        }
        // Before it is read how deep it goes itself is not known.
        if (open_.size() > deepest_base || added_ > most_added_lines) {
            report_too_much(line);
            return nullptr;
        }
        const Whole* whole = resolve(base);
        if (whole == nullptr) return nullptr;
        if (whole->depth >= deepest_base || whole->size > most_added_lines - added_) {
            report_too_much(line);
            return nullptr;
        }
        added_ += whole->size;
        return whole;
    }

    // One report is enough.
    void report_too_much(const parse::Line& line) {
        if (!too_much_) {
            workspace_.report(Code::base_too_long, line.body,
                              {std::to_string(deepest_base), std::to_string(most_added_lines)});
        }
        too_much_ = true;
    }

    void report_unknown(const parse::Line& line) const {
        const std::string folded = workspace_.near_name(fold_name(workspace_.text(line.body)),
                                                        other_names(), LineKind::open_session);
        // It may be in the file that is missing.
        if (folded.empty() && workspace_.lacks_file) return;
        const std::string near = folded.empty() ? "" : sessions_.at(folded).name;
        std::vector<Fix> fixes;
        if (!near.empty()) fixes.push_back({near, {Edit{line.body, near}}});
        workspace_.report(Code::base_unknown, line.body,
                          {workspace_.text(line.body),
                           near.empty() ? "Write its number or title as it stands in this file, or "
                                          "in one that it takes in with include: FILE."
                                        : "Write " + near + " if that is meant."},
                          std::move(fixes));
    }

    // Without those that would be based on themselves.
    [[nodiscard]] std::vector<std::string> other_names() const {
        std::vector<std::string> names;
        if (!workspace_.searches(sessions_.size())) return names;
        for (const auto& [folded, session] : sessions_) {
            if (std::ranges::count(open_, session.lines.front()) == 0) names.push_back(folded);
        }
        return names;
    }

    const Workspace& workspace_;
    const Lines& lines_;
    // By folded name.
    std::unordered_map<std::string, Found> sessions_;
    // Heads from the session to the base at hand.
    Lines open_;
    // By their heads; nothing for those that could not be written out.
    std::unordered_map<std::uint32_t, std::optional<Whole>> whole_;
    // Lines that bases have brought.
    std::size_t added_ = 0;
    bool too_much_ = false;
};

}  // namespace

Lines add_bases(const Workspace& workspace, const Lines& lines) {
    const bool any = std::ranges::any_of(lines, [&](std::uint32_t index) {
        const LineKind kind = workspace.kind(index);
        return kind == LineKind::based_on || kind == LineKind::leave_out;
    });
    return any || workspace.source.parts().size() > 1 ? BaseWriter(workspace, lines).run() : lines;
}

}  // namespace stave::compose
