#include "compiler/wording/joining.hpp"
#include "compiler/wording/wording.hpp"
#include "compiler/wording/words.hpp"

namespace stave::wording {

std::string remarks(Language language, const program::Item& item) {
    std::string text;
    const std::string between = break_between(language);
    const auto add = [&](const std::vector<std::string>& words) {
        for (const std::string& one : words)
            append(text, between, one);
    };
    const auto add_with = [&](Word label, const std::vector<std::string>& words) {
        for (const std::string& one : words)
            append(text, between, said(language, label, {one}));
    };
    add_with(Word::choice_within, item.options);
    add(item.cues);
    for (const program::Fault& fault : item.faults)
        append(text, between,
               fault.mend.empty() ? fault.what : labelled(language, fault.what, fault.mend));
    add_with(Word::count_within, item.counts);
    add(item.notes);
    add_with(Word::stop_within, item.stops);
    return text;
}

std::string what_is_lacking(Language language, const program::Item& item) {
    if (item.lacking.empty()) return "";
    const std::string things =
        join(item.lacking, " " + std::string(word(language, Word::or_else)) + " ");
    return labelled(language, word(language, Word::ask_the_coach), things);
}

}  // namespace stave::wording
