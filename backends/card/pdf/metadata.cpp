#include "backends/card/pdf/metadata.hpp"

#include <fmt/format.h>

#include "backends/card/xml.hpp"

namespace stave::card {

namespace {

struct Calendar {
    std::chrono::year_month_day day;
    std::chrono::hh_mm_ss<std::chrono::seconds> clock;

    explicit Calendar(std::chrono::sys_seconds time)
        : day(std::chrono::floor<std::chrono::days>(time)),
          clock(time - std::chrono::floor<std::chrono::days>(time)) {}
    [[nodiscard]] std::string text(
        fmt::format_string<int, unsigned, unsigned, long, long, long> form) const {
        return fmt::format(form, static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                           static_cast<unsigned>(day.day()), long{clock.hours().count()},
                           long{clock.minutes().count()}, long{clock.seconds().count()});
    }
};

}  // namespace

std::string pdf_date(std::chrono::sys_seconds time) {
    return Calendar(time).text("D:{:04}{:02}{:02}{:02}{:02}{:02}Z");
}

std::string xmp_packet(const Metadata& metadata) {
    const std::string made =
        metadata.made
            ? Calendar(*metadata.made)
                  .text("<xmp:CreateDate>{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z</xmp:CreateDate>")
            : "";
    return fmt::format(
        "<?xpacket begin=\"\uFEFF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>"
        "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">"
        "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">"
        "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\""
        " xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\""
        " xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\">"
        "<dc:format>application/pdf</dc:format>"
        "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:title>"
        "<dc:language><rdf:Bag><rdf:li>{}</rdf:li></rdf:Bag></dc:language>"
        "<pdf:Producer>Stave</pdf:Producer>{}"
        "</rdf:Description></rdf:RDF></x:xmpmeta><?xpacket end=\"r\"?>",
        xml_escaped(metadata.title), xml_escaped(metadata.language), made);
}

}  // namespace stave::card
