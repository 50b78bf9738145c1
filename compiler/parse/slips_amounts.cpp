#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compiler/parse/classify.hpp"
#include "compiler/parse/slips.hpp"
#include "grammar/lexical.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;

// The mend of a least amount: `amount` is the number with its unit.
Diagnostic at_least(const Scene& scene, Span said, Span amount) {
    const std::string mended = fmt::format("{} or more", scene.slice(amount));
    return make(Code::at_least, said, {std::string(scene.slice(said)), mended},
                {fix(mended, said, mended)});
}

// "at least 5".
std::optional<Diagnostic> find_least_words(const Scene& scene) {
    const bool amount_due = scene.offset == scene.body.begin ||
                            scene.code == Code::set_amount_missing ||
                            scene.code == Code::next_value_missing;
    if (!amount_due) return std::nullopt;
    constexpr std::array words{"at least"sv,      "minimum"sv, "min"sv,    "no fewer than"sv,
                               "not less than"sv, ">="sv,      "\u2265"sv, ">"sv};
    for (const std::string_view word : words) {
        const bool found = is_letter(word.front()) ? begins_with_words(scene.rest(), word)
                                                   : scene.rest().starts_with(word);
        if (!found) continue;
        const auto size = static_cast<std::uint32_t>(word.size());
        const Span behind = trim(scene.text, {scene.offset + size, scene.body.end});
        const Measured amount = measured_at(scene.text, behind.begin, behind.end);
        if (amount.number.empty()) return std::nullopt;
        return at_least(scene, {scene.offset, amount.whole().end}, amount.whole());
    }
    return std::nullopt;
}

// "5-5-5" as "5 then 5 then 5": more is said of the last alone.
std::string last_apart(std::string_view list) {
    std::string apart;
    for (const char c : list)
        apart += c == '-' ? std::string(" then ") : std::string(1, c);
    return apart;
}

// "5+", "3 x 5+ @ 20 kg", "5+ reps": a + with no movement's amount behind it.
std::optional<Diagnostic> find_trailing_plus(const Scene& scene) {
    if (scene.slice(scene.head).contains('+') || scene.before().contains('@')) return std::nullopt;
    std::uint32_t behind = scene.offset;
    std::uint32_t sign = scene.offset;
    if (scene.code == Code::joined_amount_missing) {
        sign = scene.before_end() - 1;
    } else if (scene.rest().starts_with('+')) {
        behind = trim(scene.text, {scene.offset + 1, scene.body.end}).begin;
    } else {
        return std::nullopt;
    }
    const Span left = trim(scene.text, {scene.body.begin, sign});
    const std::uint32_t first = number_begin(scene.text, left.begin, left.end);
    if (first == left.end) return std::nullopt;
    const std::string_view rest = scene.slice({behind, scene.body.end});
    const Span figures = figures_before(scene.text, left.begin, left.end);
    if (figures.begin == left.begin && scene.slice(figures).contains('-')) {
        const Span list{figures.begin, sign + 1};
        const std::string mended = fmt::format("{} or more", last_apart(scene.slice(figures)));
        return make(Code::at_least, list, {std::string(scene.slice(list)), mended},
                    {fix(mended, list, mended)});
    }
    const Span said{first, sign + 1};
    if (rest.empty() || rest.front() == '@' || comma_size_at(rest) > 0 ||
        begins_with_words(rest, "each")) {
        return at_least(scene, said, {first, left.end});
    }
    const Span unit = token_at(scene.text, behind, scene.body.end);
    if (unit_dimension(scene.slice(unit)).empty()) return std::nullopt;
    const std::string mended =
        fmt::format("{} {} or more", scene.slice({first, left.end}), scene.slice(unit));
    return make(Code::at_least, said, {std::string(scene.slice(said)), mended},
                {fix(mended, cover(said, unit), mended)});
}

// "+5", "3 x +5": a sum of nothing.
std::optional<Diagnostic> find_leading_plus(const Scene& scene) {
    const std::string_view before = scene.before();
    const bool amount_due = before.empty() || grammar::to_lower(before.back()) == 'x';
    const bool plus = amount_due && scene.rest().starts_with('+');
    const Span number = number_at(scene.text, scene.offset + (plus ? 1U : 0U), scene.body.end);
    if (!plus || number.empty()) return std::nullopt;
    const Span said{scene.offset, number.end};
    return make(Code::plus_before, said,
                {std::string(scene.slice(said)), std::string(scene.slice(number))});
}

