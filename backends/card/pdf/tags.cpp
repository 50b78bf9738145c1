#include "backends/card/pdf/tags.hpp"

#include <string>

namespace stave::card {

namespace {

class TagWriter {
public:
    TagWriter(const Objects& objects, const Structure& structure, std::span<const HPDF_Dict> pages,
              std::span<const Centipoints> heights)
        : objects_(objects), structure_(structure), pages_(pages), heights_(heights) {}

    void run() {
        HPDF_Dict catalog = objects_.document()->catalog;
        HPDF_Dict marked = objects_.direct_dictionary();
        objects_.add(catalog, "MarkInfo", marked);
        objects_.check(HPDF_Dict_AddBoolean(marked, "Marked", HPDF_TRUE));
        root_ = objects_.dictionary("StructTreeRoot");
        objects_.add(catalog, "StructTreeRoot", root_);
        make_elements();
        objects_.add(root_, "K", elements_.front());
        make_links();
        for (std::size_t id = 0; id < elements_.size(); ++id) {
            if (elements_[id] != nullptr) add_kids(id);
        }
        add_way_back();
    }

private:
    // Those that hold nothing are left out; the document never is.
    void make_elements() {
        for (std::size_t id = 0; id < structure_.elements.size(); ++id) {
            const Element& element = structure_.elements[id];
            if (id > 0 && element.kids.empty()) {
                elements_.push_back(nullptr);
                continue;
            }
            HPDF_Dict dict = objects_.dictionary();
            objects_.add_name(dict, "S", std::string(name_of(element.tag)));
            objects_.add(dict, "P", id == 0 ? root_ : elements_[element.parent]);
            if (!element.alternative.empty()) {
                objects_.add_text(dict, "Alt", element.alternative);
            }
            elements_.push_back(dict);
        }
    }

    // Numbers of links in the way back follow those of the pages.
    void make_links() {
        for (std::size_t page_id = 0; page_id < pages_.size(); ++page_id) {
            links_.emplace_back();
            const std::vector<PageLink>& links = structure_.pages[page_id].links;
            if (links.empty()) continue;
            HPDF_Array list = objects_.array();
            objects_.add(pages_[page_id], "Annots", list);
            for (const PageLink& link : links) {
                HPDF_Dict dict = annotation(*link.area, heights_[page_id]);
                objects_.add_number(dict, "StructParent", pages_.size() + link_owners_.size());
                objects_.add(list, dict);
                links_.back().push_back(dict);
                link_owners_.push_back(link.element_id);
            }
        }
    }

    [[nodiscard]] HPDF_Dict annotation(const Link& link, Centipoints page_height) const {
        HPDF_Dict dict = objects_.dictionary("Annot");
        objects_.add_name(dict, "Subtype", "Link");
        HPDF_Array area = objects_.array();
        objects_.add(dict, "Rect", area);
        for (const Centipoints edge : {link.x, page_height - link.y - link.height,
                                       link.x + link.width, page_height - link.y}) {
            objects_.check(HPDF_Array_AddReal(area, static_cast<HPDF_REAL>(edge) / 100.0F));
        }
        HPDF_Array border = objects_.array();
        objects_.add(dict, "Border", border);
        for (int side = 0; side < 3; ++side)
            objects_.add_number(border, 0);
        // Printed with the page, as PDF/A asks of every annotation.
        objects_.add_number(dict, "F", 4);
        objects_.add_text(dict, "Contents", link.uri);
        HPDF_Dict action = objects_.direct_dictionary();
        objects_.add(dict, "A", action);
        objects_.add_name(action, "S", "URI");
        objects_.add_string(action, "URI", link.uri);
        return dict;
    }

    void add_kids(std::size_t element_id) {
        const Element& element = structure_.elements[element_id];
        HPDF_Array kids = objects_.array();
        objects_.add(elements_[element_id], "K", kids);
        bool has_page = false;
        for (const Kid& kid : element.kids) {
            if (kid.kind == Kid::Kind::element) {
                objects_.add(kids, elements_[kid.id]);
                continue;
            }
            has_page = true;
            if (kid.kind == Kid::Kind::content) {
                objects_.add_number(kids, kid.id);
            } else {
                HPDF_Dict reference = objects_.direct_dictionary();
                objects_.add(kids, reference);
                objects_.add_name(reference, "Type", "OBJR");
                objects_.add(reference, "Obj", links_[element.page_id][kid.id]);
            }
        }
        if (has_page) objects_.add(elements_[element_id], "Pg", pages_[element.page_id]);
    }

    void add_way_back() {
        HPDF_Dict tree = objects_.dictionary();
        objects_.add(root_, "ParentTree", tree);
        HPDF_Array rows = objects_.array();
        objects_.add(tree, "Nums", rows);
        for (std::size_t page_id = 0; page_id < pages_.size(); ++page_id) {
            objects_.add_number(pages_[page_id], "StructParents", page_id);
            objects_.add_name(pages_[page_id], "Tabs", "S");
            objects_.add_number(rows, page_id);
            HPDF_Array owners = objects_.array();
            objects_.add(rows, owners);
            for (const std::size_t owner : structure_.pages[page_id].owners)
                objects_.add(owners, elements_[owner]);
        }
        for (std::size_t link = 0; link < link_owners_.size(); ++link) {
            objects_.add_number(rows, pages_.size() + link);
            objects_.add(rows, elements_[link_owners_[link]]);
        }
        objects_.add_number(root_, "ParentTreeNextKey", pages_.size() + link_owners_.size());
    }

    const Objects& objects_;
    const Structure& structure_;
    std::span<const HPDF_Dict> pages_;
    std::span<const Centipoints> heights_;
    HPDF_Dict root_ = nullptr;
    // Null for those left out.
    std::vector<HPDF_Dict> elements_;
    // By page.
    std::vector<std::vector<HPDF_Dict>> links_;
    std::vector<std::size_t> link_owners_;
};

}  // namespace

void add_tags(const Objects& objects, const Structure& structure, std::span<const HPDF_Dict> pages,
              std::span<const Centipoints> heights) {
    TagWriter(objects, structure, pages, heights).run();
}

}  // namespace stave::card
