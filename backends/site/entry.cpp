#include "backends/site/site.hpp"
#include "compiler/wording/wording.hpp"
#include "compiler/wording/words.hpp"

namespace stave::site {

Entry make_entry(const program::Session& session, const timeline::Timeline& timeline,
                 wording::Language language) {
    Entry entry;
    entry.title = wording::session_title(language, session);
    entry.length = wording::duration(language, Ratio{timeline::minutes(timeline) * 60});
    entry.place = session.place;
    entry.link = session.link;
    if (!session.when) return entry;
    entry.date = session.when->date;
    entry.clock = session.when->clock;
    entry.zone = session.when->zone;
    if (session.when->time_limit) {
        entry.length = wording::said(
            language, wording::Word::of_length,
            {entry.length, wording::duration(language, in_base_units(*session.when->time_limit))});
    }
    return entry;
}

}  // namespace stave::site
