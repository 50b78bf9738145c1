// Words before a movement's name that say what its line does already.
#include <algorithm>
#include <array>
#include <string_view>

#include "compiler/compose/session_parts.hpp"

namespace stave::compose {

namespace {

using namespace std::string_view_literals;

// Where "deadlift" begins in "replace deadlift with swing".
struct Named {
    std::uint32_t begin = 0;
    std::string name;
    // "swing", or "".
    std::string other;
};

Named read_name(const std::string& title) {
    constexpr std::array verbs{"change"sv, "replace"sv, "update"sv, "modify"sv, "swap"sv};
    const std::size_t blank = title.find(' ');
    if (blank == std::string::npos) return {};
    const std::string verb = fold_name(title.substr(0, blank));
    if (std::ranges::find(verbs, verb) == verbs.end()) return {};
    Named result;
    result.begin = static_cast<std::uint32_t>(title.find_first_not_of(' ', blank));
    result.name = title.substr(result.begin);
    for (const std::string_view joint : {" with "sv, " by "sv, " for "sv}) {
        const std::size_t at = result.name.find(joint);
        if (at == std::string::npos) continue;
        result.other = result.name.substr(at + joint.size());
        result.name.resize(at);
        break;
    }
    return result;
}

}  // namespace

bool report_change_word(const Workspace& workspace, const parse::Line& line,
                        const std::function<bool(const std::string&)>& known) {
    const std::string title = workspace.text(line.title);
    const Named named = read_name(title);
    if (named.name.empty() || !known(fold_name(named.name))) return false;
    const std::string body = workspace.text(line.body);
    if (!named.other.empty()) {
        workspace.report(Code::change_word, line.title,
                         {title, "leave out: " + named.name + " in the session's head, and " +
                                     named.other + ": " + body + " below the line of its block"});
        return true;
    }
    const Span word{line.title.begin, line.title.begin + named.begin};
    const std::string mended = named.name + ": " + body;
    workspace.report(Code::change_word, {line.title.begin, line.title.end}, {title, mended},
                     {{mended, {Edit{word, ""}}}});
    return true;
}

}  // namespace stave::compose
