// Sessions laid out for a test, and what stands on their pages.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "backends/card/layout.hpp"
#include "tests/unit/card/sample_sessions.hpp"

namespace stave::card::test {

using stave::test::Sample;

inline std::optional<Page> lay_out(const Sample& sample, Fonts& fonts, DiagnosticSink& sink,
                                   const CardText& text = {.revision = "7f3ac2"}) {
    auto pages = card::lay_out({}, sample.session, sample.timeline, text, fonts, sink);
    if (!pages) return std::nullopt;
    EXPECT_EQ(pages->size(), 1U) << sample.name;
    return std::move(pages->front());
}

inline Page page_of(const Sample& sample, Fonts& fonts) {
    DiagnosticSink sink;
    const std::optional<Page> page = lay_out(sample, fonts, sink);
    EXPECT_TRUE(page.has_value()) << sample.name;
    return page.value_or(Page{});
}

inline std::vector<Text> texts_of(const Page& page) {
    std::vector<Text> texts;
    for (const Primitive& primitive : page.primitives) {
        if (const auto* text = std::get_if<Text>(&primitive)) texts.push_back(*text);
    }
    return texts;
}

inline bool has_text(const Page& page, const std::string& wanted) {
    return std::ranges::any_of(texts_of(page),
                               [&](const Text& text) { return text.text == wanted; });
}

template <class Shape>
std::size_t count_of(const Page& page) {
    return static_cast<std::size_t>(std::ranges::count_if(
        page.primitives,
        [](const Primitive& shape) { return std::holds_alternative<Shape>(shape); }));
}

// Boxes to tick: those that are not filled.
inline std::size_t tick_boxes(const Page& page) {
    return static_cast<std::size_t>(
        std::ranges::count_if(page.primitives, [](const Primitive& primitive) {
            const auto* box = std::get_if<Box>(&primitive);
            return box != nullptr && box->fill_grey < 0;
        }));
}

inline Sample of_blocks(std::vector<program::Block> blocks) {
    const std::vector<Ratio> minutes(blocks.size(), Ratio(5));
    return {"made", stave::test::session("1", "Made", "made", std::move(blocks)),
            stave::test::of_minutes(minutes)};
}

inline Sample of_item(program::Item item) {
    return of_blocks({stave::test::block(program::BlockKind::sets, "", {std::move(item)})});
}

// The texts that are `wanted`, in order.
inline std::vector<Text> all_of(const Page& page, const std::string& wanted) {
    std::vector<Text> found = texts_of(page);
    std::erase_if(found, [&](const Text& text) { return text.text != wanted; });
    return found;
}

}  // namespace stave::card::test
