#include "compiler/check/session_builder.hpp"

#include <utility>

#include "compiler/check/block_rests.hpp"
#include "compiler/check/line_groups.hpp"
#include "compiler/check/places.hpp"
#include "compiler/check/volume.hpp"
#include "compiler/check/when.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

using grammar::LineKind;

namespace {

// When the substitute is done, or "".
std::string condition(const syntax::Line& line) {
    for (const syntax::Detail& detail : std::get<syntax::Dose>(line.body).details) {
        const auto* condition = std::get_if<syntax::Condition>(&detail);
        if (condition != nullptr) return clean_text(condition->reason.text);
    }
    return "";
}

}  // namespace

SessionBuilder::SessionBuilder(program::Program& program, const Definitions& definitions,
                               const Options& options, DiagnosticSink& sink)
    : program_(program),
      definitions_(definitions),
      options_(options),
      sink_(sink),
      names_(sink),
      unknown_(definitions, options, sink) {}

void SessionBuilder::taint() {
    if (block_) block_->tainted = true;
    session_tainted_ = true;
}

void SessionBuilder::open(const syntax::Line& line) {
    close();
    sink_.enter_session(line.head.span.begin);
    session_tainted_ = line.is_broken;
    too_many_blocks_ = false;
    header_ = {};
    errors_before_ = sink_.errors();
    apart_.open_session();
    program::Session& session = session_.emplace();
    session.span = line.head.span;
    session.number = line.is_broken ? std::string() : clean_text(line.title.text);
    if (const auto* title = std::get_if<syntax::Word>(&line.body)) {
        session.title = clean_text(title->text);
    }
}

void SessionBuilder::read(const syntax::Line& line) {
    if (grammar::is_block(line.kind)) return open_block(line);
    if (block_ && line.kind != LineKind::rest) {
        apart_.meet(line, block_->block, sink_);
    }
    if (grammar::is_item(line.kind)) return add_item(line);
    if (line.kind == LineKind::open_substitute) return add_substitute(line);
    if (line.kind == LineKind::open_level || line.kind == LineKind::open_group) {
        return add_variant(line);
    }
    if (line.is_broken) return taint();
    if (is_session_fact(line.kind)) return add_session_fact(line);
    switch (line.kind) {
        case LineKind::cue:
        case LineKind::note:
        case LineKind::stop:
        case LineKind::count:
        case LineKind::fault:
            return add_words(line);
        case LineKind::options:
            return add_options(line);
        case LineKind::columns:
            return add_columns(line);
        case LineKind::rest:
            return add_rest_line(line);
        default:
            return report_record_line(line);
    }
}

void SessionBuilder::report_record_line(const syntax::Line& line) {
    if (belongs_to_definition(line.kind)) return;
    report_not_here(line);
}

void SessionBuilder::report_not_here(const syntax::Line& line) {
    check::report_not_here(line, Surroundings::session, sink_);
}

void SessionBuilder::add_session_fact(const syntax::Line& line) {
    if (block_ || !session_->blocks.empty()) {
        return report_not_here(line);
    }
    check::add_session_fact(line, *session_, header_, sink_);
}

program::Item* SessionBuilder::last_item() {
    if (!block_ || block_->items.empty()) return nullptr;
    auto& others = block_->substitutes.back();
    return others.empty() ? &block_->items.back().item : &others.back().first.item;
}

void SessionBuilder::add_options(const syntax::Line& line) {
    const auto* names = std::get_if<syntax::Names>(&line.body);
    if (names == nullptr) return;
    if (!block_) return report_not_here(line);
    program::Item* item = last_item();
    auto& options = item == nullptr ? block_->block.options : item->options;
    for (const syntax::Word& name : names->names)
        options.push_back(clean_text(name.text));
}

void SessionBuilder::add_columns(const syntax::Line& line) {
    const auto* count = std::get_if<syntax::Measure>(&line.body);
    if (count == nullptr) return;
    if (!block_ || last_item() != nullptr) return report_not_here(line);
    if (block_->block.columns != 0) {
        sink_.report({Code::field_twice, line.head.span, {"columns"}, {}, {}});
        return;
    }
    block_->block.columns = count->value.quantity.value.numerator();
}

void SessionBuilder::add_words(const syntax::Line& line) {
    program::Item* item = last_item();
    if (const auto* fault = std::get_if<syntax::Fault>(&line.body)) {
        if (item == nullptr) return report_not_here(line);
        item->faults.push_back({clean_text(fault->what.text), clean_text(fault->mend.text)});
        return;
    }
    const auto* word = std::get_if<syntax::Word>(&line.body);
    if (word == nullptr) return;
    std::vector<std::string>* list = words_of(line.kind, item);
    if (list == nullptr) return report_not_here(line);
    list->push_back(clean_text(word->text));
}

std::vector<std::string>* SessionBuilder::words_of(LineKind kind, program::Item* item) {
    if (kind == LineKind::count) return item == nullptr ? nullptr : &item->counts;
    const auto choose = [kind](auto& owner) {
        if (kind == LineKind::cue) return &owner.cues;
        return kind == LineKind::note ? &owner.notes : &owner.stops;
    };
    if (item != nullptr) return choose(*item);
    if (block_) return choose(block_->block);
    return choose(*session_);
}

