// A session in its blocks and movements, and one put on top of another.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "compiler/compose/workspace.hpp"

namespace stave::compose {

// A movement's line and the lines below it.
struct Item {
    std::uint32_t line = 0;
    // Folded.
    std::string name;
    Lines below;
};

// A block's line (none where movements stand right below the session's head), its
// words and its movements.
struct Block {
    std::optional<std::uint32_t> head;
    // Folded.
    std::string title;
    Lines words;
    std::vector<Item> items;
};

struct Session {
    std::uint32_t head = 0;
    Lines header;
    std::vector<Block> blocks;
};

// `lines` begins with the session's head.
[[nodiscard]] Session take_apart(const Workspace& workspace, std::span<const std::uint32_t> lines);

// What the base becomes with the changes that `own` writes; reports what they do not
// fit.
[[nodiscard]] Session put_on(const Workspace& workspace, Session base, const Session& own);

// "change deadlift: 5 @ 80 kg" where `known` has a deadlift; whether it was reported.
bool report_change_word(const Workspace& workspace, const parse::Line& line,
                        const std::function<bool(const std::string&)>& known);

void append_lines(const Session& session, Lines& result);
[[nodiscard]] std::size_t line_count(const Session& session);

}  // namespace stave::compose
