#include "compiler/parse/rules.hpp"

#include <array>
#include <tao/pegtl.hpp>
#include <type_traits>

#include "compiler/parse/messages.hpp"
#include "grammar/session.hpp"

namespace stave::parse {

namespace {

namespace pegtl = tao::pegtl;
using grammar::BodyKind;

// Thrown where a rule behind a commit point is missing; caught in `run`.
struct MissingRule {
    Code code;
    const char* where;
};

// Whether a rule leaves a node, and of which kind.
template <typename Rule>
inline constexpr int node_of = -1;

#define STAVE_NODE_KIND(id) \
    template <>             \
    inline constexpr int node_of<grammar::id> = static_cast<int>(NodeKind::id);
#include "compiler/parse/node_kinds.def"

// Rules that leave another rule's kind of node.
template <>
inline constexpr int node_of<grammar::bare_rest> = static_cast<int>(NodeKind::rest);
template <>
inline constexpr int node_of<grammar::any_side> = static_cast<int>(NodeKind::each_side);
template <>
inline constexpr int node_of<grammar::joined_name> = static_cast<int>(NodeKind::movement_name);

// The grammar is not recursive; no rule lies deeper than this.
constexpr std::size_t deepest = 24;

// A rule with children that is being tried.
struct Open {
    NodeKind kind{};
    std::uint32_t begin = 0;
    // Its node, once it is in the tree.
    std::uint32_t node = 0;
};

// Nodes enter the tree when something in them matches: most rules that are tried
// fail at their first word, and leave no trace.
struct Builder {
    std::vector<Node>& nodes;
    // Start of the source text, for offsets.
    const char* origin;
    // Open rules, innermost last; the first `in_tree` of them have their node.
    std::array<Open, deepest> open{};
    std::size_t open_count = 0;
    std::size_t in_tree = 0;
    // Where the leaf at hand began; leaves hold no others.
    std::uint32_t leaf_begin = 0;
    // Where the rules with a message began that are being tried, innermost last.
    std::array<const char*, deepest> tried{};
    std::size_t tried_count = 0;

    [[nodiscard]] std::uint32_t next_node() const {
        return static_cast<std::uint32_t>(nodes.size());
    }
    [[nodiscard]] std::uint32_t offset(const char* where) const {
        return static_cast<std::uint32_t>(where - origin);
    }
    void put_open_in_tree() {
        for (; in_tree < open_count; ++in_tree) {
            Open& one = open[in_tree];
            one.node = next_node();
            nodes.push_back({one.kind, {one.begin, one.begin}, 0});
        }
    }
};

// Rules that derive from a noded rule (`time_end : quantity`) are rules of
// their own to PEGTL: it matches the derived rule under its own name and the
// base's insides below it. They leave a node where their base does.
template <typename Rule>
consteval int node_kind() {
    if constexpr (node_of<Rule> >= 0) {
        return node_of<Rule>;
    } else if constexpr (std::is_base_of_v<grammar::quantity, Rule>) {
        return static_cast<int>(NodeKind::quantity);
    } else if constexpr (std::is_base_of_v<grammar::series, Rule>) {
        return static_cast<int>(NodeKind::series);
    } else if constexpr (std::is_base_of_v<grammar::time_range, Rule>) {
        return static_cast<int>(NodeKind::time_range);
    } else if constexpr (std::is_base_of_v<grammar::unit, Rule>) {
        return static_cast<int>(NodeKind::unit);
    } else if constexpr (std::is_base_of_v<grammar::whole_number, Rule>) {
        return static_cast<int>(NodeKind::whole_number);
    } else if constexpr (std::is_base_of_v<grammar::max_word, Rule>) {
        return static_cast<int>(NodeKind::max_word);
    } else {
        return -1;
    }
}

// Nodes without children, which enter the tree when they are matched: the
// grammar tries several kinds of numbers before it finds the one.
consteval bool is_leaf(int kind) {
    switch (static_cast<NodeKind>(kind)) {
        case NodeKind::best_count:
        case NodeKind::clock_number:
        case NodeKind::decimal_number:
        case NodeKind::fraction_number:
        case NodeKind::mixed_number:
        case NodeKind::unit:
        case NodeKind::vulgar_number:
        case NodeKind::whole_number:
            return true;
        default:
            return false;
    }
}

template <typename Rule>
struct Control : pegtl::normal<Rule> {
    static constexpr bool enable = true;

    template <typename Input>
    static void start(const Input& in, Builder& builder) {
        if constexpr (has_message<Rule>) builder.tried[builder.tried_count++] = in.current();
        constexpr int kind = node_kind<Rule>();
        if constexpr (kind >= 0 && is_leaf(kind)) {
            builder.leaf_begin = builder.offset(in.current());
        } else if constexpr (kind >= 0) {
            builder.open[builder.open_count++] = {static_cast<NodeKind>(kind),
                                                  builder.offset(in.current()), 0};
        }
    }

