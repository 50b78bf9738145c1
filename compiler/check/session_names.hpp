// What each session of a file is called in calendars and as a file.
#pragma once

#include <string>
#include <unordered_map>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"

namespace stave::check {

class SessionNames {
public:
    explicit SessionNames(DiagnosticSink& sink) : sink_(sink) {}

    // Sets the session's slug. Reports a second session of the same identity or the
    // same file name; a tainted session without a title is not compared.
    void name(program::Session& session, bool tainted);

private:
    bool is_first_of(const std::string& identity, const program::Session& session);

    DiagnosticSink& sink_;
    std::unordered_map<std::string, Span> spans_by_identity_;
};

}  // namespace stave::check
