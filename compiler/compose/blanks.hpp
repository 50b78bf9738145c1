// A routine with its blanks, and what fills them.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "compiler/compose/workspace.hpp"

namespace stave::compose {

// A blank of a routine, and what usually stands there.
struct Parameter {
    // Folded.
    std::string name;
    std::string usual;
};

struct Routine {
    std::string name;
    Span head;
    std::vector<Parameter> parameters;
    Lines lines;
    // Lines with the blanks filled in, by the values that fill them.
    std::map<std::vector<std::string>, Lines> filled;
    bool is_used = false;
};

// From the routine's own line: "reps 8, band light".
void add_parameters(const Workspace& workspace, const parse::Line& line, Routine& routine);

// From the line of a use a value for each parameter; nothing after an error.
[[nodiscard]] std::optional<std::vector<std::string>> values_of(const Workspace& workspace,
                                                                const parse::Line& line,
                                                                const Routine& routine);

// A line of the routine without its remark, its blanks filled; nothing after an error.
[[nodiscard]] std::optional<std::string> filled_line(const Workspace& workspace,
                                                     const parse::Line& line,
                                                     const Routine& routine,
                                                     const std::vector<std::string>& values);

}  // namespace stave::compose
