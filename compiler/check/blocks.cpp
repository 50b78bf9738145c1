#include "compiler/check/blocks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "compiler/check/block_rests.hpp"
#include "compiler/check/check.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;
using program::BlockKind;
using program::RunKind;

BlockKind block_kind(LineKind kind) {
    switch (kind) {
        case LineKind::open_warm_up:
            return BlockKind::warm_up;
        case LineKind::open_superset:
            return BlockKind::superset;
        case LineKind::open_circuit:
            return BlockKind::circuit;
        case LineKind::open_stations:
            return BlockKind::stations;
        case LineKind::open_cool_down:
            return BlockKind::cool_down;
        default:
            return BlockKind::sets;
    }
}

class BlockFinisher {
public:
    BlockFinisher(DraftBlock& draft, bool another_follows, DiagnosticSink& sink)
        : draft_(draft), another_follows_(another_follows), sink_(sink) {}

    program::Block run() {
        program::Block& block = draft_.block;
        if (draft_.items.empty() && !draft_.tainted) {
            sink_.report(
                {Code::block_empty, draft_.head, {sentence_start(block_name(block))}, {}, {}});
        }
        fill_intervals();
        check_every();
        settle_rounds();
        settle_last_rest(draft_, another_follows_, sink_);
        block.items.reserve(draft_.items.size());
        for (std::size_t i = 0; i < draft_.items.size(); ++i) {
            match(draft_.items[i]);
            for (auto& [substitute, other] : draft_.substitutes[i]) {
                match(substitute);
                if (substitute.item.parts.empty()) continue;
                other.item = std::move(substitute.item);
                draft_.items[i].item.substitutes.push_back(std::move(other));
            }
            block.items.push_back(std::move(draft_.items[i].item));
        }
        warn_of_replaced_rest();
        return std::move(block);
    }

private:
    // Gives what names no amount the time of its interval.
    void fill_intervals() {
        for (std::size_t i = 0; i < draft_.items.size(); ++i) {
            const bool is_last = i + 1 == draft_.items.size();
            fill(draft_.items[i], !is_last && draft_.items[i + 1].column > draft_.items[i].column);
            for (auto& [substitute, other] : draft_.substitutes[i])
                fill(substitute, false);
        }
    }

    void fill(DraftItem& draft, bool has_lines_below) {
        if (!draft.without_amount || draft.tainted) return;
        if (draft_.block.run != RunKind::intervals) {
            // A head that could not be read may have said the intervals.
            if (!draft_.head_is_broken) report_no_amount(draft, has_lines_below);
            draft.tainted = draft_.tainted = true;
            return;
        }
        const Quantity time = draft_.block.time;
        // With the whole block on one side first each has the time for itself.
        using program::SideRule;
        const SideRule rule = draft.item.sides.rule;
        const bool two_halves =
            rule == SideRule::each || rule == SideRule::swapped || rule == SideRule::there_and_back;
        const auto shares = static_cast<std::int64_t>(draft.item.parts.size()) *
                            (two_halves && !draft_.block.by_sides ? 2 : 1);
        const Quantity share{time.value / Ratio(shares), time.unit};
        for (program::Part& part : draft.item.parts)
            part.amounts.assign(1, {program::AmountForm::exact, share, share});
    }

    void report_no_amount(const DraftItem& draft, bool has_lines_below) {
        const std::string name = draft.item.parts.front().name;
        if (!has_lines_below || draft.item.parts.size() > 1) {
            sink_.report({Code::amount_missing, draft.head_span, {name}, {}, {}});
            return;
        }
        std::vector<Fix> fixes;
        const Span begin{draft.head_span.begin, draft.head_span.begin};
        for (const std::string kind : {"sets ", "superset ", "circuit "})
            fixes.push_back({kind + name, {Edit{begin, kind}}});
        sink_.report({Code::block_unsaid, draft.head_span, {name}, std::move(fixes), {}});
    }

    // With two movements or more it matters what is done each time.
    void check_every() {
        const bool unsaid = draft_.every_scope == syntax::EveryScope::unsaid;
        if (!unsaid || draft_.items.size() < 2) return;
        const Span end{draft_.every_span.end, draft_.every_span.end};
        sink_.report({Code::every_scope,
                      draft_.every_span,
                      {every_words()},
                      {{"next movement", {Edit{end, " next movement"}}},
                       {"all movements", {Edit{end, " all movements"}}}},
                      {}});
        draft_.tainted = true;
    }

    [[nodiscard]] std::string every_words() const {
        const Quantity time = draft_.block.time;
        const std::string_view scope =
            draft_.every_scope == syntax::EveryScope::next_movement   ? " next movement"
            : draft_.every_scope == syntax::EveryScope::all_movements ? " all movements"
                                                                      : "";
        return fmt::format("every {} {}{}", to_decimal(time.value), plural(time.unit), scope);
    }

