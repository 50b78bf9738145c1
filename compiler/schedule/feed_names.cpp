#include "compiler/schedule/feed_names.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "compiler/names/names.hpp"
#include "compiler/schedule/volume_checks.hpp"

namespace stave::schedule {

namespace {

struct Owner {
    const program::Plan* plan = nullptr;
    std::string group;

    [[nodiscard]] std::string shown() const {
        return group.empty() ? "the plan " + plan->name : "group " + group + " of " + plan->name;
    }
    [[nodiscard]] Span span() const {
        const auto slot = std::ranges::find(plan->slots, group, &program::PlanSlot::group);
        return group.empty() || slot == plan->slots.end() ? plan->span : slot->span;
    }
};

bool is_same(const Owner& one, const Owner& other) {
    return one.plan == other.plan && fold_name(one.group) == fold_name(other.group);
}

// As the beginning of a sentence.
std::string opening(std::string text) {
    if (text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

}  // namespace

std::string feed_name(const program::Plan& plan, const std::string& group) {
    return group.empty() ? plan.slug : plan.slug + '-' + slug(group);
}

void check_feed_names(const program::Program& program, DiagnosticSink& sink) {
    std::map<std::string, Owner> owners;
    for (const program::Plan& plan : program.plans) {
        for (const std::string& group : groups_of(plan)) {
            const Owner owner{&plan, group};
            const std::string name = feed_name(plan, group);
            const auto [first, added] = owners.emplace(name, owner);
            if (added || is_same(first->second, owner)) continue;
            sink.report({Code::feed_shared,
                         owner.span(),
                         {opening(first->second.shown()), owner.shown(), name + ".ics"},
                         {},
                         {{first->second.span(), "the first one"}}});
        }
    }
}

}  // namespace stave::schedule
