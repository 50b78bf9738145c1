#include <fmt/format.h>

#include <array>

#include "compiler/check/blocks.hpp"
#include "compiler/check/check.hpp"

namespace stave::check {

namespace {

using program::BlockKind;
using program::RunKind;

class FormatApplier {
public:
    FormatApplier(const syntax::Format& format, const syntax::Line& line, DraftBlock& draft,
                  DiagnosticSink& sink)
        : format_(format), line_(line), draft_(draft), sink_(sink) {}

    void run() {
        if (!ways_agree() || !fits_kind()) return;
        apply_rounds();
        apply_run();
        draft_.block.by_sides = format_.whole_block.has_value();
        draft_.block.right_first = format_.whole_block && !format_.whole_block->left_first;
        if (format_.people) draft_.block.people = format_.people->quantity.value.numerator();
        if (format_.group_size) {
            draft_.block.group_size = format_.group_size->quantity.value.numerator();
        }
    }

private:
    void fail(Code code, Span span, std::vector<std::string> arguments,
              std::vector<Fix> fixes = {}) {
        draft_.tainted = draft_.head_is_broken = true;
        sink_.report({code, span, std::move(arguments), std::move(fixes), {}});
    }

    [[nodiscard]] Span body() const { return line_.body_span; }

    // A block runs one way.
    bool ways_agree() {
        struct Way {
            bool said;
            std::string_view words;
        };
        const std::array ways{
            Way{format_.as_many_in.has_value(), "as many rounds as possible"},
            Way{format_.for_time.has_value(), "for time"},
            Way{format_.every.has_value(), "every"},
            Way{format_.on || format_.off, "on and off"},
        };
        std::string_view first;
        for (const Way& way : ways) {
            if (!way.said) continue;
            if (!first.empty()) {
                fail(Code::formats_clash, body(), {std::string(first), std::string(way.words)});
                return false;
            }
            first = way.words;
        }
        if (format_.as_many_in && format_.rounds) {
            fail(Code::formats_clash, format_.rounds->span,
                 {"as many rounds as possible", fmt::format("{} rounds", format_.rounds->high)});
            return false;
        }
        if (format_.cap && !format_.for_time) {
            fail(Code::cap_alone, format_.cap->span, {});
            return false;
        }
        if (format_.on.has_value() != format_.off.has_value()) {
            fail(Code::on_without_off, (format_.on ? format_.on : format_.off)->span, {});
            return false;
        }
        return true;
    }

    // Straight sets finish each movement before the next begins.
    bool fits_kind() {
        const program::Block& block = draft_.block;
        if (block.kind != BlockKind::sets) return true;
        if (format_.rounds) {
            if (is_possible()) {
                fail(Code::rounds_not_here, format_.rounds->span,
                     {sentence_start(block_name(block))});
            }
            return false;
        }
        const std::string_view way = said_way();
        if (way.empty()) return true;
        fail(Code::format_not_here, body(),
             {std::string(way), block_name(block),
              "In straight sets each movement is finished before the next begins."});
        return false;
    }

    // What needs movements that take turns, or "".
    [[nodiscard]] std::string_view said_way() const {
        if (format_.as_many_in) return "as many rounds as possible";
        if (format_.for_time) return "for time";
        if (format_.every) return "every";
        if (format_.on) return "on and off";
        return format_.whole_block ? "whole block" : "";
    }

    bool is_possible() {
        if (format_.rounds->low == 0) {
            fail(Code::amount_zero, format_.rounds->span, {"0 rounds"});
            return false;
        }
        if (format_.rounds->high > most_rounds) {
            fail(Code::too_many, format_.rounds->span,
                 {"rounds in one block", std::to_string(most_rounds)});
            return false;
        }
        return true;
    }

    void apply_rounds() {
        if (!format_.rounds || !is_possible()) return;
        draft_.rounds = format_.rounds->high;
        if (format_.rounds->low < format_.rounds->high) {
            draft_.block.least_rounds = format_.rounds->low;
        }
    }

    void apply_run() {
        program::Block& block = draft_.block;
        if (format_.as_many_in) {
            block.run = RunKind::as_many;
            block.time = format_.as_many_in->quantity;
        } else if (format_.for_time) {
            block.run = RunKind::for_time;
            if (format_.cap) block.time = format_.cap->quantity;
        } else if (format_.every) {
            draft_.every_scope = format_.every->scope;
            block.run = format_.every->scope == syntax::EveryScope::next_movement
                            ? RunKind::every_next
                            : RunKind::every_all;
            block.time = format_.every->time.quantity;
            draft_.every_span = format_.every->time.span;
        } else if (format_.on) {
            block.run = RunKind::intervals;
            block.time = format_.on->quantity;
            block.off = format_.off->quantity;
        }
    }

    const syntax::Format& format_;
    const syntax::Line& line_;
    DraftBlock& draft_;
    DiagnosticSink& sink_;
};

}  // namespace

void apply_format(const syntax::Format& format, const syntax::Line& line, DraftBlock& draft,
                  DiagnosticSink& sink) {
    FormatApplier(format, line, draft, sink).run();
}

}  // namespace stave::check
