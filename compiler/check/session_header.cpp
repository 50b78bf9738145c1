#include "compiler/check/session_header.hpp"

#include "compiler/check/lines.hpp"
#include "compiler/check/named_kits.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;

void add_names(const syntax::Line& line, const syntax::Names& names, program::Session& session,
               DiagnosticSink& sink) {
    for (const syntax::Word& name : names.names) {
        const std::string text = clean_text(name.text);
        if (line.kind == LineKind::audience) {
            session.audience.push_back(text);
        } else if (const auto demand = grammar::find_demand(text)) {
            session.avoid.push_back(*demand);
        } else {
            sink.report({Code::demand_unknown, name.span, {text}, {}, {}});
        }
    }
}

// Where the text of the line belongs; null for lines that are no plain text.
std::string* text_of(LineKind kind, program::Session& session) {
    switch (kind) {
        case LineKind::place:
            return &session.place;
        case LineKind::series:
            return &session.series;
        case LineKind::coach:
            return &session.coach;
        case LineKind::link:
            return &session.link;
        default:
            return nullptr;
    }
}

}  // namespace

void add_session_fact(const syntax::Line& line, program::Session& session, SessionHeader& header,
                      DiagnosticSink& sink) {
    std::string* const text = text_of(line.kind, session);
    const bool twice = (text != nullptr && !text->empty()) ||
                       (line.kind == LineKind::when && header.when) ||
                       (line.kind == LineKind::zone && header.zone) ||
                       (line.kind == LineKind::pages && header.pages_said) ||
                       (line.kind == LineKind::effort && session.effort) ||
                       (line.kind == LineKind::audience && !session.audience.empty()) ||
                       (line.kind == LineKind::kit && !session.kit.empty());
    if (twice) {
        sink.report({Code::field_twice, line.head.span, {std::string(line.head.text)}, {}, {}});
        return;
    }
    if (const auto* when = std::get_if<syntax::When>(&line.body)) {
        header.when = *when;
        session.when.emplace().span = line.body_span;
    } else if (const auto* kit = std::get_if<syntax::Kit>(&line.body)) {
        session.kit_span = said_span(line);
        session.kit = to_kit(*kit);
    } else if (const auto* names = std::get_if<syntax::Names>(&line.body)) {
        if (line.kind == LineKind::audience) session.audience_span = said_span(line);
        add_names(line, *names, session, sink);
    } else if (const auto* word = std::get_if<syntax::Word>(&line.body)) {
        if (line.kind == LineKind::zone) header.zone = *word;
        if (text != nullptr) *text = clean_text(word->text);
    } else if (const auto* number = std::get_if<syntax::Measure>(&line.body)) {
        const Ratio value = number->value.quantity.value;
        if (line.kind == LineKind::effort) {
            session.effort = value;
        } else {
            header.pages_said = true;
            session.pages = value.numerator();
        }
    }
}

}  // namespace stave::check