    template <typename Input>
    static void success(const Input& in, Builder& builder) {
        if constexpr (has_message<Rule>) --builder.tried_count;
        constexpr int kind = node_kind<Rule>();
        if constexpr (kind >= 0) {
            const auto end = builder.offset(in.current());
            builder.put_open_in_tree();
            if constexpr (is_leaf(kind)) {
                builder.nodes.push_back({static_cast<NodeKind>(kind),
                                         {builder.leaf_begin, end},
                                         builder.next_node() + 1});
            } else {
                Node& node = builder.nodes[builder.open[--builder.open_count].node];
                builder.in_tree = builder.open_count;
                node.span.end = end;
                node.after = builder.next_node();
            }
        }
    }

    template <typename Input>
    static void failure(const Input& /*in*/, Builder& builder) {
        if constexpr (has_message<Rule>) --builder.tried_count;
        constexpr int kind = node_kind<Rule>();
        if constexpr (kind >= 0 && !is_leaf(kind)) {
            --builder.open_count;
            if (builder.in_tree <= builder.open_count) return;
            builder.in_tree = builder.open_count;
            builder.nodes.resize(builder.open[builder.open_count].node);
        }
    }

    template <typename Input>
    [[noreturn]] static void raise(const Input& in, Builder& builder) {
        // The rule has just failed, so its entry is the one behind the last.
        const char* const begin =
            has_message<Rule> ? builder.tried[builder.tried_count] : in.current();
        throw MissingRule{missing<Rule>, begin};
    }
};

template <typename Rule>
std::optional<Failure> run(std::string_view text, Span span, std::vector<Node>& nodes) {
    pegtl::memory_input<pegtl::tracking_mode::lazy, pegtl::eol::lf, const char*> in(
        text.data() + span.begin, text.data() + span.end, "");
    const std::size_t before = nodes.size();
    Builder builder{nodes, text.data()};
    try {
        if (pegtl::parse<Rule, pegtl::nothing, Control>(in, builder)) return std::nullopt;
    } catch (const MissingRule& failure) {
        nodes.resize(before);
        return Failure{failure.code, builder.offset(failure.where)};
    }
    nodes.resize(before);
    return Failure{Code::word_out_of_place, builder.offset(in.current())};
}

}  // namespace

std::optional<Failure> run_body(BodyKind kind, std::string_view text, Span body,
                                std::vector<Node>& nodes) {
    switch (kind) {
        case BodyKind::nothing:
        case BodyKind::text:
        case BodyKind::raw:
            return std::nullopt;
        case BodyKind::when:
            return run<grammar::when_body>(text, body, nodes);
        case BodyKind::zone:
            return run<grammar::zone_body>(text, body, nodes);
        case BodyKind::kit:
            return run<grammar::kit_body>(text, body, nodes);
        case BodyKind::fault:
            return run<grammar::fault_body>(text, body, nodes);
        case BodyKind::rest_line:
            return run<grammar::rest_line_body>(text, body, nodes);
        case BodyKind::counted_in:
            return run<grammar::counted_in_body>(text, body, nodes);
        case BodyKind::sides_line:
            return run<grammar::sides_line_body>(text, body, nodes);
        case BodyKind::pattern_line:
            return run<grammar::pattern_line_body>(text, body, nodes);
        case BodyKind::speed_line:
            return run<grammar::speed_line_body>(text, body, nodes);
        case BodyKind::dose:
            return run<grammar::dose_body>(text, body, nodes);
        case BodyKind::format:
            return run<grammar::format_body>(text, body, nodes);
        case BodyKind::names:
            return run<grammar::names_body>(text, body, nodes);
        case BodyKind::starts:
            return run<grammar::starts_body>(text, body, nodes);
        case BodyKind::measure:
            return run<grammar::measure_body>(text, body, nodes);
        case BodyKind::days:
            return run<grammar::days_body>(text, body, nodes);
        case BodyKind::moved:
            return run<grammar::moved_body>(text, body, nodes);
        case BodyKind::slot:
            return run<grammar::slot_body>(text, body, nodes);
        case BodyKind::once:
            return run<grammar::once_body>(text, body, nodes);
        case BodyKind::lighter:
            return run<grammar::lighter_body>(text, body, nodes);
        case BodyKind::waves:
            return run<grammar::waves_body>(text, body, nodes);
        case BodyKind::grow:
            return run<grammar::grow_body>(text, body, nodes);
        case BodyKind::did:
            return run<grammar::did_body>(text, body, nodes);
    }
    return std::nullopt;
}

bool reads(BodyKind kind, std::string_view text) {
    std::vector<Node> nodes;
    const Span all{0, static_cast<std::uint32_t>(text.size())};
    return !run_body(kind, text, all, nodes);
}

std::optional<Failure> run_head(std::string_view text, Span head, std::vector<Node>& nodes) {
    return run<grammar::movement_head>(text, head, nodes);
}

}  // namespace stave::parse