// "8 to max".
std::optional<Diagnostic> find_range_to_max(const Scene& scene) {
    if (scene.code != Code::range_end_missing || !begins_with_words(scene.rest(), "max"))
        return std::nullopt;
    constexpr std::uint32_t to_size = 2;
    const Span left = trim(scene.text, {scene.body.begin, scene.before_end() - to_size});
    const std::uint32_t first = number_begin(scene.text, left.begin, left.end);
    if (first == left.end) return std::nullopt;
    return at_least(scene, {first, scene.token.end}, {first, left.end});
}

// Where one word is missing, and with it the line is whole.
struct MissingWord {
    Code code;
    std::string_view word;
    // Whether a number follows, where one must.
    bool before_number;
};
constexpr std::array missing_words{
    MissingWord{Code::best_of, "of ", true},    MissingWord{Code::build_to, "to ", true},
    MissingWord{Code::waves_of, "of ", true},   MissingWord{Code::group_rest, "rest ", true},
    MissingWord{Code::moved_to, "to ", true},   MissingWord{Code::lower_only, " only", false},
    MissingWord{Code::group_close, ")", false},
};

// The smaller unit behind the larger one: "1 min 30".
std::string_view smaller_unit(std::string_view larger) {
    const std::string_view word = larger.substr(larger.find_last_of("0123456789. ") + 1);
    if (begins_with_words(word, "min") || word.starts_with("minute")) return " s";
    if (begins_with_words(word, "st") || begins_with_words(word, "stone")) return " lb";
    if (begins_with_words(word, "h") || word.starts_with('h')) return " min";
    return " inch";
}

// A side, or what a rest lies between, a slip away.
std::optional<Diagnostic> find_near_word(const Scene& scene) {
    constexpr std::array places{"rounds"sv, "sets"sv,     "movements"sv,
                                "sides"sv,  "stations"sv, "blocks"sv};
    std::string_view near;
    if (scene.code == Code::side_expected && scene.rest().empty()) {
        const Span end{scene.before_end(), scene.before_end()};
        return make(scene.code, scene.token, {scene.word()},
                    {fix("each side", end, " side"), fix("each leg", end, " leg"),
                     fix("each arm", end, " arm")});
    }
    if (scene.code == Code::side_expected) {
        near = near_word(scene.word(), grammar::side_words);
    } else if (scene.code == Code::between_what) {
        near = begins_with_words(scene.word(), "exercises") ? places[2]
                                                            : near_word(scene.word(), places);
    }
    if (near.empty()) return std::nullopt;
    const std::string mended(near);
    return make(scene.code, scene.token, {scene.word()}, {fix(mended, scene.token, mended)});
}

// Where the hands change once: half of the amount, or the turn of a way there and back.
std::string usual_change(const Scene& scene) {
    const Measured amount = measured_at(scene.text, scene.body.begin, scene.body.end);
    const int whole = to_number(scene.slice(amount.number));
    const bool returns = scene.before().contains("there and back");
    if (whole < 2 || (!returns && whole % 2 != 0)) return "swap hands every 10 m";
    return fmt::format("swap hands every {} {}", returns ? whole : whole / 2,
                       amount.unit.empty() ? "reps" : scene.slice(amount.unit));
}

// "swap every 10 m", "swap hands at 20 m": the figure stays what it is.
Diagnostic describe_swap(const Scene& scene) {
    const std::uint32_t begin = scene.detail_begin();
    const std::string_view rest = scene.slice({begin, scene.body.end});
    const std::string_view clause = up_to_comma(rest);
    const std::size_t digit = clause.find_first_of("0123456789");
    Diagnostic result = make(scene.code, scene.token, {usual_change(scene)});
    // "every other 20 m" may be each 20 m or each 40 m.
    if (digit == std::string_view::npos || clause.contains("other")) return result;
    const Measured after =
        measured_at(scene.text, begin + static_cast<std::uint32_t>(digit), scene.body.end);
    const std::string mended = fmt::format("swap hands every {}", scene.slice(after.whole()));
    const Span said = trim(scene.text, {begin, begin + static_cast<std::uint32_t>(clause.size())});
    result.arguments.front() = mended;
    if (after.whole().end == said.end && !after.unit.empty())
        result.fixes.push_back(fix(mended, said, mended));
    return result;
}

// The one number behind a bracket that is not closed, as in "3 x (5"; "" for several.
std::string open_bracket(const Scene& scene) {
    const std::size_t bracket = scene.before().rfind('(');
    if (scene.code != Code::group_close || bracket == std::string_view::npos) return "";
    const std::string_view inside = scene.before().substr(bracket + 1);
    return std::ranges::all_of(inside, is_digit) ? std::string(inside) : "";
}

}  // namespace

