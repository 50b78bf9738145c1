#include "compiler/driver/output_set.hpp"

#include <fmt/format.h>

#include <utility>

#include "compiler/driver/files.hpp"

namespace stave::driver {

bool OutputSet::add(const std::string& path, std::string_view kind, std::string bytes) {
    return !contains(path) && add(path, kind, spool_.take(std::move(bytes)));
}

bool OutputSet::add(const std::string& path, std::string_view kind, Content content) {
    const auto [place, is_new] = by_path_.try_emplace(path);
    if (is_new) {
        place->second.kind = kind;
        place->second.content = std::move(content);
    }
    return is_new;
}

bool OutputSet::add_standing(const std::string& path, std::string_view kind, std::string hash,
                             std::size_t size) {
    const auto [place, is_new] = by_path_.try_emplace(path);
    if (is_new) {
        Output& output = place->second;
        output.kind = kind;
        output.hash = std::move(hash);
        output.standing_size = size;
        output.as_before = true;
    }
    return is_new;
}

std::optional<Diagnostic> add_output(OutputSet& outputs, std::string_view kind,
                                     const std::string& path, std::string bytes) {
    if (outputs.add(path, kind, std::move(bytes))) return std::nullopt;
    return Diagnostic{Code::same_output, {}, {path}, {}, {}};
}

std::optional<Diagnostic> add_output(OutputSet& outputs, std::string_view kind,
                                     const std::string& path, Content content) {
    if (outputs.add(path, kind, std::move(content))) return std::nullopt;
    return Diagnostic{Code::same_output, {}, {path}, {}, {}};
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

std::string output_line(std::string_view kind, const std::string& path, bool as_before) {
    return fmt::format("{} {}{}\n", kind, path, as_before ? " (as before)" : "");
}

void say_outputs(const OutputSet& outputs, std::ostream& out) {
    for (const auto& [path, output] : outputs)
        out << output_line(output.kind, path, output.as_before);
}

}  // namespace stave::driver
