// Numbers, amounts, loads and details in their main spelling.
#pragma once

#include <string>
#include <string_view>

#include "compiler/syntax/document.hpp"

namespace stave::format {

// Runs of blanks as one, none at the ends.
[[nodiscard]] std::string squeezed(std::string_view text);
// "8", "40 s", "1:30", "1 1/4 miles", "1 h 15 min".
[[nodiscard]] std::string value(const syntax::Value& value);
// "12-10-8", "30 to 40 s", "2..10 by 2".
[[nodiscard]] std::string series(const syntax::Series& series);
[[nodiscard]] std::string side(const syntax::Side& side);
[[nodiscard]] std::string work(const syntax::Work& work);
// What stands behind the @, or an effort.
[[nodiscard]] std::string load(const syntax::LoadTerm& term);
[[nodiscard]] std::string rest(const syntax::Rest& rest);
[[nodiscard]] std::string dose(const syntax::Dose& dose);
// "2026-12-03".
[[nodiscard]] std::string day(const syntax::Day& day);
// "per km", "per 500 m".
[[nodiscard]] std::string per(const syntax::Value& value);

}  // namespace stave::format