std::optional<Diagnostic> find_least_amount(const Scene& scene) {
    if (auto words = find_least_words(scene)) return words;
    if (auto leading = find_leading_plus(scene)) return leading;
    if (auto plus = find_trailing_plus(scene)) return plus;
    return find_range_to_max(scene);
}

std::optional<Diagnostic> find_missing_word(const Scene& scene) {
    if (auto near = find_near_word(scene)) return near;
    const Span end{scene.before_end(), scene.before_end()};
    if (scene.code == Code::unit_expected) {
        const std::uint32_t first = number_begin(scene.text, scene.body.begin, end.end);
        const std::string_view larger = scene.slice(trim(scene.text, {scene.body.begin, first}));
        const std::string unit(smaller_unit(larger));
        const Span number{first, end.end};
        const std::string said(scene.slice(number));
        constexpr int most = 59;
        const bool timed = unit_dimension(unit.substr(1)) == "time";
        // "1 h 90" may be 90 minutes, or a slip.
        if (timed && to_number(said) > most)
            return make(scene.code, number,
                        {said, fmt::format("{}{} alone, or less than 60", said, unit)});
        const std::string mended = fmt::format("{} {}{}", larger, said, unit);
        return make(scene.code, number, {said, mended}, {fix(unit.substr(1), end, unit)});
    }
    if (scene.code == Code::or_more && !scene.rest().empty() && is_digit(scene.rest().front())) {
        constexpr std::uint32_t or_size = 2;
        return make(scene.code, scene.token, {scene.word()},
                    {fix("to", {end.end - or_size, end.end}, "to")});
    }
    if (scene.code == Code::swap_every) return describe_swap(scene);
    const auto* const missing = std::ranges::find(missing_words, scene.code, &MissingWord::code);
    if (missing == missing_words.end()) return std::nullopt;
    std::vector<Fix> fixes;
    std::string mend = ") where the set ends.";
    if (const std::string alone = open_bracket(scene); !alone.empty()) {
        const std::string_view sets = scene.before().substr(0, scene.before().rfind('('));
        mend = fmt::format("{}{}, or all that the set holds: {}({} + {}, rest 15 s)", sets, alone,
                           sets, alone, alone);
        return make(scene.code, scene.token, {scene.word(), mend});
    }
    const std::string word(missing->word);
    const bool number = !scene.rest().empty() && is_digit(scene.rest().front());
    const bool ends =
        scene.rest().empty() || comma_size_at(scene.rest()) > 0 || scene.rest().front() == '@';
    if (!missing->before_number && ends) {
        fixes.push_back(fix(word, end, word));
    } else if (missing->before_number && number) {
        fixes.push_back(fix(word, {scene.offset, scene.offset}, word));
    }
    return make(scene.code, scene.token, {scene.word(), mend}, std::move(fixes));
}

std::optional<Diagnostic> find_sets_in_words(const Scene& scene) {
    const std::string word = scene.word();
    const bool rounds_of =
        (grammar::same_word(word, "rounds") || grammar::same_word(word, "round")) &&
        begins_with_words(scene.slice(trim(scene.text, {scene.token.end, scene.body.end})), "of");
    const bool joint =
        word == "*" || grammar::same_word(word, "times") || grammar::same_word(word, "by");
    if (!joint && !rounds_of && !grammar::same_word(word, "sets") &&
        !grammar::same_word(word, "set"))
        return std::nullopt;
    const std::uint32_t first = number_begin(scene.text, scene.body.begin, scene.before_end());
    if (first == scene.before_end() || (joint && first != scene.body.begin)) return std::nullopt;
    Span behind = trim(scene.text, {scene.token.end, scene.body.end});
    for (const std::string_view filler : {"of "sv, "x "sv}) {
        if (scene.slice(behind).starts_with(filler)) {
            behind = trim(scene.text,
                          {behind.begin + static_cast<std::uint32_t>(filler.size()), behind.end});
        }
    }
    if (behind.empty()) return make(Code::set_amount_missing, scene.token);
    const Span gap{scene.before_end(), behind.begin};
    const std::string written =
        fmt::format("{} x {}", scene.slice({first, scene.before_end()}),
                    scene.slice(token_at(scene.text, behind.begin, behind.end)));
    // Rounds may be those of a block that is not said.
    if (rounds_of) return make(Code::sets_of, scene.token, {written});
    return make(Code::sets_of, scene.token, {written}, {fix(written, gap, " x ")});
}

}  // namespace stave::parse
