#include <algorithm>
#include <unordered_set>

#include "compiler/compose/workspace.hpp"
#include "compiler/parse/parse.hpp"

namespace stave::compose {

namespace {

using grammar::LineKind;
using parse::NodeKind;

class LibraryUser {
public:
    explicit LibraryUser(const Workspace& workspace) : workspace_(workspace) {}

    Arrangement run(const Lines& lines) {
        for (const std::uint32_t index : lines)
            note_definition(index);
        for (const std::uint32_t index : lines)
            note_use(index);
        // What an athlete lacks the kit for, or must avoid, may have kin that would do.
        const bool has_athletes = std::ranges::any_of(lines, [&](std::uint32_t index) {
            return workspace_.kind(index) == LineKind::open_athlete;
        });
        if (has_athletes) take_kin();
        // The file's first lines belong to none of the library's movements.
        if (!arrangement_.library.empty()) arrangement_.lines.push_back(add_border(workspace_));
        arrangement_.lines.insert(arrangement_.lines.end(), lines.begin(), lines.end());
        return std::move(arrangement_);
    }

private:
    void note_definition(std::uint32_t index) {
        const parse::Line& line = workspace_.line(index);
        // A definition whose line has an error is one all the same.
        if (line.kind == LineKind::open_movement) known_.insert(workspace_.title(index));
        if (line.kind != LineKind::also || line.is_broken) return;
        for (const Piece& piece : split_at_commas(workspace_, line.body))
            known_.insert(fold_name(piece.text));
    }

    void note_use(std::uint32_t index) {
        const LineKind kind = workspace_.kind(index);
        const bool names_movements =
            kind == LineKind::movement_line || kind == LineKind::open_plain_movement ||
            kind == LineKind::open_substitute || kind == LineKind::open_test;
        if (!names_movements) return;
        const parse::Line& line = workspace_.line(index);
        std::vector<Span> names;
        for (std::uint32_t node = line.first_node; node < line.after_nodes;
             node = workspace_.tree.nodes[node].after) {
            const parse::Node& name = workspace_.tree.nodes[node];
            if (name.kind != NodeKind::movement_name) break;
            names.push_back(name.span);
        }
        for (const Span name : names)
            take(fold_name(workspace_.source.text(name)));
    }

    // The easier and harder kin of the movements that have been taken, but not theirs.
    void take_kin() {
        const std::vector<std::uint32_t> taken = arrangement_.lines;
        for (const std::uint32_t index : taken) {
            const parse::Line& line = workspace_.line(index);
            const bool names_kin = line.kind == LineKind::easier || line.kind == LineKind::harder;
            if (!names_kin || line.is_broken) continue;
            for (const Piece& piece : split_at_commas(workspace_, line.body))
                take(fold_name(piece.text));
        }
    }

    void take(const std::string& folded) {
        if (!known_.insert(folded).second) return;
        const auto movement = workspace_.sources.library(folded);
        if (!movement) return;
        // It may have come in under another of its names, or be defined here.
        const std::string main = fold_name(movement->name);
        if (main != folded && !known_.insert(main).second) return;
        const auto part = workspace_.source.add_part("the movement library", movement->text);
        const SourcePart added = workspace_.source.parts()[part];
        const auto first = static_cast<std::uint32_t>(workspace_.tree.lines.size());
        parse::parse_part(workspace_.source, added, workspace_.tree, workspace_.sink);
        for (auto i = first; i < workspace_.tree.lines.size(); ++i)
            arrangement_.lines.push_back(i);
        arrangement_.library.push_back(
            {added.begin, static_cast<std::uint32_t>(workspace_.source.text().size())});
    }

    const Workspace& workspace_;
    Arrangement arrangement_;
    // Folded names that are defined, or have been looked for.
    std::unordered_set<std::string> known_;
};

}  // namespace

Arrangement add_library(const Workspace& workspace, const Lines& lines) {
    if (!workspace.sources.library) return {lines, {}, {}, {}};
    return LibraryUser(workspace).run(lines);
}

}  // namespace stave::compose
