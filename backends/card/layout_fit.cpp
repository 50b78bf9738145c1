#include "backends/card/layout_fit.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

namespace stave::card::layout {

namespace {

// Each step makes everything a twentieth smaller, until cues reach the least size.
constexpr std::int32_t step_permille = 950;
constexpr std::int32_t least_permille = 698;
// Type gets smaller, down to a step below this, before any cue is dropped.
constexpr std::int32_t mild_permille = 910;
// Two pages that are not filled take larger type.
constexpr std::int32_t most_permille_of_two = 1200;

// White between blocks and inside rows, and the closing that room is kept for.
struct Spacing {
    double block_gap;
    double row_padding;
    Closing closing;
};
constexpr std::array spacings{Spacing{20, 8.5, Closing::full}, Spacing{16, 7, Closing::full},
                              Spacing{12, 5.5, Closing::full}, Spacing{9, 4.5, Closing::full},
                              Spacing{9, 4.5, Closing::row},   Spacing{8, 4, Closing::row}};

class Fitting {
public:
    Fitting(Context context, const CardText& text)
        : fitted_{std::move(context), {}, {}, 0, Closing::none}, text_(text) {
        style().without_cues.assign(session().blocks.size(), false);
    }

    Fitted run() {
        Style wanted = style();
        if (fits_with_room_to_spare() || session().pages == 1) {
            if (fitted_.excess > 0) fit_pages(wanted);
            return std::move(fitted_);
        }
        wanted.page_count = session().blocks.size() > 1 ? 2 : 1;
        style() = wanted;
        fit_pages(wanted);
        return std::move(fitted_);
    }

private:
    Style& style() { return fitted_.context.style; }
    [[nodiscard]] const Style& style() const { return fitted_.context.style; }
    [[nodiscard]] const program::Session& session() const { return fitted_.context.session; }

    // On one page, with all there is, or larger still where the paper asks for it.
    bool fits_with_room_to_spare() {
        const bool two_pages = session().pages > 1;
        if (grow(style().sheet->most_permille)) return true;
        for (const Spacing& spacing : spacings) {
            if (spacing.closing != Closing::full) break;
            set_spacing(spacing);
            if (attempt(spacing.closing)) return true;
            if (!two_pages) break;
        }
        return false;
    }

    // Sizes from so many thousandths down to the usual ones.
    bool grow(std::int32_t permille) {
        for (; permille > 1000; permille = permille * step_permille / 1000) {
            style().permille = permille;
            set_spacing(spacings.front());
            if (attempt(Closing::full)) return true;
        }
        style().permille = 1000;
        return false;
    }

    // Leaves the excess of the smallest sizes where nothing helps.
    void fit_pages(const Style& wanted) {
        if (!fits_at_its_smallest()) return;
        style() = wanted;
        if (style().page_count > 1 && grow(most_permille_of_two)) return;
        for (const Spacing& spacing : spacings) {
            set_spacing(spacing);
            if (attempt(spacing.closing)) return;
        }
        while (style().permille > mild_permille) {
            shrink();
            if (attempt(Closing::row)) return;
        }
        if (fits(Closing::none)) return;
        while (drop_cues()) {
            if (fits(Closing::none)) return;
        }
        style().log_width = style().sheet->narrow_log_width;
        if (attempt(Closing::none)) return;
        while (style().permille > least_permille) {
            shrink();
            if (attempt(Closing::none)) return;
        }
    }

    void set_spacing(const Spacing& spacing) {
        style().block_gap = style().space(spacing.block_gap);
        style().row_padding = style().space(spacing.row_padding);
    }

    void shrink() {
        style().has_figures = false;
        style().permille = style().permille * step_permille / 1000;
        set_spacing(spacings.back());
    }

    // The last attempt of all, made early: most of what does not fit a page does
    // not fit by far.
    bool fits_at_its_smallest() {
        style().without_cues.assign(style().without_cues.size(), true);
        style().log_width = style().sheet->narrow_log_width;
        style().permille = 1000;
        while (style().permille > least_permille)
            shrink();
        return attempt(Closing::none);
    }

