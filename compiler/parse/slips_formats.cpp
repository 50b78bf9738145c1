#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "compiler/parse/classify.hpp"
#include "compiler/parse/heads.hpp"
#include "compiler/parse/rules.hpp"
#include "compiler/parse/slips.hpp"

namespace stave::parse {

namespace {

using namespace std::string_view_literals;
using grammar::BodyKind;

// A block's kind goes before the head of a line that is read as a movement.
std::string whole_line(const Scene& scene, std::string_view body) {
    const std::string_view head = scene.slice(scene.head);
    if (scene.kind == BodyKind::format) return fmt::format("{}: {}", head, body);
    return fmt::format("{}: {}", block_head(head), body);
}

// Writes another body, and a head that opens a block.
Fix rewrite(const Scene& scene, std::string_view body) {
    return fix(std::string(body), {scene.head.begin, scene.body.end}, whole_line(scene, body));
}

// Minutes of "EMOM" and "E2MOM".
std::optional<int> interval_of(std::string_view word) {
    constexpr std::string_view end = "MOM";
    if (word.size() <= end.size() || grammar::to_lower(word.front()) != 'e') return std::nullopt;
    const std::string_view digits = word.substr(1, word.size() - end.size() - 1);
    if (!grammar::same_word(word.substr(word.size() - end.size()), end) ||
        !std::ranges::all_of(digits, is_digit)) {
        return std::nullopt;
    }
    return digits.empty() ? 1 : std::max(1, to_number(digits));
}

std::optional<Diagnostic> find_every_minute(const Scene& scene) {
    const auto minutes = read_every_minute(scene.slice(scene.body));
    if (!minutes) return std::nullopt;
    std::vector<Fix> fixes;
    if (minutes->is_certain) fixes = {rewrite(scene, minutes->next), rewrite(scene, minutes->all)};
    const Span said{scene.body.begin, scene.body.begin + static_cast<std::uint32_t>(minutes->size)};
    return make(Code::every_minute, said,
                {std::string(scene.slice(said)), minutes->next, minutes->all}, std::move(fixes));
}

// "8 min AMRAP", "15 min cap": the time stands first.
std::optional<Diagnostic> find_time_before_word(const Scene& scene) {
    const Measured time = measured_at(scene.text, scene.body.begin, scene.body.end);
    if (time.unit.empty()) return std::nullopt;
    const Span behind = trim(scene.text, {time.unit.end, scene.body.end});
    const Span word = token_at(scene.text, behind.begin, behind.end);
    const bool amrap = grammar::same_word(scene.slice(word), "AMRAP");
    const bool cap = grammar::same_word(scene.slice(word), "cap");
    if (!amrap && !cap) return std::nullopt;
    const std::string_view tail = scene.slice({word.end, scene.body.end});
    const std::string_view length = scene.slice(time.whole());
    const std::string mended = amrap
                                   ? fmt::format("as many rounds as possible in {}{}", length, tail)
                                   : fmt::format("for time, cap {}{}", length, tail);
    return make(Code::amrap_order, word, {mended, std::string(scene.slice(word))},
                {rewrite(scene, mended)});
}

// "every minute", "AMRAP in 8 min".
std::optional<Diagnostic> find_bent_time(const Scene& scene) {
    if (scene.code != Code::time_expected) return std::nullopt;
    const std::string word = scene.word();
    if (unit_dimension(word) == "time" && ends_with_words(scene.before(), "every")) {
        return make(scene.code, scene.token, {word},
                    {fix("1", {scene.offset, scene.offset}, "1 ")});
    }
    if (word != "in" && word != "for" && word != "of") return std::nullopt;
    const Span behind = trim(scene.text, {scene.token.end, scene.body.end});
    if (behind.empty() || !is_digit(scene.text[behind.begin])) return std::nullopt;
    return make(scene.code, scene.token, {word},
                {fix("delete " + word, {scene.offset, behind.begin}, "")});
}

// "as many as possible in 8 min", "as many rounds as you can in 8 min".
Diagnostic make_as_many(const Scene& scene) {
    Diagnostic result = make(scene.code, scene.token, {scene.word()});
    const std::string_view rest = scene.rest();
    const std::string_view clause = up_to_comma(rest);
    const std::size_t digit = clause.find_first_of("0123456789");
    // Reps that are counted are no rounds.
    if (clause.contains("rep")) return make(Code::as_many_reps, scene.token);
    if (digit == std::string_view::npos) return result;
    const Measured time =
        measured_at(scene.text, scene.offset + static_cast<std::uint32_t>(digit), scene.body.end);
    const bool last = time.whole().end == scene.offset + clause.size();
    if (time.unit.empty() || !last) return result;
    const std::string words = fmt::format("rounds as possible in {}", scene.slice(time.whole()));
    result.fixes.push_back(fix(words, {scene.offset, time.whole().end}, words));
    return result;
}

// "for 12 min", "in twos".
std::optional<Diagnostic> find_half_said(const Scene& scene) {
    const std::string word = scene.word();
    if (scene.code == Code::as_many) return make_as_many(scene);
    if (scene.code == Code::for_time && is_digit(word.empty() ? ' ' : word.front())) {
        const std::string time(
            scene.slice(measured_at(scene.text, scene.offset, scene.body.end).whole()));
        const std::string cap = "for time, cap " + time;
        const std::string rounds = "as many rounds as possible in " + time;
        constexpr std::uint32_t for_size = 3;
        const Span said{scene.before_end() - for_size,
                        scene.offset + static_cast<std::uint32_t>(time.size())};
        return make(scene.code, scene.token, {word},
                    {fix(cap, said, cap), fix(rounds, said, rounds)});
    }
    if (scene.code == Code::in_pairs && (word == "twos" || word == "2s")) {
        return make(scene.code, scene.token, {word}, {fix("pairs", scene.token, "pairs")});
    }
    return std::nullopt;
}

// "warm-up: Prep(5)", "warm-up: use Prep": a routine stands in the place of its lines.
std::optional<Diagnostic> find_use_in_block(const Scene& scene) {
    const std::string_view said = scene.slice(scene.body);
    const RoutineCall call = read_call(said);
    constexpr std::string_view word = "use ";
    const bool uses = begins_with_words(said, "use") && said.size() > word.size();
    if (call.name.empty() && !uses) return std::nullopt;
    std::string line = fmt::format("{}{}", uses ? "" : word, call.name.empty() ? said : call.name);
    if (!line.contains(':')) line += ':';
    if (!call.values.empty())
        line += fmt::format(" {}{}", is_digit(call.values.front()) ? "reps " : "", call.values);
    return make(Code::routine_call, scene.body,
                {std::string(said), fmt::format("it on a line of its own: {}", line)});
}

// "circuit: Deck legs, 3 rounds".
std::optional<Diagnostic> find_title(const Scene& scene) {
    if (scene.offset != scene.body.begin || !is_letter(scene.text[scene.body.begin]))
        return std::nullopt;
    const std::string_view said = scene.slice(scene.body);
    if (auto use = find_use_in_block(scene)) return use;
    const std::size_t size = std::min(said.find_first_of("0123456789"), up_to_comma(said).size());
    const Span title =
        trim(scene.text, {scene.body.begin, scene.body.begin + static_cast<std::uint32_t>(size)});
    const std::uint32_t comma = comma_size_at(said.substr(size));
    const Span behind = trim(
        scene.text, {scene.body.begin + static_cast<std::uint32_t>(size) + comma, scene.body.end});
    std::string line = fmt::format("{} {}:", scene.slice(scene.head), scene.slice(title));
    if (!behind.empty()) line += fmt::format(" {}", scene.slice(behind));
    return make(Code::title_behind_colon, scene.token, {scene.word(), line},
                {fix(line, {scene.head.begin, scene.body.end}, line),
                 move_to_note(scene, {title.begin, behind.begin}, scene.slice(title))});
}

// "warm-up jog: 5 min" is a movement that begins like a block.
std::optional<Diagnostic> find_amount(const Scene& scene) {
    if (!is_digit(scene.text[scene.body.begin]) || scene.code == Code::word_out_of_place ||
        has_comma(scene.before())) {
        return std::nullopt;
    }
    const std::string head(scene.slice(scene.head));
    const std::string said(scene.slice(scene.body));
    const std::string_view body = said;
    const bool titled = classify(head).opener_size < head.size();
    const bool timed =
        unit_dimension(
            scene.slice(measured_at(scene.text, scene.body.begin, scene.body.end).unit)) == "time";
    const std::string movement = timed ? "easy row" : "swing";
    // "10-8-6, for time": the amount, and behind it how the block runs.
    const std::string_view amount = up_to_comma(body);
    const std::size_t comma = amount.size();
    const Span behind =
        trim(body, {static_cast<std::uint32_t>(comma) + comma_size_at(body.substr(comma)),
                    static_cast<std::uint32_t>(body.size())});
    const std::string_view format = body.substr(behind.begin, behind.size());
    if (!format.empty() && reads(BodyKind::format, format)) {
        const Span place{scene.body.begin, scene.body.begin + static_cast<std::uint32_t>(comma)};
        return make(Code::amount_in_block, place,
                    {std::string(amount), head,
                     fmt::format("{}: {}, and on a movement's line below it {}: {}", head, format,
                                 movement, amount)});
    }
    const std::string below =
        fmt::format("it on a movement's line below this one, as {}: {}", movement, body);
    if (!titled) return make(Code::amount_in_block, scene.body, {said, head, below});
    // A list is hardly ever one movement's.
    std::vector<Fix> fixes;
    if (!body.contains('-') && !body.contains(".."))
        fixes.push_back(fix("do " + head, {scene.head.begin, scene.head.begin}, "do "));
    return make(
        Code::amount_in_block, scene.body,
        {said, head, fmt::format("{}; if this is a movement's name, do {}: {}", below, head, body)},
        std::move(fixes));
}

}  // namespace

// "EMOM 10", "E2MOM 10 min", "every minute on the minute for 10 min".
std::optional<EveryMinute> read_every_minute(std::string_view body) {
    const std::string_view word = body.substr(0, body.find(' '));
    std::string_view phrase;
    for (const std::string_view one : {"every minute on the minute"sv, "every minute for"sv}) {
        if (phrase.empty() && begins_with_words(body, one)) phrase = one;
    }
    const std::optional<int> said_interval = interval_of(word);
    if (!said_interval && phrase.empty()) return std::nullopt;
    EveryMinute result;
    result.size = phrase.empty() ? word.size() : phrase.size();
    const int interval = said_interval.value_or(1);
    const std::string_view rest = body.substr(result.size);
    const std::size_t digit = rest.find_first_of("0123456789");
    const int number = digit == std::string_view::npos ? 0 : to_number(rest.substr(digit));
    const int rounds = rest.contains("round") ? number : number / interval;
    constexpr int usual_rounds = 10;
    result.is_certain = rounds > 0 && !has_comma(rest);
    for (const std::string_view scope : {"next movement"sv, "all movements"sv}) {
        (result.next.empty() ? result.next : result.all) = fmt::format(
            "every {} min {}, {} rounds", interval, scope, rounds > 0 ? rounds : usual_rounds);
    }
    return result;
}

Diagnostic describe_format(const Scene& scene) {
    if (!scene.body.empty()) {
        for (const auto find : {find_every_minute, find_time_before_word, find_bent_time,
                                find_work_and_rest, find_time_behind_every, find_rounds_slip,
                                find_joined_clauses, find_half_said, find_missing_word}) {
            if (auto slip = find(scene)) return *slip;
        }
    }
    const bool named = scene.code != Code::format_expected && scene.code != Code::detail_expected &&
                       scene.code != Code::word_out_of_place;
    if (named) return make(scene.code, scene.token, {scene.word()});
    if (scene.word() == "x") {
        if (auto amount = find_amount(scene)) return *amount;
    }
    if (auto word = find_stray_word(scene)) return *word;
    if (scene.rest().empty() && scene.ends_with_comma()) return describe_detail(scene);
    if (auto amount = find_amount(scene)) return *amount;
    if (auto title = find_title(scene)) return *title;
    if (scene.code == Code::word_out_of_place) return make(scene.code, scene.token, {scene.word()});
    if (scene.comma()) return describe_detail(scene);
    return make(Code::format_expected, scene.token, {scene.word()});
}

// "Legs: rest 60 s", "Finisher: EMOM 10 min": how a block runs, behind a movement.
std::optional<Diagnostic> find_format_in_movement(const Scene& scene) {
    if (scene.body.empty() || classify(scene.slice(scene.head)).opener_size > 0)
        return std::nullopt;
    if (auto every = find_every_minute(scene)) return every;
    if (auto order = find_time_before_word(scene)) return order;
    if (begins_with_words(scene.slice(scene.body), "every")) {
        const std::string block = block_head(scene.slice(scene.head));
        return make(Code::rounds_in_movement, scene.body,
                    {std::string(scene.slice(scene.head)), block + ":"},
                    {fix(block + ":", scene.head, block)});
    }
    std::vector<Node> nodes;
    if (run_body(BodyKind::format, scene.text, scene.body, nodes)) return std::nullopt;
    const std::string head = block_head(scene.slice(scene.head));
    // A rest alone belongs to a movement whose amount is missing.
    const std::string_view body = scene.slice(scene.body);
    const bool rest = begins_with_words(body, "rest") || begins_with_words(body, "about");
    if (rest && head.ends_with(scene.slice(scene.head))) return std::nullopt;
    const bool rounds = begins_with_words(scene.word(), "rounds");
    // "push-up: AMRAP 60 s": as many of one movement.
    const std::string_view amrap = "AMRAP";
    if (begins_with_words(body, amrap) && body.size() > amrap.size()) {
        const std::string most = fmt::format("max in{}", body.substr(amrap.size()));
        if (reads(BodyKind::dose, most)) {
            std::vector<Fix> fixes{fix(head + ":", scene.head, head), fix(most, scene.body, most)};
            // A block of less than some minutes is rare.
            if (most.ends_with('s')) std::ranges::reverse(fixes);
            return make(Code::rounds_in_movement, scene.body,
                        {std::string(scene.slice(scene.head)),
                         fmt::format("{}: {} for one movement, or {}: for a block",
                                     scene.slice(scene.head), most, head)},
                        std::move(fixes));
        }
    }
    return make(Code::rounds_in_movement, rounds ? scene.token : scene.body,
                {std::string(scene.slice(scene.head)), head + ":"},
                {fix(head + ":", scene.head, head)});
}

}  // namespace stave::parse
