// Pages as a tree of what their parts are (ISO 32000-1, 14.7 and 14.8): what the marks
// of a page mean in PDF, and in which order its primitives are written.
//
// A page is written as sequences of marked content: all shapes first, then all texts,
// each in the page's order, so that few sequences are needed. The tree alone says in
// which order things are read. Nothing is copied: primitives must outlive the structure.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "backends/card/page.hpp"

namespace stave::card {

enum class Tag : std::uint8_t {
    document,
    section,
    heading1,
    heading2,
    paragraph,
    list,
    item,
    body,
    figure,
    link,
};
// As PDF names it: "H1".
[[nodiscard]] std::string_view name_of(Tag tag);

// What an element holds: another element, a sequence by its number on the page, or a
// link of the page.
struct Kid {
    enum class Kind : std::uint8_t { element, content, link };
    Kind kind = Kind::element;
    std::size_t id = 0;
};

// The first is the document, the only one without a parent; each stands behind its
// parent. Only elements that hold something have kids.
struct Element {
    Tag tag = Tag::document;
    std::size_t parent = 0;
    std::size_t page_id = 0;
    std::string alternative;
    std::vector<Kid> kids;
};

// Without a number it is an artifact, which readers skip.
struct Sequence {
    std::optional<std::size_t> number;
    Tag tag = Tag::paragraph;
    std::vector<const Primitive*> primitives;
};

struct PageLink {
    const Link* area = nullptr;
    std::size_t element_id = 0;
};

struct PageStructure {
    std::vector<Sequence> shapes;
    std::vector<Sequence> texts;
    // The element of each numbered sequence.
    std::vector<std::size_t> owners;
    std::vector<PageLink> links;
};

struct Structure {
    std::vector<Element> elements;
    std::vector<PageStructure> pages;
};

[[nodiscard]] Structure structure_of(std::span<const Page> pages);

}  // namespace stave::card
