#include "compiler/wording/joining.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::wording {

std::string remarks(Language, const program::Item& item) {
    std::string text;
    const auto add = [&](std::string_view label, const std::vector<std::string>& words) {
        for (const std::string& one : words)
            append(text, "; ", std::string(label) + one);
    };
    add("your choice: ", item.options);
    add("", item.cues);
    for (const program::Fault& fault : item.faults)
        append(text, "; ", fault.mend.empty() ? fault.what : fault.what + ": " + fault.mend);
    add("count ", item.counts);
    add("", item.notes);
    add("stop: ", item.stops);
    return text;
}

}  // namespace stave::wording
