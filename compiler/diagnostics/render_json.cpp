#include <nlohmann/json.hpp>

#include <algorithm>
#include <utility>

#include "compiler/diagnostics/catalogue.hpp"
#include "compiler/diagnostics/render.hpp"

namespace stave {

namespace {

using Json = nlohmann::ordered_json;

Json place(const SourceFile& source, std::uint32_t offset) {
    const Position position = source.position(offset);
    const SourcePart& part = source.parts()[source.part_at(offset)];
    return {{"line", position.line}, {"column", position.column}, {"offset", offset - part.begin}};
}

Json to_json(const Fix& fix, const SourceFile& source) {
    Json edits = Json::array();
    for (const Edit& edit : fix.edits) {
        edits.push_back({{"begin", place(source, edit.span.begin)},
                         {"end", place(source, edit.span.end)},
                         {"text", edit.text}});
    }
    return {{"label", fix.label}, {"edits", edits}};
}

// Adds the place, as an editor finds it.
void add_place(const SourceFile& source, Span span, Json& object) {
    const Span typed = source.typed(span);
    object["file"] = source.path(typed.begin);
    object["begin"] = place(source, typed.begin);
    object["end"] = place(source, typed.end);
}

// Text that was filled in from a pattern is in no file.
bool is_typed(const Fix& fix, const SourceFile& source) {
    return std::ranges::all_of(
        fix.edits, [&](const Edit& edit) { return source.typed(edit.span) == edit.span; });
}

Json to_json(const Diagnostic& diagnostic, const SourceFile* source) {
    const CatalogueEntry& entry = catalogue_entry(diagnostic.code);
    Json object{{"code", entry.name}, {"severity", severity_name(entry.severity)}};
    if (source != nullptr) add_place(*source, diagnostic.span, object);
    object["what"] = what(diagnostic);
    object["why"] = why(diagnostic);
    object["mend"] = mend(diagnostic);
    if (source == nullptr) return object;
    object["fixes"] = Json::array();
    for (const Fix& fix : diagnostic.fixes) {
        if (is_typed(fix, *source)) object["fixes"].push_back(to_json(fix, *source));
    }
    object["related"] = Json::array();
    for (const Related& related : diagnostic.related) {
        Json one;
        add_place(*source, related.span, one);
        one["label"] = related.label;
        object["related"].push_back(std::move(one));
    }
    return object;
}

}  // namespace

std::string render_json(std::span<const FileDiagnostics> files) {
    Json list = Json::array();
    for (const FileDiagnostics& file : files) {
        for (const Diagnostic& diagnostic : file.diagnostics) {
            list.push_back(to_json(diagnostic, file.source));
        }
        if (const auto more = of_dropped(file)) {
            list.push_back(to_json(*more, nullptr));
            list.back()["file"] = file.source->path();
        }
    }
    // A path may hold bytes that are no UTF-8.
    return list.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace stave
