#include "compiler/wording/told.hpp"

#include <utility>

#include "compiler/wording/wording.hpp"
#include "compiler/wording/words.hpp"

namespace stave::wording {

namespace {

void add_labelled(Language language, std::vector<std::string>& lines, Word label,
                  const std::vector<std::string>& texts) {
    for (const std::string& text : texts)
        lines.push_back(labelled(language, word(language, label), text));
}

void add_choice(Language language, std::vector<std::string>& lines,
                const std::vector<std::string>& options) {
    if (options.empty()) return;
    lines.push_back(labelled(language, word(language, Word::your_choice), list(options)));
}

std::string instead(Language language, const program::Program& program, const program::Block& block,
                    const program::Substitute& substitute) {
    std::string line = substitute.group.empty() ? std::string(word(language, Word::or_else)) + ' ' +
                                                      dosed(language, block, substitute.item)
                                                : labelled(language, substitute.group,
                                                           dose(language, block, substitute.item));
    if (!substitute.condition.empty()) {
        line = said(language, Word::on_condition, {line, substitute.condition});
    }
    const std::string said = remarks(language, substitute.item);
    for (const std::string& more : {directions(language, program, substitute.item), said}) {
        if (!more.empty()) line += break_between(language) + more;
    }
    return line;
}

}  // namespace

std::string avoided(const program::Session& session) {
    std::string text;
    for (const program::Demand demand : session.avoid) {
        if (!text.empty()) text += ", ";
        text += grammar::demand_words(demand);
    }
    return text;
}

std::string dosed(Language language, const program::Block& block, const program::Item& item) {
    return labelled(language, name(item), dose(language, block, item));
}

std::vector<std::string> below_item(Language language, const program::Program& program,
                                    const program::Block& block, const program::Item& item,
                                    Telling telling) {
    std::vector<std::string> lines;
    if (std::string lacking = what_is_lacking(language, item); !lacking.empty()) {
        lines.push_back(std::move(lacking));
    }
    if (std::string where = directions(language, program, item); !where.empty()) {
        lines.push_back(std::move(where));
    }
    for (const program::Substitute& substitute : item.substitutes)
        lines.push_back(instead(language, program, block, substitute));
    add_choice(language, lines, item.options);
    add_labelled(language, lines, Word::stop, item.stops);
    add_labelled(language, lines, Word::count, item.counts);
    if (telling == Telling::brief) return lines;
    add_labelled(language, lines, Word::cue, item.cues);
    for (const program::Fault& fault : item.faults) {
        std::string line = labelled(language, word(language, Word::fault), fault.what);
        if (!fault.mend.empty()) {
            line += ". " + labelled(language, word(language, Word::mend), fault.mend);
        }
        lines.push_back(std::move(line));
    }
    add_labelled(language, lines, Word::note, item.notes);
    return lines;
}

std::vector<std::string> below_block(Language language, const program::Block& block,
                                     Telling telling) {
    std::vector<std::string> lines;
    add_choice(language, lines, block.options);
    add_labelled(language, lines, Word::stop, block.stops);
    if (telling == Telling::brief) return lines;
    add_labelled(language, lines, Word::cue, block.cues);
    add_labelled(language, lines, Word::note, block.notes);
    return lines;
}

}  // namespace stave::wording
