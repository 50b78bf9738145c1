#include <nlohmann/json.hpp>

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

Json to_json(const Diagnostic& diagnostic, const SourceFile* source) {
    const CatalogueEntry& entry = catalogue_entry(diagnostic.code);
    Json object{{"code", entry.name}, {"severity", severity_name(entry.severity)}};
    if (source != nullptr) {
        object["file"] = source->path(diagnostic.span.begin);
        object["begin"] = place(*source, diagnostic.span.begin);
        object["end"] = place(*source, diagnostic.span.end);
    }
    object["what"] = what(diagnostic);
    object["why"] = why(diagnostic);
    object["mend"] = mend(diagnostic);
    if (source == nullptr) return object;
    object["fixes"] = Json::array();
    for (const Fix& fix : diagnostic.fixes)
        object["fixes"].push_back(to_json(fix, *source));
    object["related"] = Json::array();
    for (const Related& related : diagnostic.related) {
        object["related"].push_back({{"file", source->path(related.span.begin)},
                                     {"begin", place(*source, related.span.begin)},
                                     {"end", place(*source, related.span.end)},
                                     {"label", related.label}});
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
    }
    // A path may hold bytes that are no UTF-8.
    return list.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace stave
