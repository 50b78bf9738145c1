// What grows in a plan: a line `grow NAME:` to what it adds to, where a session of the plan
// has such a thing.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "compiler/check/lines.hpp"

namespace stave::check {

// All names that something in a plan's sessions goes by.
class GrowingNames {
public:
    // `is_whole`: the plan has all its slots and their sessions; otherwise any name may be one of
    // what is not known.
    GrowingNames(const program::Plan& plan, const std::vector<program::Session>& sessions,
                 bool is_whole);

    // Nothing after a problem has been reported.
    [[nodiscard]] std::optional<program::Growth> check(const syntax::Line& line,
                                                       const Definitions& definitions,
                                                       DiagnosticSink& sink) const;

private:
    void add(const program::Item& item);
    [[nodiscard]] std::string advice(const std::string& folded_name) const;

    // As written, by folded name.
    std::map<std::string, std::string> names_;
    bool is_whole_;
    // Indices of the movements that the files define.
    std::set<std::uint32_t> definitions_;
};

}  // namespace stave::check
