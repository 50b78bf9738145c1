#include "compiler/check/named_kits.hpp"

#include <algorithm>
#include <utility>

#include "compiler/check/lines.hpp"
#include "compiler/check/places.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using grammar::LineKind;

// What one kit may come to, whatever kits it names: it bounds later searches.
constexpr std::size_t most_things = 200;

program::KitThing to_thing(const syntax::KitThing& thing) {
    program::KitThing result;
    result.count = thing.count;
    result.name = clean_text(thing.name);
    for (const syntax::Value& size : thing.sizes) {
        result.sizes.push_back(size.quantity.value);
        result.unit = size.quantity.unit;
    }
    return result;
}

// A kit is named where nothing is said of it: neither a count nor a size.
const program::NamedKit* named_by(const program::KitThing& thing,
                                  const std::vector<program::NamedKit>& kits) {
    if (thing.count != 1 || !thing.sizes.empty()) return nullptr;
    const auto found =
        std::ranges::find(kits, fold_name(thing.name), &program::NamedKit::folded_name);
    return found == kits.end() ? nullptr : &*found;
}

}  // namespace

std::vector<program::KitThing> to_kit(const syntax::Kit& kit) {
    std::vector<program::KitThing> things;
    for (const syntax::KitThing& thing : kit.things)
        things.push_back(to_thing(thing));
    return things;
}

std::vector<program::KitThing> fill_in(const std::vector<program::KitThing>& things,
                                       const std::vector<program::NamedKit>& kits) {
    std::vector<program::KitThing> result;
    for (const program::KitThing& thing : things) {
        const program::NamedKit* kit = named_by(thing, kits);
        if (kit == nullptr) {
            result.push_back(thing);
        } else {
            result.insert(result.end(), kit->things.begin(), kit->things.end());
        }
        if (result.size() > most_things) result.resize(most_things);
    }
    return result;
}

std::vector<program::NamedKit> check_kits(const std::vector<RecordLines>& records,
                                          DiagnosticSink& sink) {
    std::vector<program::NamedKit> kits;
    for (const RecordLines& record : records) {
        for (const syntax::Line* line : record.lines) {
            if (line->kind != LineKind::allow && !line->is_broken)
                report_not_here(*line, Surroundings::kit, sink);
        }
        const auto* body = std::get_if<syntax::Kit>(&record.head->body);
        if (record.head->is_broken || body == nullptr) continue;
        program::NamedKit kit;
        kit.name = clean_text(record.head->title.text);
        kit.folded_name = fold_name(kit.name);
        kit.span = record.head->head.span;
        if (!kit.name.empty() && kit.name.back() >= '0' && kit.name.back() <= '9') {
            sink.report({Code::kit_name_number, record.head->title.span, {kit.name}, {}, {}});
            continue;
        }
        const auto first =
            std::ranges::find(kits, kit.folded_name, &program::NamedKit::folded_name);
        if (first != kits.end()) {
            sink.report(
                {Code::kit_twice, kit.span, {kit.name}, {}, {{first->span, "the first one"}}});
            continue;
        }
        kit.things = fill_in(to_kit(*body), kits);
        kits.push_back(std::move(kit));
    }
    return kits;
}

}  // namespace stave::check