    // Said, or inferred where every list has one length.
    void settle_rounds() {
        program::Block& block = draft_.block;
        block.by_rounds = runs_by_rounds(draft_);
        if (!block.by_rounds) return;
        if (block.run == RunKind::in_turn) block.run = RunKind::rounds;
        if (draft_.rounds) {
            block.rounds = *draft_.rounds;
            return;
        }
        // One round stands for all of them.
        if (block.run == RunKind::as_many) return;
        std::int64_t inferred = 0;
        bool clear = true;
        bool some_say_nothing = false;
        for (const DraftItem& draft : draft_.items) {
            if (draft.tainted) continue;
            const std::int64_t count = said_sets(draft);
            some_say_nothing = some_say_nothing || count == 0;
            if (count == 0) continue;
            clear = clear && (inferred == 0 || inferred == count);
            inferred = count;
        }
        block.rounds = std::max<std::int64_t>(inferred, 1);
        const bool one_will_do = block.run == RunKind::for_time ||
                                 block.run == RunKind::intervals ||
                                 block.kind == BlockKind::stations;
        // Where once is enough, "10 x 20 m" beside "1000 m" is no ten rounds of both.
        if (one_will_do && inferred > 1 && some_say_nothing) clear = false;
        const bool is_clear = clear && (inferred > 0 || one_will_do);
        if (is_clear || draft_.tainted || draft_.items.empty()) return;
        draft_.tainted = true;
        const bool every = block.run == RunKind::every_next || block.run == RunKind::every_all;
        if (every && clear) {
            sink_.report({Code::rounds_needed,
                          draft_.head,
                          {sentence_start(block_name(block)), every_words() + ", 6 rounds"},
                          {},
                          {}});
            return;
        }
        sink_.report({Code::rounds_unclear,
                      draft_.head,
                      {sentence_start(block_name(block))},
                      {},
                      differing_counts()});
    }

    // 0 where the line does not say how often.
    static std::int64_t said_sets(const DraftItem& draft) {
        const auto count =
            static_cast<std::int64_t>(std::max(draft.item.set_count(), draft.item.loads.size()));
        return count == 1 && !draft.says_sets ? 0 : count;
    }

    // The first two lines that say different numbers.
    [[nodiscard]] std::vector<Related> differing_counts() const {
        std::vector<Related> counts;
        std::int64_t first = 0;
        for (const DraftItem& draft : draft_.items) {
            if (draft.tainted || (!counts.empty() && said_sets(draft) == first)) continue;
            if (counts.empty()) first = said_sets(draft);
            counts.push_back({draft.amount_span, said_sets(draft) == 0
                                                     ? "how often is not said here"
                                                     : fmt::format("{} here", said_sets(draft))});
            if (counts.size() == 2) return counts;
        }
        return {};
    }

    // Gives the item as many sets as the block has rounds, or as its loads are.
    void match(DraftItem& draft) {
        if (draft.tainted) return;
        const program::Block& block = draft_.block;
        std::size_t sets = draft.item.set_count();
        const std::size_t loads = draft.item.loads.size();
        if (!block.by_rounds) {
            if (loads > 1 && sets == 1) repeat(draft.item, loads);
            return match_incline(draft);
        }
        if (draft_.tainted) return;
        const auto rounds = static_cast<std::size_t>(block.rounds);
        if (draft.rest_between_sets) report_rest_between_sets(*draft.rest_between_sets);
        if (draft.says_sets && draft_.rounds) return report_sets_in_rounds(draft);
        if (rounds > 1 && report_total(draft)) return;
        if (sets == 1) {
            repeat(draft.item, rounds);
            if (block.run != RunKind::as_many) climb_open_ladders(draft.item);
            sets = rounds;
        }
        if (sets != rounds) return report_length(draft, "The amount", sets);
        if (loads > 1 && loads != rounds) return report_length(draft, "The load", loads);
        match_incline(draft);
    }

    // "30 total" in three rounds; gives whether it was reported.
    bool report_total(const DraftItem& draft) {
        for (const program::Part& part : draft.item.parts) {
            const program::Amount& amount = part.amounts.front();
            if (amount.form != program::AmountForm::total) continue;
            const Ratio share = amount.low.value / Ratio(draft_.block.rounds);
            const std::string unit =
                amount.low.unit == Unit::reps ? "" : fmt::format(" {}", plural(amount.low.unit));
            sink_.report({Code::total_in_rounds,
                          draft.amount_span,
                          {part.name, std::to_string(draft_.block.rounds),
                           to_decimal(share.is_whole() ? share : amount.low.value) + unit},
                          {},
                          {}});
            return true;
        }
        return false;
    }

