#include "compiler/format/lines.hpp"

#include <fmt/format.h>

#include <array>

#include "compiler/format/values.hpp"
#include "compiler/parse/parse.hpp"

namespace stave::format {

namespace {

using grammar::LineKind;

// The main spelling of a field or an opener; "" for movements.
// NOLINTNEXTLINE(readability-function-size): one case for each word of the vocabulary
std::string_view keyword(LineKind kind) {
    switch (kind) {
#define STAVE_FIELD(id, words, body) \
    case LineKind::id:               \
        return words;
#define STAVE_OPENER(id, word, body) \
    case LineKind::open_##id:        \
        return word;
#include "grammar/keywords.def"
        default:
            return "";
    }
}

bool is_field(LineKind kind) {
    switch (kind) {
#define STAVE_FIELD(id, words, body) case LineKind::id:
#include "grammar/keywords.def"
        return true;
        default:
            return false;
    }
}

std::string joined_names(const syntax::Line& line) {
    if (line.names.empty()) return squeezed(line.title.text);
    std::string text;
    for (const syntax::Word& name : line.names)
        text += (text.empty() ? "" : " + ") + squeezed(name.text);
    return text;
}

// Whether the line is a movement's without the word too, and nothing is said of it.
bool needs_no_do(const std::string& name, const std::string& body) {
    const SourceFile source("", fmt::format("{}: {}", name, body));
    DiagnosticSink sink;
    const parse::ParseTree tree = parse::parse(source, sink);
    return tree.lines.front().kind == LineKind::movement_line && sink.sorted().empty();
}

// One blank behind each of the first `most` commas and none before them.
std::string at_commas(std::string_view text, std::size_t most) {
    std::string result;
    for (; most > 0; --most) {
        const std::size_t comma = text.find(',');
        if (comma == std::string_view::npos) break;
        result += squeezed(text.substr(0, comma)) + ", ";
        text.remove_prefix(comma + 1);
    }
    return result + squeezed(text);
}

std::string minutes(std::chrono::minutes clock) {
    return fmt::format("{:02}:{:02}", clock.count() / 60, clock.count() % 60);
}

// "2.5 kg", "1 round".
std::string growth_amount(const syntax::GrowthAmount& amount) {
    if (amount.count == syntax::GrowthCount::unit) return value(amount.value);
    const Ratio number = amount.value.quantity.value;
    const bool is_one = number == Ratio(1);
    const bool are_sets = amount.count == syntax::GrowthCount::sets;
    return to_decimal(number) + (are_sets ? " set" : " round") + (is_one ? "" : "s");
}

std::string names_text(const std::vector<syntax::Word>& names) {
    std::string text;
    for (const syntax::Word& name : names)
        text += (text.empty() ? "" : ", ") + squeezed(name.text);
    return text;
}

std::string capitalised(std::string_view word) {
    std::string text(word);
    for (char& c : text)
        c = grammar::to_lower(c);
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    }
    return text;
}

std::string kit_thing(const syntax::KitThing& thing) {
    std::string text = thing.count == 1 ? "" : std::to_string(thing.count) + ' ';
    text += squeezed(thing.name);
    for (const syntax::Value& size : thing.sizes)
        text += ' ' + to_decimal(size.quantity.value, 4);
    if (!thing.sizes.empty()) {
        text += fmt::format(" {}", plural(thing.sizes.front().quantity.unit));
    }
    return text;
}

class FormatText {
public:
    std::string operator()(const syntax::Format& format) {
        if (format.as_many_in) {
            add("as many rounds as possible in " + value(*format.as_many_in));
        }
        if (format.every) add_every(*format.every);
        if (format.on) add(value(*format.on) + " on");
        if (format.off) add(value(*format.off) + " off");
        if (format.rounds) add_rounds(*format.rounds);
        if (format.for_time) add("for time");
        if (format.cap) add("cap " + value(*format.cap));
        if (format.whole_block) {
            add(format.whole_block->left_first ? "whole block left then right"
                                               : "whole block right then left");
        }
        if (format.people) add("people " + value(*format.people));
        if (format.group_size) add_group_size(*format.group_size);
        for (const syntax::Rest& pause : format.rests)
            add("rest " + rest(pause));
        return text_;
    }

private:
    void add(const std::string& clause) {
        if (!text_.empty()) text_ += ", ";
        text_ += clause;
    }
    void add_every(const syntax::Every& every) {
        constexpr std::string_view scopes[] = {"", " next movement", " all movements"};
        add(fmt::format("every {}{}", value(every.time),
                        scopes[static_cast<std::size_t>(every.scope)]));
    }
    void add_rounds(const syntax::Rounds& rounds) {
        const std::string_view word = rounds.high == 1 ? "round" : "rounds";
        add(rounds.low == rounds.high ? fmt::format("{} {}", rounds.high, word)
                                      : fmt::format("{} to {} {}", rounds.low, rounds.high, word));
    }
    void add_group_size(const syntax::Value& size) {
        constexpr std::string_view sizes[] = {"in pairs", "in threes", "in fours"};
        add(std::string(sizes[static_cast<std::size_t>(size.quantity.value.numerator() - 2)]));
    }

    std::string text_;
};

struct BodyText {
    const syntax::Line& line;
    std::string_view text;

