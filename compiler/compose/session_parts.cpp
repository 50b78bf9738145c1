#include "compiler/compose/session_parts.hpp"

#include <algorithm>
#include <deque>
#include <unordered_map>
#include <unordered_set>

namespace stave::compose {

namespace {

using grammar::LineKind;

class Changer {
public:
    Changer(const Workspace& workspace, Session base)
        : workspace_(workspace), base_(std::move(base)) {}

    Session run(const Session& own) {
        leave_out(own.header);
        index();
        base_.head = own.head;
        base_.header = merged_words(base_.header, own.header);
        std::erase_if(base_.header, [&](std::uint32_t index) {
            const LineKind kind = workspace_.kind(index);
            return kind == LineKind::based_on || kind == LineKind::leave_out;
        });
        for (const Block& block : own.blocks) {
            if (block.head) {
                change_block(block);
            } else {
                change_loose_items(block);
            }
        }
        add_blocks();
        return std::move(base_);
    }

private:
    struct Place {
        std::size_t block = 0;
        std::size_t item = 0;
    };
    // The names there still are, each with its places in order.
    using Places = std::unordered_map<std::string, std::deque<Place>>;

    void index() {
        for (std::size_t block = 0; block < base_.blocks.size(); ++block) {
            if (base_.blocks[block].head) {
                blocks_[block_key(base_.blocks[block])].push_back({block, 0});
            }
            for (std::size_t item = 0; item < base_.blocks[block].items.size(); ++item) {
                items_[base_.blocks[block].items[item].name].push_back({block, item});
            }
        }
    }

    [[nodiscard]] std::string block_key(const Block& block) const {
        return std::to_string(static_cast<int>(workspace_.kind(*block.head))) + ' ' + block.title;
    }

    // Whose lines of the base hold beside the session's own: they keep people safe.
    static bool adds_up(LineKind kind) { return kind == LineKind::stop || kind == LineKind::avoid; }

    // The base's lines but for kinds that are said anew, and for its date.
    [[nodiscard]] Lines merged_words(const Lines& base, const Lines& own) const {
        std::unordered_set<LineKind> said;
        for (const std::uint32_t index : own)
            said.insert(workspace_.kind(index));
        Lines result;
        for (const std::uint32_t index : base) {
            const LineKind kind = workspace_.kind(index);
            const bool of_its_own = kind == LineKind::when || kind == LineKind::based_on ||
                                    kind == LineKind::leave_out || kind == LineKind::allow ||
                                    kind == LineKind::blank || kind == LineKind::remark;
            if (!of_its_own && (adds_up(kind) || !said.contains(kind))) result.push_back(index);
        }
        result.insert(result.end(), own.begin(), own.end());
        return result;
    }

    [[nodiscard]] bool has(const Item& item, LineKind kind) const {
        return std::ranges::any_of(
            item.below, [&](std::uint32_t index) { return workspace_.kind(index) == kind; });
    }

    // What stands below a movement goes with it; nobody may miss that a stop line does.
    void replace(Item& base, const Item& own) {
        const bool stop = has(base, LineKind::stop) && !has(own, LineKind::stop);
        const bool substitute =
            has(base, LineKind::open_substitute) && !has(own, LineKind::open_substitute);
        const bool rest = has(base, LineKind::rest) && !has(own, LineKind::rest);
        std::string lost;
        for (const auto& [is_lost, word] :
             {std::pair{stop, "stop"}, std::pair{substitute, "or"}, std::pair{rest, "rest"}}) {
            if (is_lost) lost += (lost.empty() ? "" : " and ") + std::string(word);
        }
        if (!lost.empty()) {
            const Span title = workspace_.line(own.line).title;
            workspace_.report(Code::change_drops, title, {workspace_.text(title), lost + " lines"},
                              {}, {{workspace_.line(base.line).title, "the line of the base"}});
        }
        base = own;
    }

    void change_block(const Block& own) {
        const std::string key = block_key(own);
        const std::deque<Place>& places = blocks_[key];
        if (places.empty()) return added_.push_back(own);
        if (places.size() > 1) {
            const parse::Line& line = workspace_.line(*own.head);
            return workspace_.report(Code::base_block, line.head,
                                     {workspace_.text(line.head), std::to_string(places.size())});
        }
        // A second one of the kind is added.
        const std::size_t id = places.front().block;
        blocks_.erase(key);
        Block& block = base_.blocks[id];
        if (!workspace_.line(*own.head).body.empty()) block.head = own.head;
        block.words = merged_words(block.words, own.words);
        std::unordered_map<std::string, std::deque<std::size_t>> places_here;
        for (std::size_t i = 0; i < block.items.size(); ++i)
            places_here[block.items[i].name].push_back(i);
        for (const Item& item : own.items) {
            std::deque<std::size_t>& same = places_here[item.name];
            if (same.empty()) {
                const auto known = [&](const std::string& name) {
                    return places_here.contains(name);
                };
                report_change_word(workspace_, workspace_.line(item.line), known);
                block.items.push_back(item);
            } else {
                replace(block.items[same.front()], item);
                same.pop_front();
            }
        }
    }

