#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compiler/parse/classify.hpp"
#include "compiler/parse/slips.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;

// What counts the rounds in their place: "3 times", "3 runds".
bool counts_otherwise(std::string_view word) {
    constexpr std::array others{"times"sv, "x"sv,   "sets"sv,    "set"sv,
                                "laps"sv,  "rds"sv, "circuits"sv};
    const auto same = [word](std::string_view other) { return grammar::same_word(word, other); };
    return std::ranges::any_of(others, same) || near_word(word, std::array{"rounds"sv}) == "rounds";
}

// "4" of "3-4 rounds", or "".
std::string_view upper_count(std::string_view behind) {
    for (const std::string_view dash : {"-"sv, "\u2013"sv}) {
        if (!behind.starts_with(dash)) continue;
        behind.remove_prefix(dash.size());
        behind.remove_prefix(std::min(behind.find_first_not_of(' '), behind.size()));
        return behind.substr(0, behind.find_first_not_of("0123456789"));
    }
    return "";
}

// How often "every 2 min" fits into the time behind it; 0 where it does not.
int rounds_in(const Scene& scene, const Measured& time) {
    const Span every = trim(scene.text, {scene.body.begin, scene.before_end()});
    constexpr std::string_view word = "every ";
    if (!scene.slice(every).starts_with(word) || time.unit.empty()) return 0;
    const Measured interval =
        measured_at(scene.text, every.begin + static_cast<std::uint32_t>(word.size()), every.end);
    const auto seconds = [&](const Measured& one) {
        const bool minutes = scene.slice(one.unit).starts_with('m');
        return to_number(scene.slice(one.number)) * (minutes ? 60 : 1);
    };
    const bool both_times = unit_dimension(scene.slice(time.unit)) == "time" &&
                            unit_dimension(scene.slice(interval.unit)) == "time";
    if (!both_times || seconds(interval) == 0) return 0;
    return seconds(time) % seconds(interval) == 0 ? seconds(time) / seconds(interval) : 0;
}

}  // namespace

std::string read_on_off(std::string_view body) {
    std::array<std::string, 3> numbers;
    std::size_t i = 0;
    std::size_t part = 0;
    constexpr std::array joints{"/"sv, "xX"sv, ""sv};
    for (; part < numbers.size(); ++part) {
        while (i < body.size() && body[i] == ' ')
            ++i;
        while (i < body.size() && is_digit(body[i]))
            numbers[part] += body[i++];
        while (i < body.size() && body[i] == ' ')
            ++i;
        constexpr std::size_t most_digits = 3;
        if (numbers[part].empty() || numbers[part].size() > most_digits) return "";
        if (i == body.size() || !joints[part].contains(body[i])) break;
        ++i;
    }
    const bool whole = i == body.size() && part == numbers.size() - 1;
    return whole ? fmt::format("{} s on, {} s off, {} rounds", numbers[0], numbers[1], numbers[2])
                 : "";
}

// "40 s work, 20 s rest".
std::optional<Diagnostic> find_work_and_rest(const Scene& scene) {
    if (const std::string format = read_on_off(scene.slice(scene.body)); !format.empty()) {
        return make(Code::on_off_words, scene.body, {std::string(scene.slice(scene.body)), format},
                    {fix(format, scene.body, format)});
    }
    const Measured work = measured_at(scene.text, scene.body.begin, scene.body.end);
    const Span word = trim(scene.text, {work.whole().end, scene.body.end});
    if (work.unit.empty() || !begins_with_words(scene.slice(word), "work")) return std::nullopt;
    constexpr std::uint32_t work_size = 4;
    Span behind = trim(scene.text, {word.begin + work_size, scene.body.end});
    if (scene.slice(behind).starts_with(',')) {
        behind = trim(scene.text, {behind.begin + 1, behind.end});
    }
    const Measured rest = measured_at(scene.text, behind.begin, behind.end);
    const std::string_view last = scene.slice(trim(scene.text, {rest.whole().end, scene.body.end}));
    const bool pair =
        !rest.unit.empty() && (grammar::same_word(last, "rest") || grammar::same_word(last, "off"));
    const std::string mended = fmt::format("{} on, {} off", scene.slice(work.whole()),
                                           pair ? scene.slice(rest.whole()) : "20 s");
    std::vector<Fix> fixes;
    if (pair) fixes.push_back(fix(mended, scene.body, mended));
    return make(Code::on_off_words, scene.body, {std::string(scene.slice(scene.body)), mended},
                std::move(fixes));
}

