#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "backends/report/people_report.hpp"
#include "compiler/civil/date_text.hpp"
#include "compiler/wording/wording.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::report {

namespace {

constexpr wording::Language english = wording::Language::english;

using Out = std::back_insert_iterator<std::string>;

std::string show(Ratio value, int places = 2) {
    return to_decimal(value, places);
}

std::string show(const Quantity& quantity) {
    return fmt::format("{} {}", show(quantity.value), plural(quantity.unit));
}

std::string percent(Ratio share) {
    return show(share * Ratio(100)) + " %";
}

// In the unit that the athlete thinks of loads in.
std::string mass(Ratio kilograms, const program::Athlete& athlete) {
    return show(convert({kilograms, Unit::kilogram}, athlete.unit.value_or(Unit::kilogram)));
}

// "max 116.67 kg by Epley from 5 @ 100 kg of 2026-11-02".
std::string max_words(const fit::Max& max, const program::Athlete& athlete) {
    const program::Test& test = max.test;
    std::string text = fmt::format("max of {} {}", max.movement, mass(max.kilograms, athlete));
    if (test.amount.value == Ratio(1)) {
        text += ", the single itself,";
    } else if (max.estimate == program::Estimate::spread) {
        text += fmt::format(", the middle of seven equations ({} to {}),", mass(max.least, athlete),
                            mass(max.greatest, athlete));
    } else {
        text += fmt::format(" by {}", grammar::estimate_word(max.estimate));
    }
    return text + fmt::format(" from {} @ {}{} on {}", show(test.amount.value),
                              test.implements > 1 ? fmt::format("{} x ", test.implements) : "",
                              show(*test.load), civil::date_text(test.date));
}

// What the weight asked for is made of.
std::string target_words(const fit::Working& working, const program::Athlete& athlete) {
    const std::string target = mass(working.target, athlete);
    switch (working.basis) {
        case fit::Basis::written:
            return target + " as written";
        case fit::Basis::share_of_max:
            return fmt::format("{} of it = {}", percent(*working.share), target);
        case fit::Basis::share_of_bodyweight:
            return fmt::format("{} of the body weight, {} = {} {}", percent(*working.share),
                               show(*athlete.weight), target,
                               working.implements == 1 ? "in all, in one weight" : "in each hand");
        case fit::Basis::rep_max:
            return fmt::format("for {} reps at most {} of it by {} = {}", show(*working.reps),
                               percent(*working.share), grammar::estimate_word(*working.shares),
                               target);
        case fit::Basis::reserve:
            return fmt::format("reps and reserve {}: {} of it by {} = {}", show(*working.reps),
                               percent(*working.share), grammar::estimate_word(*working.shares),
                               target);
        case fit::Basis::rising:
            break;
    }
    return fmt::format("{} reps: {} by {} = {}", show(*working.reps), percent(*working.share),
                       grammar::estimate_word(*working.shares), target);
}

std::string made_words(const fit::Working& working) {
    const fit::Made& made = working.made;
    std::string text = show(made.mass);
    if (working.implements > 1) text = fmt::format("{} x {}", working.implements, text);
    if (made.step) return text + fmt::format(", to the nearest {}", show(*made.step));
    if (made.bar) {
        text += fmt::format(" = bar {}", show(*made.bar));
        if (!made.plates.empty()) text += " + 2 x (";
        for (std::size_t i = 0; i < made.plates.size(); ++i)
            text += (i == 0 ? "" : " + ") + show(made.plates[i]);
        if (!made.plates.empty()) text += ")";
    }
    if (made.below) text += fmt::format("; next below {}", show(*made.below));
    if (made.above) text += fmt::format("; next above {}", show(*made.above));
    return text;
}

// "; no barbell", where nothing of theirs makes the load.
std::string lacking_words(const fit::Working& working, const FittedView& view) {
    const auto choice = std::ranges::find_if(view.choices, [&](const fit::Choice& one) {
        return one.block_id == working.block_id && one.item_id == working.item_id;
    });
    const bool is_lacking =
        choice != view.choices.end() && choice->outcome == fit::Outcome::lacking;
    return is_lacking ? "; " + choice->reason : "";
}

void add_working(const fit::Working& working, const FittedView& view, Out out) {
    const program::Block& block = view.session.blocks[working.block_id];
    const std::string_view turn = block.by_rounds ? "round" : "set";
    fmt::format_to(out, "    {}{}  {}, from {} {}\n", block.letter, working.item_id + 1,
                   working.movement, turn, working.set + 1);
    if (working.max) fmt::format_to(out, "        {}\n", max_words(*working.max, view.athlete));
    fmt::format_to(out, "        {} -> {}{}\n", target_words(working, view.athlete),
                   made_words(working), lacking_words(working, view));
}

}  // namespace

std::string loads_text(std::span<const FittedView> views) {
    std::string text;
    const Out out = std::back_inserter(text);
    const program::Session* last = nullptr;
    for (const FittedView& view : views) {
        const std::string title = wording::session_title(english, view.session);
        const bool is_new =
            last == nullptr || last->slug != view.session.slug || last->day != view.session.day;
        if (is_new) {
            fmt::format_to(out, "{}{}", text.empty() ? "" : "\n", title);
            if (view.session.when)
                fmt::format_to(out, ", {}", civil::date_text(view.session.when->date));
            fmt::format_to(out, "\n");
        }
        last = &view.session;
        fmt::format_to(out, "  {}\n", view.athlete.name);
        if (view.workings.empty()) fmt::format_to(out, "    no loads to work out\n");
        for (const fit::Working& working : view.workings)
            add_working(working, view, out);
    }
    return text;
}

}  // namespace stave::report
