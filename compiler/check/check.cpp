#include "compiler/check/check.hpp"

#include <fmt/format.h>

#include <optional>
#include <unordered_map>
#include <utility>

#include "compiler/check/blocks.hpp"
#include "compiler/names/names.hpp"
#include "compiler/check/volume.hpp"
#include "compiler/check/when.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;

// Walks the lines and closes sessions, blocks and items as new ones open.
class SessionBuilder {
public:
    SessionBuilder(program::Program& program, const Definitions& definitions,
                   const Options& options, DiagnosticSink& sink)
        : program_(program), definitions_(definitions), options_(options), sink_(sink) {}

    void read(const syntax::Line& line) {
        if (line.kind == LineKind::blank || line.kind == LineKind::remark) return;
        if (line.kind == LineKind::open_movement) {
            close_session();
            in_definition_ = true;
            return;
        }
        if (line.kind == LineKind::open_session) return open_session(line);
        if (in_definition_ && belongs_to_definition(line.kind)) return;
        if (line.kind == LineKind::unclassified) return taint();
        if (in_definition_ && !opens_training(line.kind)) {
            return report_not_here(
                line,
                "A movement's definition holds counted in, sides, pattern, speed, cue and fault.");
        }
        in_definition_ = false;
        if (!session_) return report_no_session(line);
        read_in_session(line);
    }

    void finish() {
        close_session();
        if (program_.sessions.empty() && !sink_.has_errors()) {
            sink_.report({Code::no_session, {0, 0}, {}, {}, {}});
        }
    }

private:
    static bool belongs_to_definition(LineKind kind) {
        switch (kind) {
            case LineKind::counted_in:
            case LineKind::sides:
            case LineKind::pattern:
            case LineKind::speed:
            case LineKind::cue:
            case LineKind::fault:
            case LineKind::unclassified:
            case LineKind::loaded_with:
            case LineKind::joint:
            case LineKind::starts:
            case LineKind::how:
            case LineKind::easier:
            case LineKind::harder:
            case LineKind::caution:
            case LineKind::also:
                return true;
            default:
                return false;
        }
    }

    // Whether the line is a block or a movement, which only a session can hold.
    static bool opens_training(LineKind kind) {
        switch (kind) {
            case LineKind::open_warm_up:
            case LineKind::open_sets:
            case LineKind::open_superset:
            case LineKind::open_circuit:
            case LineKind::open_cool_down:
            case LineKind::movement_line:
            case LineKind::open_plain_movement:
                return true;
            default:
                return false;
        }
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
        if (block_) block_->tainted = true;
        session_tainted_ = true;
        // It may have been the session's own head that could not be read.
        if (!session_) missing_session_reported_ = true;
    }

    void open_session(const syntax::Line& line) {
        close_session();
        in_definition_ = false;
        session_tainted_ = line.is_broken;
        too_many_blocks_ = false;
        zone_.reset();
        when_line_.reset();
        program::Session& session = session_.emplace();
        session.span = line.head.span;
        session.number = line.is_broken ? std::string() : clean_text(line.title.text);
        if (const auto* title = std::get_if<syntax::Word>(&line.body)) {
            session.title = clean_text(title->text);
        }
    }

    void read_in_session(const syntax::Line& line) {
        switch (line.kind) {
            case LineKind::open_warm_up:
            case LineKind::open_sets:
            case LineKind::open_superset:
            case LineKind::open_circuit:
            case LineKind::open_cool_down:
                return open_block(line);
            case LineKind::movement_line:
            case LineKind::open_plain_movement:
                return add_item(line);
            case LineKind::open_substitute:
                return add_substitute(line);
            default:
                break;
        }
        if (line.is_broken) return taint();
        switch (line.kind) {
            case LineKind::when:
            case LineKind::zone:
            case LineKind::place:
            case LineKind::kit:
                return add_session_fact(line);
            case LineKind::cue:
            case LineKind::note:
            case LineKind::stop:
            case LineKind::count:
            case LineKind::fault:
                return add_words(line);
            case LineKind::rest:
                return add_rest_line(line);
            // Lines of definitions, which collect_definitions has reported.
            default:
                return;
        }
    }

    void report_not_here(const syntax::Line& line, std::string_view where) {
        const std::string head(line.head.text);
        sink_.report({Code::line_not_here, line.head.span, {head, std::string(where)}, {}, {}});
    }

