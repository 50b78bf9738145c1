// For whom cards, feeds and pages are made: for everybody of a session, for one of its
// athletes, or for whoever finds them on the web.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "compiler/analysis/issues.hpp"
#include "compiler/wording/language.hpp"

namespace stave::driver {

struct Reader {
    // Index among the program's athletes.
    std::optional<std::uint32_t> athlete_id = std::nullopt;
    // No person is named.
    bool is_public = false;
};

// Their own where the file says it of an athlete.
[[nodiscard]] wording::Language language_for(const analysis::Snapshot& snapshot,
                                             const Reader& reader, wording::Language usual);

// The indices of the issues that are held and theirs.
[[nodiscard]] std::vector<std::size_t> issues_for(const analysis::Snapshot& snapshot,
                                                  const Reader& reader);

// The issue as the reader sees it. The snapshot has no errors; what fitting has to say of it
// was said when it was analysed.
[[nodiscard]] analysis::Issue issue_for(const analysis::Snapshot& snapshot, std::size_t issue_id,
                                        const Reader& reader, wording::Language language);

// The athletes that have any issue, by index, rising.
[[nodiscard]] std::vector<std::uint32_t> athletes_with_issues(const analysis::Snapshot& snapshot);

}  // namespace stave::driver