    bool attempt(Closing closing) {
        Parts parts;
        const Context& context = fitted_.context;
        parts.header = lay_out_header(context);
        parts.time_bar = lay_out_time_bar(context);
        if (style().page_count > 1) parts.running_head = lay_out_running_head(context);
        for (std::uint32_t block_id = 0; block_id < session().blocks.size(); ++block_id) {
            parts.blocks.push_back(lay_out_block(context, block_id));
        }
        parts.footer = lay_out_footer(context, text_);
        fitted_.parts = std::move(parts);
        return fits(closing);
    }

    // Breaks the session into its pages; the break that leaves them most alike.
    bool fits(Closing wanted) {
        const std::size_t blocks = session().blocks.size();
        const Closing closing = style().sheet->is_written_on ? wanted : Closing::none;
        fitted_.closing = closing;
        fitted_.pages = {{0, blocks}};
        fitted_.excess = excess(closing);
        if (style().page_count == 1) return fitted_.excess <= 0;
        std::optional<Centipoints> least;
        std::vector<PageBlocks> best;
        for (std::size_t end = 1; end < blocks; ++end) {
            fitted_.pages = {{0, end}, {end, blocks}};
            const Centipoints here = excess(closing);
            if (least && *least <= here) continue;
            least = here;
            best = fitted_.pages;
        }
        fitted_.pages = best;
        fitted_.excess = *least;
        return fitted_.excess <= 0;
    }

    // Of the fullest page; negative where there is room.
    [[nodiscard]] Centipoints excess(Closing closing) const {
        Centipoints most = -fitted_.context.sheet().height;
        for (const PageBlocks& page : fitted_.pages) {
            Centipoints height = page_height(fitted_, page);
            if (closing != Closing::none && page.end == session().blocks.size()) {
                height += style().block_gap + closing_height(style(), closing);
            }
            most = std::max(most, height - page_room(fitted_));
        }
        return most;
    }

    // Takes the cues from the tallest block that has some; false when none has.
    bool drop_cues() {
        std::vector<bool>& without = style().without_cues;
        std::vector<Piece>& pieces = fitted_.parts.blocks;
        std::optional<std::uint32_t> densest;
        for (std::uint32_t block_id = 0; block_id < without.size(); ++block_id) {
            if (without[block_id] || !has_cues(block_id)) continue;
            if (densest && pieces[block_id].height <= pieces[*densest].height) continue;
            densest = block_id;
        }
        if (!densest) return false;
        without[*densest] = true;
        pieces[*densest] = lay_out_block(fitted_.context, *densest);
        return true;
    }

    [[nodiscard]] bool has_cues(std::uint32_t block_id) const {
        const program::Block& block = session().blocks[block_id];
        return !block.cues.empty() ||
               std::ranges::any_of(block.items, [&](const program::Item& item) {
                   return !cue_words(fitted_.context, block_id, item).empty();
               });
    }

    Fitted fitted_;
    const CardText& text_;
};

}  // namespace

Centipoints bar_gap(const Style& style) {
    return style.space(10);
}

Centipoints page_height(const Fitted& fitted, const PageBlocks& page) {
    const Style& style = fitted.context.style;
    const Parts& parts = fitted.parts;
    Centipoints sum = page.first == 0 ? parts.header.height : parts.running_head.height;
    if (page.first == 0 && parts.time_bar.height > 0) {
        sum += bar_gap(style) + parts.time_bar.height;
    }
    for (std::size_t block_id = page.first; block_id < page.end; ++block_id)
        sum += style.block_gap + parts.blocks[block_id].height;
    return sum;
}

Centipoints page_room(const Fitted& fitted) {
    const Grid& grid = fitted.context.grid();
    return grid.bottom - fitted.parts.footer.height - footer_gap - grid.top;
}

Fitted fit(const Context& context, const CardText& text) {
    return Fitting(context, text).run();
}

}  // namespace stave::card::layout
