#include "compiler/check/blocks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "compiler/check/check.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;
using program::BlockKind;

BlockKind block_kind(LineKind kind) {
    switch (kind) {
        case LineKind::open_warm_up:
            return BlockKind::warm_up;
        case LineKind::open_superset:
            return BlockKind::superset;
        case LineKind::open_circuit:
            return BlockKind::circuit;
        case LineKind::open_cool_down:
            return BlockKind::cool_down;
        default:
            return BlockKind::sets;
    }
}

bool always_by_rounds(BlockKind kind) {
    return kind == BlockKind::superset || kind == BlockKind::circuit;
}

// "the circuit Deck legs".
std::string block_name(const program::Block& block) {
    constexpr std::string_view kinds[] = {"warm-up", "block of sets", "superset", "circuit",
                                          "cool-down"};
    const std::string kind(kinds[static_cast<std::size_t>(block.kind)]);
    return block.title.empty() ? "the " + kind : fmt::format("the {} {}", kind, block.title);
}

std::string sentence_start(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    }
    return text;
}

class BlockFinisher {
public:
    BlockFinisher(DraftBlock& draft, DiagnosticSink& sink) : draft_(draft), sink_(sink) {}

    program::Block run() {
        program::Block& block = draft_.block;
        if (draft_.items.empty() && !draft_.tainted) {
            sink_.report(
                {Code::block_empty, draft_.head, {sentence_start(block_name(block))}, {}, {}});
        }
        settle_rounds();
        for (std::size_t i = 0; i < draft_.items.size(); ++i) {
            match(draft_.items[i]);
            for (auto& [substitute, missing] : draft_.substitutes[i]) {
                match(substitute);
                draft_.items[i].item.substitutes.push_back({std::move(substitute.item), missing});
            }
            block.items.push_back(std::move(draft_.items[i].item));
        }
        warn_of_replaced_rest();
        return std::move(block);
    }

private:
    // Said, or inferred where every list has one length.
    void settle_rounds() {
        program::Block& block = draft_.block;
        block.by_rounds = always_by_rounds(block.kind) || draft_.rounds.has_value();
        if (!block.by_rounds) return;
        if (draft_.rounds) {
            block.rounds = *draft_.rounds;
            return;
        }
        std::int64_t inferred = 0;
        bool clear = true;
        for (const DraftItem& draft : draft_.items) {
            if (draft.tainted) continue;
            const auto count = static_cast<std::int64_t>(
                std::max(draft.item.set_count(), draft.item.loads.size()));
            if (count == 1 && !draft.says_sets) continue;
            clear = clear && (inferred == 0 || inferred == count);
            inferred = count;
        }
        clear = clear && inferred > 0;
        block.rounds = std::max<std::int64_t>(inferred, 1);
        if (!clear && !draft_.tainted && !draft_.items.empty()) {
            draft_.tainted = true;
            sink_.report(
                {Code::rounds_unclear, draft_.head, {sentence_start(block_name(block))}, {}, {}});
        }
    }

    // Gives the item as many sets as the block has rounds, or as its loads are.
    void match(DraftItem& draft) {
        if (draft.tainted) return;
        const program::Block& block = draft_.block;
        std::size_t sets = draft.item.set_count();
        const std::size_t loads = draft.item.loads.size();
        if (!block.by_rounds) {
            if (loads > 1 && sets == 1) repeat(draft.item, loads);
            return;
        }
        if (draft_.tainted) return;
        const auto rounds = static_cast<std::size_t>(block.rounds);
        if (draft.rest_between_sets) report_rest_between_sets(*draft.rest_between_sets);
        if (draft.says_sets && draft_.rounds) return report_sets_in_rounds(draft);
        if (sets == 1) {
            repeat(draft.item, rounds);
            sets = rounds;
        }
        if (sets != rounds) return report_length(draft, "The amount", sets);
        if (loads > 1 && loads != rounds) report_length(draft, "The load", loads);
    }

    // At the end of a round the block's rest stands in the place of the item's.
    void warn_of_replaced_rest() {
        const program::Block& block = draft_.block;
        if (!block.by_rounds || block.rounds == 1 || !block.rest_between_rounds) return;
        if (block.items.empty() || block.items.back().parts.empty()) return;
        const program::Item& last = block.items.back();
        if (!last.rest && !last.rest_after) return;
        sink_.report({Code::rest_replaced,
                      last.span,
                      {last.parts.front().name},
                      {},
                      {{draft_.head, "the rest between rounds is said here"}}});
    }

    static void repeat(program::Item& item, std::size_t count) {
        for (program::Part& part : item.parts)
            part.amounts.assign(count, part.amounts.front());
    }

