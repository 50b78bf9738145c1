#include "tests/unit/card/pdf_tools.hpp"

#include <gtest/gtest.h>
#include <sys/wait.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <sstream>

#include "backends/card/paper.hpp"
#include "backends/card/pdf/pdf_writer.hpp"

namespace stave::card {

namespace {

std::string quoted(const std::filesystem::path& path) {
    return "'" + path.string() + "'";
}

Outcome run_command(const std::string& command) {
    Outcome outcome;
    std::FILE* pipe = ::popen((command + " 2>&1").c_str(), "r");
    if (pipe == nullptr) return outcome;
    std::array<char, 4096> buffer{};
    for (std::size_t count = 1; count > 0;) {
        count = std::fread(buffer.data(), 1, buffer.size(), pipe);
        outcome.output.append(buffer.data(), count);
    }
    const int ended = ::pclose(pipe);
    outcome.status = WIFEXITED(ended) ? WEXITSTATUS(ended) : -1;
    return outcome;
}

// Netpbm's binary grey format: "P5 width height 255", one byte of space, pixels.
Picture read_grey(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::string magic;
    int most = 0;
    Picture picture;
    file >> magic >> picture.width >> picture.height >> most;
    EXPECT_EQ(magic, "P5");
    EXPECT_EQ(most, 255);
    file.get();
    picture.pixels.assign(std::istreambuf_iterator<char>(file), {});
    EXPECT_EQ(picture.pixels.size(),
              static_cast<std::size_t>(picture.width) * static_cast<std::size_t>(picture.height));
    return picture;
}

constexpr std::string_view read_code = "zbarimg --nodbus --quiet --raw --oneshot";

// zbarimg ends with 4 where it finds no code.
std::string code_in(const Outcome& outcome) {
    if (outcome.status != 0) return "";
    return outcome.output.substr(0, outcome.output.find_last_not_of('\n') + 1);
}

std::string case_name() {
    const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
    return std::string(test->test_suite_name()) + "." + test->name();
}

}  // namespace

int Picture::ink() const {
    int darkness = 0;
    for (const unsigned char pixel : pixels)
        darkness += 255 - pixel;
    return darkness / 255;
}

PdfFile::PdfFile(std::string_view bytes) {
    // Cases may have several.
    static int count = 0;
    folder_ = std::filesystem::path(STAVE_BINARY_DIR) / "scratch" /
              (case_name() + "." + std::to_string(++count));
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
    path_ = folder_ / "card.pdf";
    std::ofstream(path_, std::ios::binary) << bytes;
}

PdfFile::~PdfFile() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
}

Outcome PdfFile::run(const std::string& options, const std::string& after) const {
    return run_command(options + " " + quoted(path_) + " " + after);
}

std::string PdfFile::read(const std::string& options, const std::string& after) const {
    const Outcome outcome = run(options, after);
    EXPECT_EQ(outcome.status, 0) << options << "\n" << outcome.output;
    return outcome.output;
}

std::vector<Picture> PdfFile::pictures() const {
    EXPECT_EQ(read("pdftoppm -gray -r 100", quoted(folder_ / "page")), "");
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder_)) {
        if (entry.path().extension() == ".pgm") files.push_back(entry.path());
    }
    // The page numbers in the names are padded, so this is page order.
    std::ranges::sort(files);
    std::vector<Picture> pictures;
    std::ranges::transform(files, std::back_inserter(pictures), read_grey);
    return pictures;
}

std::string PdfFile::decoded_code(int dots_per_inch) const {
    const std::filesystem::path picture = folder_ / "code";
    EXPECT_EQ(
        read("pdftoppm -gray -singlefile -r " + std::to_string(dots_per_inch), quoted(picture)),
        "");
    return code_in(run_command(std::string(read_code) + " " + quoted(folder_ / "code.pgm")));
}

namespace {

// What a program makes of a text, which it reads from a file of its own.
Outcome run_on(std::string_view text, const std::string& extension, const std::string& command) {
    const std::filesystem::path folder = std::filesystem::path(STAVE_BINARY_DIR) / "scratch";
    std::filesystem::create_directories(folder);
    const std::filesystem::path path = folder / (case_name() + extension);
    std::ofstream(path, std::ios::binary) << text;
    Outcome outcome = run_command(command + " " + quoted(path));
    std::filesystem::remove(path);
    return outcome;
}

}  // namespace

PdfFile drawn_svg(std::string_view svg) {
    const Outcome outcome = run_on(svg, ".svg", "rsvg-convert -f pdf");
    EXPECT_EQ(outcome.status, 0) << outcome.output;
    return PdfFile(outcome.output);
}

std::string decoded_code_of_png(std::string_view png) {
    return code_in(run_on(png, ".png", std::string(read_code)));
}

bool is_xml(std::string_view text) {
    return run_on(text, ".svg",
                  STAVE_PYTHON
                  " -c 'import sys, xml.dom.minidom; xml.dom.minidom.parse(sys.argv[1])'")
               .status == 0;
}

Page a4(std::vector<Primitive> primitives) {
    return {size_of(Paper::a4).width, size_of(Paper::a4).height, "Skerry Point", "en-GB",
            std::move(primitives)};
}

std::string written(const std::vector<Page>& pages) {
    Fonts fonts;
    auto result = write_pdf(pages, fonts);
    EXPECT_TRUE(result.has_value()) << result.error().detail;
    return result.value_or("");
}

}  // namespace stave::card
