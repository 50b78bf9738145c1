#include "backends/site/frame.hpp"

#include <fmt/format.h>

#include "backends/site/html.hpp"
#include "compiler/wording/wording.hpp"

namespace stave::site {

namespace {

using wording::Word;

std::string head(const Frame& frame) {
    std::string html = "<meta charset=\"utf-8\">\n";
    html += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
    html += fmt::format("<title>{}</title>\n", escaped(frame.title));
    html += generator_mark;
    html += '\n';
    // Links that lead elsewhere do not tell from which address they were followed.
    html += "<meta name=\"referrer\" content=\"no-referrer\">\n";
    if (frame.is_private)
        html += "<meta name=\"robots\" content=\"noindex, nofollow, noarchive\">\n";
    html += "<meta name=\"color-scheme\" content=\"light dark\">\n";
    // Even if something slipped through, it would not run and fetch nothing.
    html +=
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
        "style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'\">\n";
    html += fmt::format("<style>\n{}</style>\n", style_sheet());
    return html;
}

std::string foot(const Frame& frame) {
    const wording::Language language = frame.language;
    std::string html = fmt::format("<h2>{}</h2>\n", words(language, Word::site_safety_title));
    html +=
        paragraph(fmt::format("<strong>{}</strong> {}", escaped(wording::stop_heading(language)),
                              escaped(wording::stop_signs(language))));
    html += paragraph(words(language, Word::site_clearance));
    if (!frame.is_private) html += paragraph(words(language, Word::site_public));
    return html;
}

}  // namespace

std::string words(wording::Language language, wording::Word word) {
    return escaped(wording::word(language, word));
}

std::string paragraph(std::string_view html, std::string_view style_class) {
    if (style_class.empty()) return fmt::format("<p>{}</p>\n", html);
    return fmt::format("<p class=\"{}\">{}</p>\n", style_class, html);
}

std::string section(std::string_view identifier, std::string_view heading, std::string_view html) {
    return fmt::format(
        "<section id=\"{0}\" aria-labelledby=\"{0}-title\">\n<h2 "
        "id=\"{0}-title\">{1}</h2>\n{2}</section>\n",
        identifier, heading, html);
}

std::string framed(const Frame& frame) {
    std::string html = "<!DOCTYPE html>\n";
    html += fmt::format("<html lang=\"{}\">\n<head>\n{}</head>\n<body>\n",
                        wording::tag(frame.language), head(frame));
    html += fmt::format("<header>\n{}</header>\n<main>\n{}</main>\n", frame.header, frame.main);
    html += fmt::format("<footer>\n{}</footer>\n</body>\n</html>\n", foot(frame));
    return html;
}

}  // namespace stave::site
