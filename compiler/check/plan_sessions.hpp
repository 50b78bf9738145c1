// The sessions that a plan names, by number or by title.
#pragma once

#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::check {

class PlanSessions {
public:
    // `sessions` must outlive it.
    explicit PlanSessions(const std::vector<program::Session>& sessions);

    // "session 9", "9" or a title; nothing after a problem has been reported.
    [[nodiscard]] std::optional<std::uint32_t> find(const syntax::Word& name,
                                                    DiagnosticSink& sink) const;

private:
    struct Named {
        // As a coach would write it.
        std::string shown;
        std::vector<std::uint32_t> session_ids;
    };

    void add(const std::string& name, std::uint32_t session_id);
    // "Write session 9.", or what else would help.
    [[nodiscard]] std::string advice(const std::string& folded) const;

    const std::vector<program::Session>& sessions_;
    std::unordered_map<std::string, Named> by_name_;
};

}  // namespace stave::check
