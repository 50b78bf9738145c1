#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "backends/report/columns.hpp"
#include "backends/report/people_report.hpp"
#include "compiler/civil/date_text.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::report {

namespace {

constexpr wording::Language english = wording::Language::english;

using Rows = std::vector<std::vector<std::string>>;

std::string done_words(const fit::Choice& choice) {
    switch (choice.outcome) {
        case fit::Outcome::as_written:
            return choice.done == choice.written ? "as written" : choice.done;
        case fit::Outcome::substituted:
            return choice.done;
        case fit::Outcome::lacking:
            return choice.done + "?";
        case fit::Outcome::blank:
            break;
    }
    return "a blank";
}

bool is_same_session(const FittedView& left, const FittedView& right) {
    return left.session.slug == right.session.slug && left.session.day == right.session.day;
}

// A row for each item and each different thing that is done, with all who do it.
void add_rows(std::span<const FittedView> people, Rows& rows) {
    for (std::size_t i = 0; i < people.front().choices.size(); ++i) {
        Rows own;
        for (const FittedView& view : people) {
            const fit::Choice& choice = view.choices[i];
            const std::string place = fmt::format(
                "{}{}", view.session.blocks[choice.block_id].letter, choice.item_id + 1);
            const std::vector<std::string> what{place, choice.written, done_words(choice),
                                                choice.reason};
            const auto found = std::ranges::find_if(own, [&](const auto& row) {
                return std::equal(what.begin(), what.end(), row.begin());
            });
            if (found == own.end()) {
                own.push_back(what);
                own.back().push_back(view.athlete.name);
            } else {
                found->back() += ", " + view.athlete.name;
            }
        }
        std::ranges::move(own, std::back_inserter(rows));
    }
}

}  // namespace

std::string who_text(std::span<const FittedView> views) {
    std::string text;
    for (std::size_t first = 0; first < views.size();) {
        std::size_t after = first;
        while (after < views.size() && is_same_session(views[first], views[after]))
            ++after;
        const program::Session& session = views[first].session;
        if (!text.empty()) text += '\n';
        text += wording::session_title(english, session);
        if (session.when) text += ", " + civil::date_text(session.when->date);
        text += '\n';
        Rows rows;
        add_rows(views.subspan(first, after - first), rows);
        text += columns(rows, 2);
        first = after;
    }
    return text;
}

}  // namespace stave::report
