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

// Tenths of a second of "90 s", "1.5 min" or "1 min 30 s"; 0 for anything else, also where
// something stands behind it.
std::int64_t tenths(const Scene& scene, Span time) {
    constexpr std::uint32_t most_digits = 4;
    std::int64_t sum = 0;
    while (!time.empty()) {
        const Measured one = measured_at(scene.text, time.begin, time.end);
        const std::string_view number = scene.slice(one.number);
        const std::string_view unit = scene.slice(one.unit);
        const std::size_t point = std::min(number.find('.'), number.size());
        const std::string_view whole = number.substr(0, point);
        const std::string_view part = number.substr(std::min(point + 1, number.size()));
        const bool reads = !whole.empty() && whole.size() <= most_digits && part.size() <= 1 &&
                           std::ranges::all_of(whole, is_digit) &&
                           std::ranges::all_of(part, is_digit);
        if (!reads || unit_dimension(unit) != "time" || unit.starts_with('h')) return 0;
        constexpr int ten = 10;
        constexpr int minute = 60;
        sum += (std::int64_t{to_number(whole)} * ten + to_number(part)) *
               (unit.starts_with('m') ? minute : 1);
        time = trim(scene.text, {one.whole().end, time.end});
    }
    return sum;
}

// How often "every 2 min" fits into the time behind it; 0 where it does not.
std::int64_t rounds_in(const Scene& scene, Span time) {
    const std::string_view before = scene.before();
    const auto size = static_cast<std::uint32_t>(up_to_comma(before).size());
    Span every = trim(scene.text, {scene.body.begin, scene.body.begin + size});
    constexpr std::string_view word = "every";
    if (!begins_with_words(scene.slice(every), word)) return 0;
    every = trim(scene.text, {every.begin + static_cast<std::uint32_t>(word.size()), every.end});
    for (const std::string_view scope : {"next movement"sv, "all movements"sv}) {
        if (ends_with_words(scene.slice(every), scope))
            every = trim(scene.text,
                         {every.begin, every.end - static_cast<std::uint32_t>(scope.size())});
    }
    const std::int64_t interval = tenths(scene, every);
    const std::int64_t whole = tenths(scene, time);
    return interval > 0 && whole % interval == 0 ? whole / interval : 0;
}

// How long it all takes is said by how often; the time begins there.
Diagnostic every_for(const Scene& scene, std::uint32_t begin) {
    const std::string_view rest = scene.slice({begin, scene.body.end});
    const auto size = static_cast<std::uint32_t>(up_to_comma(rest).size());
    const Span time = trim(scene.text, {begin, begin + size});
    // Where movements take turns their number says how many rounds fit.
    const bool in_turn = scene.slice({scene.body.begin, begin}).contains("next movement");
    const std::int64_t rounds = in_turn ? 0 : rounds_in(scene, time);
    const std::string mended =
        in_turn ? "how often each movement has its turn, as in every 1 min next movement, 2 rounds"
        : rounds > 0 ? fmt::format("{} round{}", rounds, rounds == 1 ? "" : "s")
                     : "how many rounds there are, as in every 2 min, 5 rounds";
    Diagnostic result = make(Code::every_for, time, {std::string(scene.slice(time)), mended});
    const std::optional<Span> comma = scene.comma();
    const bool follows_comma = comma && trim(scene.text, {comma->end, begin}).empty();
    const Span said{follows_comma ? begin : scene.before_end(), time.end};
    const std::string text = (follows_comma ? "" : ", ") + mended;
    if (rounds > 0) result.fixes.push_back(fix(mended, said, text));
    return result;
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
    behind = trim(scene.text, {behind.begin + comma_size_at(scene.slice(behind)), behind.end});
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
    const std::size_t comma = up_to_comma(body).size();
    const Span whole =
        trim(scene.text, {scene.body.begin, scene.body.begin + static_cast<std::uint32_t>(comma)});
    const std::string_view clause = scene.slice(whole);
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
    if (clause.starts_with(word)) {
        const Span count =
            trim(scene.text, {whole.begin + static_cast<std::uint32_t>(word.size()), whole.end});
        const std::string_view digits = scene.slice(count);
        if (!digits.empty() && std::ranges::all_of(digits, is_digit))
            return answer(Code::rounds_number, digits);
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

// "every 1 min, 10 min".
std::optional<Diagnostic> find_time_behind_every(const Scene& scene) {
    const std::optional<Span> comma = scene.comma();
    if (!comma || !begins_with_words(scene.slice(scene.body), "every")) return std::nullopt;
    const std::uint32_t begin = trim(scene.text, {comma->end, scene.body.end}).begin;
    const Measured time = measured_at(scene.text, begin, scene.body.end);
    const bool is_time = begin <= scene.offset &&
                         unit_dimension(scene.slice(time.unit)) == "time" &&
                         tenths(scene, time.whole()) > 0;
    return is_time ? std::optional(every_for(scene, begin)) : std::nullopt;
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
    const std::string_view rest = scene.slice({clause, scene.body.end});
    const std::string next(rest);
    const Measured number = measured_at(scene.text, clause, scene.body.end);
    if (!more.empty()) edits.push_back({{number.number.end, number.number.end}, more});
    Diagnostic result =
        make(Code::comma_missing, scene.token, {clause == scene.offset ? scene.word() : next});
    const bool says_time = more.empty() && unit_dimension(scene.slice(number.unit)) == "time" &&
                           begins_with_words(scene.before(), "every");
    if (says_time) return every_for(scene, clause);
    result.fixes.push_back({", " + next, std::move(edits)});
    return result;
}

}  // namespace stave::parse