// "3 times", "3 sets", "x3", "five rounds", "3-4 rounds", "3 s rounds".
std::optional<Diagnostic> find_rounds_slip(const Scene& scene) {
    const std::string_view body = scene.slice(scene.body);
    const std::string_view clause = body.substr(0, body.find(','));
    const Span whole =
        trim(scene.text,
             {scene.body.begin, scene.body.begin + static_cast<std::uint32_t>(clause.size())});
    const bool straight = classify(scene.slice(scene.head)).kind == grammar::LineKind::open_sets;
    const auto answer = [&](Code code, std::string_view count) {
        if (straight)
            return make(Code::block_sets, whole, {std::string(clause), std::string(count)});
        const std::string mended = fmt::format("{} rounds", count);
        return make(code, whole,
                    {std::string(clause), std::string(scene.slice(scene.head)), mended},
                    {fix(mended, whole, mended)});
    };
    constexpr std::string_view word = "rounds";
    const bool names_rounds = ends_with_words(clause, word) || ends_with_words(clause, "round");
    const std::string_view spelled = number_word(clause.substr(0, clause.find(' ')));
    if (names_rounds && !spelled.empty()) return answer(Code::rounds_number, spelled);
    if (begins_with_words(clause, word) && is_digit(clause.back())) {
        return answer(Code::rounds_number, clause.substr(word.size() + 1));
    }
    if (clause.size() > 1 && grammar::to_lower(clause[0]) == 'x' && is_digit(clause[1])) {
        return answer(Code::rounds_word, clause.substr(1));
    }
    const Span number = number_at(scene.text, scene.body.begin, scene.body.end);
    if (number.empty()) return std::nullopt;
    const std::string_view count = scene.slice(number);
    const std::string_view behind =
        scene.slice(trim(scene.text, {number.end, std::max(number.end, whole.end)}));
    const bool alone = behind.empty() && scene.code != Code::word_out_of_place;
    if (alone || (!names_rounds && counts_otherwise(behind)))
        return answer(Code::rounds_word, count);
    if (!names_rounds || begins_with_words(behind, word) || begins_with_words(behind, "round")) {
        return std::nullopt;
    }
    const std::string_view upper = upper_count(behind);
    if (!upper.empty()) return answer(Code::rounds_number, fmt::format("{} to {}", count, upper));
    return make(Code::rounds_number, whole, {std::string(clause)});
}

// "every 2 min for 5 rounds", "3 rounds rest 60 s", "every 90 s x 8".
std::optional<Diagnostic> find_joined_clauses(const Scene& scene) {
    const bool ended = scene.code == Code::word_out_of_place && scene.offset > scene.body.begin;
    if (!ended) return std::nullopt;
    std::uint32_t clause = scene.offset;
    std::string more;
    for (const std::string_view word : {"for"sv, "x"sv, "and"sv, "with"sv}) {
        if (!begins_with_words(scene.rest(), word) || begins_with_words(scene.rest(), "for time"))
            continue;
        const auto size = static_cast<std::uint32_t>(word.size());
        clause = trim(scene.text, {scene.offset + size, scene.body.end}).begin;
        if (word == "x") more = " rounds";
    }
    if (!opens_clause(scene.slice({clause, scene.body.end}))) return std::nullopt;
    std::vector<Edit> edits{{{scene.before_end(), clause}, ", "}};
    const Measured number = measured_at(scene.text, clause, scene.body.end);
    const int rounds = rounds_in(scene, number);
    if (!more.empty()) edits.push_back({{number.number.end, number.number.end}, more});
    if (rounds > 0) edits.push_back({number.whole(), fmt::format("{} rounds", rounds)});
    const std::string next(scene.slice({clause, scene.body.end}));
    return make(Code::comma_missing, scene.token, {clause == scene.offset ? scene.word() : next},
                {{", " + next, std::move(edits)}});
}

}  // namespace stave::parse
