#include <algorithm>
#include <optional>
#include <unordered_map>

#include "compiler/compose/workspace.hpp"

namespace stave::compose {

namespace {

using grammar::LineKind;

// A movement's line and the lines below it.
struct Item {
    std::uint32_t line = 0;
    Lines below;
};

// A block's line (none where movements stand right below the session's head), its
// words and its movements.
struct Block {
    std::optional<std::uint32_t> head;
    Lines words;
    std::vector<Item> items;
};

struct Session {
    std::uint32_t head = 0;
    Lines header;
    std::vector<Block> blocks;
};

class BaseWriter {
public:
    explicit BaseWriter(const Workspace& workspace) : workspace_(workspace) {}

    Lines run(const Lines& lines) {
        find_sessions(lines);
        Lines result;
        for (std::size_t i = 0; i < lines.size();) {
            if (workspace_.kind(lines[i]) != LineKind::open_session) {
                result.push_back(lines[i++]);
                continue;
            }
            const std::size_t after = end_of_session(lines, i);
            if (!is_foreign(lines[i])) {
                const Lines session(lines.begin() + static_cast<std::ptrdiff_t>(i),
                                    lines.begin() + static_cast<std::ptrdiff_t>(after));
                write(session, result);
            }
            i = after;
        }
        return result;
    }

private:
    [[nodiscard]] std::size_t end_of_session(const Lines& lines, std::size_t begin) const {
        std::size_t i = begin + 1;
        while (i < lines.size() && !is_first_rank(workspace_.kind(lines[i])))
            ++i;
        return i;
    }

    // Of an included file.
    [[nodiscard]] bool is_foreign(std::uint32_t index) const {
        const SourcePart& own = workspace_.source.parts().front();
        const Span last = workspace_.source.line(own.line_count - 1);
        return workspace_.line(index).span.begin > last.end;
    }

    // Sessions by their number and by their title, the file's own first.
    void find_sessions(const Lines& lines) {
        for (const bool foreign : {false, true}) {
            for (std::size_t i = 0; i < lines.size(); ++i) {
                const std::uint32_t index = lines[i];
                if (workspace_.kind(index) != LineKind::open_session) continue;
                if (is_foreign(index) != foreign) continue;
                const std::size_t after = end_of_session(lines, i);
                const Lines session(lines.begin() + static_cast<std::ptrdiff_t>(i),
                                    lines.begin() + static_cast<std::ptrdiff_t>(after));
                add_names(index, session);
            }
        }
    }

    void add_names(std::uint32_t index, const Lines& session) {
        const parse::Line& line = workspace_.line(index);
        const std::string number = workspace_.title(index);
        const std::string title = fold_name(workspace_.text(line.body));
        if (!number.empty()) sessions_.emplace("session " + number, session);
        if (!title.empty()) sessions_.emplace(title, session);
    }

    // The session's lines, written out where it is based on another.
    void write(const Lines& session, Lines& result) {
        const auto based = std::ranges::find_if(session, [&](std::uint32_t index) {
            return workspace_.kind(index) == LineKind::based_on;
        });
        if (based == session.end() || workspace_.line(*based).is_broken) {
            for (const std::uint32_t index : session) {
                if (workspace_.kind(index) == LineKind::leave_out) report_alone(index);
                if (workspace_.kind(index) != LineKind::leave_out) result.push_back(index);
            }
            return;
        }
        open_.clear();
        const auto whole = resolve(session);
        if (!whole) {
            // Without its base it is not whole, and nothing more is said of it.
            return;
        }
        flatten(*whole, result);
    }

    void report_alone(std::uint32_t index) const {
        workspace_.report(Code::line_not_here, workspace_.line(index).head,
                          {"leave out", "It belongs to a session that is based on another."});
    }