void SessionBuilder::add_rest_line(const syntax::Line& line) {
    const auto* rest = std::get_if<syntax::Rest>(&line.body);
    if (rest == nullptr) return;
    if (block_) return check::add_rest_line(*rest, *block_, sink_);
    if (rest->place != syntax::RestPlace::blocks) {
        return report_not_here(line);
    }
    if (header_.rest_between_blocks) {
        sink_.report({Code::field_twice, line.head.span, {"rest"}, {}, {}});
        return;
    }
    header_.rest_between_blocks = to_rest(*rest);
}

void SessionBuilder::open_block(const syntax::Line& line) {
    close_block(true);
    block_ = check::open_block(line, sink_);
    block_->items = std::move(spare_items_);
    apart_.open_block(line);
}

void SessionBuilder::open_block_if_none(const syntax::Line& line) {
    if (block_) return;
    DraftBlock& draft = block_.emplace();
    draft.head = line.head.span;
    draft.block.span = said_span(line);
}

void SessionBuilder::add_item(const syntax::Line& line) {
    open_block_if_none(line);
    DraftItem draft = check_dose(line, block_->block.run, definitions_, unknown_, sink_);
    if (draft.tainted) block_->tainted = true;
    if (block_->items.size() == most_items) {
        if (!block_->tainted) {
            report_too_many(line.head.span, "movements in one block", most_items);
        }
        block_->tainted = true;
        return;
    }
    block_->items.push_back(std::move(draft));
    block_->substitutes.emplace_back();
    block_->rest_line.reset();
    item_names_ = line.names;
}

void SessionBuilder::add_substitute(const syntax::Line& line) {
    if (line.is_broken) return taint();
    if (!block_ || block_->items.empty()) {
        session_tainted_ = true;
        return report_not_here(line);
    }
    DraftItem draft = check_dose(line, block_->block.run, definitions_, unknown_, sink_);
    if (draft.tainted) return;
    if (block_->substitutes.back().size() == most_substitutes) {
        return report_too_many(line.head.span, "substitutes for one movement", most_substitutes);
    }
    block_->substitutes.back().emplace_back(std::move(draft),
                                            program::Substitute{{}, condition(line), ""});
}

void SessionBuilder::add_variant(const syntax::Line& line) {
    if (line.is_broken) return taint();
    if (!block_ || block_->items.empty()) {
        session_tainted_ = true;
        return report_not_here(line);
    }
    if (block_->items.back().tainted) return;
    syntax::Line dose = line;
    dose.names = item_names_;
    DraftItem draft = check_dose(dose, block_->block.run, definitions_, unknown_, sink_);
    if (draft.tainted) return;
    if (block_->substitutes.back().size() == most_substitutes) {
        return report_too_many(line.head.span, "substitutes for one movement", most_substitutes);
    }
    const std::string_view kind = line.kind == LineKind::open_level ? "Level " : "Group ";
    block_->substitutes.back().emplace_back(
        std::move(draft),
        program::Substitute{{}, "", std::string(kind) + clean_text(line.title.text)});
}

void SessionBuilder::close_block(bool another_follows) {
    if (!block_) return;
    session_tainted_ = session_tainted_ || block_->tainted;
    program::Block block = finish_block(*block_, another_follows, sink_);
    spare_items_ = std::move(block_->items);
    spare_items_.clear();
    if (!block.rest_after) block.rest_after = header_.rest_between_blocks;
    if (!another_follows) block.rest_after.reset();
    for (program::Item& item : block.items)
        add_coaching(definitions_, item);
    if (session_->blocks.size() < most_blocks) {
        block.letter = static_cast<char>('A' + session_->blocks.size());
        session_->blocks.push_back(std::move(block));
    } else if (!too_many_blocks_ && !session_tainted_) {
        too_many_blocks_ = true;
        report_too_many(block.span, "blocks in one session", most_blocks);
    }
    block_.reset();
}

void SessionBuilder::close() {
    if (!session_) return;
    close_block(false);
    if (header_.when) session_->when = resolve_when();
    if (session_->blocks.empty() && !session_tainted_) {
        sink_.report({Code::session_empty, session_->span, {session_name()}, {}, {}});
    }
    check_volume();
    names_.name(*session_, session_tainted_);
    session_->is_sound = !session_tainted_ && sink_.errors() == errors_before_;
    keep_session();
    session_.reset();
}

void SessionBuilder::keep_session() {
    if (program_.sessions.size() < most_sessions) {
        program_.sessions.push_back(std::move(*session_));
    } else if (!too_many_sessions_) {
        too_many_sessions_ = true;
        report_too_many(session_->span, "sessions in one file", most_sessions);
    }
}

void SessionBuilder::check_volume() {
    const std::size_t sets = set_total(*session_);
    if (sets > most_session_sets) {
        // What is broken in it may be what brought so many.
        if (!session_tainted_)
            report_too_many(session_->span, "sets in one session", most_session_sets);
        session_->blocks.clear();
        return;
    }
    file_sets_ += sets;
    if (file_sets_ <= most_file_sets) return;
    session_->blocks.clear();
    if (file_sets_reported_) return;
    file_sets_reported_ = true;
    report_too_many(session_->span, "sets in one file", most_file_sets);
}

void SessionBuilder::report_too_many(Span span, std::string what, std::size_t most) {
    sink_.report({Code::too_many, span, {std::move(what), std::to_string(most)}, {}, {}});
}

std::optional<program::When> SessionBuilder::resolve_when() {
    auto when = check_when(*header_.when, header_.zone, options_, sink_);
    if (when) when->span = session_->when->span;
    return when;
}

std::string SessionBuilder::session_name() const {
    return session_->title.empty() ? "The session" : session_->title;
}

}  // namespace stave::check
