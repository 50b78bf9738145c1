#include "compiler/check/season_advice.hpp"

#include <chrono>
#include <string>
#include <unordered_map>

#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

void check_titles(const program::Program& program, DiagnosticSink& sink) {
    std::unordered_map<std::string, const program::Session*> first;
    for (const program::Session& session : program.sessions) {
        if (session.title.empty()) continue;
        const auto [found, added] = first.emplace(fold_name(session.title), &session);
        // Without numbers the title is what tells them apart, and an error.
        const bool is_error = session.number.empty() && found->second->number.empty();
        if (added || is_error) continue;
        sink.report({Code::title_twice,
                     session.span,
                     {session.title},
                     {},
                     {{found->second->span, "the first one"}}});
    }
}

// By the sun where both have a zone, else by the clock on the wall.
bool is_earlier(const program::When& one, const program::When& other) {
    if (one.instant && other.instant) return *one.instant < *other.instant;
    return std::chrono::sys_days(one.date) + one.clock <
           std::chrono::sys_days(other.date) + other.clock;
}

void check_order(const program::Program& program, DiagnosticSink& sink) {
    const program::When* before = nullptr;
    for (const program::Session& session : program.sessions) {
        if (!session.when) continue;
        const program::When& when = *session.when;
        if (before != nullptr && is_earlier(when, *before)) {
            sink.report({Code::dates_out_of_order,
                         when.span,
                         {},
                         {},
                         {{before->span, "the one above it"}}});
        }
        before = &when;
    }
}

}  // namespace

void advise_on_season(const program::Program& program, DiagnosticSink& sink) {
    check_titles(program, sink);
    check_order(program, sink);
}

}  // namespace stave::check