    // Facts of the session stand before its first block.
    void add_session_fact(const syntax::Line& line) {
        if (block_ || !session_->blocks.empty()) {
            return report_not_here(line, "It belongs to the session, before its first block.");
        }
        const bool twice = (line.kind == LineKind::when && when_line_) ||
                           (line.kind == LineKind::zone && zone_) ||
                           (line.kind == LineKind::place && !session_->place.empty()) ||
                           (line.kind == LineKind::kit && !session_->kit.empty());
        if (twice) {
            sink_.report(
                {Code::field_twice, line.head.span, {std::string(line.head.text)}, {}, {}});
            return;
        }
        if (const auto* when = std::get_if<syntax::When>(&line.body)) {
            when_line_ = *when;
            session_->when.emplace().span = line.body_span;
        } else if (const auto* kit = std::get_if<syntax::Kit>(&line.body)) {
            for (const syntax::KitThing& thing : kit->things)
                session_->kit.push_back(to_kit(thing));
        } else if (const auto* word = std::get_if<syntax::Word>(&line.body)) {
            if (line.kind == LineKind::zone) zone_ = *word;
            if (line.kind == LineKind::place) session_->place = clean_text(word->text);
        }
    }

    static program::KitThing to_kit(const syntax::KitThing& thing) {
        program::KitThing result;
        result.count = thing.count;
        result.name = clean_text(thing.name);
        for (const syntax::Value& size : thing.sizes) {
            result.sizes.push_back(size.quantity.value);
            result.unit = size.quantity.unit;
        }
        return result;
    }

    // Words belong to the movement above, else to the block, else to the session.
    void add_words(const syntax::Line& line) {
        program::Item* item = nullptr;
        if (block_ && !block_->items.empty()) item = &block_->items.back().item;
        if (const auto* fault = std::get_if<syntax::Fault>(&line.body)) {
            if (item == nullptr) return report_not_here(line, "It belongs below a movement.");
            item->faults.push_back({clean_text(fault->what.text), clean_text(fault->mend.text)});
            return;
        }
        const auto* word = std::get_if<syntax::Word>(&line.body);
        if (word == nullptr) return;
        std::vector<std::string>* list = words_of(line.kind, item);
        if (list == nullptr) return report_not_here(line, "It belongs below a movement.");
        list->push_back(clean_text(word->text));
    }

    std::vector<std::string>* words_of(LineKind kind, program::Item* item) {
        if (kind == LineKind::count) return item == nullptr ? nullptr : &item->counts;
        const auto choose = [kind](auto& owner) {
            if (kind == LineKind::cue) return &owner.cues;
            return kind == LineKind::note ? &owner.notes : &owner.stops;
        };
        if (item != nullptr) return choose(*item);
        if (block_) return choose(block_->block);
        return choose(*session_);
    }

    void add_rest_line(const syntax::Line& line) {
        const auto* rest = std::get_if<syntax::Rest>(&line.body);
        if (rest == nullptr) return;
        if (!block_) return report_not_here(line, "It belongs to a block or below a movement.");
        if (block_->items.empty()) return add_block_rest(*rest, *block_, sink_);
        auto& place = block_->items.back().item.rest_after;
        if (place) {
            sink_.report({Code::field_twice, line.head.span, {"rest"}, {}, {}});
            return;
        }
        place = to_rest(*rest);
    }

    void open_block(const syntax::Line& line) {
        close_block();
        block_ = check::open_block(line, sink_);
    }

    // A movement straight below the session's head opens a block of straight sets.
    void open_block_if_none(const syntax::Line& line) {
        if (block_) return;
        DraftBlock& draft = block_.emplace();
        draft.head = line.head.span;
        draft.block.span = line.span;
    }

    void add_item(const syntax::Line& line) {
        open_block_if_none(line);
        DraftItem draft = check_dose(line, definitions_, sink_);
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
    }

    void add_substitute(const syntax::Line& line) {
        if (line.is_broken) return taint();
        if (!block_ || block_->items.empty()) {
            session_tainted_ = true;
            return report_not_here(line, "It belongs below the movement that it may replace.");
        }
        DraftItem draft = check_dose(line, definitions_, sink_);
        if (draft.tainted) return;
        if (block_->substitutes.back().size() == most_substitutes) {
            return report_too_many(line.head.span, "substitutes for one movement",
                                   most_substitutes);
        }
        block_->substitutes.back().emplace_back(std::move(draft), missing_kit(line));
    }

