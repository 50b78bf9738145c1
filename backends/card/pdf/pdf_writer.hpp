// Writes pages as PDF 1.7 with libharu; no other folder sees libharu.
//
// Each face used is embedded once as a subset with a ToUnicode map, so text can
// be searched and copied. The file is tagged: its structure tree has the parts that
// the pages' marks tell of, in reading order. The same pages give the same bytes: no
// date but one that is handed in, and the trailer's /ID is a hash of the content.
#pragma once

#include <chrono>
#include <expected>
#include <optional>
#include <span>
#include <string>

#include "backends/card/fonts.hpp"
#include "backends/card/page.hpp"

namespace stave::card {

// A bug or out-of-memory inside libharu; `detail` for the report.
struct WriteError {
    std::string detail;
};

// When the document says it was made; nothing, and it says nothing.
using Made = std::optional<std::chrono::sys_seconds>;

// One document of all pages, in order. `pages` is not empty.
[[nodiscard]] std::expected<std::string, WriteError> write_pdf(std::span<const Page> pages,
                                                               Fonts& fonts, const Made& made = {});

}  // namespace stave::card
