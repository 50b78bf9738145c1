#include "backends/server/answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "backends/server/conditions.hpp"
#include "backends/server/dates.hpp"
#include "backends/server/media.hpp"
#include "backends/server/preferences.hpp"
#include "backends/server/ranges.hpp"
#include "backends/server/refusal.hpp"
#include "backends/server/target.hpp"

namespace stave::server {

namespace {

using namespace std::string_view_literals;

constexpr std::string_view index_name = "index.html";
// RFC 9110, section 9.3, and RFC 5789: what is known and not allowed is 405, all else 501.
constexpr std::array known_methods{"GET"sv,   "HEAD"sv,    "POST"sv,    "PUT"sv,  "DELETE"sv,
                                   "PATCH"sv, "OPTIONS"sv, "CONNECT"sv, "TRACE"sv};

// RFC 9112, section 3.2: one Host field, or none in HTTP/1.0.
bool has_sound_host(const Request& request) {
    const std::size_t count = field_count(request, "Host");
    return count == 1 || (count == 0 && request.version == "HTTP/1.0");
}

// RFC 9110, section 5.6.2; a blank before the colon, too, is refused (RFC 9112, section 5.1).
bool has_sound_names(const Request& request) {
    constexpr std::string_view allowed =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789!#$%&'*+-.^_`|~";
    return std::ranges::all_of(request.fields, [&](const Field& field) {
        return !field.name.empty() && field.name.find_first_not_of(allowed) == std::string::npos;
    });
}

// One file in the coding that was chosen, on its way to an answer.
class FileAnswer {
public:
    FileAnswer(const Request& request, std::string path, const File& file,
               std::chrono::sys_seconds now)
        : request_(request),
          path_(std::move(path)),
          media_(media_of(path_)),
          changed_(std::min(file.changed, now)),
          now_(now),
          is_packed_(file.packed &&
                     wants_gzip(field_value(request, "Accept-Encoding").value_or(""))),
          chosen_(is_packed_ ? *file.packed : file.plain) {}

    [[nodiscard]] Answer made() const {
        const Validators validators{chosen_.tag, changed_};
        switch (conditions(request_, validators, now_)) {
            case Outcome::failed:
                return refusal(412, request_);
            case Outcome::not_modified:
                return begun(304);
            case Outcome::proceed:
                break;
        }
        const std::uint64_t size = chosen_.body.size();
        const std::optional<std::string> range = field_value(request_, "Range");
        // Section 14.2: a range of anything but GET is left aside.
        if (!range || request_.method != "GET" || !range_condition(request_, validators))
            return whole();
        const AskedRange asked = asked_range(*range, size);
        if (const auto* part = std::get_if<PartRange>(&asked)) return partial(*part);
        if (std::holds_alternative<NoRange>(asked)) {
            Answer none = refusal(416, request_);
            none.fields.push_back({"Content-Range", fmt::format("bytes */{}", size)});
            return none;
        }
        return whole();
    }

private:
    // What a 304 has too: section 15.4.5.
    [[nodiscard]] Answer begun(int status) const {
        Answer answer;
        answer.status = status;
        answer.body = chosen_.body;
        answer.length = chosen_.body.size();
        answer.fields.push_back({"ETag", chosen_.tag});
        const bool is_for_few = is_private(path_);
        answer.fields.push_back({"Cache-Control", fmt::format("{}, max-age=300, must-revalidate",
                                                              is_for_few ? "private" : "public")});
        if (media_.packs) answer.fields.push_back({"Vary", "Accept-Encoding"});
        if (!is_for_few) answer.shown_path = "/" + escaped_path(path_);
        return answer;
    }

    [[nodiscard]] Answer whole() const {
        Answer answer = begun(200);
        add_description(answer);
        answer.fields.push_back({"Accept-Ranges", "bytes"});
        return answer;
    }

    [[nodiscard]] Answer partial(const PartRange& part) const {
        Answer answer = begun(206);
        add_description(answer);
        answer.fields.push_back(
            {"Content-Range", fmt::format("bytes {}-{}/{}", part.first,
                                          part.first + part.length - 1, answer.length)});
        answer.first = part.first;
        answer.length = part.length;
        return answer;
    }

    void add_description(Answer& answer) const {
        answer.fields.push_back({"Content-Type", std::string(media_.type)});
        if (is_packed_) answer.fields.push_back({"Content-Encoding", "gzip"});
        answer.fields.push_back({"Last-Modified", date_text(changed_)});
        if (is_private(path_))
            answer.fields.push_back({"X-Robots-Tag", "noindex, nofollow, noarchive"});
        add_guards(answer, media_.is_document);
    }

    const Request& request_;
    std::string path_;
    Media media_;
    // Section 8.8.2.1: never later than the answer.
    std::chrono::sys_seconds changed_;
    std::chrono::sys_seconds now_;
    bool is_packed_;
    const Representation& chosen_;
};

// From a folder's name without its stroke to the one with it, so that relative links hold.
Answer moved(const Request& request, const std::string& path) {
    Answer answer = refusal(301, request);
    answer.fields.push_back({"Location", fmt::format("/{}/", escaped_path(path))});
    return answer;
}

std::string index_of(const std::string& path) {
    return path.empty() ? std::string(index_name) : fmt::format("{}/{}", path, index_name);
}

}  // namespace

Answer answer(const Request& request, const Find& find, std::chrono::sys_seconds now) {
    if (!has_sound_host(request) || !has_sound_names(request) || !has_sound_length(request))
        return refusal(400, request);
    if (request.method != "GET" && request.method != "HEAD") {
        const bool is_known =
            std::ranges::find(known_methods, request.method) != known_methods.end();
        Answer refused = refusal(is_known ? 405 : 501, request);
        if (is_known) refused.fields.push_back({"Allow", "GET, HEAD"});
        return refused;
    }
    const auto place = place_of(request.target);
    if (!place) return refusal(place.error() == Refusal::malformed ? 400 : 404, request);
    const std::string path = place->is_folder ? index_of(place->path) : place->path;
    const Found found = find(path);
    if (const auto* file = std::get_if<File>(&found))
        return FileAnswer(request, path, *file, now).made();
    if (std::holds_alternative<Unreadable>(found)) return refusal(500, request);
    const bool has_index = std::holds_alternative<Folder>(found) && !place->is_folder &&
                           std::holds_alternative<File>(find(index_of(path)));
    return has_index ? moved(request, path) : refusal(404, request);
}

std::string entity_tag(std::string_view hash, bool is_packed) {
    // Half of a SHA-256 tells two files apart as well.
    constexpr std::size_t enough = 32;
    return fmt::format("\"{}{}\"", hash.substr(0, enough), is_packed ? "-gzip" : "");
}

std::string log_line(const Request& request, const Answer& answer) {
    const bool is_known = std::ranges::find(known_methods, request.method) != known_methods.end();
    const std::string_view method = is_known ? std::string_view(request.method) : "?";
    if (answer.shown_path.empty()) return fmt::format("{} {}", answer.status, method);
    return fmt::format("{} {} {}", answer.status, method, answer.shown_path);
}

}  // namespace stave::server
