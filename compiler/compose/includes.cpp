#include <algorithm>
#include <unordered_set>
#include <utility>

#include "compiler/compose/workspace.hpp"
#include "compiler/parse/parse.hpp"

namespace stave::compose {

namespace {

using grammar::LineKind;

class Includer {
public:
    explicit Includer(const Workspace& workspace) : workspace_(workspace) {
        chain_.push_back({workspace.sources.identity, workspace.source.path()});
        met_.insert(workspace.sources.identity);
    }

    Lines run() {
        add_lines(0, static_cast<std::uint32_t>(workspace_.tree.lines.size()));
        return std::move(lines_);
    }

private:
    struct Link {
        std::string identity;
        std::string name;
    };

    // The tree's lines [first, after), which are those of one file.
    void add_lines(std::uint32_t first, std::uint32_t after) {
        bool in_session = false;
        bool in_routine = false;
        for (std::uint32_t i = first; i < after; ++i) {
            const parse::Line line = workspace_.line(i);
            in_session = in_session || line.kind == LineKind::open_session;
            if (is_first_rank(line.kind)) in_routine = line.kind == LineKind::open_routine;
            if (line.kind != LineKind::include) {
                lines_.push_back(i);
            } else if (in_session) {
                report_not_here(line, "Files are taken in before the first session.",
                                "Move it to the top of the file, above the first session.");
            } else if (in_routine) {
                report_not_here(line, "Files are not taken in inside of a routine.",
                                "Move it to the top of the file, above the first routine.");
            } else if (!line.is_broken) {
                workspace_.tree.lines[i].is_broken = !include(line.body);
            }
        }
    }

    void report_not_here(const parse::Line& line, std::string why, std::string mend) const {
        workspace_.report(Code::line_not_here, line.head,
                          {"include", std::move(why), std::move(mend)});
    }

    // False where the file's lines are missing; those of a ring are there already.
    bool include(Span path) {
        if (failed_) return false;
        const std::string said = workspace_.text(path);
        if (!workspace_.sources.files) {
            workspace_.report(Code::include_missing, path, {said, "files cannot be read here"});
            return false;
        }
        auto file = workspace_.sources.files(chain_.back().name, said);
        if (!file) {
            workspace_.report(Code::include_missing, path, {said, file.error()});
            return false;
        }
        const auto link = std::ranges::find(chain_, file->identity, &Link::identity);
        if (link != chain_.end()) {
            std::string chain;
            for (auto i = link; i != chain_.end(); ++i)
                chain += i->name + " takes in ";
            workspace_.report(Code::include_cycle, path, {said, chain + file->name});
            return true;
        }
        if (!met_.insert(file->identity).second) return true;
        add_file(path, std::move(*file));
        return !failed_;
    }

    void add_file(Span path, IncludedFile file) {
        const bool too_much =
            // The file itself has been met too.
            met_.size() > most_includes + 1 || chain_.size() > deepest_include ||
            workspace_.source.text().size() + file.text.size() > SourceFile::largest_together;
        if (too_much) {
            failed_ = true;
            return workspace_.report(
                Code::include_too_much, path,
                {workspace_.text(path), std::to_string(most_includes),
                 std::to_string(deepest_include),
                 std::to_string(SourceFile::largest_together / (std::size_t{1024} * 1024))});
        }
        const auto part = workspace_.source.add_part(file.name, std::move(file.text));
        const auto first = static_cast<std::uint32_t>(workspace_.tree.lines.size());
        const SourcePart added = workspace_.source.parts()[part];
        parse::parse_part(workspace_.source, added, workspace_.tree, workspace_.sink);
        const auto after = static_cast<std::uint32_t>(workspace_.tree.lines.size());
        chain_.push_back({std::move(file.identity), std::move(file.name)});
        // What one file leaves open does not go on in another.
        lines_.push_back(add_border(workspace_));
        add_lines(first, after);
        lines_.push_back(add_border(workspace_));
        chain_.pop_back();
    }

    const Workspace& workspace_;
    Lines lines_;
    // From the file to the one at hand.
    std::vector<Link> chain_;
    std::unordered_set<std::string> met_;
    // One report is enough for a file that takes in too much.
    bool failed_ = false;
};

}  // namespace

Lines add_includes(const Workspace& workspace) {
    return Includer(workspace).run();
}

}  // namespace stave::compose
