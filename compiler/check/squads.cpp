#include <algorithm>
#include <optional>
#include <string>
#include <unordered_map>
#include <utility>

#include "compiler/check/athletes.hpp"
#include "compiler/check/places.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;
using Ids = std::vector<std::uint32_t>;

constexpr std::size_t most_squads = 1000;

// Squads name one another in any order, so that each is resolved when it is first asked for.
class SquadResolver {
public:
    SquadResolver(const std::vector<RecordLines>& records,
                  const std::vector<program::Athlete>& athletes, DiagnosticSink& sink)
        : sink_(sink) {
        for (std::uint32_t i = 0; i < athletes.size(); ++i)
            athletes_.emplace(athletes[i].folded_name, i);
        for (const RecordLines& record : records)
            add(record);
    }

    std::vector<program::Squad> run() {
        for (std::size_t i = 0; i < squads_.size(); ++i)
            static_cast<void>(members_of(i));
        return std::move(squads_);
    }

private:
    enum class State : std::uint8_t { unread, open, read };

    void add(const RecordLines& record) {
        for (const syntax::Line* line : record.lines) {
            if (line->kind != LineKind::allow && !line->is_broken)
                report_not_here(*line, Surroundings::squad, sink_);
        }
        const auto* names = std::get_if<syntax::Names>(&record.head->body);
        if (record.head->is_broken || names == nullptr || squads_.size() == most_squads) return;
        program::Squad squad;
        squad.name = clean_text(record.head->title.text);
        squad.folded_name = fold_name(squad.name);
        squad.span = record.head->head.span;
        const auto [first, added] = ids_.emplace(squad.folded_name, squads_.size());
        const auto person = athletes_.find(squad.folded_name);
        if (!added || person != athletes_.end()) {
            std::vector<Related> first_one;
            if (!added) first_one.push_back({squads_[first->second].span, "the first one"});
            return sink_.report(
                {Code::squad_twice, squad.span, {squad.name}, {}, std::move(first_one)});
        }
        squads_.push_back(std::move(squad));
        names_.push_back(names);
        states_.push_back(State::unread);
    }

    const Ids& members_of(std::size_t id) {
        if (states_[id] != State::unread) return squads_[id].athlete_ids;
        states_[id] = State::open;
        Ids members;
        for (const syntax::Word& name : names_[id]->names)
            add_member(name, members);
        std::ranges::sort(members);
        const auto twice = std::ranges::unique(members);
        members.erase(twice.begin(), twice.end());
        squads_[id].athlete_ids = std::move(members);
        states_[id] = State::read;
        return squads_[id].athlete_ids;
    }

    void add_member(const syntax::Word& name, Ids& members) {
        const std::string folded = fold_name(name.text);
        if (const auto person = athletes_.find(folded); person != athletes_.end()) {
            members.push_back(person->second);
            return;
        }
        const auto squad = ids_.find(folded);
        if (squad == ids_.end()) {
            return sink_.report({Code::member_unknown, name.span, {clean_text(name.text)}, {}, {}});
        }
        if (states_[squad->second] == State::open) {
            return sink_.report(
                {Code::squad_circular, name.span, {squads_[squad->second].name}, {}, {}});
        }
        const Ids& others = members_of(squad->second);
        members.insert(members.end(), others.begin(), others.end());
    }

    DiagnosticSink& sink_;
    std::unordered_map<std::string, std::uint32_t> athletes_;
    std::unordered_map<std::string, std::size_t> ids_;
    std::vector<program::Squad> squads_;
    // Of each squad: its line's names, and whether they have been looked up.
    std::vector<const syntax::Names*> names_;
    std::vector<State> states_;
};

}  // namespace

std::vector<program::Squad> check_squads(const std::vector<RecordLines>& records,
                                         const std::vector<program::Athlete>& athletes,
                                         DiagnosticSink& sink) {
    return SquadResolver(records, athletes, sink).run();
}

}  // namespace stave::check
