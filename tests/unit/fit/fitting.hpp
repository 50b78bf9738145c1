// A file through the whole front of the compiler, and its first session as its athletes do it.
#pragma once

#include <gtest/gtest.h>

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "compiler/analysis/issues.hpp"
#include "compiler/program/dump.hpp"
#include "tests/unit/compose/composing.hpp"

namespace stave::testing {

// What one athlete does; `problems` are those of their fitting alone.
struct Person {
    program::Session session;
    std::vector<fit::Working> workings;
    std::vector<fit::Choice> choices;
    std::string problems;
};

inline constexpr const char* blank_name = "____";

// Of a file that cannot be fitted to everybody, which leaves nothing else to look at.
[[nodiscard]] inline std::string errors_of(const analysis::Snapshot& snapshot) {
    std::string names;
    for (const Diagnostic& one : snapshot.sink.sorted()) {
        const auto& entry = catalogue_entry(one.code);
        if (entry.severity == Severity::error)
            names += (names.empty() ? "" : " ") + std::string(entry.name);
    }
    return names;
}

[[nodiscard]] inline Person fitted(const analysis::Snapshot& snapshot, std::uint32_t athlete_id = 0,
                                   std::size_t issue_id = 0) {
    if (snapshot.sink.has_errors()) return {{}, {}, {}, errors_of(snapshot)};
    if (issue_id >= analysis::issue_count(snapshot) || athlete_id >= snapshot.outfits.size()) {
        ADD_FAILURE() << tests::problem_lines(snapshot);
        return {};
    }
    DiagnosticSink sink;
    const analysis::Issue issue =
        analysis::fitted_issue(analysis::issue(snapshot, issue_id), athlete_id, blank_name, sink);
    Person person{issue.session(), issue.fitted()->workings, issue.fitted()->choices, ""};
    for (const Diagnostic& one : sink.sorted())
        person.problems +=
            (person.problems.empty() ? "" : " ") + std::string(catalogue_entry(one.code).name);
    return person;
}

[[nodiscard]] inline Person fitted(std::string text, std::uint32_t athlete_id = 0) {
    return fitted(tests::analyse_with_library(std::move(text)), athlete_id);
}

// A session of one block of sets on 2026-12-01 with these movement lines, for all athletes.
[[nodiscard]] inline std::string session(const std::string& lines) {
    return "session 1: Slipway\nwhen: 2026-12-01 18:00\nsets:\n" + lines;
}

// "2 x 20 kg"; "85 kg, 90 kg" where sets differ; ranges as "60-65 kg".
[[nodiscard]] inline std::string loads_of(const program::Item& item) {
    std::string text;
    for (const program::Load& load : item.loads) {
        for (const program::LoadTerm& term : load.terms) {
            text += text.empty() ? "" : ", ";
            if (term.implements > 1) text += std::to_string(term.implements) + " x ";
            text += to_decimal(term.low.value);
            if (term.low != term.high) text += "-" + to_decimal(term.high.value);
            text += " " + std::string(plural(term.low.unit));
        }
    }
    return text;
}

[[nodiscard]] inline const program::Item& item(const Person& person, std::size_t id = 0) {
    return person.session.blocks.at(0).items.at(id);
}

[[nodiscard]] inline std::string loads_of(const Person& person, std::size_t id = 0) {
    return person.session.blocks.empty() ? "nothing" : loads_of(item(person, id));
}

// "25+5+2.5 | 25+10", of each load that is made with a bar.
[[nodiscard]] inline std::string plates_of(const Person& person, std::size_t id = 0) {
    const auto* plates = item(person, id).find<program::Plates>();
    if (plates == nullptr) return "none";
    std::string text;
    for (const auto& load : plates->loads) {
        text += text.empty() ? "" : " | ";
        for (std::size_t i = 0; i < load.side.size(); ++i)
            text += (i > 0 ? "+" : "") + to_decimal(load.side[i].value);
    }
    return text;
}

[[nodiscard]] inline std::string name_of(const Person& person, std::size_t id = 0) {
    return person.session.blocks.empty() ? "nothing" : item(person, id).parts.front().name;
}

}  // namespace stave::testing
