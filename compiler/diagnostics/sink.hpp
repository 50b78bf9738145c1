// Where passes put what they find. A pass never stops at a problem: it reports
// it here and goes on with the best it has.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"

namespace stave {

// Keeps diagnostics in the order of their places. At most `limit` are kept, or as many as
// it is made for; the rest are counted, so that a hostile file cannot fill the memory. What is said
// of the same words twice, since two sessions share a line, is kept once.
class DiagnosticSink {
public:
    static constexpr std::size_t limit = 200;

    // A problem as the function below judges it: its code, where it begins, and the session
    // that it was found for.
    struct Found {
        Code code{};
        std::uint32_t begin = 0;
        // Where that session's head begins; none where it was found for no session, but in
        // lines that several may share.
        std::optional<std::uint32_t> session;
    };
    using Judge = std::function<bool(const Found&)>;

    explicit DiagnosticSink(std::size_t most_kept = limit) : most_kept_(most_kept) {}

    void report(Diagnostic diagnostic);

    // What is reported from now on is found for the session whose head begins there.
    void enter_session(std::optional<std::uint32_t> head_begin) { session_ = head_begin; }

    // Forgets the diagnostics so far that the function takes, and from now on those that
    // it would take; it must take no errors.
    void leave_out(Judge takes);

    // Whether the problem would be left out; what allows it then counts as met.
    [[nodiscard]] bool leaves_out(const Diagnostic& diagnostic) const {
        return left_out_ && left_out_({diagnostic.code, diagnostic.span.begin, session_});
    }

    // Drops those that are more, and from now on keeps no more.
    void keep_at_most(std::size_t most);

    // Lets the function add to each of the kept diagnostics.
    void amend(const std::function<void(Diagnostic&)>& adds);

    [[nodiscard]] bool has_errors() const { return errors_ > 0; }
    [[nodiscard]] std::size_t errors() const { return errors_; }
    [[nodiscard]] bool has_warnings() const { return warnings_ > 0; }
    [[nodiscard]] std::size_t kept() const { return diagnostics_.size(); }
    // Whether there are more than people are shown: what takes long to find and helps them
    // alone is no longer looked for.
    [[nodiscard]] bool has_plenty() const { return diagnostics_.size() + dropped_ > limit; }
    // Reported but not kept.
    [[nodiscard]] std::size_t dropped() const { return dropped_; }
    // Sorted by place, equal places in the order of their reports.
    [[nodiscard]] std::vector<Diagnostic> sorted() const;

private:
    [[nodiscard]] bool is_kept(const Diagnostic& diagnostic) const;

    std::size_t most_kept_;
    std::vector<Diagnostic> diagnostics_;
    Judge left_out_;
    // Warnings and notes that were not kept, while nothing is left out yet.
    std::vector<Found> undecided_;
    std::optional<std::uint32_t> session_;
    std::size_t errors_ = 0;
    std::size_t warnings_ = 0;
    std::size_t dropped_ = 0;
};

}  // namespace stave
