// Reports: a session unrolled as the athlete lives it, and the summary of a
// build, as text for people and JSON for programs.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/program/program.hpp"
#include "compiler/timeline/timeline.hpp"

namespace stave::report {

// What a session adds up to for one athlete, whose loads are their own.
struct AthleteVolume {
    std::string name;
    timeline::VolumeLoad volume;
};

// A session of a program beside its timeline; all must outlive the view.
struct SessionView {
    const program::Program& program;
    const program::Session& session;
    const timeline::Timeline& timeline;
    // Of those that it is fitted to; none where nobody's loads differ from what is written.
    std::vector<AthleteVolume> athletes = {};
};

// What every line asks for, its details and what stands below it; every set, side and
// rest with its clock; minutes of each block; what each
// movement adds up to, by side; volume load, by movement and athlete; what was assumed.
[[nodiscard]] std::string explain_text(const SessionView& view);

// The same as an array of sessions. Exact values are strings ("3/2"), times are
// seconds.
[[nodiscard]] std::string explain_json(std::span<const SessionView> views);

// The part of `explain_text` that tells the volume load, or "" where nothing is loaded.
[[nodiscard]] std::string volume_text(const SessionView& view);

// Two or more lines for one session: minutes, sets, what was assumed. `whose`: the athlete that
// it is fitted to, or empty.
[[nodiscard]] std::string summary(const SessionView& view, std::string_view whose = {});

}  // namespace stave::report
