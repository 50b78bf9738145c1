#include "compiler/wording/told.hpp"

#include <fmt/format.h>

#include <utility>

#include "compiler/wording/wording.hpp"

namespace stave::wording {

namespace {

void add_labelled(Language, std::vector<std::string>& lines, std::string_view label,
                  const std::vector<std::string>& texts) {
    for (const std::string& text : texts)
        lines.push_back(fmt::format("{}: {}", label, text));
}

std::string instead(Language language, const program::Program& program, const program::Block& block,
                    const program::Substitute& substitute) {
    std::string line =
        substitute.group.empty()
            ? "or " + dosed(language, block, substitute.item)
            : fmt::format("{}: {}", substitute.group, dose(language, block, substitute.item));
    if (!substitute.condition.empty()) line += ", if " + substitute.condition;
    const std::string said = remarks(language, substitute.item);
    for (const std::string& more : {directions(language, program, substitute.item), said}) {
        if (!more.empty()) line += "; " + more;
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
    return fmt::format("{}: {}", name(item), dose(language, block, item));
}

std::vector<std::string> below_item(Language language, const program::Program& program,
                                    const program::Block& block, const program::Item& item,
                                    Telling telling) {
    std::vector<std::string> lines;
    if (std::string where = directions(language, program, item); !where.empty()) {
        lines.push_back(std::move(where));
    }
    for (const program::Substitute& substitute : item.substitutes)
        lines.push_back(instead(language, program, block, substitute));
    if (!item.options.empty()) lines.push_back("Your choice: " + list(item.options));
    add_labelled(language, lines, "Stop", item.stops);
    add_labelled(language, lines, "Count", item.counts);
    if (telling == Telling::brief) return lines;
    add_labelled(language, lines, "Cue", item.cues);
    for (const program::Fault& fault : item.faults) {
        lines.push_back(fault.mend.empty()
                            ? fmt::format("Fault: {}", fault.what)
                            : fmt::format("Fault: {}. Mend: {}", fault.what, fault.mend));
    }
    add_labelled(language, lines, "Note", item.notes);
    return lines;
}

std::vector<std::string> below_block(Language language, const program::Block& block,
                                     Telling telling) {
    std::vector<std::string> lines;
    if (!block.options.empty()) lines.push_back("Your choice: " + list(block.options));
    add_labelled(language, lines, "Stop", block.stops);
    if (telling == Telling::brief) return lines;
    add_labelled(language, lines, "Cue", block.cues);
    add_labelled(language, lines, "Note", block.notes);
    return lines;
}

}  // namespace stave::wording
