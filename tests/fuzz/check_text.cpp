#include "tests/fuzz/check_text.hpp"

#include <fmt/format.h>
#include <utf8proc.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <exception>
#include <nlohmann/json.hpp>
#include <utility>
#include <vector>

#include "backends/calendar/feed.hpp"
#include "backends/calendar/previous.hpp"
#include "backends/card/layout.hpp"
#include "backends/card/pdf/pdf_writer.hpp"
#include "backends/report/report.hpp"
#include "backends/site/site.hpp"
#include "compiler/analysis/analyse.hpp"
#include "compiler/analysis/issues.hpp"
#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/diagnostics/render.hpp"
#include "compiler/parse/parse.hpp"
#include "compiler/program/dump.hpp"
#include "compiler/syntax/lower.hpp"
#include "compiler/timeline/dump.hpp"

namespace stave::testing {

namespace {

using Complaint = std::optional<std::string>;

constexpr std::chrono::sys_seconds now{std::chrono::seconds{1'790'000'000}};

bool is_inside_character(std::string_view text, std::uint32_t offset) {
    return offset < text.size() && (static_cast<unsigned char>(text[offset]) & 0xC0U) == 0x80U;
}

// Texts that are no UTF-8 have no characters to cut.
bool is_utf8(std::string_view text) {
    for (std::size_t i = 0; i < text.size();) {
        std::int32_t character = 0;
        const auto size =
            utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()) + i,
                             static_cast<utf8proc_ssize_t>(text.size() - i), &character);
        if (size <= 0) return false;
        i += static_cast<std::size_t>(size);
    }
    return true;
}

Complaint check_span(std::string_view text, Span span, bool whole_characters) {
    if (span.begin > span.end || span.end > text.size()) {
        return fmt::format("place {}..{} in {} bytes", span.begin, span.end, text.size());
    }
    if (!whole_characters) return {};
    for (const std::uint32_t offset : {span.begin, span.end}) {
        if (is_inside_character(text, offset)) {
            return fmt::format("place {}..{} cuts a character", span.begin, span.end);
        }
    }
    return {};
}

Complaint check_fix(std::string_view text, Fix fix, bool whole_characters) {
    if (fix.label.empty()) return "a fix has no label";
    if (fix.edits.empty()) return "a fix edits nothing";
    for (const Edit& edit : fix.edits) {
        if (const auto wrong = check_span(text, edit.span, whole_characters)) return wrong;
    }
    std::ranges::sort(fix.edits, {}, [](const Edit& edit) { return edit.span.begin; });
    for (std::size_t i = 1; i < fix.edits.size(); ++i) {
        if (fix.edits[i].span.begin < fix.edits[i - 1].span.end) return "edits overlap";
    }
    return {};
}

// What would steer a terminal instead of being shown: C0 without `allowed`, DEL, C1.
bool is_printable(std::string_view text, std::string_view allowed) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const bool wide = byte == 0xC2 && i + 1 < text.size();
        if (wide && static_cast<unsigned char>(text[i + 1]) < 0xA0) return false;
        if ((byte < 0x20 && !allowed.contains(text[i])) || byte == 0x7F) return false;
    }
    return true;
}

Complaint check_sentences(const Diagnostic& diagnostic) {
    if (what(diagnostic).empty()) return "an empty sentence";
    for (const std::string& sentence : {what(diagnostic), why(diagnostic), mend(diagnostic)}) {
        if (!is_printable(sentence, "\t")) return "a sentence that cannot be printed";
    }
    return {};
}

Complaint check_diagnostic(std::string_view text, const Diagnostic& diagnostic, bool whole) {
    Complaint wrong = check_span(text, diagnostic.span, whole);
    for (const Fix& fix : diagnostic.fixes) {
        if (!wrong) wrong = check_fix(text, fix, whole);
    }
    for (const Related& related : diagnostic.related) {
        if (!wrong) wrong = check_span(text, related.span, whole);
    }
    if (!wrong) wrong = check_sentences(diagnostic);
    if (wrong) return fmt::format("{}: {}", catalogue_entry(diagnostic.code).name, *wrong);
    return {};
}

