#include <fmt/format.h>

#include "compiler/syntax/lower_parts.hpp"

namespace stave::syntax {

namespace {

using parse::NodeKind;

class FormatReader {
public:
    explicit FormatReader(const NodeReader& reader) : reader_(reader) {}

    std::optional<Format> run(NodeRange nodes) {
        for (std::uint32_t i = nodes.first; i < nodes.after; i = reader_.at(i).after) {
            if (!read(i)) return std::nullopt;
        }
        return std::move(format_);
    }

private:
    bool read(std::uint32_t node) {
        const parse::Node& clause = reader_.at(node);
        switch (clause.kind) {
            case NodeKind::rest:
                return add_rest(node);
            case NodeKind::about: {
                const auto time = lower_time(reader_, node + 1);
                if (!time) return false;
                Rest* rest = after_rest_ ? &format_.rests.back() : nullptr;
                return add_about(reader_, {*time, clause.span}, rest);
            }
            default:
                after_rest_ = false;
                break;
        }
        switch (clause.kind) {
            case NodeKind::round_count:
                return add_rounds(node);
            case NodeKind::as_many:
                return add_time(node, "as many rounds", format_.as_many_in);
            case NodeKind::for_time:
                return set_once(format_.for_time, clause.span, "for time", clause.span);
            case NodeKind::cap:
                return add_time(node, "cap", format_.cap);
            case NodeKind::every:
                return add_every(node);
            case NodeKind::time_on:
                return add_time(node, "on", format_.on);
            case NodeKind::time_off:
                return add_time(node, "off", format_.off);
            case NodeKind::whole_block: {
                const bool left = reader_.at(node + 1).kind == NodeKind::left_then_right;
                return set_once(format_.whole_block, SideOrder{left, clause.span}, "whole block",
                                clause.span);
            }
            case NodeKind::people:
                return add_people(node);
            case NodeKind::in_groups:
                return add_group_size(node);
            default:
                return true;
        }
    }

    template <typename Place, typename Value>
    bool set_once(Place& place, Value value, std::string_view what, Span span) {
        if (place) {
            reader_.report(Code::detail_twice, span, {std::string(what)});
            return false;
        }
        place = value;
        return true;
    }

    bool add_rest(std::uint32_t node) {
        auto rest = lower_rest(reader_, {node + 1, reader_.at(node).after}, reader_.at(node).span);
        if (!rest) return false;
        format_.rests.push_back(*rest);
        after_rest_ = true;
        return true;
    }

    bool add_time(std::uint32_t node, std::string_view what, Box<Value>& place) {
        const auto time = lower_time(reader_, node + 1);
        return time && set_once(place, *time, what, reader_.at(node).span);
    }

    bool add_every(std::uint32_t node) {
        const auto time = lower_time(reader_, node + 1);
        if (!time) return false;
        Every every{*time, EveryScope::unsaid};
        if (reader_.child(node, NodeKind::next_movement)) every.scope = EveryScope::next_movement;
        if (reader_.child(node, NodeKind::all_movements)) every.scope = EveryScope::all_movements;
        return set_once(format_.every, every, "every", reader_.at(node).span);
    }

    bool add_rounds(std::uint32_t node) {
        Rounds rounds;
        rounds.span = reader_.at(node).span;
        bool first = true;
        for (std::uint32_t i = node + 1; i < reader_.at(node).after; i = reader_.at(i).after) {
            const auto count = read_whole(reader_, reader_.at(i).span);
            if (!count) return false;
            if (first) rounds.low = *count;
            rounds.high = *count;
            first = false;
        }
        if (rounds.high < rounds.low) {
            const std::string turned = fmt::format("{} to {} rounds", rounds.high, rounds.low);
            reader_.report(Code::range_falls, rounds.span,
                           {reader_.said(rounds.span), turned, "one of the two alone"},
                           {replace(rounds.span, turned)});
            return false;
        }
        return set_once(format_.rounds, rounds, "rounds", rounds.span);
    }

    bool add_people(std::uint32_t node) {
        const Span span = reader_.at(node + 1).span;
        const auto count = read_whole(reader_, span);
        if (!count) return false;
        constexpr std::int64_t most_people = 200;
        if (*count == 0 || *count > most_people) {
            reader_.report(Code::number_too_large, span,
                           {reader_.said(span), fmt::format("1 to {} people", most_people)});
            return false;
        }
        return set_once(format_.people, Value{{Ratio(*count), Unit::reps}, false, {}, span},
                        "people", span);
    }

    bool add_group_size(std::uint32_t node) {
        const parse::Node& size = reader_.at(node + 1);
        const std::int64_t count = size.kind == NodeKind::in_pairs    ? 2
                                   : size.kind == NodeKind::in_threes ? 3
                                                                      : 4;
        return set_once(format_.group_size, Value{{Ratio(count), Unit::reps}, false, {}, size.span},
                        "the size of groups", size.span);
    }

    const NodeReader& reader_;
    Format format_;
    // Whether the clause before is a rest, which an `about` completes.
    bool after_rest_ = false;
};

}  // namespace

std::optional<Format> lower_format(const NodeReader& reader, NodeRange nodes) {
    return FormatReader(reader).run(nodes);
}

}  // namespace stave::syntax
