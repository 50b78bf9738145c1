#include "backends/card/layout_glyphs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "compiler/source/utf8.hpp"

namespace stave::card::layout {

namespace {

// "U+2713 '✓'"
std::string shown(char32_t character) {
    return fmt::format("U+{:04X} '{}'", static_cast<std::uint32_t>(character),
                       encoded(static_cast<std::int32_t>(character)));
}

std::optional<char32_t> first_right_to_left(std::string_view text) {
    for (std::size_t i = 0; i < text.size();) {
        const Character character = character_at(text, i);
        if (is_right_to_left(character.code_point)) {
            return static_cast<char32_t>(character.code_point);
        }
        i += std::max<std::size_t>(character.size, 1);
    }
    return std::nullopt;
}

// Walks through all texts of a session.
class GlyphCheck {
public:
    GlyphCheck(const program::Program& program, std::string_view source, const Fonts& fonts,
               DiagnosticSink& sink)
        : program_(program), source_(source), fonts_(fonts), sink_(sink) {}

    void check(const std::string& text, Span span) {
        static constexpr std::array faces{Face::condensed_bold, Face::condensed_regular,
                                          Face::regular, Face::medium};
        if (const auto turned = first_right_to_left(text)) {
            sink_.report({Code::text_right_to_left,
                          place_of(*turned, text, span),
                          {fmt::format("U+{:04X}", static_cast<std::uint32_t>(*turned))},
                          {},
                          {}});
            return;
        }
        for (const Face face : faces) {
            const std::optional<char32_t> missing = fonts_.first_missing(face, text);
            if (!missing) continue;
            const Span place = place_of(*missing, text, span);
            sink_.report({Code::glyph_missing, place, {shown(*missing)}, {}, {}});
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
        check(item.lacking, span);
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
        for (const std::string& name : session.audience)
            check(name, place_of_person(name).value_or(session.span));
        for (const program::KitThing& thing : session.kit)
            check(thing.name, place_of_person(session.athlete).value_or(session.span));
        check(session.notes, session.span);
        check(session.stops, session.span);
        check(session.cues, session.span);
        for (const program::Block& block : session.blocks)
            check(block);
    }

private:
    // The line of the athlete that is called so.
    [[nodiscard]] std::optional<Span> place_of_person(const std::string& name) const {
        const auto found = std::ranges::find(program_.athletes, name, &program::Athlete::name);
        if (found == program_.athletes.end()) return std::nullopt;
        return found->span;
    }

    // Where the character is typed: in its text, which stands in the line it belongs to or
    // not far below, or by itself where the text was typed in another way.
    [[nodiscard]] Span place_of(char32_t character, std::string_view text, Span line) const {
        constexpr std::size_t far = 8'000;
        const std::string sign = encoded(static_cast<std::int32_t>(character));
        const std::string_view near =
            source_.substr(std::min<std::size_t>(line.begin, source_.size()), far);
        const std::size_t whole = near.find(text);
        const std::size_t found = near.find(sign, whole == std::string_view::npos ? 0 : whole);
        if (sign.empty() || found == std::string_view::npos) return line;
        const auto begin = line.begin + static_cast<std::uint32_t>(found);
        return {begin, begin + static_cast<std::uint32_t>(sign.size())};
    }

    const program::Program& program_;
    std::string_view source_;
    const Fonts& fonts_;
    DiagnosticSink& sink_;
};

}  // namespace

void check_glyphs(const program::Program& program, const program::Session& session,
                  const CardText& text, const Fonts& fonts, DiagnosticSink& sink) {
    GlyphCheck glyphs(program, text.source, fonts, sink);
    glyphs.check(session);
    glyphs.check(text.revision, session.span);
}

void check_own_words(const std::vector<Page>& pages, const program::Session& session, Fonts& fonts,
                     DiagnosticSink& sink) {
    for (const Page& page : pages) {
        for (const Primitive& primitive : page.primitives) {
            const auto* text = std::get_if<Text>(&primitive);
            if (text == nullptr) continue;
            const std::vector<Glyph>& glyphs = fonts.shape(text->face, text->text).glyphs;
            const auto box = std::ranges::find(glyphs, 0U, &Glyph::id);
            if (box == glyphs.end()) continue;
            const Character character = character_at(text->text, box->cluster);
            sink.report({Code::font_sign,
                         session.span,
                         {std::string(fonts.name(text->face)),
                          shown(static_cast<char32_t>(character.code_point))},
                         {},
                         {}});
            return;
        }
    }
}

}  // namespace stave::card::layout
