// What cards and calendar entries are made of: each session as it stands in the file, or
// as a plan has it on one of its days.
//
// Made one by one, so that a plan of years takes no more room than one of its days.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "compiler/analysis/analyse.hpp"
#include "compiler/fit/fit.hpp"

namespace stave::analysis {

// One of them. The snapshot must outlive it.
class Issue {
public:
    [[nodiscard]] const program::Program& program() const { return snapshot_->program; }
    [[nodiscard]] const program::Session& session() const { return *session_; }
    [[nodiscard]] const timeline::Timeline& timeline() const { return *timeline_; }
    // The day of the plan; null for a session that stands by itself.
    [[nodiscard]] const schedule::Occurrence* occurrence() const { return occurrence_; }
    // Of a session that was fitted to an athlete: whose it is, and what was decided and
    // reckoned; else null.
    [[nodiscard]] const program::Athlete* athlete() const { return athlete_; }
    [[nodiscard]] const fit::Fitted* fitted() const;
    // Whether anybody is to do it: what is cancelled has an entry in calendars and no card.
    [[nodiscard]] bool is_held() const;

private:
    friend Issue issue(const Snapshot& snapshot, std::size_t index);
    friend Issue without_names(const Issue& issue);
    friend Issue fitted_issue(const Issue& issue, std::uint32_t athlete_id,
                              const std::string& blank_name, DiagnosticSink& sink);
    struct Made;

    const Snapshot* snapshot_ = nullptr;
    const program::Session* session_ = nullptr;
    const timeline::Timeline* timeline_ = nullptr;
    const schedule::Occurrence* occurrence_ = nullptr;
    const program::Athlete* athlete_ = nullptr;
    // Of a day of a plan, or what was fitted.
    std::shared_ptr<const Made> made_;
};

// How many the snapshot has; none when there are errors.
[[nodiscard]] std::size_t issue_count(const Snapshot& snapshot);

// The indices of those that are held.
[[nodiscard]] std::vector<std::size_t> held_issues(const Snapshot& snapshot);

// Those that stand by themselves in the order of the file, then the days of each plan.
// `index` is below `issue_count`.
[[nodiscard]] Issue issue(const Snapshot& snapshot, std::size_t index);

// What an issue is made of, which costs nothing to look at: the session as it stands in the
// file, and the day of the plan or null.
struct IssueSource {
    const program::Session* session = nullptr;
    const schedule::Occurrence* occurrence = nullptr;
};
[[nodiscard]] IssueSource issue_source(const Snapshot& snapshot, std::size_t index);

// The same without the names of whom it is for.
[[nodiscard]] Issue without_names(const Issue& issue);

// The same as one of its athletes does it; see `fit`.
[[nodiscard]] Issue fitted_issue(const Issue& issue, std::uint32_t athlete_id,
                                 const std::string& blank_name, DiagnosticSink& sink);

}  // namespace stave::analysis
