// Snapshots to the files of their cards: PDFs, pictures, previews.
//
// The snapshots have no errors; laying a card out may find some, and then it has none. Many
// cards are made on several threads; files and problems are the same with any number.
#pragma once

#include <functional>
#include <memory>
#include <mutex>
#include <span>
#include <string>
#include <vector>

#include "backends/card/family.hpp"
#include "backends/card/page.hpp"
#include "compiler/driver/card_place.hpp"
#include "compiler/driver/environment.hpp"
#include "compiler/driver/options.hpp"
#include "compiler/driver/output_set.hpp"
#include "compiler/driver/recall.hpp"

namespace stave::driver {

// What threads make cards with, kept for later cards of the same family and moment: texts
// that are shaped and fonts that are cut are found again.
class CardTools {
public:
    CardTools();
    ~CardTools();
    CardTools(const CardTools&) = delete;
    CardTools& operator=(const CardTools&) = delete;

private:
    friend class CardMaker;
    struct Set;

    std::mutex mutex_;
    std::vector<std::unique_ptr<Set>> idle_;
};

// What it is made with must outlive it.
class CardMaker {
public:
    CardMaker(const Options& options, const card::Family& family, const Environment& environment,
              OutputSet& outputs, std::vector<Diagnostic>& problems);

    // For all cards from now on; without them it has its own.
    void use(CardTools& tools) { tools_ = &tools; }
    // What earlier builds made of the same is not made again, but for previews.
    void go_on_from(const Recall& recall) { recall_ = &recall; }

    // Each session's card, and pictures of it where the options ask for them.
    void make_cards(const std::vector<CardPlace>& places);
    // For each session one file in the folder with all pages that it has at these places, in
    // their order, for whoever prints them. Says nothing that the cards themselves do not.
    void make_together(const std::vector<CardPlace>& places, const std::string& folder);
    // Nothing but the problems: what a build would refuse, a check shall say.
    void only_lay_out(const std::vector<CardPlace>& places);
    // Drawings of the pages that the options ask for.
    void make_previews(const std::vector<CardPlace>& places);

    // What there is to say of each session that has its card.
    [[nodiscard]] const std::vector<std::string>& summaries() const { return summaries_; }
    // Cards that lack the page that a preview shall show.
    [[nodiscard]] const std::vector<std::string>& without_page() const { return without_page_; }

private:
    struct File {
        std::string_view kind;
        std::string path;
        std::string bytes;
    };
    struct Made;
    struct Stack;
    using Tools = CardTools::Set;
    // A card's pages to its files; `path` is where they stand, without an ending.
    using Draw = std::function<std::vector<File>(
        const std::string& path, const std::vector<card::Page>& pages, Tools& tools)>;

    // Those of one thread, which go back to where later ones find them.
    [[nodiscard]] std::shared_ptr<Tools> tools() const;
    // What else there is to be had of a card whose files and problems have been taken; one
    // without pages has been refused.
    using Taken = std::function<void(Made&)>;

    // Some hundred at a time, so that the memory does not grow with their number. `taken` is
    // called in the order of the cards.
    void make(const std::vector<CardPlace>& places, const Draw& draw, const Taken& taken);
    void make_at_once(std::vector<Made>& cards, const Draw& draw) const;
    static std::vector<Stack> to_stacks(const std::vector<CardPlace>& places);
    void make_stacks(std::span<Stack> stacks, const std::string& folder);
    void make_stack(Stack& stack, Tools& tools) const;
    std::vector<card::Page> lay_out(Made& made, Tools& tools) const;
    void make_one(Made& made, const Draw& draw, Tools& tools) const;
    void take(Made& made);
    void add(File file, const CardPlace& place);
    // What stands, as it was made before.
    void add(const MadeMemory::Kept& before);
    void report(const Made& made) const;

    const Options& options_;
    const card::Family& family_;
    const Environment& environment_;
    OutputSet& outputs_;
    std::vector<Diagnostic>& problems_;
    CardTools own_tools_;
    CardTools* tools_ = &own_tools_;
    // Null where nothing is remembered.
    const Recall* recall_ = nullptr;
    std::vector<std::string> summaries_;
    std::vector<std::string> without_page_;
};

}  // namespace stave::driver