Complaint check_diagnostics(const analysis::Snapshot& snapshot) {
    const std::vector<Diagnostic> diagnostics = snapshot.sink.sorted();
    const std::string_view text = snapshot.source->text();
    const bool whole_characters = is_utf8(text);
    for (const Diagnostic& diagnostic : diagnostics) {
        if (auto wrong = check_diagnostic(text, diagnostic, whole_characters)) return wrong;
    }
    const std::array files{
        FileDiagnostics{snapshot.source.get(), diagnostics, snapshot.sink.dropped()}};
    if (nlohmann::json::parse(render_json(files)).size() != diagnostics.size()) {
        return "the JSON does not hold every problem";
    }
    const std::string lines = render_line(files[0]);
    if (static_cast<std::size_t>(std::ranges::count(lines, '\n')) != diagnostics.size()) {
        return "not one line for each problem";
    }
    static_cast<void>(render_text(files[0], true));
    if (!is_printable(render_text(files[0], false), "\n\t")) {
        return "the text format shows what cannot be printed";
    }
    return {};
}

Complaint check_timeline(const program::Program& program, const program::Session& session,
                         const timeline::Timeline& timeline) {
    Ratio end;
    for (const timeline::Entry& entry : timeline.entries) {
        if (entry.start_seconds != end || entry.length_seconds < Ratio(0)) {
            return "an entry starts elsewhere than the one before it ends";
        }
        end += entry.length_seconds;
    }
    if (timeline.total_seconds != end) return "the entries do not add up";
    const report::SessionView view{program, session, timeline, {}};
    const bool told = !report::explain_text(view).empty() && !report::summary(view).empty() &&
                      nlohmann::json::parse(report::explain_json({&view, 1})).size() == 1;
    return told ? Complaint{} : "the session is not explained";
}

Complaint check_feed(const analysis::Snapshot& snapshot, zones::ZoneLoader& zones) {
    std::vector<calendar::Event> events;
    for (std::size_t i = 0; i < snapshot.program.sessions.size(); ++i) {
        const program::Session& session = snapshot.program.sessions[i];
        if (!session.when) continue;
        const civil::Zone* zone =
            session.when->zone.empty() ? nullptr : zones.find(session.when->zone);
        events.push_back(calendar::make_event(snapshot.program, session, snapshot.timelines[i],
                                              zone, wording::Language::english));
    }
    if (events.empty()) return {};
    const calendar::Feed feed{"fuzz", "Fuzz", calendar::Events(std::move(events))};
    const std::string text = calendar::write(feed, {}, now);
    const auto previous = calendar::read_previous(in_memory(text), zones.finder());
    if (!previous) return "the feed is not whole";
    if (calendar::write(feed, *previous, now + std::chrono::hours(1)) != text) {
        return "a second feed of the same sessions differs";
    }
    return {};
}

// Whatever sessions say, their page has the tags of one that says nothing.
Complaint check_page(const analysis::Snapshot& snapshot) {
    site::FeedPage page;
    site::FeedPage plain;
    for (std::size_t i = 0; i < snapshot.program.sessions.size(); ++i) {
        site::Entry entry = site::make_entry(snapshot.program.sessions[i], snapshot.timelines[i],
                                             wording::Language::english);
        page.entries.push_back(entry);
        for (std::string* text :
             {&entry.title, &entry.length, &entry.place, &entry.zone, &entry.link}) {
            if (!text->empty()) *text = "x";
        }
        plain.entries.push_back(std::move(entry));
    }
    const auto today = std::chrono::floor<std::chrono::days>(now);
    const std::string html = site::write(page, today);
    const std::string expected = site::write(plain, today);
    for (const char sign : {'<', '>', '"'}) {
        if (std::ranges::count(html, sign) != std::ranges::count(expected, sign))
            return "a session's text is part of the page's tags";
    }
    return {};
}

Complaint check_card(const program::Program& program, const program::Session& session,
                     const timeline::Timeline& timeline, DiagnosticSink& sink, card::Fonts& fonts,
                     Depth depth) {
    const std::size_t errors = sink.errors();
    const auto pages =
        card::lay_out(program, session, timeline, {.revision = "0000000"}, fonts, sink);
    if (pages.has_value() == (sink.errors() > errors)) {
        return "neither a card nor a reason, or both";
    }
    if (!pages || depth != Depth::pdf) return {};
    const auto pdf = card::write_pdf(*pages, fonts);
    if (!pdf) return "no PDF: " + pdf.error().detail;
    return pdf->starts_with("%PDF-") ? Complaint{} : "no PDF";
}

