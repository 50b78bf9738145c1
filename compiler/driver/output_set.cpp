#include "compiler/driver/output_set.hpp"

#include <fmt/format.h>

#include <utility>

namespace stave::driver {

std::optional<Diagnostic> add_output(OutputSet& outputs, std::string_view kind,
                                     const std::string& path, std::string bytes) {
    const auto [place, added] =
        outputs.emplace(path, Output{kind, std::move(bytes), {}, {}, false});
    if (!added) return Diagnostic{Code::same_output, {}, {path}, {}, {}};
    return std::nullopt;
}

void say_source(OutputSet& outputs, const std::string& source) {
    for (auto& [path, output] : outputs) {
        if (output.source.empty()) output.source = source;
    }
}

std::optional<Diagnostic> make_ready(const std::vector<std::string>& folders) {
    for (const std::string& folder : folders) {
        if (auto failed = make_folder(folder)) return failed;
        remove_leftovers(folder);
    }
    return std::nullopt;
}

std::optional<Diagnostic> add_changed(OutputSet& outputs, FileBatch& batch) {
    for (auto& [path, output] : outputs) {
        // What is larger is another file; what cannot be read can still be replaced.
        auto before = read_if_there(path, output.bytes.size());
        if (!before && before.error().code == Code::cannot_write) return before.error();
        output.as_before = before && *before && **before == output.bytes;
        if (output.as_before) continue;
        if (auto failed = batch.add(path, output.bytes)) return failed;
    }
    return std::nullopt;
}

std::string output_line(std::string_view kind, const std::string& path, bool as_before) {
    return fmt::format("{} {}{}\n", kind, path, as_before ? " (as before)" : "");
}

void say_outputs(const OutputSet& outputs, std::ostream& out) {
    for (const auto& [path, output] : outputs)
        out << output_line(output.kind, path, output.as_before);
}

}  // namespace stave::driver
