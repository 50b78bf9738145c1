// What cards and calendar entries are made of: each session as it stands in the file, or
// as a plan has it on one of its days.
//
// Made one by one, so that a plan of years takes no more room than one of its days.
#pragma once

#include <cstddef>
#include <memory>
#include <vector>

#include "compiler/analysis/analyse.hpp"

namespace stave::analysis {

// One of them. The snapshot must outlive it.
class Issue {
public:
    [[nodiscard]] const program::Program& program() const { return snapshot_->program; }
    [[nodiscard]] const program::Session& session() const { return *session_; }
    [[nodiscard]] const timeline::Timeline& timeline() const { return *timeline_; }
    // The day of the plan; null for a session that stands by itself.
    [[nodiscard]] const schedule::Occurrence* occurrence() const { return occurrence_; }
    // Whether anybody is to do it: what is cancelled has an entry in calendars and no card.
    [[nodiscard]] bool is_held() const;

private:
    friend Issue issue(const Snapshot& snapshot, std::size_t index);
    struct Made;

    const Snapshot* snapshot_ = nullptr;
    const program::Session* session_ = nullptr;
    const timeline::Timeline* timeline_ = nullptr;
    const schedule::Occurrence* occurrence_ = nullptr;
    // Of a day of a plan.
    std::shared_ptr<const Made> made_;
};

// How many the snapshot has; none when there are errors.
[[nodiscard]] std::size_t issue_count(const Snapshot& snapshot);

// The indices of those that are held.
[[nodiscard]] std::vector<std::size_t> held_issues(const Snapshot& snapshot);

// Those that stand by themselves in the order of the file, then the days of each plan.
// `index` is below `issue_count`.
[[nodiscard]] Issue issue(const Snapshot& snapshot, std::size_t index);

}  // namespace stave::analysis