// What is made lies where the athlete wants it, unless nothing does, and the plates of both
// sides are not heavier than the whole.
Complaint check_made(const fit::Fitted& fitted, program::Rounding rounding) {
    for (const fit::Working& working : fitted.workings) {
        const fit::Made& made = working.made;
        const Ratio kilograms = convert(made.mass, Unit::kilogram).value;
        const bool is_above =
            rounding == program::Rounding::down && kilograms > working.target && made.below;
        const bool is_below =
            rounding == program::Rounding::up && kilograms < working.target && made.above;
        if (is_above || is_below) return "a load on the wrong side of its target";
        if (!made.bar) continue;
        Ratio known = convert(*made.bar, Unit::kilogram).value;
        for (const Quantity& plate : made.plates)
            known += convert(plate, Unit::kilogram).value * Ratio(2);
        // Collars are the difference, where there are any.
        constexpr std::int64_t heaviest_collars = 1;
        if (kilograms < known || kilograms > known + Ratio(heaviest_collars))
            return "a bar that is not the sum of what is on it";
    }
    return {};
}

// Every session as each of its athletes does it.
Complaint check_people(analysis::Snapshot& snapshot, card::Fonts& fonts, Depth depth) {
    for (std::size_t id = 0; id < snapshot.people.size(); ++id) {
        for (const std::uint32_t athlete_id : snapshot.people[id]) {
            DiagnosticSink said_before;
            const analysis::Issue fitted = analysis::fitted_issue(
                analysis::issue(snapshot, id), athlete_id, "Ask the coach", said_before);
            auto wrong = check_timeline(fitted.program(), fitted.session(), fitted.timeline());
            if (!wrong) wrong = check_made(*fitted.fitted(), fitted.athlete()->rounding);
            if (!wrong) {
                wrong = check_card(fitted.program(), fitted.session(), fitted.timeline(),
                                   snapshot.sink, fonts, depth);
            }
            if (wrong) return fmt::format("{}: {}", fitted.athlete()->name, *wrong);
        }
    }
    return {};
}

}  // namespace

Complaint TextChecker::check(std::string_view text, Depth depth) {
    analysis::Snapshot snapshot =
        analysis::analyse("fuzz", std::string(text), {zones_.finder(), {}});
    if (auto wrong = check_diagnostics(snapshot)) return wrong;
    static_cast<void>(parse::dump(snapshot.tree, *snapshot.source));
    static_cast<void>(syntax::dump(snapshot.document));
    static_cast<void>(program::dump(snapshot.program));
    const bool failed = snapshot.sink.has_errors();
    const std::size_t expected = failed ? 0 : snapshot.program.sessions.size();
    if (snapshot.timelines.size() != expected) return "timelines in spite of errors, or none";
    if (failed) return {};
    ++texts_without_errors_;
    for (std::size_t i = 0; i < snapshot.timelines.size(); ++i) {
        static_cast<void>(timeline::dump(snapshot.timelines[i]));
        auto wrong =
            check_timeline(snapshot.program, snapshot.program.sessions[i], snapshot.timelines[i]);
        if (wrong) return wrong;
    }
    if (depth == Depth::analysis) return {};
    if (auto wrong = check_feed(snapshot, zones_)) return wrong;
    if (auto wrong = check_page(snapshot)) return wrong;
    for (std::size_t i = 0; i < snapshot.timelines.size(); ++i) {
        auto wrong = check_card(snapshot.program, snapshot.program.sessions[i],
                                snapshot.timelines[i], snapshot.sink, fonts_, depth);
        if (wrong) return wrong;
    }
    if (auto wrong = check_people(snapshot, fonts_, depth)) return wrong;
    return check_diagnostics(snapshot);
}

Complaint TextChecker::complaint(std::string_view text, Depth depth) {
    try {
        return check(text, depth);
    } catch (const std::exception& thrown) {
        return fmt::format("an exception: {}", thrown.what());
    }
}

}  // namespace stave::testing
