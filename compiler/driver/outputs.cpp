#include "compiler/driver/outputs.hpp"

#include <fmt/format.h>

#include <utility>

#include "backends/card/layout.hpp"
#include "compiler/program/dump.hpp"
#include "compiler/source/text_hash.hpp"

namespace stave::driver {

namespace {

// Changes whenever anything that the session says changes, and only then.
std::string revision(const program::Session& session) {
    const std::string digits = fmt::format("{:016x}", text_hash(program::dump(session)));
    constexpr std::size_t shown = 7;
    return digits.substr(0, shown);
}

}  // namespace

std::string card_name(const program::Session& session) {
    return session.day.empty() ? session.slug : session.slug + '-' + session.day;
}

std::optional<std::vector<card::Page>> make_pages(const analysis::Snapshot& snapshot,
                                                  const analysis::Issue& issue, card::CardText text,
                                                  card::Fonts& fonts, DiagnosticSink& sink,
                                                  const std::string& lent_link) {
    const program::Session& session = issue.session();
    text.revision = revision(session);
    text.source = snapshot.source->text();
    if (session.link.empty() && !lent_link.empty()) {
        program::Session linked = session;
        linked.link = lent_link;
        // What was not asked for must not cost the card its cues, or its place on the page.
        DiagnosticSink attempt;
        auto pages =
            card::lay_out(snapshot.program, linked, issue.timeline(), text, fonts, attempt);
        if (pages && attempt.kept() == 0) return pages;
    }
    return card::lay_out(snapshot.program, session, issue.timeline(), text, fonts, sink);
}

std::optional<std::vector<card::Page>> make_pages(analysis::Snapshot& snapshot,
                                                  const analysis::Issue& issue, card::CardText text,
                                                  card::Fonts& fonts) {
    snapshot.sink.enter_session(issue.session().span.begin);
    auto pages = make_pages(snapshot, issue, std::move(text), fonts, snapshot.sink, {});
    snapshot.sink.enter_session(std::nullopt);
    return pages;
}

}  // namespace stave::driver
