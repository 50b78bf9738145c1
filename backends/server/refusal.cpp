#include "backends/server/refusal.hpp"

#include <fmt/format.h>

#include <string>
#include <utility>

#include "backends/server/preferences.hpp"
#include "compiler/wording/language.hpp"
#include "compiler/wording/words.hpp"

namespace stave::server {

namespace {

using wording::Language;

// By RFC 4647, section 3.4: "de-AT" is content with "de".
Language language_for(const Request& request) {
    Language best = Language::english;
    int best_weight = 0;
    for (const Preference& wanted :
         preferences(field_value(request, "Accept-Language").value_or(""))) {
        const auto language = wording::language_of(wanted.value.substr(0, wanted.value.find('-')));
        if (!language || wanted.weight <= best_weight) continue;
        best = *language;
        best_weight = wanted.weight;
    }
    return best;
}

std::string absent_page(Language language) {
    const std::string_view title = wording::word(language, wording::Word::site_absent_title);
    return fmt::format(
        "<!DOCTYPE html>\n<html lang=\"{0}\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<meta name=\"color-scheme\" content=\"light dark\">\n<title>{1}</title>\n"
        "<style>body {{ margin: 2rem auto; padding: 0 1rem; max-width: 36rem; "
        "font: 1.0625rem/1.5 system-ui, sans-serif; }}</style>\n</head>\n<body>\n<main>\n"
        "<h1>{1}</h1>\n<p>{2}</p>\n<p><a href=\"/\">{3}</a></p>\n</main>\n</body>\n</html>\n",
        wording::tag(language), title, wording::word(language, wording::Word::site_absent),
        wording::word(language, wording::Word::site_all));
}

}  // namespace

std::string_view reason_of(int status) {
    switch (status) {
        case 301:
            return "Moved Permanently";
        case 400:
            return "Bad Request";
        case 404:
            return "Not Found";
        case 405:
            return "Method Not Allowed";
        case 412:
            return "Precondition Failed";
        case 416:
            return "Range Not Satisfiable";
        case 501:
            return "Not Implemented";
        default:
            return "Internal Server Error";
    }
}

Answer refusal(int status, const Request& request) {
    constexpr int not_found = 404;
    Answer answer;
    answer.status = status;
    const bool is_page = status == not_found;
    std::string text = is_page ? absent_page(language_for(request))
                               : fmt::format("{} {}\n", status, reason_of(status));
    answer.body = Body(std::move(text));
    answer.length = answer.body.size();
    answer.fields.push_back(
        {"Content-Type", is_page ? "text/html; charset=utf-8" : "text/plain; charset=utf-8"});
    // A file may stand there a moment later.
    answer.fields.push_back({"Cache-Control", "no-store"});
    if (is_page) answer.fields.push_back({"Vary", "Accept-Language"});
    add_guards(answer, is_page);
    return answer;
}

void add_guards(Answer& answer, bool is_document) {
    answer.fields.push_back({"X-Content-Type-Options", "nosniff"});
    answer.fields.push_back({"Referrer-Policy", "no-referrer"});
    if (!is_document) return;
    answer.fields.push_back(
        {"Content-Security-Policy",
         "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; "
         "frame-ancestors 'none'"});
}

}  // namespace stave::server
