// Answers that give no file, and what keeps browsers from doing more than showing one.
#pragma once

#include "backends/server/answer.hpp"

namespace stave::server {

// The words behind a status (RFC 9110, section 15).
[[nodiscard]] std::string_view reason_of(int status);

// A small page for what is not here, in the language that is asked for if Stave speaks it
// (RFC 9110, section 12.5.4); for all else a line of text with the status.
[[nodiscard]] Answer refusal(int status, const Request& request);

// No guessing of types, no telling of addresses; documents run nothing and fetch nothing.
// Other files get no policy of content: some browsers hold it against their own PDF viewer.
void add_guards(Answer& answer, bool is_document);

}  // namespace stave::server
