#include <fmt/format.h>

#include <array>
#include <iterator>

#include "compiler/parse/parse.hpp"

namespace stave::parse {

namespace {

constexpr std::array node_kind_names{
#define STAVE_NODE_KIND(id) #id,
#include "compiler/parse/node_kinds.def"
};

void dump_nodes(const ParseTree& tree, const SourceFile& source, std::uint32_t begin,
                std::uint32_t end, int depth, std::string& out) {
    for (std::uint32_t i = begin; i < end; i = tree.nodes[i].after) {
        const Node& node = tree.nodes[i];
        fmt::format_to(std::back_inserter(out), "{:{}}{} \"{}\"\n", "", depth * 2,
                       node_kind_names[static_cast<std::size_t>(node.kind)],
                       source.text(node.span));
        dump_nodes(tree, source, i + 1, node.after, depth + 1, out);
    }
}

}  // namespace

std::string dump(const ParseTree& tree, const SourceFile& source) {
    std::string out;
    std::uint32_t number = 0;
    for (const Line& line : tree.lines) {
        fmt::format_to(std::back_inserter(out), "{} {}", ++number,
                       grammar::line_kind_name(line.kind));
        if (!line.head.empty()) {
            fmt::format_to(std::back_inserter(out), " head \"{}\"", source.text(line.head));
        }
        if (!line.body.empty()) {
            fmt::format_to(std::back_inserter(out), " body \"{}\"", source.text(line.body));
        }
        if (!line.remark.empty()) {
            fmt::format_to(std::back_inserter(out), " remark \"{}\"", source.text(line.remark));
        }
        out += '\n';
        dump_nodes(tree, source, line.first_node, line.after_nodes, 1, out);
    }
    return out;
}

}  // namespace stave::parse
