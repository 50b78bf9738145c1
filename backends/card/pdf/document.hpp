// A PDF 1.7 document in libharu's hands. Knows fonts and content streams as
// bytes, nothing of pages as lists of primitives.
//
// Every call throws WriteFailure when libharu reports an error; the object is of
// no use after that. document.cpp is the only file that includes libharu.
#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "backends/card/page.hpp"
#include "backends/card/pdf/font_subset.hpp"

namespace stave::card {

class Document {
public:
    // `language` is a BCP 47 tag, the title UTF-8.
    Document(std::string_view title, const std::string& language);
    ~Document();
    Document(const Document&) = delete;
    Document& operator=(const Document&) = delete;

    // Every page added afterwards may use the font by `resource`, as "F1".
    void add_font(const std::string& resource, const EmbeddedFont& font);
    void add_page(Centipoints width, Centipoints height, std::string_view content);
    // The file. Ends the document: nothing may be added after it.
    [[nodiscard]] std::string save();

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace stave::card
