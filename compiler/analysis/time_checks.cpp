#include "compiler/analysis/time_checks.hpp"

#include <string>
#include <string_view>
#include <utility>

#include "compiler/wording/wording.hpp"

namespace stave::analysis {

namespace {

constexpr wording::Language english = wording::Language::english;

using program::Block;
using program::RunKind;
using timeline::Entry;
using timeline::EntryKind;

// Blanks that do not break are for paper.
std::string plain(std::string text) {
    constexpr std::string_view no_break = "\u00A0";
    for (std::size_t at = text.find(no_break); at != std::string::npos; at = text.find(no_break)) {
        text.replace(at, no_break.size(), " ");
    }
    return text;
}

class TimeCheck {
public:
    TimeCheck(const program::Session& session, const timeline::Timeline& timeline,
              DiagnosticSink& sink)
        : session_(session), timeline_(timeline), sink_(sink) {}

    bool run() {
        for (std::uint32_t i = 0; i < session_.blocks.size(); ++i) {
            const Block& block = session_.blocks[i];
            switch (block.run) {
                case RunKind::every_next:
                case RunKind::every_all:
                    check_intervals(block, i);
                    break;
                case RunKind::as_many:
                    check_round(block, i);
                    break;
                case RunKind::for_time:
                    check_cap(block, i);
                    break;
                default:
                    break;
            }
        }
        return found_;
    }

private:
    // A rest before the next block is none of the block's time.
    static bool is_inside(const Entry& entry, std::uint32_t block_id) {
        return entry.block_id == block_id && entry.rest_place != timeline::RestPlace::blocks;
    }

    // The first interval that its work fills, but for movements where that is allowed; later
    // ones warn of the same.
    void check_intervals(const Block& block, std::uint32_t block_id) {
        Ratio work;
        for (const Entry& entry : timeline_.entries) {
            if (!is_inside(entry, block_id)) continue;
            const bool ends = entry.kind == EntryKind::rest &&
                              (entry.rest_place == timeline::RestPlace::interval ||
                               entry.rest_place == timeline::RestPlace::movements ||
                               entry.rest_place == timeline::RestPlace::rounds);
            if (ends) {
                work = Ratio(0);
                continue;
            }
            work += entry.length_seconds;
            if (work < in_base_units(block.time)) continue;
            const program::Item& item = block.items[entry.item_id];
            const bool together = block.run == RunKind::every_all && block.items.size() > 1;
            Diagnostic problem =
                together ? full(block, block.span, wording::block_name(english, block), work)
                         : full(block, item.span, wording::name(item), work);
            if (sink_.leaves_out(problem)) continue;
            return report(std::move(problem));
        }
    }

    void check_round(const Block& block, std::uint32_t block_id) {
        Ratio round;
        for (const Entry& entry : timeline_.entries) {
            if (is_inside(entry, block_id) && entry.kind != EntryKind::more_rounds) {
                round += entry.length_seconds;
            }
        }
        // Each side has the time for itself.
        if (block.by_sides) round = round / Ratio(2);
        if (round > in_base_units(block.time)) {
            report(full(block, block.span, "one round of " + wording::block_name(english, block),
                        round));
        }
    }

    static Diagnostic full(const Block& block, Span span, const std::string& name, Ratio work) {
        return {Code::interval_full,
                span,
                {plain(name), plain(wording::duration(english, work)),
                 plain(wording::quantity(english, block.time))},
                {},
                {}};
    }

    void check_cap(const Block& block, std::uint32_t block_id) {
        const Ratio length = timeline_.blocks[block_id].length_seconds;
        if (block.time.value == Ratio(0) || length <= in_base_units(block.time)) return;
        report(
            {Code::cap_short,
             block.span,
             {plain(wording::block_name(english, block)), plain(wording::duration(english, length)),
              plain(wording::quantity(english, block.time))},
             {},
             {}});
    }

    void report(Diagnostic problem) {
        found_ = true;
        sink_.report(std::move(problem));
    }

    const program::Session& session_;
    const timeline::Timeline& timeline_;
    DiagnosticSink& sink_;
    bool found_ = false;
};

}  // namespace

bool check_times(const program::Session& session, const timeline::Timeline& timeline,
                 DiagnosticSink& sink) {
    return TimeCheck(session, timeline, sink).run();
}

}  // namespace stave::analysis
