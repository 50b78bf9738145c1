// What a plan says that cannot hold or that changes nothing: a session held twice at one time,
// moves to and from days off, weeks that are lighter twice, idle waves, a zone left out.
//
// Two of the same are errors, for calendars could not tell them apart. All else is asked about,
// and may be allowed.
#pragma once

#include <span>

#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/schedule/days.hpp"

namespace stave::schedule {

// Its lines by themselves, without its days.
void check_lines(const program::Plan& plan, DiagnosticSink& sink);

// Two slots that hold one session for the same people at the same time; whether there are any.
// `days` are those of the one plan.
bool check_held_twice(const program::Program& program, std::span<const Occurrence> days,
                      DiagnosticSink& sink);

// Notes the plans without a zone in a file that names one elsewhere.
void check_zones(const program::Program& program, DiagnosticSink& sink);

}  // namespace stave::schedule
