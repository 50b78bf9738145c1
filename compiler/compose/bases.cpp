#include <algorithm>
#include <iterator>
#include <optional>
#include <span>
#include <unordered_map>
#include <unordered_set>

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
        for (const auto& [folded, session] : sessions_)
            names_.push_back(folded);
        std::ranges::sort(names_);
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
        const auto whole = resolve(lines);
        if (!whole) return;
        const std::size_t before = result.size();
        append_lines(*whole, result);
        added_ += result.size() - before - std::min(result.size() - before, lines.size());
    }

    static bool is_of_a_base(LineKind kind) {
        return kind == LineKind::based_on || kind == LineKind::leave_out;
    }

    // The session with all that it takes over; nothing after an error.
    std::optional<Session> resolve(SessionLines lines) {
        Session own = take_apart(workspace_, clear_lines(lines));
        const auto based = std::ranges::find(own.header, LineKind::based_on,
                                             [&](std::uint32_t i) { return workspace_.kind(i); });
        if (based == own.header.end()) return own;
        auto base = resolve_base(workspace_.line(*based), own.head);
        if (!base) {
            failed_.insert(own.head);
            return std::nullopt;
        }
        return put_on(workspace_, std::move(*base), own);
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

    std::optional<Session> resolve_base(const parse::Line& line, std::uint32_t head) {
        if (line.is_broken) return std::nullopt;
        const Found* found = find_session(line.body);
        if (found == nullptr) {
            report_unknown(line, head);
            return std::nullopt;
        }
        const SessionLines base = found->lines;
        open_.push_back(head);
        if (failed_.contains(base.front())) return std::nullopt;
        if (std::ranges::find(open_, base.front()) != open_.end()) {
            workspace_.report(
                Code::base_cycle, line.body, {workspace_.text(line.body)}, {},
                {{workspace_.line(base.front()).head, "it is based on this one in turn"}});
            return std::nullopt;
        }
        read_ += base.size();
        constexpr std::size_t most_read = deepest_base * most_added_lines;
        if (open_.size() > deepest_base || added_ > most_added_lines || read_ > most_read) {
            report_too_much(line);
            return std::nullopt;
        }
        return resolve(base);
    }

    // One report is enough.
    void report_too_much(const parse::Line& line) {
        if (!too_much_) {
            workspace_.report(Code::base_too_long, line.body,
                              {std::to_string(deepest_base), std::to_string(most_added_lines)});
        }
        too_much_ = true;
    }

    void report_unknown(const parse::Line& line, std::uint32_t head) const {
        // A session is not based on itself.
        std::vector<std::string> others;
        std::ranges::copy_if(names_, std::back_inserter(others), [&](const std::string& name) {
            return sessions_.at(name).lines.front() != head;
        });
        const std::string name = fold_name(workspace_.text(line.body));
        // Every short number is a slip away from every other.
        constexpr std::string_view word = "session ";
        constexpr std::size_t shortest = 3;
        const bool long_enough =
            name.size() >= shortest + (name.starts_with(word) ? word.size() : 0);
        const std::string folded = long_enough ? workspace_.near_name(name, others) : "";
        const std::string near = folded.empty() ? "" : sessions_.at(folded).name;
        std::vector<Fix> fixes;
        if (!near.empty()) fixes.push_back({near, {Edit{line.body, near}}});
        workspace_.report(Code::base_unknown, line.body,
                          {workspace_.text(line.body),
                           near.empty() ? "Write session 9 or a title, as it stands there."
                                        : "Write " + near + " if that is meant."},
                          std::move(fixes));
    }

    const Workspace& workspace_;
    const Lines& lines_;
    // By folded name.
    std::unordered_map<std::string, Found> sessions_;
    std::vector<std::string> names_;
    // Heads from the session to the base at hand.
    Lines open_;
    // Heads of those that could not be written out.
    std::unordered_set<std::uint32_t> failed_;
    // Lines that bases have brought, and that were looked at for it.
    std::size_t added_ = 0;
    std::size_t read_ = 0;
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
