#include "backends/card/layout_parts.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::card::layout {

namespace {

using wording::Word;

// A word in bold, then the text: "Count: steps forward, not back".
std::vector<Run> headed(const Context& context, Word word, const std::string& text) {
    return {{context.style.strong_cue(), context.label(word)},
            {context.style.cue(), text, blank(context.fonts, context.style.cue())}};
}

std::vector<Run> substitute_paragraph(const Context& context, const program::Block& block,
                                      const program::Substitute& substitute) {
    const TextStyle style = context.style.cue();
    const Centipoints gap = blank(context.fonts, style);
    const std::string between = wording::break_between(context.language);
    const std::string colon(context.word(Word::colon));
    std::string dose = wording::dose(context.language, block, substitute.item);
    if (const std::string ways =
            wording::directions(context.language, context.program, substitute.item);
        !ways.empty()) {
        dose += between + ways;
    }
    if (!substitute.condition.empty()) {
        dose = wording::said(context.language, Word::on_condition, {dose, substitute.condition});
    }
    const std::string remarks = wording::remarks(context.language, substitute.item);
    if (!remarks.empty()) dose += between + remarks;
    if (!substitute.group.empty()) {
        return {{context.style.strong_cue(), substitute.group + colon}, {style, dose, gap}};
    }
    return {{style, std::string(context.word(Word::or_else))},
            {context.style.strong_cue(), wording::name(substitute.item) + colon, gap},
            {style, dose, gap}};
}

}  // namespace

std::vector<Run> fault_paragraph(const Context& context, const program::Fault& fault) {
    const TextStyle style = context.style.cue();
    const Centipoints gap = blank(context.fonts, style);
    std::vector<Run> runs{{style, std::string(context.word(Word::if_fault))},
                          {style, fault.what + std::string(context.word(Word::colon)), gap}};
    runs.push_back({context.style.strong_cue(), fault.mend, gap});
    return runs;
}

std::vector<Run> cue_paragraph(const Context& context, const std::vector<std::string>& cues) {
    std::vector<Run> runs;
    for (const std::string& cue : cues) {
        if (!runs.empty()) runs.back().text += "\u00A0·";
        runs.push_back({context.style.cue(), cue, points(4)});
    }
    return runs;
}

std::vector<Run> stop_paragraph(const Context& context, const std::string& stop) {
    const TextStyle style = context.style.strong_cue();
    return {{style, context.label(Word::stop)}, {style, stop, blank(context.fonts, style)}};
}

std::vector<Run> cue_words(const Context& context, std::uint32_t block_id,
                           const program::Item& item) {
    if (context.style.without_cues[block_id]) return {};
    return cue_paragraph(context, item.cues);
}

std::vector<std::vector<Run>> detail_words(const Context& context, const program::Block& block,
                                           const program::Item& item) {
    std::vector<std::vector<Run>> paragraphs;
    if (const std::string lacking = wording::what_is_lacking(context.language, item);
        !lacking.empty()) {
        paragraphs.push_back({{context.style.number(), lacking}});
    }
    for (const std::string& words :
         {wording::directions(context.language, context.program, item),
          wording::details(context.language, block, item),
          wording::capitalised(wording::rest_behind(context.language, block, item))}) {
        if (words.empty()) continue;
        add_words(paragraphs.emplace_back(), context.fonts, words, context.style.plain(),
                  context.style.number(), 0);
    }
    return paragraphs;
}

std::vector<std::vector<Run>> remarks(const Context& context, const program::Block& block,
                                      const program::Item& item) {
    std::vector<std::vector<Run>> result;
    for (const program::Fault& fault : item.faults)
        result.push_back(fault_paragraph(context, fault));
    for (const std::string& count : item.counts)
        result.push_back(headed(context, Word::count, count));
    for (const std::string& note : item.notes) {
        result.push_back({{context.style.cue(), note}});
    }
    for (const std::string& stop : item.stops)
        result.push_back(stop_paragraph(context, stop));
    if (!item.options.empty()) {
        result.push_back(headed(context, Word::your_choice, wording::list(item.options)));
    }
    for (const program::Substitute& substitute : item.substitutes) {
        result.push_back(substitute_paragraph(context, block, substitute));
    }
    return result;
}

}  // namespace stave::card::layout
