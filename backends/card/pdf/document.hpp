// A PDF 1.7 document in libharu's hands. Knows fonts, content streams and structure,
// nothing of what is drawn.
//
// Every call throws WriteFailure when libharu reports an error; the object is of
// no use after that.
#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "backends/card/page.hpp"
#include "backends/card/pdf/font_subset.hpp"
#include "backends/card/pdf/metadata.hpp"
#include "backends/card/pdf/packer.hpp"
#include "backends/card/pdf/structure.hpp"

namespace stave::card {

class Document {
public:
    // `packer` must outlive the object.
    Document(const Metadata& metadata, Packer& packer);
    ~Document();
    Document(const Document&) = delete;
    Document& operator=(const Document&) = delete;

    // Every page added afterwards may use the font by `resource`, as "F1".
    void add_font(const std::string& resource, const EmbeddedFont& font);
    void add_page(Centipoints width, Centipoints height, std::string_view content);
    // Of all pages, after the last of them.
    void add_structure(const Structure& structure);
    // The file. Ends the document: nothing may be added after it.
    [[nodiscard]] std::string save();

private:
    struct State;
    std::unique_ptr<State> state_;
};

}  // namespace stave::card