    // Nothing, or blanks that are to be filled in.
    std::string operator()(std::monostate /*nothing*/) const {
        return squeezed(text.substr(line.body_span.begin, line.body_span.size()));
    }
    std::string operator()(const syntax::Word& word) const {
        switch (line.kind) {
            case LineKind::open_routine:
            case LineKind::open_use:
                return at_commas(word.text, word.text.size());
            case LineKind::allow:
                // The problem's name, and why.
                return at_commas(word.text, 1);
            case LineKind::include:
                // The name of a file may hold any blanks.
                return std::string(word.text);
            default:
                return squeezed(word.text);
        }
    }
    std::string operator()(const syntax::Dose& amount) const { return dose(amount); }
    std::string operator()(const syntax::Format& clauses) const { return FormatText{}(clauses); }
    std::string operator()(const syntax::When& when) const {
        std::string result = when.weekday ? capitalised(when.weekday->text) + ' ' : "";
        result += day({when.date, when.date_span}) + ' ' + minutes(when.clock);
        if (when.time_limit) result += " for " + value(*when.time_limit);
        if (when.zone) result += ", " + std::string(when.zone->text);
        return result;
    }
    std::string operator()(const syntax::Kit& kit) const {
        std::string result;
        for (const syntax::KitThing& thing : kit.things)
            result += (result.empty() ? "" : ", ") + kit_thing(thing);
        return result;
    }
    std::string operator()(const syntax::Fault& fault) const {
        return fmt::format("{} -> {}", squeezed(fault.what.text), squeezed(fault.mend.text));
    }
    std::string operator()(const syntax::Rest& pause) const { return rest(pause); }
    std::string operator()(const syntax::CountedIn& counted) const {
        std::string result;
        for (const auto& [unit, span] : counted.units)
            result += fmt::format("{}{}", result.empty() ? "" : ", ", plural(unit));
        return result;
    }
    std::string operator()(const syntax::SidesLine& sides) const {
        return sides.side ? side(*sides.side) : "both";
    }
    std::string operator()(const syntax::PatternLine& patterns) const {
        constexpr std::string_view words[] = {
#define STAVE_PATTERN(id, word) word,
#include "grammar/keywords.def"
        };
        std::string result;
        for (const grammar::Pattern pattern : patterns.patterns) {
            result += fmt::format("{}{}", result.empty() ? "" : ", ",
                                  words[static_cast<std::size_t>(pattern)]);
        }
        return result;
    }
    std::string operator()(const syntax::SpeedLine& speed) const {
        return value(speed.amount) + ' ' + per(speed.per);
    }
    std::string operator()(const syntax::Names& names) const {
        return names_text(names.names);
    }
    std::string operator()(const syntax::Starts& starts) const {
        return starts.up ? "up" : "down";
    }
    std::string operator()(const syntax::Measure& measure) const {
        return value(measure.value);
    }
    std::string operator()(const syntax::Days& days) const {
        std::string result = day(days.first);
        if (days.clock) result += ' ' + minutes(days.clock->minutes);
        if (days.last) result += " to " + day(*days.last);
        if (days.last_clock) result += ' ' + minutes(days.last_clock->minutes);
        if (days.reason) result += ", " + squeezed(days.reason->text);
        return result;
    }
    std::string operator()(const syntax::Slot& slot) const {
        std::string result;
        if (slot.weekday) result += capitalised(slot.weekday->text) + ' ';
        if (slot.day) result += day(*slot.day) + ' ';
        result += minutes(slot.clock.minutes);
        if (slot.time_limit) result += " for " + value(*slot.time_limit);
        for (const syntax::Word& session : slot.sessions) {
            result += &session == &slot.sessions.front() ? ", " : " then ";
            result += squeezed(session.text);
        }
        if (slot.group) result += ", group " + squeezed(slot.group->text);
        return result;
    }
    std::string operator()(const syntax::Lighter& lighter) const {
        const std::string weeks = lighter.is_every ? fmt::format("every {} weeks", lighter.week)
                                                   : fmt::format("week {}", lighter.week);
        return fmt::format("{} by {}", weeks, value(lighter.by));
    }
    std::string operator()(const syntax::Waves& waves) const {
        return fmt::format("{} weeks, each wave {} {} up", waves.weeks, waves.steps,
                           waves.steps == 1 ? "step" : "steps");
    }
    std::string operator()(const syntax::Growth& growth) const {
        std::string result = growth_amount(growth.step);
        if (growth.reference) result += " of " + squeezed(growth.reference->text);
        result += " each week";
        if (growth.limit) result += ", up to " + growth_amount(*growth.limit);
        return result;
    }
    std::string operator()(const syntax::Did& did) const {
        std::string result = day(did.day);
        if (!did.names.empty()) result += ", " + names_text(did.names);
        return result;
    }
};

}  // namespace

std::string head(const syntax::Line& line, const std::string& body) {
    if (line.kind == LineKind::movement_line) return joined_names(line);
    std::string word(keyword(line.kind));
    if (is_field(line.kind)) return word;
    std::string name = joined_names(line);
    // What will stand in a blank may be anything.
    const bool plain = line.kind == LineKind::open_plain_movement && !line.is_deferred;
    if (plain && needs_no_do(name, body)) return name;
    return name.empty() ? word : word + ' ' + name;
}

std::string body(const syntax::Line& line, std::string_view text) {
    return std::visit(BodyText{line, text}, line.body);
}

}  // namespace stave::format
