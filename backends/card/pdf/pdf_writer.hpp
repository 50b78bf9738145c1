// Writes pages as PDF 1.7 with libharu; no other folder sees libharu.
//
// Each face used is embedded once as a subset with a ToUnicode map, so text can
// be searched and copied. The file is tagged: its structure tree has the parts that
// the pages' marks tell of, in reading order. The same pages give the same bytes: no
// date but one that is handed in, and the trailer's /ID is a hash of the content.
#pragma once

#include <chrono>
#include <expected>
#include <memory>
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

// Writes one document after another, as the personal cards of one session: a font that
// draws the same glyphs as in an earlier document is not cut and packed again. Each
// document is byte for byte what write_pdf gives for it alone. Remembers a bounded number
// of fonts; `fonts` must outlive the object.
class PdfWriter {
public:
    explicit PdfWriter(Fonts& fonts, const Made& made = {});
    ~PdfWriter();
    PdfWriter(const PdfWriter&) = delete;
    PdfWriter& operator=(const PdfWriter&) = delete;

    // One document of all pages, in order. `pages` is not empty.
    [[nodiscard]] std::expected<std::string, WriteError> write(std::span<const Page> pages);

private:
    struct State;
    std::unique_ptr<State> state_;
};

// One document of all pages, in order. `pages` is not empty.
[[nodiscard]] std::expected<std::string, WriteError> write_pdf(std::span<const Page> pages,
                                                               Fonts& fonts, const Made& made = {});

}  // namespace stave::card
