#include "compiler/check/session_names.hpp"

#include "compiler/names/names.hpp"

namespace stave::check {

void SessionNames::name(program::Session& session, bool tainted) {
    const std::string title = slug(session.title);
    std::string& name = session.slug;
    name = session.number.empty() ? title : "session-" + session.number;
    if (!session.number.empty() && !title.empty()) name += "-" + title;
    if (name.empty()) name = "session";
    if (tainted && session.title.empty()) return;
    // A number alone names a session in calendars, so that a new title keeps
    // its entry.
    const std::string identity = session.number.empty() ? name : "session-" + session.number;
    const bool single = is_first_of(identity, session);
    if (single && name != identity) static_cast<void>(is_first_of(name, session));
}

bool SessionNames::is_first_of(const std::string& identity, const program::Session& session) {
    const auto [found, added] = spans_by_identity_.emplace(identity, session.span);
    if (added) return true;
    sink_.report({Code::duplicate_session,
                  session.span,
                  {session.number.empty() ? (session.title.empty() ? "The session" : session.title)
                                          : identity},
                  {},
                  {{found->second, "the first one"}}});
    return false;
}

}  // namespace stave::check
