// What all pages have in common. Texts that come in are HTML, but for the title.
#pragma once

#include <string>
#include <string_view>

#include "backends/site/site.hpp"
#include "compiler/wording/words.hpp"

namespace stave::site {

struct Frame {
    wording::Language language = wording::Language::english;
    // As typed.
    std::string_view title;
    bool is_private = false;
    std::string_view header;
    std::string_view main;
};

// The document, with the cautions at its foot.
[[nodiscard]] std::string framed(const Frame& frame);

[[nodiscard]] std::string words(wording::Language language, wording::Word word);
[[nodiscard]] std::string paragraph(std::string_view html, std::string_view style_class = {});
// A part of the page under its own heading, which names it. The identifier is unique on the page.
[[nodiscard]] std::string section(std::string_view identifier, std::string_view heading,
                                  std::string_view html);

// How to reach a feed: to subscribe to it at once where its address is known, and its address.
[[nodiscard]] std::string feed_links(wording::Language language, const FeedLinks& feed);
// How to subscribe with all kinds of programs, and how late a change arrives.
// The address of a feed is known, or is that of a link.
[[nodiscard]] std::string how_to(wording::Language language, bool has_address);
[[nodiscard]] std::string sessions(wording::Language language, const std::vector<Entry>& entries,
                                   std::chrono::sys_days today);

[[nodiscard]] std::string_view style_sheet();

}  // namespace stave::site
