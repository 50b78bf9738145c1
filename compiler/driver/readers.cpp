#include "compiler/driver/readers.hpp"

#include <algorithm>
#include <set>
#include <string>

#include "compiler/wording/words.hpp"

namespace stave::driver {

wording::Language language_for(const analysis::Snapshot& snapshot, const Reader& reader,
                               wording::Language usual) {
    if (!reader.athlete_id) return usual;
    return snapshot.program.athletes[*reader.athlete_id].language.value_or(usual);
}

std::vector<std::size_t> issues_for(const analysis::Snapshot& snapshot, const Reader& reader) {
    std::vector<std::size_t> ids = analysis::held_issues(snapshot);
    if (!reader.athlete_id) return ids;
    std::erase_if(ids, [&](std::size_t id) {
        return !std::ranges::binary_search(snapshot.people[id], *reader.athlete_id);
    });
    return ids;
}

analysis::Issue issue_for(const analysis::Snapshot& snapshot, std::size_t issue_id,
                          const Reader& reader, wording::Language language) {
    const analysis::Issue issue = analysis::issue(snapshot, issue_id);
    if (reader.athlete_id) {
        DiagnosticSink said_before;
        const std::string blank(wording::word(language, wording::Word::ask_the_coach));
        return analysis::fitted_issue(issue, *reader.athlete_id, blank, said_before);
    }
    const bool names_people =
        reader.is_public && !snapshot.program.athletes.empty() && !issue.session().audience.empty();
    return names_people ? analysis::without_names(issue) : issue;
}

std::vector<std::uint32_t> athletes_with_issues(const analysis::Snapshot& snapshot) {
    std::set<std::uint32_t> ids;
    for (const std::vector<std::uint32_t>& people : snapshot.people)
        ids.insert(people.begin(), people.end());
    return {ids.begin(), ids.end()};
}

}  // namespace stave::driver
