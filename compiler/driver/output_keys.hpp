// Keys of what cards and feeds are made of: what has the key of another build of this process
// comes to the same bytes, at the same places.
//
// The options, the typeface and the rules of the zones are those of the process and in no key.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "compiler/analysis/issue_keys.hpp"
#include "compiler/driver/card_place.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/source/wide_hash.hpp"

namespace stave::driver {

class OutputKeys {
public:
    // Of the snapshots without errors, which stay where they are. `usual` is what is spoken where
    // a reader has no own language.
    OutputKeys(Loaded& loaded, wording::Language usual);

    [[nodiscard]] WideHash card(const CardPlace& place, std::size_t issue_id) const;
    // Of the issue's cards at all of these places, in one file.
    [[nodiscard]] WideHash together(const std::vector<const CardPlace*>& places,
                                    std::size_t issue_id) const;
    // `source` as in CardPlace. What was written in its place before is not in the key.
    [[nodiscard]] WideHash feed(const analysis::Snapshot& snapshot, const FeedContent& content,
                                const std::string& folder, const std::string& source) const;
    // Of the issue as the reader has it.
    [[nodiscard]] WideHash issue(const analysis::Snapshot& snapshot, std::size_t issue_id,
                                 const Reader& reader) const;

private:
    wording::Language usual_;
    std::map<const analysis::Snapshot*, analysis::IssueKeys> issues_;
};

}  // namespace stave::driver
