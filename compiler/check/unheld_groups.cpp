#include "compiler/check/unheld_groups.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

constexpr std::string_view group_word = "Group ";

// Whom the days of a session are for, each group once, as it was first typed.
struct Held {
    std::vector<std::string> groups;
    bool is_for_everybody = false;
};

std::vector<Held> find_held(const program::Program& program) {
    std::vector<Held> held(program.sessions.size());
    for (const program::Plan& plan : program.plans) {
        for (const program::PlanSlot& slot : plan.slots) {
            for (const std::uint32_t id : slot.session_ids) {
                Held& one = held[id];
                if (slot.group.empty()) {
                    one.is_for_everybody = true;
                } else if (std::ranges::find(one.groups, slot.group) == one.groups.end()) {
                    one.groups.push_back(slot.group);
                }
            }
        }
    }
    return held;
}

void check_line(const program::Session& session, const program::Substitute& line, const Held& held,
                DiagnosticSink& sink) {
    if (!line.group.starts_with(group_word)) return;
    const std::string group = line.group.substr(group_word.size());
    const bool is_held = std::ranges::any_of(held.groups, [&](const std::string& known) {
        return fold_name(known) == fold_name(group);
    });
    if (is_held) return;
    const std::string numbered = "session " + session.number;
    sink.report({Code::group_not_held,
                 line.item.span,
                 {group, session.title.empty() ? numbered : session.title,
                  fmt::format("{}", fmt::join(held.groups, ", ")),
                  session.number.empty() ? session.title : numbered},
                 {},
                 {}});
}

}  // namespace

void check_unheld_groups(const program::Program& program, DiagnosticSink& sink) {
    if (!std::ranges::all_of(program.plans, &program::Plan::is_sound)) return;
    const std::vector<Held> held = find_held(program);
    for (std::size_t id = 0; id < held.size(); ++id) {
        if (held[id].groups.empty() || held[id].is_for_everybody) continue;
        const program::Session& session = program.sessions[id];
        sink.enter_session(session.span.begin);
        for (const program::Block& block : session.blocks) {
            for (const program::Item& item : block.items) {
                for (const program::Substitute& line : item.substitutes)
                    check_line(session, line, held[id], sink);
            }
        }
    }
    sink.enter_session(std::nullopt);
}

}  // namespace stave::check