    // The session with all that it takes over; nothing after an error.
    std::optional<Session> resolve(const Lines& lines) {
        Session own = take_apart(lines);
        const auto based = std::ranges::find_if(own.header, [&](std::uint32_t index) {
            return workspace_.kind(index) == LineKind::based_on;
        });
        if (based == own.header.end()) return own;
        const parse::Line line = workspace_.line(*based);
        const std::string name = fold_name(workspace_.text(line.body));
        const auto found = sessions_.find(name);
        if (found == sessions_.end()) {
            report_unknown(line);
            return std::nullopt;
        }
        const std::uint32_t base_head = found->second.front();
        open_.push_back(own.head);
        if (std::ranges::find(open_, base_head) != open_.end()) {
            workspace_.report(
                Code::base_cycle, line.body, {workspace_.text(line.body)}, {},
                {{workspace_.line(base_head).head, "it is based on this one in turn"}});
            return std::nullopt;
        }
        auto base = resolve(found->second);
        if (!base) return std::nullopt;
        return merge(std::move(*base), own);
    }

    void report_unknown(const parse::Line& line) const {
        std::vector<std::string> names;
        for (const auto& [name, session] : sessions_)
            names.push_back(name);
        std::ranges::sort(names);
        const std::string near = near_name(fold_name(workspace_.text(line.body)), names);
        std::vector<Fix> fixes;
        if (!near.empty()) fixes.push_back({near, {Edit{line.body, near}}});
        workspace_.report(Code::base_unknown, line.body,
                          {workspace_.text(line.body),
                           near.empty() ? "Write session 9 or a title, as it stands there."
                                        : "Write " + near + " if that is meant."},
                          std::move(fixes));
    }

    [[nodiscard]] Session take_apart(const Lines& lines) const {
        Session session;
        session.head = lines.front();
        for (std::size_t i = 1; i < lines.size(); ++i) {
            const LineKind kind = workspace_.kind(lines[i]);
            if (is_block(kind)) {
                session.blocks.push_back({lines[i], {}, {}});
            } else if (is_item(kind)) {
                if (session.blocks.empty()) session.blocks.emplace_back();
                session.blocks.back().items.push_back({lines[i], {}});
            } else if (session.blocks.empty()) {
                session.header.push_back(lines[i]);
            } else if (session.blocks.back().items.empty()) {
                session.blocks.back().words.push_back(lines[i]);
            } else {
                session.blocks.back().items.back().below.push_back(lines[i]);
            }
        }
        return session;
    }

    Session merge(Session base, const Session& own) {
        leave_out(own.header, base);
        Session result;
        result.head = own.head;
        result.header = merge_words(base.header, own.header);
        std::erase_if(result.header, [&](std::uint32_t index) {
            const LineKind kind = workspace_.kind(index);
            return kind == LineKind::based_on || kind == LineKind::leave_out;
        });
        result.blocks = std::move(base.blocks);
        for (const Block& block : own.blocks)
            merge_block(block, result.blocks);
        return result;
    }

    // The base's lines but for kinds that are said anew, and for its date.
    [[nodiscard]] Lines merge_words(const Lines& base, const Lines& own) const {
        Lines result;
        for (const std::uint32_t index : base) {
            const LineKind kind = workspace_.kind(index);
            const bool of_its_own = kind == LineKind::when || kind == LineKind::based_on ||
                                    kind == LineKind::leave_out || kind == LineKind::allow ||
                                    kind == LineKind::blank || kind == LineKind::remark;
            const bool said = std::ranges::any_of(
                own, [&](std::uint32_t other) { return workspace_.kind(other) == kind; });
            if (!of_its_own && !said) result.push_back(index);
        }
        result.insert(result.end(), own.begin(), own.end());
        return result;
    }

    [[nodiscard]] bool is_same_block(const Block& one, const Block& other) const {
        if (!one.head || !other.head) return false;
        return workspace_.kind(*one.head) == workspace_.kind(*other.head) &&
               workspace_.title(*one.head) == workspace_.title(*other.head);
    }

    void merge_block(const Block& own, std::vector<Block>& blocks) {
        if (!own.head) return merge_loose_items(own, blocks);
        const auto found = std::ranges::find_if(
            blocks, [&](const Block& block) { return is_same_block(block, own); });
        if (found == blocks.end()) return add_block(own, blocks);
        if (!workspace_.line(*own.head).body.empty()) found->head = own.head;
        found->words = merge_words(found->words, own.words);
        for (const Item& item : own.items) {
            const auto same = std::ranges::find_if(
                found->items, [&](const Item& other) { return is_same_item(other, item); });
            if (same == found->items.end()) {
                found->items.push_back(item);
            } else {
                *same = item;
            }
        }
    }