    // What the substitute's line says must be missing, or "".
    static std::string missing_kit(const syntax::Line& line) {
        for (const syntax::Detail& detail : std::get<syntax::Dose>(line.body).details) {
            const auto* missing = std::get_if<syntax::IfNo>(&detail);
            if (missing != nullptr) return clean_text(missing->kit.text);
        }
        return "";
    }

    void close_block() {
        if (!block_) return;
        session_tainted_ = session_tainted_ || block_->tainted;
        program::Block block = finish_block(std::move(*block_), sink_);
        for (program::Item& item : block.items)
            add_coaching(definitions_, item);
        if (session_->blocks.size() < most_blocks) {
            block.letter = static_cast<char>('A' + session_->blocks.size());
            session_->blocks.push_back(std::move(block));
        } else if (!too_many_blocks_) {
            too_many_blocks_ = true;
            report_too_many(block.span, "blocks in one session", most_blocks);
        }
        block_.reset();
    }

    void close_session() {
        if (!session_) return;
        close_block();
        if (when_line_) session_->when = resolve_when();
        if (session_->blocks.empty() && !session_tainted_) {
            sink_.report({Code::session_empty, session_->span, {session_name()}, {}, {}});
        }
        check_volume();
        name_session();
        keep_session();
        session_.reset();
    }

    void keep_session() {
        if (program_.sessions.size() < most_sessions) {
            program_.sessions.push_back(std::move(*session_));
        } else if (!too_many_sessions_) {
            too_many_sessions_ = true;
            report_too_many(session_->span, "sessions in one file", most_sessions);
        }
    }

    // Bounds the timelines that the sessions unroll to.
    void check_volume() {
        const std::size_t sets = set_total(*session_);
        if (sets > most_session_sets) {
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

    void report_too_many(Span span, std::string what, std::size_t most) {
        sink_.report({Code::too_many, span, {std::move(what), std::to_string(most)}, {}, {}});
    }

    std::optional<program::When> resolve_when() {
        auto when = check_when(*when_line_, zone_, options_, sink_);
        if (when) when->span = session_->when->span;
        return when;
    }

    [[nodiscard]] std::string session_name() const {
        if (session_->title.empty()) return "The session";
        return session_->title;
    }

    void name_session() {
        const std::string title = slug(session_->title);
        std::string& name = session_->slug;
        name = session_->number.empty() ? title : "session-" + session_->number;
        if (!session_->number.empty() && !title.empty()) name += "-" + title;
        if (name.empty()) name = "session";
        if (session_tainted_ && session_->title.empty()) return;
        // A number alone names a session in calendars, so that a new title keeps
        // its entry.
        const std::string identity =
            session_->number.empty() ? name : "session-" + session_->number;
        const bool single = is_first_of(identity);
        if (single && name != identity) static_cast<void>(is_first_of(name));
    }

    // Reports a second session of the same identity or the same file name.
    bool is_first_of(const std::string& identity) {
        const auto [found, added] = spans_by_identity_.emplace(identity, session_->span);
        if (added) return true;
        sink_.report({Code::duplicate_session,
                      session_->span,
                      {session_->number.empty() ? session_name() : identity},
                      {},
                      {{found->second, "the first one"}}});
        return false;
    }

    program::Program& program_;
    const Definitions& definitions_;
    const Options& options_;
    DiagnosticSink& sink_;
    std::optional<program::Session> session_;
    std::optional<DraftBlock> block_;
    std::optional<syntax::When> when_line_;
    std::optional<syntax::Word> zone_;
    std::unordered_map<std::string, Span> spans_by_identity_;
    bool in_definition_ = false;
    bool session_tainted_ = false;
    bool too_many_blocks_ = false;
    bool too_many_sessions_ = false;
    std::size_t file_sets_ = 0;
    bool file_sets_reported_ = false;
    bool missing_session_reported_ = false;
};

}  // namespace

program::Program check(const syntax::Document& document, const Options& options,
                       DiagnosticSink& sink) {
    program::Program program;
    Definitions definitions = collect_definitions(document, sink);
    SessionBuilder builder(program, definitions, options, sink);
    for (const syntax::Line& line : document.lines)
        builder.read(line);
    builder.finish();
    program.movements = std::move(definitions.movements);
    return program;
}

}  // namespace stave::check
