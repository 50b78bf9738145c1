// What other people's programs (poppler, qpdf, zbar, librsvg) read in a PDF of ours.
//
// A case's files live in a folder of their own under the build folder.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "backends/card/page.hpp"

namespace stave::card {

struct Outcome {
    int status = -1;
    // Standard output, then standard error.
    std::string output;
};

// A page as grey pixels, 0 black to 255 white.
struct Picture {
    int width = 0;
    int height = 0;
    std::vector<unsigned char> pixels;

    [[nodiscard]] int at(int x, int y) const {
        return pixels[static_cast<std::size_t>(y * width + x)];
    }
    // Sum of the darkness of all pixels, in whole black pixels.
    [[nodiscard]] int ink() const;
};

// A PDF written for the running test case, gone when the object is.
class PdfFile {
public:
    explicit PdfFile(std::string_view bytes);
    ~PdfFile();
    PdfFile(const PdfFile&) = delete;
    PdfFile& operator=(const PdfFile&) = delete;

    // `options` come before the file's name, `after` behind it.
    [[nodiscard]] Outcome run(const std::string& options, const std::string& after = "") const;
    // The output of `run`, which must succeed.
    [[nodiscard]] std::string read(const std::string& options, const std::string& after = "") const;
    [[nodiscard]] std::string text() const { return read("pdftotext -raw -nopgbrk", "-"); }
    // By pdftoppm, at 100 pixels an inch.
    [[nodiscard]] std::vector<Picture> pictures() const;
    // What zbarimg reads in the first page, drawn with so many pixels an inch; "" for
    // nothing.
    [[nodiscard]] std::string decoded_code(int dots_per_inch) const;

private:
    std::filesystem::path folder_;
    std::filesystem::path path_;
};

// An SVG as rsvg-convert draws it, its lines still lines.
[[nodiscard]] PdfFile drawn_svg(std::string_view svg);
[[nodiscard]] bool is_xml(std::string_view text);
// What zbarimg reads in a picture; "" for nothing.
[[nodiscard]] std::string decoded_code_of_png(std::string_view png);

[[nodiscard]] Page a4(std::vector<Primitive> primitives);
// The bytes of a document of these pages, which must be written well.
[[nodiscard]] std::string written(const std::vector<Page>& pages);

}  // namespace stave::card