    // A cool-down stays the last block.
    void add_block(const Block& own, std::vector<Block>& blocks) const {
        const bool before_end = !blocks.empty() && blocks.back().head &&
                                workspace_.kind(*blocks.back().head) == LineKind::open_cool_down;
        blocks.insert(before_end ? blocks.end() - 1 : blocks.end(), own);
    }

    [[nodiscard]] bool is_same_item(const Item& one, const Item& other) const {
        return workspace_.title(one.line) == workspace_.title(other.line);
    }

    // Movements above the first block's line stand for those of the same name.
    void merge_loose_items(const Block& own, std::vector<Block>& blocks) {
        for (const Item& item : own.items) {
            std::vector<Item*> found;
            for (Block& block : blocks) {
                for (Item& other : block.items) {
                    if (is_same_item(other, item)) found.push_back(&other);
                }
            }
            if (found.size() == 1) {
                *found.front() = item;
                continue;
            }
            const parse::Line& line = workspace_.line(item.line);
            workspace_.report(Code::base_movement, line.title,
                              {workspace_.text(line.title), std::to_string(found.size())});
        }
    }

    void leave_out(const Lines& header, Session& base) const {
        for (const std::uint32_t index : header) {
            const parse::Line& line = workspace_.line(index);
            if (line.kind != LineKind::leave_out || line.is_broken) continue;
            for (const Piece& piece : split_at_commas(workspace_, line.body))
                leave_out(piece, base);
        }
    }

    void leave_out(const Piece& piece, Session& base) const {
        const std::string name = fold_name(piece.text);
        std::vector<std::string> names;
        bool found = false;
        for (Block& block : base.blocks) {
            found = std::erase_if(block.items,
                                  [&](const Item& item) {
                                      names.push_back(workspace_.title(item.line));
                                      return names.back() == name;
                                  }) > 0 ||
                    found;
        }
        found = std::erase_if(base.blocks,
                              [&](const Block& block) {
                                  if (!block.head) return false;
                                  names.push_back(workspace_.title(*block.head));
                                  return !names.back().empty() && names.back() == name;
                              }) > 0 ||
                found;
        if (found) {
            // A block that has lost its last movement goes with it.
            std::erase_if(base.blocks, [](const Block& block) { return block.items.empty(); });
            return;
        }
        const std::string near = near_name(name, names);
        std::vector<Fix> fixes;
        if (!near.empty()) fixes.push_back({near, {Edit{piece.span, near}}});
        workspace_.report(
            Code::leave_out_unknown, piece.span,
            {piece.text, near.empty() ? "Write a movement or a block's title as it stands there."
                                      : "Write " + near + " if that is meant."},
            std::move(fixes));
    }

    static void flatten(const Session& session, Lines& result) {
        result.push_back(session.head);
        result.insert(result.end(), session.header.begin(), session.header.end());
        for (const Block& block : session.blocks) {
            if (block.head) result.push_back(*block.head);
            result.insert(result.end(), block.words.begin(), block.words.end());
            for (const Item& item : block.items) {
                result.push_back(item.line);
                result.insert(result.end(), item.below.begin(), item.below.end());
            }
        }
    }

    const Workspace& workspace_;
    std::unordered_map<std::string, Lines> sessions_;
    // Heads from the session to the base at hand.
    Lines open_;
};

}  // namespace

Lines add_bases(const Workspace& workspace, const Lines& lines) {
    const bool any = std::ranges::any_of(lines, [&](std::uint32_t index) {
        const LineKind kind = workspace.kind(index);
        return kind == LineKind::based_on || kind == LineKind::leave_out;
    });
    return any || workspace.source.parts().size() > 1 ? BaseWriter(workspace).run(lines) : lines;
}

}  // namespace stave::compose
