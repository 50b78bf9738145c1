#include "compiler/driver/make_mends.hpp"

#include <algorithm>
#include <optional>
#include <set>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

#include "compiler/driver/sure_fixes.hpp"

namespace stave::driver {

namespace {

// A problem in a line of these words, so many bytes behind its begin.
using Place = std::tuple<Code, std::string, std::size_t>;

// A fix that has been made.
struct Made {
    Code code{};
    std::vector<std::string> texts;
    // What its first edit has become.
    Span now;
    bool shrinks = false;
    // Where the first fix stood of those that each touch the one before.
    Place origin;
    int links = 0;
};

Place place_of(std::string_view text, const SureFix& fix) {
    const std::size_t offset = fix.edits.front().span.begin;
    const std::size_t before =
        offset == 0 ? std::string_view::npos : text.find_last_of("\r\n", offset - 1);
    const std::size_t begin = before == std::string_view::npos ? 0 : before + 1;
    const std::size_t end = std::min(text.find_first_of("\r\n", offset), text.size());
    return {fix.code, std::string(text.substr(begin, end - begin)), offset - begin};
}

// What the first line ends with.
std::string line_end(std::string_view text) {
    const std::size_t end = text.find_first_of("\r\n");
    if (end == std::string_view::npos) return "\n";
    return std::string(text.substr(end, text.substr(end).starts_with("\r\n") ? 2 : 1));
}

std::string with_line_ends(const std::string& text, const std::string& end) {
    std::string result;
    for (const char c : text)
        result += c == '\n' ? end : std::string(1, c);
    return result;
}

Made made_of(const std::string& text, const SureFix& fix) {
    Made made;
    made.code = fix.code;
    std::size_t added = 0;
    std::size_t removed = 0;
    for (const Edit& edit : fix.edits) {
        made.texts.push_back(edit.text);
        added += edit.text.size();
        removed += edit.span.size();
    }
    made.shrinks = added < removed;
    made.origin = place_of(text, fix);
    return made;
}

class Attempt {
public:
    Attempt(const Analyse& analyse, std::set<Place>& barred) : analyse_(analyse), barred_(barred) {}

    // Nothing where mends turned out to lead nowhere; they are barred then.
    std::optional<Mended> run(const std::string& text) {
        // One mend may uncover the next problem; a few turns are enough for that. Where
        // there are more than are kept it takes more of them, while problems become fewer.
        constexpr int most_turns = 10;
        constexpr std::size_t kept = 10'000;
        Mended mended;
        mended.text = text;
        std::size_t before = 0;
        for (int turn = 0;; ++turn) {
            mended.snapshot = analyse_(mended.text, kept);
            const DiagnosticSink& sink = mended.snapshot.sink;
            const std::size_t problems = sink.kept() + sink.dropped();
            const bool goes_on = turn < most_turns || problems < before;
            before = problems;
            const std::vector<SureFix> fixes = goes_on ? fixes_of(mended) : std::vector<SureFix>{};
            if (fixes.empty()) break;
            std::vector<Made> made = linked(mended.text, fixes);
            if (bar_endless(made)) return std::nullopt;
            mended.text = apply(mended.text, fixes, made);
            mended.count += fixes.size();
            last_ = std::move(made);
        }
        mended.snapshot.sink.keep_at_most(DiagnosticSink::limit);
        return mended;
    }

private:
    [[nodiscard]] std::vector<SureFix> fixes_of(const Mended& mended) const {
        std::vector<SureFix> fixes = sure_fixes(mended.snapshot);
        if (barred_.empty()) return fixes;
        std::erase_if(fixes, [&](const SureFix& fix) {
            return barred_.contains(place_of(mended.text, fix));
        });
        return fixes;
    }

    // Each with what it has in common with the last turn's at its place.
    [[nodiscard]] std::vector<Made> linked(const std::string& text,
                                           const std::vector<SureFix>& fixes) const {
        std::vector<Made> result;
        for (const SureFix& fix : fixes) {
            Made made = made_of(text, fix);
            if (const Made* before = touching(fix.edits.front().span)) {
                const bool again =
                    before->code == made.code && before->texts == made.texts && !made.shrinks;
                made.origin = before->origin;
                made.links = again ? most_links : before->links + 1;
            }
            result.push_back(std::move(made));
        }
        return result;
    }

    [[nodiscard]] const Made* touching(Span span) const {
        const auto end = [](const Made& made) { return made.now.end; };
        const auto found = std::ranges::lower_bound(last_, span.begin, {}, end);
        return found != last_.end() && found->now.begin <= span.end ? &*found : nullptr;
    }

    bool bar_endless(const std::vector<Made>& made) {
        bool any = false;
        for (const Made& one : made) {
            if (one.links < most_links) continue;
            any = true;
            barred_.insert(one.origin);
        }
        return any;
    }

    // Sets what the first edit of each has become, and sorts them by it.
    static std::string apply(const std::string& text, const std::vector<SureFix>& fixes,
                             std::vector<Made>& made) {
        std::vector<std::pair<const Edit*, Made*>> edits;
        for (std::size_t i = 0; i < fixes.size(); ++i) {
            for (const Edit& edit : fixes[i].edits) {
                const bool is_first = &edit == &fixes[i].edits.front();
                edits.emplace_back(&edit, is_first ? &made[i] : nullptr);
            }
        }
        std::ranges::sort(edits, {}, [](const auto& one) { return one.first->span.begin; });
        const std::string end = line_end(text);
        std::string result;
        std::size_t from = 0;
        for (const auto& [edit, first] : edits) {
            result += text.substr(from, edit->span.begin - from);
            const auto begin = static_cast<std::uint32_t>(result.size());
            result += with_line_ends(edit->text, end);
            if (first != nullptr) first->now = {begin, static_cast<std::uint32_t>(result.size())};
            from = edit->span.end;
        }
        std::ranges::sort(made, {}, [](const Made& one) { return one.now.begin; });
        return result + text.substr(from);
    }

    // One mend makes room for the next; no line needs as many at one place.
    static constexpr int most_links = 6;

    const Analyse& analyse_;
    std::set<Place>& barred_;
    // By place.
    std::vector<Made> last_;
};

}  // namespace

Mended make_mends(const std::string& text, const Analyse& analyse) {
    constexpr int most_attempts = 5;
    std::set<Place> barred;
    for (int i = 0; i < most_attempts; ++i) {
        if (auto mended = Attempt(analyse, barred).run(text)) return std::move(*mended);
    }
    return {text, 0, analyse(text, DiagnosticSink::limit)};
}

}  // namespace stave::driver
