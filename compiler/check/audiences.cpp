#include "compiler/check/audiences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>

#include "compiler/names/letters.hpp"
#include "compiler/names/names.hpp"
#include "compiler/names/near_names.hpp"
#include "compiler/program/said_texts.hpp"

namespace stave::check {

namespace {

constexpr std::string_view group_word = "group ";

std::string_view first_word(std::string_view text) {
    const auto* const end =
        std::ranges::find_if(text, [](char c) { return !is_letter_or_digit(c); });
    return text.substr(0, static_cast<std::size_t>(end - text.begin()));
}

class Audiences {
public:
    Audiences(const program::Program& program, DiagnosticSink& sink)
        : program_(program), sink_(sink) {
        for (const program::Athlete& athlete : program.athletes) {
            known_.emplace(athlete.folded_name, athlete.name);
            add_words_of(athlete.name);
        }
        for (const program::Squad& squad : program.squads) {
            known_.emplace(squad.folded_name, squad.name);
            squads_.emplace(squad.folded_name, squad.name);
        }
    }

    void run() {
        for (const program::Session& session : program_.sessions) {
            sink_.enter_session(session.span.begin);
            check_names(session);
            check_heads(session);
            check_texts(session);
        }
        for (const program::Plan& plan : program_.plans) {
            sink_.enter_session(plan.span.begin);
            check_groups(plan);
            check_reasons(plan);
        }
        sink_.enter_session(std::nullopt);
    }

private:
    // "Ana Reis" goes by either word, and in capitals.
    void add_words_of(const std::string& name) {
        const std::size_t last = name.rfind(' ');
        for (const std::string_view part :
             {std::string_view(name),
              std::string_view(name).substr(last == std::string::npos ? 0 : last + 1)}) {
            std::string word(first_word(part));
            called_.emplace(word, name);
            std::ranges::transform(word, word.begin(), [](char c) {
                return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
            });
            called_.emplace(std::move(word), name);
        }
    }

    void check_names(const program::Session& session) {
        for (const std::string& name : session.audience) {
            if (known_.contains(fold_name(name))) continue;
            sink_.report({Code::audience_unknown,
                          session.audience_span,
                          {name, advice(fold_name(name), known_, "")},
                          {},
                          {}});
        }
    }

    void check_groups(const program::Plan& plan) {
        std::unordered_set<std::string> told;
        for (const program::PlanSlot& slot : plan.slots) {
            if (slot.group.empty() || has_squad(slot.group)) continue;
            if (!told.insert(slot.group).second) continue;
            sink_.report({Code::group_unknown,
                          slot.span,
                          {slot.group, advice(fold_name(slot.group), squads_, "group ")},
                          {},
                          {}});
        }
    }

    [[nodiscard]] bool has_squad(const std::string& group) const {
        const std::string folded = fold_name(group);
        return squads_.contains(folded) || squads_.contains(std::string(group_word) + folded);
    }

    // "group Blue: 8" below a movement reads as one.
    void check_heads(const program::Session& session) {
        for (const program::Block& block : session.blocks) {
            for (const program::Item& item : block.items) {
                for (const program::Part& part : item.parts) {
                    const std::string& name = part.folded_name;
                    if (!name.starts_with(group_word) || !has_squad(name.substr(group_word.size())))
                        continue;
                    sink_.report({Code::group_head,
                                  item.span,
                                  {part.name, part.name.substr(group_word.size())},
                                  {},
                                  {}});
                }
            }
        }
    }

    void check_texts(const program::Session& session) {
        check_texts(program::said_texts(session));
        names_somebody(session.place, session.span);
        names_somebody(session.series, session.span);
        for (const program::Block& block : session.blocks) {
            for (const program::Item& item : block.items) {
                for (const program::Substitute& substitute : item.substitutes)
                    check_texts(program::said_texts(substitute.item));
            }
        }
    }

    // Once for each line that texts stand below.
    void check_texts(const std::vector<program::SaidText>& texts) {
        std::optional<std::uint32_t> told;
        for (const program::SaidText& one : texts) {
            if (told != one.span.begin && names_somebody(*one.text, one.span))
                told = one.span.begin;
        }
    }

    void check_reasons(const program::Plan& plan) {
        for (const program::DaysOff& days : plan.days_off)
            names_somebody(days.reason, days.span);
        for (const program::Move& move : plan.moves)
            names_somebody(move.reason, move.span);
    }

    bool names_somebody(std::string_view text, Span span) {
        while (!text.empty()) {
            const std::string_view word = first_word(text);
            const auto found = called_.find(std::string(word));
            if (!word.empty() && found != called_.end()) {
                sink_.report(
                    {Code::name_in_public, span, {std::string(word), found->second}, {}, {}});
                return true;
            }
            text.remove_prefix(std::max<std::size_t>(word.size(), 1));
        }
        return false;
    }

    // "Write Ana", or what is to be done where no known name is a slip away.
    std::string advice(const std::string& folded, const KnownNames& names,
                       std::string_view before) {
        // Nobody would read it any more, and it takes a while.
        if (sink_.has_plenty()) return "Correct the name";
        const auto near = near_.find(folded, names);
        return near ? fmt::format("Write {}{}", before, *near) : "Correct the name";
    }

    const program::Program& program_;
    DiagnosticSink& sink_;
    KnownNames known_;
    KnownNames squads_;
    // Athletes by the first and the last word of their names.
    std::unordered_map<std::string, std::string> called_;
    NearNames near_;
};

}  // namespace

void check_audiences(const program::Program& program, DiagnosticSink& sink) {
    if (!program.athletes.empty()) Audiences(program, sink).run();
}

}  // namespace stave::check
