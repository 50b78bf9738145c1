#include "compiler/check/check.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include "compiler/check/advice.hpp"
#include "compiler/check/athletes.hpp"
#include "compiler/check/audiences.hpp"
#include "compiler/check/kit_names.hpp"
#include "compiler/check/line_groups.hpp"
#include "compiler/check/named_kits.hpp"
#include "compiler/check/places.hpp"
#include "compiler/check/plans.hpp"
#include "compiler/check/session_builder.hpp"
#include "compiler/check/unheld_groups.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;

// Hands each line to what it stands in: a session, a definition, a record.
class DocumentReader {
public:
    DocumentReader(program::Program& program, const Definitions& definitions,
                   const Options& options, DiagnosticSink& sink)
        : sink_(sink), sessions_(program, definitions, options, sink) {}

    void read(const syntax::Line& line) {
        if (line.kind == LineKind::blank) return sessions_.meet_blank();
        if (line.kind == LineKind::remark) return;
        if (line.kind == LineKind::open_movement) return enter(Place::definition);
        if (line.kind == LineKind::border) return enter(Place::session);
        if (line.kind == LineKind::open_session) return open_session(line);
        if (opens_record(line.kind)) return open_record(line);
        if (place_ == Place::record) return read_in_record(line);
        // Taken out of the problems once all are known.
        if (line.kind == LineKind::allow) return;
        if (place_ == Place::definition && belongs_to_definition(line.kind)) return;
        if (line.kind == LineKind::unclassified) return taint();
        if (place_ == Place::definition && !opens_training(line.kind)) {
            return report_not_here(line, Surroundings::definition, sink_);
        }
        place_ = Place::session;
        if (!sessions_.is_open()) return report_no_session(line);
        sessions_.read(line);
    }

    // The lines of all that stands beside sessions and definitions.
    Records finish() {
        enter(Place::session);
        return std::move(records_);
    }

private:
    // Where the line at hand stands.
    enum class Place : std::uint8_t { session, definition, record };

    void enter(Place place) {
        sessions_.close();
        sink_.enter_session(std::nullopt);
        place_ = place;
    }

    void open_session(const syntax::Line& line) {
        enter(Place::session);
        sessions_.open(line);
    }

    void open_record(const syntax::Line& line) {
        enter(Place::record);
        record_ = records_of(line.kind);
        if (record_ != nullptr) return record_->push_back({&line, {}});
        if (std::exchange(met_result_, true)) return;
        sink_.report({Code::not_used_yet, line.head.span, {"Results"}, {}, {}});
    }

    // Null for results.
    std::vector<RecordLines>* records_of(LineKind kind) {
        switch (kind) {
            case LineKind::open_plan:
                return &records_.plans;
            case LineKind::open_athlete:
                return &records_.athletes;
            case LineKind::open_squad:
                return &records_.squads;
            case LineKind::open_named_kit:
                return &records_.kits;
            default:
                return nullptr;
        }
    }

    void read_in_record(const syntax::Line& line) {
        if (record_ != nullptr) record_->back().lines.push_back(&line);
    }

    void report_no_session(const syntax::Line& line) {
        // One report is enough for a file that begins without a session.
        if (line.is_broken || missing_session_reported_) return;
        missing_session_reported_ = true;
        const Span start{line.span.begin, line.span.begin};
        sink_.report({Code::session_missing,
                      line.head.span,
                      {},
                      {{"session: NAME", {Edit{start, "session: NAME\n"}}}},
                      {}});
    }

    void taint() {
        sessions_.taint();
        // It may have been the session's own head that could not be read.
        if (!sessions_.is_open()) missing_session_reported_ = true;
    }

    DiagnosticSink& sink_;
    SessionBuilder sessions_;
    Place place_ = Place::session;
    Records records_;
    // Those of the kind that is open; null in a result.
    std::vector<RecordLines>* record_ = nullptr;
    bool met_result_ = false;
    bool missing_session_reported_ = false;
};

// Kits, those that sessions name filled in; athletes and their squads.
void add_people(const Records& records, const Definitions& definitions, const Options& options,
                program::Program& program, DiagnosticSink& sink) {
    program.kits = check_kits(records.kits, sink);
    if (!program.kits.empty()) {
        for (program::Session& session : program.sessions)
            session.kit = fill_in(session.kit, program.kits);
    }
    program.athletes = check_athletes(records.athletes, program, definitions, options, sink);
    program.squads = check_squads(records.squads, program.athletes, sink);
}

}  // namespace

program::Program check(const syntax::Document& document, const Options& options,
                       DiagnosticSink& sink) {
    program::Program program;
    const std::size_t errors_before = sink.errors();
    Definitions definitions = collect_definitions(document, sink);
    const bool is_known = sink.errors() == errors_before &&
                          std::ranges::none_of(document.lines, [](const syntax::Line& line) {
                              return line.is_broken && belongs_to_definition(line.kind);
                          });
    DocumentReader reader(program, definitions, options, sink);
    for (const syntax::Line& line : document.lines)
        reader.read(line);
    const Records records = reader.finish();
    add_people(records, definitions, options, program, sink);
    if (is_known) check_kit_names(document, definitions, program.kits, sink);
    program.plans = check_plans(records.plans, program.sessions, definitions, options, sink);
    check_audiences(program, sink);
    check_unheld_groups(program, sink);
    program.movements = std::move(definitions.movements);
    // What is wrongly defined is no ground for advice.
    if (is_known) advise(program, sink);
    return program;
}

}  // namespace stave::check
