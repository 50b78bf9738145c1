#include "compiler/driver/sure_fixes.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <map>
#include <string>
#include <string_view>
#include <utility>

#include "compiler/diagnostics/catalogue.hpp"
#include "grammar/vocabulary.hpp"

namespace stave::driver {

namespace {

// Whether all edits lie in the file itself, not in what it takes in.
bool is_own(const SourceFile& source, const Fix& fix) {
    return std::ranges::all_of(fix.edits, [&](const Edit& edit) {
        return source.part_at(edit.span.begin) == 0 && source.part_at(edit.span.end) == 0;
    });
}

// Places that are taken, from begin to end.
class Taken {
public:
    // Whether it overlaps one of them; two insertions at one place would come in no order.
    [[nodiscard]] bool overlaps(Span span) const {
        const auto next = spans_.lower_bound(span.begin);
        if (next != spans_.end() && (next->first == span.begin || next->first < span.end)) {
            return true;
        }
        return next != spans_.begin() && std::prev(next)->second > span.begin;
    }
    void take(Span span) { spans_.emplace(span.begin, span.end); }

private:
    std::map<std::uint32_t, std::uint32_t> spans_;
};

bool is_word_sign(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '\'';
}

// Words that move to a note and say how much, on which side or when to rest would no
// longer be counted.
bool hides_work(const Fix& fix) {
    constexpr std::array counted{"each", "per",   "left",    "right", "both",    "alternating",
                                 "rest", "rests", "resting", "swap",  "swapped", "max",
                                 "many", "times", "sets",    "rounds"};
    constexpr std::string_view note = "note: ";
    for (const Edit& edit : fix.edits) {
        const std::size_t begin = edit.text.find(note);
        if (begin == std::string::npos) continue;
        std::string_view said = std::string_view(edit.text).substr(begin + note.size());
        if (said.find_first_of("0123456789") != std::string_view::npos) return true;
        while (!said.empty()) {
            const auto* const end = std::ranges::find_if_not(said, is_word_sign);
            const auto size = static_cast<std::size_t>(end - said.begin());
            const std::string_view word = said.substr(0, size);
            if (std::ranges::any_of(counted, [word](std::string_view one) {
                    return grammar::same_word(one, word);
                })) {
                return true;
            }
            said.remove_prefix(std::min(size + 1, said.size()));
        }
    }
    return false;
}

}  // namespace

std::vector<SureFix> sure_fixes(const analysis::Snapshot& snapshot) {
    std::vector<SureFix> fixes;
    Taken taken;
    for (Diagnostic& diagnostic : snapshot.sink.sorted()) {
        // What is only warned of means something already.
        const bool is_sure = catalogue_entry(diagnostic.code).severity == Severity::error &&
                             diagnostic.fixes.size() == 1 && !mend_is_guess(diagnostic.code) &&
                             !hides_work(diagnostic.fixes.front());
        if (!is_sure) continue;
        Fix& fix = diagnostic.fixes.front();
        const bool clashes = std::ranges::any_of(
            fix.edits, [&](const Edit& edit) { return taken.overlaps(edit.span); });
        if (fix.edits.empty() || clashes || !is_own(*snapshot.source, fix)) continue;
        for (const Edit& edit : fix.edits)
            taken.take(edit.span);
        std::ranges::sort(fix.edits, {}, [](const Edit& edit) { return edit.span.begin; });
        fixes.push_back({diagnostic.code, std::move(fix.edits)});
    }
    return fixes;
}

}  // namespace stave::driver