    void report_rest_between_sets(Span span) {
        sink_.report(
            {Code::rest_not_here,
             span,
             {"sets", block_name(draft_.block), "Its movements take turns, one set a round."},
             {},
             {}});
    }

    void report_sets_in_rounds(const DraftItem& draft) {
        // "3 x 8" without "3 x".
        const program::Amount& amount = draft.item.parts.front().amounts.front();
        std::string one = amount.form == program::AmountForm::max ? std::string("max")
                                                                  : to_decimal(amount.low.value);
        if (amount.form == program::AmountForm::range)
            one += " to " + to_decimal(amount.high.value);
        if (amount.form != program::AmountForm::max && amount.low.unit != Unit::reps) {
            one += fmt::format(" {}", plural(amount.low.unit));
        }
        const Span amount_span = draft.amount_span;
        std::string side = side_text(draft.item.sides);
        if (!side.empty()) side.insert(0, 1, ' ');
        sink_.report({Code::sets_in_rounds,
                      amount_span,
                      {sentence_start(draft.item.parts.front().name), one},
                      {{one, {Edit{amount_span, one + side}}}},
                      {{draft_.head, "the block says its rounds here"}}});
    }

    void report_length(const DraftItem& draft, std::string_view what, std::size_t count) {
        sink_.report(
            {Code::list_length,
             draft.amount_span,
             {fmt::format("{} of {}", what, draft.item.parts.front().name), std::to_string(count),
              block_name(draft_.block),
              fmt::format("{} round{}", draft_.block.rounds, draft_.block.rounds == 1 ? "" : "s")},
             {},
             {{draft_.head, "the block begins here"}}});
    }

    DraftBlock& draft_;
    DiagnosticSink& sink_;
};

void set_rest(std::optional<program::Rest>& place, const syntax::Rest& rest, DiagnosticSink& sink) {
    if (place) {
        sink.report({Code::detail_twice, rest.span, {"rest"}, {}, {}});
        return;
    }
    place = to_rest(rest);
}

}  // namespace

DraftBlock open_block(const syntax::Line& line, DiagnosticSink& sink) {
    DraftBlock draft;
    draft.head = line.head.span;
    draft.block.kind = block_kind(line.kind);
    draft.block.title = clean_text(line.title.text);
    draft.block.span = line.span;
    const auto* format = std::get_if<syntax::Format>(&line.body);
    if (format == nullptr) {
        draft.tainted = true;
        return draft;
    }
    if (format->rounds) {
        const std::int64_t rounds = format->rounds->quantity.value.numerator();
        if (rounds == 0) {
            sink.report({Code::amount_zero, format->rounds->span, {"0 rounds"}, {}, {}});
            draft.tainted = true;
        } else if (rounds > most_rounds) {
            sink.report({Code::too_many,
                         format->rounds->span,
                         {"rounds in one block", std::to_string(most_rounds)},
                         {},
                         {}});
            draft.tainted = true;
        } else if (draft.block.kind == BlockKind::sets) {
            sink.report({Code::rounds_not_here,
                         format->rounds->span,
                         {sentence_start(block_name(draft.block))},
                         {},
                         {}});
            draft.tainted = true;
        } else {
            draft.rounds = rounds;
        }
    }
    for (const syntax::Rest& rest : format->rests)
        add_block_rest(rest, draft, sink);
    return draft;
}

void add_block_rest(const syntax::Rest& rest, DraftBlock& draft, DiagnosticSink& sink) {
    program::Block& block = draft.block;
    const bool by_rounds = always_by_rounds(block.kind) || draft.rounds.has_value();
    switch (rest.place) {
        case syntax::RestPlace::sides:
            return set_rest(block.rest_between_sides, rest, sink);
        case syntax::RestPlace::movements:
            return set_rest(block.rest_between_movements, rest, sink);
        case syntax::RestPlace::unsaid:
            return set_rest(by_rounds ? block.rest_between_rounds : block.rest_between_sets, rest,
                            sink);
        case syntax::RestPlace::rounds:
            if (by_rounds) return set_rest(block.rest_between_rounds, rest, sink);
            break;
        case syntax::RestPlace::sets:
            if (!by_rounds) return set_rest(block.rest_between_sets, rest, sink);
            break;
    }
    sink.report({Code::rest_not_here,
                 rest.span,
                 {rest.place == syntax::RestPlace::rounds ? "rounds" : "sets", block_name(block),
                  by_rounds ? "Its movements take turns, one set a round."
                            : "It has no rounds; each movement is finished before the next."},
                 {},
                 {}});
}

program::Block finish_block(DraftBlock draft, DiagnosticSink& sink) {
    return BlockFinisher(draft, sink).run();
}

}  // namespace stave::check
