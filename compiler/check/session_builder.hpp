// The sessions of a file, built line by line.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "compiler/check/blocks.hpp"
#include "compiler/check/check.hpp"
#include "compiler/check/session_header.hpp"
#include "compiler/check/session_names.hpp"
#include "compiler/check/stands_apart.hpp"
#include "compiler/check/unknown_movements.hpp"
#include "compiler/diagnostics/sink.hpp"
#include "compiler/program/program.hpp"
#include "compiler/syntax/document.hpp"

namespace stave::check {

// Closes a session, a block or an item where the next one opens, and adds what is whole to
// the program. What it is built from must outlive it.
class SessionBuilder {
public:
    SessionBuilder(program::Program& program, const Definitions& definitions,
                   const Options& options, DiagnosticSink& sink);

    // By the line that names the session; the one before is closed.
    void open(const syntax::Line& line);
    [[nodiscard]] bool is_open() const { return session_.has_value(); }
    // A line that is to stand in the open session, and can be read in part at least.
    void read(const syntax::Line& line);
    void meet_blank() { apart_.meet_blank(); }
    // By a line that cannot be read: it may have held anything.
    void taint();
    // Nothing happens where none is open.
    void close();

private:
    // Lines of definitions have been reported where those are collected.
    void report_record_line(const syntax::Line& line);
    void report_not_here(const syntax::Line& line);
    // Facts of the session stand before its first block.
    void add_session_fact(const syntax::Line& line);
    // That of the line above: a movement, or what may be done instead; null where there
    // is none.
    program::Item* last_item();
    // What the athlete may choose: of the movement above, else of the block.
    void add_options(const syntax::Line& line);
    // How many columns the block's movements stand in, which all of them share.
    void add_columns(const syntax::Line& line);
    // Words belong to the movement above, else to the block, else to the session.
    void add_words(const syntax::Line& line);
    std::vector<std::string>* words_of(grammar::LineKind kind, program::Item* item);
    void add_rest_line(const syntax::Line& line);
    void open_block(const syntax::Line& line);
    // A movement straight below the session's head opens a block of straight sets.
    void open_block_if_none(const syntax::Line& line);
    void add_item(const syntax::Line& line);
    void add_substitute(const syntax::Line& line);
    // "level 2: 3 x 6": the movement above, for some, with another dose.
    void add_variant(const syntax::Line& line);
    void close_block(bool another_follows);
    void keep_session();
    // Bounds the timelines that the sessions unroll to.
    void check_volume();
    void report_too_many(Span span, std::string what, std::size_t most);
    std::optional<program::When> resolve_when();
    [[nodiscard]] std::string session_name() const;

    program::Program& program_;
    const Definitions& definitions_;
    const Options& options_;
    DiagnosticSink& sink_;
    std::optional<program::Session> session_;
    std::optional<DraftBlock> block_;
    // The room for the drafts of a block, kept for the next: they are large.
    std::vector<DraftItem> spare_items_;
    SessionHeader header_;
    SessionNames names_;
    UnknownMovements unknown_;
    StandsApart apart_;
    // Of the last movement line.
    std::vector<syntax::Word> item_names_;
    bool session_tainted_ = false;
    // Errors that had been met when the session began.
    std::size_t errors_before_ = 0;
    bool too_many_blocks_ = false;
    bool too_many_sessions_ = false;
    std::size_t file_sets_ = 0;
    bool file_sets_reported_ = false;
};

}  // namespace stave::check