    // Movements above the first block's line stand for those of the same name.
    void change_loose_items(const Block& own) {
        std::unordered_set<std::string> changed;
        for (const Item& item : own.items) {
            const std::deque<Place>& found = items_[item.name];
            if (found.size() == 1 && changed.insert(item.name).second) {
                replace(base_.blocks[found.front().block].items[found.front().item], item);
                continue;
            }
            const parse::Line& line = workspace_.line(item.line);
            if (found.empty()) {
                const auto known = [&](const std::string& name) { return items_.contains(name); };
                // What a broken line says is not known.
                const bool said = line.is_broken || report_change_word(workspace_, line, known);
                if (!said) report_no_movement(line);
                continue;
            }
            workspace_.report(Code::base_movement, line.title,
                              {workspace_.text(line.title), std::to_string(found.size())});
        }
    }

    void report_no_movement(const parse::Line& line) const {
        const std::string name = workspace_.text(line.title);
        std::vector<std::string> there;
        for (const Block& block : base_.blocks) {
            if (!workspace_.searches(there.size())) break;
            for (const Item& item : block.items)
                there.push_back(item.name);
        }
        const std::string near =
            workspace_.near_name(fold_name(name), there, LineKind::unclassified);
        std::vector<Fix> fixes;
        if (!near.empty()) fixes.push_back({near, {Edit{line.title, near}}});
        workspace_.report(
            Code::base_no_movement, line.title,
            {name, near.empty() ? "Write the line of a block above it, which it is then added to."
                                : "Write " + near + " if that is meant."},
            std::move(fixes));
    }

    // A warm-up comes first, and a cool-down stays the last block.
    void add_blocks() {
        std::vector<Block>& blocks = base_.blocks;
        const auto is = [&](const Block& block, LineKind kind) {
            return block.head && workspace_.kind(*block.head) == kind;
        };
        const bool before_end = !blocks.empty() && is(blocks.back(), LineKind::open_cool_down);
        std::vector<Block> first;
        std::vector<Block> others;
        for (Block& block : added_) {
            (is(block, LineKind::open_warm_up) ? first : others).push_back(std::move(block));
        }
        blocks.insert(before_end ? blocks.end() - 1 : blocks.end(), others.begin(), others.end());
        blocks.insert(blocks.begin(), first.begin(), first.end());
    }

    void leave_out(const Lines& header) {
        std::vector<Piece> pieces;
        std::unordered_set<std::string> names;
        for (const std::uint32_t index : header) {
            const parse::Line& line = workspace_.line(index);
            if (line.kind != LineKind::leave_out || line.is_broken) continue;
            for (Piece& piece : split_at_commas(workspace_, line.body)) {
                names.insert(fold_name(piece.text));
                pieces.push_back(std::move(piece));
            }
        }
        if (pieces.empty()) return;
        const std::vector<std::string> there = all_names();
        const std::unordered_set<std::string> known(there.begin(), there.end());
        for (const Piece& piece : pieces) {
            if (!known.contains(fold_name(piece.text))) report_unknown(piece, there);
        }
        const auto left_out = [&](const std::string& name) {
            return !name.empty() && names.contains(name);
        };
        std::erase_if(base_.blocks, [&](Block& block) {
            const std::size_t gone =
                std::erase_if(block.items, [&](const Item& item) { return left_out(item.name); });
            // A block that has lost its last movement goes with it.
            return left_out(block.title) || (gone > 0 && block.items.empty());
        });
    }

    [[nodiscard]] std::vector<std::string> all_names() const {
        std::vector<std::string> names;
        for (const Block& block : base_.blocks) {
            if (!block.title.empty()) names.push_back(block.title);
            for (const Item& item : block.items)
                names.push_back(item.name);
        }
        return names;
    }

    void report_unknown(const Piece& piece, const std::vector<std::string>& names) const {
        const std::string near =
            workspace_.near_name(fold_name(piece.text), names, LineKind::unclassified);
        std::vector<Fix> fixes;
        if (!near.empty()) fixes.push_back({near, {Edit{piece.span, near}}});
        workspace_.report(
            Code::leave_out_unknown, piece.span,
            {piece.text, near.empty() ? "Write a movement or a block's title as it stands there."
                                      : "Write " + near + " if that is meant."},
            std::move(fixes));
    }

    const Workspace& workspace_;
    Session base_;
    Places blocks_;
    Places items_;
    std::vector<Block> added_;
};

}  // namespace

Session take_apart(const Workspace& workspace, std::span<const std::uint32_t> lines) {
    Session session;
    session.head = lines.front();
    for (const std::uint32_t index : lines.subspan(1)) {
        const LineKind kind = workspace.kind(index);
        if (grammar::is_block(kind)) {
            session.blocks.push_back({index, workspace.title(index), {}, {}});
        } else if (grammar::is_item(kind)) {
            if (session.blocks.empty()) session.blocks.emplace_back();
            session.blocks.back().items.push_back({index, workspace.title(index), {}});
        } else if (session.blocks.empty()) {
            session.header.push_back(index);
        } else if (session.blocks.back().items.empty()) {
            session.blocks.back().words.push_back(index);
        } else {
            session.blocks.back().items.back().below.push_back(index);
        }
    }
    return session;
}

Session put_on(const Workspace& workspace, Session base, const Session& own) {
    return Changer(workspace, std::move(base)).run(own);
}

void append_lines(const Session& session, Lines& result) {
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

std::size_t line_count(const Session& session) {
    std::size_t count = 1 + session.header.size();
    for (const Block& block : session.blocks) {
        count += (block.head ? 1 : 0) + block.words.size() + block.items.size();
        for (const Item& item : block.items)
            count += item.below.size();
    }
    return count;
}

}  // namespace stave::compose
