#include "backends/card/layout_glyphs.hpp"

#include <fmt/format.h>

#include <array>
#include <string>

#include "compiler/source/utf8.hpp"

namespace stave::card::layout {

namespace {

// Walks through all texts of a session.
class GlyphCheck {
public:
    GlyphCheck(const program::Program& program, const Fonts& fonts, DiagnosticSink& sink)
        : program_(program), fonts_(fonts), sink_(sink) {}

    void check(const std::string& text, Span span) {
        static constexpr std::array faces{Face::condensed_bold, Face::condensed_regular,
                                          Face::regular, Face::medium};
        for (const Face face : faces) {
            const std::optional<char32_t> missing = fonts_.first_missing(face, text);
            if (!missing) continue;
            const std::string sign =
                fmt::format("U+{:04X} '{}'", static_cast<std::uint32_t>(*missing),
                            encoded(static_cast<std::int32_t>(*missing)));
            sink_.report({Code::glyph_missing, span, {sign}, {}, {}});
            return;
        }
    }

    void check(const std::vector<std::string>& texts, Span span) {
        for (const std::string& text : texts)
            check(text, span);
    }

    void check(const std::vector<program::Fault>& faults, Span span) {
        for (const program::Fault& fault : faults) {
            check(fault.what, span);
            check(fault.mend, span);
        }
    }

    void check(const std::optional<program::Rest>& rest, Span span) {
        if (rest) check(rest->doing, span);
    }

    void check(const program::LoadTerm& term, Span span) {
        check(term.place, span);
        check(term.of, span);
    }

    void check(const program::Detail& detail, Span span) {
        if (const auto* pause = std::get_if<program::Pause>(&detail)) check(pause->where, span);
        if (const auto* effort = std::get_if<program::Effort>(&detail)) check(effort->term, span);
    }

    void check(const program::Item& item, Span span) {
        for (const program::Part& part : item.parts) {
            check(part.name, span);
            if (!part.definition || *part.definition >= program_.movements.size()) continue;
            const program::MovementDefinition& definition = program_.movements[*part.definition];
            // Its texts are not on the card.
            if (definition.from_library) continue;
            check(definition.cues, definition.span);
            check(definition.faults, definition.span);
        }
        for (const program::Load& load : item.loads) {
            for (const program::LoadTerm& term : load.terms)
                check(term, span);
        }
        for (const program::Detail& detail : item.details)
            check(detail, span);
        if (item.hold) check(item.hold->where, span);
        if (item.arc) check(item.arc->first_label, span);
        if (item.arc) check(item.arc->second_label, span);
        check(item.rest, span);
        check(item.rest_between_sides, span);
        check(item.rest_after, span);
        check(item.cues, span);
        check(item.faults, span);
        check(item.counts, span);
        check(item.notes, span);
        check(item.stops, span);
        check(item.options, span);
        for (const program::Substitute& substitute : item.substitutes) {
            check(substitute.item, span);
            check(substitute.condition, span);
            check(substitute.group, span);
        }
    }

    void check(const program::Block& block) {
        check(block.title, block.span);
        for (const auto* rest :
             {&block.rest_between_sets, &block.rest_between_rounds, &block.rest_between_movements,
              &block.rest_between_sides, &block.rest_after}) {
            check(*rest, block.span);
        }
        check(block.cues, block.span);
        check(block.notes, block.span);
        check(block.stops, block.span);
        check(block.options, block.span);
        for (const program::Item& item : block.items)
            check(item, item.span);
    }

    void check(const program::Session& session) {
        check(session.number, session.span);
        check(session.title, session.span);
        check(session.place, session.span);
        check(session.series, session.span);
        check(session.group, session.span);
        check(session.coach, session.span);
        check(session.link, session.span);
        check(session.audience, session.span);
        for (const program::KitThing& thing : session.kit)
            check(thing.name, session.span);
        check(session.notes, session.span);
        check(session.stops, session.span);
        check(session.cues, session.span);
        for (const program::Block& block : session.blocks)
            check(block);
    }

private:
    const program::Program& program_;
    const Fonts& fonts_;
    DiagnosticSink& sink_;
};

}  // namespace

void check_glyphs(const program::Program& program, const program::Session& session,
                  const CardText& text, const Fonts& fonts, DiagnosticSink& sink) {
    GlyphCheck glyphs(program, fonts, sink);
    glyphs.check(session);
    glyphs.check(text.revision, session.span);
}

}  // namespace stave::card::layout
