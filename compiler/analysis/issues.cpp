#include "compiler/analysis/issues.hpp"

#include <utility>

#include "compiler/schedule/held_session.hpp"

namespace stave::analysis {

struct Issue::Made {
    program::Session session;
    timeline::Timeline timeline;
    // Without its session, which stands above.
    std::optional<fit::Fitted> fitted;
};

const fit::Fitted* Issue::fitted() const {
    return made_ && made_->fitted ? &*made_->fitted : nullptr;
}

bool Issue::is_held() const {
    return occurrence_ == nullptr || schedule::is_on(*occurrence_);
}

std::size_t issue_count(const Snapshot& snapshot) {
    return snapshot.by_themselves.size() + snapshot.season.size();
}

std::vector<std::size_t> held_issues(const Snapshot& snapshot) {
    const std::size_t first = snapshot.by_themselves.size();
    std::vector<std::size_t> ids;
    for (std::size_t i = 0; i < issue_count(snapshot); ++i) {
        if (i < first || schedule::is_on(snapshot.season[i - first])) ids.push_back(i);
    }
    return ids;
}

IssueSource issue_source(const Snapshot& snapshot, std::size_t index) {
    if (index < snapshot.by_themselves.size())
        return {&snapshot.program.sessions[snapshot.by_themselves[index]], nullptr};
    const schedule::Occurrence& day = snapshot.season[index - snapshot.by_themselves.size()];
    return {&snapshot.program.sessions[day.session_id], &day};
}

Issue issue(const Snapshot& snapshot, std::size_t index) {
    Issue result;
    result.snapshot_ = &snapshot;
    const IssueSource source = issue_source(snapshot, index);
    if (source.occurrence == nullptr) {
        result.session_ = source.session;
        result.timeline_ = &snapshot.timelines[snapshot.by_themselves[index]];
        return result;
    }
    result.occurrence_ = source.occurrence;
    program::Session session = schedule::held_session(snapshot.program, *result.occurrence_);
    timeline::Timeline timeline = timeline::expand(snapshot.program, session);
    result.made_ = std::make_shared<const Issue::Made>(
        Issue::Made{std::move(session), std::move(timeline), {}});
    result.session_ = &result.made_->session;
    result.timeline_ = &result.made_->timeline;
    return result;
}

Issue without_names(const Issue& issue) {
    Issue result = issue;
    program::Session session = issue.session();
    session.audience.clear();
    result.made_ =
        std::make_shared<const Issue::Made>(Issue::Made{std::move(session), issue.timeline(), {}});
    result.session_ = &result.made_->session;
    result.timeline_ = &result.made_->timeline;
    return result;
}

Issue fitted_issue(const Issue& issue, std::uint32_t athlete_id, const std::string& blank_name,
                   DiagnosticSink& sink) {
    Issue result = issue;
    fit::Fitted fitted = fit::fit(issue.program(), issue.session(),
                                  issue.snapshot_->outfits[athlete_id], blank_name, sink);
    program::Session session = std::exchange(fitted.session, {});
    timeline::Timeline timeline = timeline::expand(issue.program(), session);
    result.athlete_ = &issue.program().athletes[athlete_id];
    result.made_ = std::make_shared<const Issue::Made>(
        Issue::Made{std::move(session), std::move(timeline), std::move(fitted)});
    result.session_ = &result.made_->session;
    result.timeline_ = &result.made_->timeline;
    return result;
}

}  // namespace stave::analysis
