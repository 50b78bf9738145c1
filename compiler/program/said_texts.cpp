#include "compiler/program/said_texts.hpp"

#include <optional>

namespace stave::program {

namespace {

class Collector {
public:
    std::vector<SaidText> collect(const Session& session) {
        span_ = session.span;
        add(session.title);
        add_all({&session.cues, &session.notes, &session.stops});
        for (const Block& block : session.blocks)
            add(block);
        return std::move(texts_);
    }

    std::vector<SaidText> collect(const Item& item) {
        add(item);
        return std::move(texts_);
    }

private:
    void add(const Block& block) {
        span_ = block.span;
        add(block.title);
        add_all({&block.cues, &block.notes, &block.stops, &block.options});
        for (const auto* rest : {&block.rest_between_sets, &block.rest_between_rounds,
                                 &block.rest_between_movements, &block.rest_after}) {
            if (*rest) add((*rest)->doing);
        }
        for (const Item& item : block.items)
            add(item);
    }

    void add(const Item& item) {
        span_ = item.span;
        add_all({&item.cues, &item.counts, &item.notes, &item.stops, &item.options});
        for (const Fault& fault : item.faults) {
            add(fault.what);
            add(fault.mend);
        }
        for (const auto* rest : {&item.rest, &item.rest_between_sides, &item.rest_after}) {
            if (*rest) add((*rest)->doing);
        }
    }

    void add_all(const std::vector<const std::vector<std::string>*>& lists) {
        for (const auto* texts : lists) {
            for (const std::string& text : *texts)
                add(text);
        }
    }

    void add(const std::string& text) {
        if (!text.empty()) texts_.push_back({span_, &text});
    }

    Span span_;
    std::vector<SaidText> texts_;
};

}  // namespace

std::vector<SaidText> said_texts(const Session& session) {
    return Collector().collect(session);
}

std::vector<SaidText> said_texts(const Item& item) {
    return Collector().collect(item);
}

}  // namespace stave::program