    // A list of slopes has one for each set.
    void match_incline(const DraftItem& draft) {
        const auto* incline = draft.item.find<program::Incline>();
        if (incline == nullptr || incline->is_range || incline->values.size() == 1) return;
        if (incline->values.size() == draft.item.set_count()) return;
        if (draft_.block.by_rounds) {
            return report_length(draft, "The incline", incline->values.size());
        }
        sink_.report({Code::list_length,
                      draft.amount_span,
                      {fmt::format("The incline of {}", draft.item.parts.front().name),
                       std::to_string(incline->values.size()), "the amount",
                       std::to_string(draft.item.set_count())},
                      {},
                      {}});
    }

    // At the end of a round the block's rest stands in the place of the item's.
    void warn_of_replaced_rest() {
        const program::Block& block = draft_.block;
        if (draft_.tainted || !block.by_rounds || block.rounds == 1 || !block.rest_between_rounds)
            return;
        if (block.items.empty() || block.items.back().parts.empty()) return;
        const program::Item& last = block.items.back();
        if (!last.rest && !last.rest_after) return;
        const bool has_line = last.rest_after && draft_.rest_line;
        sink_.report({Code::rest_replaced,
                      has_line ? draft_.rest_line->span : last.span,
                      {last.parts.front().name},
                      {},
                      {{draft_.head, "the rest between rounds is said here"}}});
    }

    static void repeat(program::Item& item, std::size_t count) {
        for (program::Part& part : item.parts)
            part.amounts.assign(count, part.amounts.front());
    }

    // "2 up by 2" in a block that says its rounds is 2, 4, 6 ...
    static void climb_open_ladders(program::Item& item) {
        for (program::Part& part : item.parts) {
            if (part.amounts.front().form != program::AmountForm::open_ladder) continue;
            const Quantity step = part.amounts.front().high;
            Quantity rung = part.amounts.front().low;
            for (program::Amount& amount : part.amounts) {
                amount = {program::AmountForm::exact, rung, rung};
                rung.value += step.value;
            }
        }
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
        std::vector<Fix> fixes;
        // Another number of sets than rounds may be what is meant.
        const bool same = draft.item.set_count() == static_cast<std::size_t>(draft_.block.rounds);
        if (same && !draft.sets_prefix.empty()) {
            fixes.push_back({draft.one_set, {Edit{draft.sets_prefix, ""}}});
        }
        sink_.report({Code::sets_in_rounds,
                      draft.amount_span,
                      {sentence_start(draft.item.parts.front().name), draft.one_set},
                      std::move(fixes),
                      {{draft_.head, "the block says its rounds here"}}});
    }

    void report_length(const DraftItem& draft, std::string_view what, std::size_t count) {
        const std::string rounds = draft_.block.run == RunKind::as_many
                                       ? std::string("as many rounds as possible")
                                       : fmt::format("{} round{}", draft_.block.rounds,
                                                     draft_.block.rounds == 1 ? "" : "s");
        sink_.report({Code::list_length,
                      draft.amount_span,
                      {fmt::format("{} of {}", what, draft.item.parts.front().name),
                       std::to_string(count), block_name(draft_.block), rounds},
                      {},
                      {{draft_.head, "the block begins here"}}});
    }

    DraftBlock& draft_;
    bool another_follows_;
    DiagnosticSink& sink_;
};

}  // namespace

std::string block_name(const program::Block& block) {
    constexpr std::string_view kinds[] = {"warm-up", "block of sets",     "superset",
                                          "circuit", "block of stations", "cool-down"};
    const std::string kind(kinds[static_cast<std::size_t>(block.kind)]);
    return block.title.empty() ? "the " + kind : fmt::format("the {} {}", kind, block.title);
}

std::string sentence_start(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    }
    return text;
}

DraftBlock open_block(const syntax::Line& line, DiagnosticSink& sink) {
    DraftBlock draft;
    draft.head = line.head.span;
    draft.block.kind = block_kind(line.kind);
    draft.block.title = clean_text(line.title.text);
    draft.block.span = said_span(line);
    const auto* format = std::get_if<syntax::Format>(&line.body);
    if (format == nullptr) {
        draft.tainted = draft.head_is_broken = true;
        return draft;
    }
    apply_format(*format, line, draft, sink);
    for (const syntax::Rest& rest : format->rests)
        add_block_rest(rest, draft, sink);
    return draft;
}

program::Block finish_block(DraftBlock& draft, bool another_follows, DiagnosticSink& sink) {
    return BlockFinisher(draft, another_follows, sink).run();
}

}  // namespace stave::check
