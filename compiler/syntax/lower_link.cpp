// The address behind `link:`.
#include <fmt/format.h>

#include "compiler/syntax/link.hpp"
#include "compiler/syntax/lower_parts.hpp"

namespace stave::syntax {

namespace {

class LinkReader {
public:
    LinkReader(const NodeReader& reader, Span body)
        : reader_(reader), body_(body), text_(reader.slice(body)) {}

    // The first fault is reported; false where there is one.
    [[nodiscard]] bool is_sound() const {
        const auto fault = find_link_fault(text_);
        if (fault) report(*fault);
        return !fault;
    }

private:
    void report(const LinkFault& fault) const {
        const Span span = at(fault.begin, fault.size);
        const std::string_view sign = text_.substr(fault.begin, fault.size);
        switch (fault.code) {
            case Code::link_start:
                return report_start();
            case Code::link_sign:
                return reader_.report(fault.code, span, {std::string(sign), percent_encoded(sign)},
                                      {replace(body_, percent_encoded(text_))});
            case Code::link_percent:
                return reader_.report(fault.code, span, {}, {replace(span, "%25")});
            case Code::link_long:
                return reader_.report(fault.code, span,
                                      {std::to_string(text_.size()), std::to_string(longest_link)});
            default:
                return reader_.report(fault.code, span, {});
        }
    }

    void report_start() const {
        if (!begins_with_host(text_)) {
            return reader_.report(
                Code::link_start, body_,
                {std::string(text_), "an address that begins with https:// or http://"});
        }
        const std::string mended = fmt::format("https://{}", text_);
        reader_.report(Code::link_start, body_, {std::string(text_), mended},
                       {replace(body_, mended)});
    }

    [[nodiscard]] Span at(std::size_t begin, std::size_t size) const {
        const auto first = body_.begin + static_cast<std::uint32_t>(begin);
        return {first, first + static_cast<std::uint32_t>(size)};
    }

    const NodeReader& reader_;
    Span body_;
    std::string_view text_;
};

}  // namespace

std::optional<Word> lower_link(const NodeReader& reader, Span body) {
    if (!LinkReader(reader, body).is_sound()) return std::nullopt;
    return Word{reader.slice(body), body};
}

}  // namespace stave::syntax
