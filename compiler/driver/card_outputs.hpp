// Snapshots to the files of their cards: PDFs, pictures, previews.
//
// The snapshots have no errors; laying a card out may find some, and then it has none.
#pragma once

#include <string>
#include <vector>

#include "backends/card/fonts.hpp"
#include "backends/card/page.hpp"
#include "backends/card/pdf/pdf_writer.hpp"
#include "compiler/analysis/analyse.hpp"
#include "compiler/driver/environment.hpp"
#include "compiler/driver/options.hpp"
#include "compiler/driver/output_set.hpp"

namespace stave::driver {

// Shapes texts once for all cards of a run. What it is made with must outlive it.
class CardMaker {
public:
    CardMaker(const Options& options, const Environment& environment, OutputSet& outputs,
              std::vector<Diagnostic>& problems);

    // Each session's card, and pictures of it where the options ask for them. For `lent_link`
    // see `make_pages`.
    void make_cards(analysis::Snapshot& snapshot, const std::string& folder,
                    const std::string& lent_link = {});
    // Drawings of the pages that the options ask for.
    void make_previews(analysis::Snapshot& snapshot, const std::string& folder);

    // What there is to say of each session that has its card.
    [[nodiscard]] const std::vector<std::string>& summaries() const { return summaries_; }
    // Cards that lack the page that a preview shall show.
    [[nodiscard]] const std::vector<std::string>& without_page() const { return without_page_; }

private:
    void make_pictures(const std::string& name, const std::vector<card::Page>& pages,
                       const std::string& folder);
    void add(std::string_view kind, const std::string& path, std::string bytes);

    const Options& options_;
    OutputSet& outputs_;
    std::vector<Diagnostic>& problems_;
    card::Fonts fonts_;
    card::PdfWriter pdfs_;
    std::vector<std::string> summaries_;
    std::vector<std::string> without_page_;
};

}  // namespace stave::driver
