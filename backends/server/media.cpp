#include "backends/server/media.hpp"

#include <array>

#include "backends/server/request.hpp"

namespace stave::server {

namespace {

struct Ending {
    std::string_view ending;
    Media media;
};

constexpr std::array endings{
    Ending{".ics", {"text/calendar; charset=utf-8", true, false}},
    Ending{".html", {"text/html; charset=utf-8", true, true}},
    Ending{".svg", {"image/svg+xml; charset=utf-8", true, true}},
    Ending{".css", {"text/css; charset=utf-8", true, false}},
    Ending{".txt", {"text/plain; charset=utf-8", true, false}},
    // RFC 8259, section 11: no charset.
    Ending{".json", {"application/json", true, false}},
    Ending{".pdf", {"application/pdf", false, false}},
    Ending{".png", {"image/png", false, false}},
};

}  // namespace

Media media_of(std::string_view path) {
    for (const auto& [ending, media] : endings) {
        if (path.size() > ending.size() &&
            same_name(path.substr(path.size() - ending.size()), ending))
            return media;
    }
    return {"application/octet-stream", false, false};
}

}  // namespace stave::server
