// The words of every diagnostic. One place words an error; the rules for
// wording stand in DEVELOPERS.md.
#pragma once

#include <string>
#include <string_view>

#include "compiler/diagnostics/diagnostic.hpp"

namespace stave {

struct CatalogueEntry {
    // Kebab-case and permanent: people search for it and switch it.
    std::string_view name;
    Severity severity;
    // Sentences with {0}, {1} ... for the diagnostic's arguments.
    std::string_view what;
    std::string_view why;
    std::string_view mend;
};

inline constexpr std::size_t code_count = 0
#define STAVE_DIAGNOSTIC(id, name, severity, what, why, mend) +1
#include "compiler/diagnostics/catalogue.def"
    ;

[[nodiscard]] const CatalogueEntry& catalogue_entry(Code code);
// Whether an error's one mend is likely and yet a guess at what is to be done: it would change
// an amount, a load, a time or a side, and the file would pass.
[[nodiscard]] bool mend_is_guess(Code code);
// "error", "warning", "note".
[[nodiscard]] std::string_view severity_name(Severity severity);

// The sentences with the diagnostic's arguments filled in; a sentence that the
// catalogue leaves empty stays empty.
[[nodiscard]] std::string what(const Diagnostic& diagnostic);
[[nodiscard]] std::string why(const Diagnostic& diagnostic);
[[nodiscard]] std::string mend(const Diagnostic& diagnostic);

}  // namespace stave
