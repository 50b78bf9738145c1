#include "compiler/diagnostics/catalogue.hpp"

#include <fmt/args.h>

#include <algorithm>
#include <array>

namespace stave {

namespace {

constexpr std::array<CatalogueEntry, code_count> entries{{
#define STAVE_DIAGNOSTIC(id, name, severity, what, why, mend) \
    {name, Severity::severity, what, why, mend},
#include "compiler/diagnostics/catalogue.def"
}};

std::string fill(std::string_view sentence, const Diagnostic& diagnostic) {
    fmt::dynamic_format_arg_store<fmt::format_context> store;
    for (const std::string& argument : diagnostic.arguments)
        store.push_back(argument);
    return fmt::vformat(sentence, store);
}

}  // namespace

const CatalogueEntry& catalogue_entry(Code code) {
    return entries[static_cast<std::size_t>(code)];
}

bool mend_is_guess(Code code) {
    constexpr std::array guesses{Code::rounds_in_movement, Code::list_after_sets, Code::two_numbers,
                                 Code::unit_twice, Code::unit_expected, Code::remark_space,
                                 Code::tempo_phases, Code::compound_large, Code::effort_order,
                                 Code::plus_after_sets, Code::joined_count, Code::side_not_taken,
                                 Code::slash_list, Code::clock_digits, Code::or_more,
                                 Code::head_without_name, Code::set_behind_load, Code::every_for,
                                 // What a session is called the coach alone knows.
                                 Code::session_missing,
                                 // What hurts somebody, and what lies in a room, too.
                                 Code::avoid_name, Code::kit_near};
    return std::ranges::find(guesses, code) != guesses.end();
}

std::string_view severity_name(Severity severity) {
    switch (severity) {
        case Severity::error:
            return "error";
        case Severity::warning:
            return "warning";
        case Severity::note:
            return "note";
    }
    return "";
}

std::string what(const Diagnostic& diagnostic) {
    return fill(catalogue_entry(diagnostic.code).what, diagnostic);
}

std::string why(const Diagnostic& diagnostic) {
    return fill(catalogue_entry(diagnostic.code).why, diagnostic);
}

std::string mend(const Diagnostic& diagnostic) {
    return fill(catalogue_entry(diagnostic.code).mend, diagnostic);
}

}  // namespace stave
