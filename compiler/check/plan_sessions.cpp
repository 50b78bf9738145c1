#include "compiler/check/plan_sessions.hpp"

#include <algorithm>
#include <string_view>

#include "compiler/names/edit_distance.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

constexpr std::string_view session_word = "session ";

}  // namespace

PlanSessions::PlanSessions(const std::vector<program::Session>& sessions) : sessions_(sessions) {
    for (std::uint32_t id = 0; id < sessions.size(); ++id) {
        const program::Session& session = sessions[id];
        if (!session.number.empty()) add(std::string(session_word) + session.number, id);
        if (!session.title.empty()) add(session.title, id);
    }
}

void PlanSessions::add(const std::string& name, std::uint32_t session_id) {
    Named& named = by_name_[fold_name(name)];
    named.shown = name;
    named.session_ids.push_back(session_id);
}

std::optional<std::uint32_t> PlanSessions::find(const syntax::Word& name,
                                                DiagnosticSink& sink) const {
    const std::string folded = fold_name(name.text);
    auto found = by_name_.find(folded);
    if (found == by_name_.end()) found = by_name_.find(std::string(session_word) + folded);
    if (found == by_name_.end()) {
        sink.report(
            {Code::session_unknown, name.span, {clean_text(name.text), advice(folded)}, {}, {}});
        return std::nullopt;
    }
    const std::vector<std::uint32_t>& ids = found->second.session_ids;
    if (ids.size() > 1) {
        const std::string& number = sessions_[ids.front()].number;
        sink.report({Code::session_which, name.span, {clean_text(name.text), number}, {}, {}});
        return std::nullopt;
    }
    return ids.front();
}

std::string PlanSessions::advice(const std::string& folded) const {
    constexpr std::size_t most_slips = 2;
    const Named* nearest = nullptr;
    std::size_t least = most_slips + 1;
    for (const auto& [name, named] : by_name_) {
        const std::size_t distance = edit_distance(folded, name, most_slips);
        // Two that are equally near are told apart by their names, as maps have no order.
        const bool is_nearer = distance < least || (distance == least && nearest != nullptr &&
                                                    named.shown < nearest->shown);
        if (distance > most_slips || !is_nearer) continue;
        nearest = &named;
        least = distance;
    }
    if (nearest != nullptr) return "Write " + nearest->shown + ".";
    return "Write the number or the title of a session of this file; one of an included file "
           "comes in with based on:";
}

}  // namespace stave::check
