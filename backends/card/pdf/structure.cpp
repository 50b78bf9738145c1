#include "backends/card/pdf/structure.hpp"

#include <algorithm>

namespace stave::card {

namespace {

Tag tag_of(Role role) {
    switch (role) {
        case Role::heading1:
            return Tag::heading1;
        case Role::heading2:
            return Tag::heading2;
        case Role::section:
            return Tag::section;
        case Role::list:
            return Tag::list;
        case Role::item:
            return Tag::item;
        case Role::figure:
            return Tag::figure;
        case Role::link:
            return Tag::link;
        case Role::paragraph:
        case Role::artifact:
            break;
    }
    return Tag::paragraph;
}

// Whether texts may stand in it directly.
bool holds_text(Tag tag) {
    switch (tag) {
        case Tag::heading1:
        case Tag::heading2:
        case Tag::paragraph:
        case Tag::body:
        case Tag::figure:
        case Tag::link:
            return true;
        case Tag::document:
        case Tag::section:
        case Tag::list:
        case Tag::item:
            break;
    }
    return false;
}

// What is drawn but no text.
bool is_shape(const Primitive& primitive) {
    return !std::holds_alternative<Text>(primitive);
}

// Goes through the primitives of one page after the other.
class Walk {
public:
    Walk() { structure_.elements.emplace_back(); }

    void add(const Page& page) {
        structure_.pages.emplace_back();
        frames_.assign(1, Frame{});
        for (const Primitive& primitive : page.primitives) {
            if (const auto* open = std::get_if<Open>(&primitive)) {
                enter(*open);
            } else if (std::holds_alternative<Close>(primitive)) {
                leave();
            } else if (const auto* link = std::get_if<Link>(&primitive)) {
                add_link(*link);
            } else {
                add_content(primitive);
            }
        }
    }

    // Without the elements that hold nothing.
    Structure finish() && {
        std::vector<Element>& elements = structure_.elements;
        for (std::size_t id = elements.size(); id-- > 0;) {
            std::erase_if(elements[id].kids, [&](const Kid& kid) {
                return kid.kind == Kid::Kind::element && elements[kid.id].kids.empty();
            });
        }
        return std::move(structure_);
    }

private:
    struct Frame {
        std::size_t element_id = 0;
        bool is_artifact = false;
        // Where the texts since the last mark stand.
        std::optional<std::size_t> own_paragraph;
    };

    [[nodiscard]] PageStructure& page() { return structure_.pages.back(); }
    [[nodiscard]] Tag tag(std::size_t element_id) const {
        return structure_.elements[element_id].tag;
    }

    std::size_t add_element(Tag tag, std::size_t parent, std::string alternative = {}) {
        const std::size_t id = structure_.elements.size();
        structure_.elements.push_back(
            {tag, parent, structure_.pages.size() - 1, std::move(alternative), {}});
        structure_.elements[parent].kids.push_back({Kid::Kind::element, id});
        return id;
    }

    // An item's content stands in its body.
    std::size_t add_item(std::size_t list) {
        return add_element(Tag::body, add_element(Tag::item, list));
    }

    void enter(const Open& open) {
        frames_.back().own_paragraph.reset();
        Frame frame = frames_.back();
        if (open.role == Role::artifact) frame.is_artifact = true;
        if (!frame.is_artifact) frame.element_id = element_for(open, frame.element_id);
        frames_.push_back(frame);
    }

    // A part within a heading or a paragraph is one with it, but for a link.
    std::size_t element_for(const Open& open, std::size_t parent) {
        const Tag wanted = tag_of(open.role);
        if (wanted == Tag::link) return add_element(Tag::link, place_of_text());
        const bool is_leaf = holds_text(tag(parent)) && tag(parent) != Tag::body;
        if (is_leaf) return parent;
        if (wanted == Tag::item) return add_item(parent);
        return add_element(wanted, parent, open.alternative);
    }

    void leave() {
        if (frames_.size() > 1) frames_.pop_back();
        frames_.back().own_paragraph.reset();
    }

    std::size_t place_of_text() {
        Frame& frame = frames_.back();
        if (holds_text(tag(frame.element_id))) return frame.element_id;
        if (!frame.own_paragraph) {
            frame.own_paragraph = tag(frame.element_id) == Tag::list
                                      ? add_item(frame.element_id)
                                      : add_element(Tag::paragraph, frame.element_id);
        }
        return *frame.own_paragraph;
    }

    void add_link(const Link& link) {
        const std::size_t here = frames_.back().element_id;
        const std::size_t element =
            tag(here) == Tag::link ? here : add_element(Tag::link, place_of_text());
        structure_.elements[element].kids.push_back({Kid::Kind::link, page().links.size()});
        page().links.push_back({&link, element});
    }

    void add_content(const Primitive& primitive) {
        const Frame& frame = frames_.back();
        const bool shape = is_shape(primitive);
        const bool in_figure = tag(frame.element_id) == Tag::figure;
        std::vector<Sequence>& sequences = shape ? page().shapes : page().texts;
        if (frame.is_artifact || (shape && !in_figure)) {
            if (sequences.empty() || sequences.back().number) sequences.emplace_back();
        } else {
            continue_or_begin(sequences, shape ? frame.element_id : place_of_text());
        }
        sequences.back().primitives.push_back(&primitive);
    }

    // A sequence goes on while nothing else of the element has come between; a figure is
    // read by its alternative, so there it does not matter.
    [[nodiscard]] bool goes_on(const std::vector<Sequence>& sequences, std::size_t element_id) {
        if (sequences.empty() || !sequences.back().number) return false;
        const std::size_t number = *sequences.back().number;
        if (page().owners[number] != element_id) return false;
        const Kid& last = structure_.elements[element_id].kids.back();
        return tag(element_id) == Tag::figure ||
               (last.kind == Kid::Kind::content && last.id == number);
    }

    void continue_or_begin(std::vector<Sequence>& sequences, std::size_t element_id) {
        if (goes_on(sequences, element_id)) return;
        std::vector<Kid>& kids = structure_.elements[element_id].kids;
        const std::size_t number = page().owners.size();
        page().owners.push_back(element_id);
        kids.push_back({Kid::Kind::content, number});
        sequences.push_back({number, tag(element_id), {}});
    }

    Structure structure_;
    std::vector<Frame> frames_;
};

}  // namespace

std::string_view name_of(Tag tag) {
    switch (tag) {
        case Tag::document:
            return "Document";
        case Tag::section:
            return "Sect";
        case Tag::heading1:
            return "H1";
        case Tag::heading2:
            return "H2";
        case Tag::paragraph:
            return "P";
        case Tag::list:
            return "L";
        case Tag::item:
            return "LI";
        case Tag::body:
            return "LBody";
        case Tag::figure:
            return "Figure";
        case Tag::link:
            return "Link";
    }
    return "P";
}

Structure structure_of(std::span<const Page> pages) {
    Walk walk;
    for (const Page& page : pages)
        walk.add(page);
    return std::move(walk).finish();
}

}  // namespace stave::card
