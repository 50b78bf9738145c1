#include "compiler/driver/manifest.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <utility>

#include "compiler/driver/hashes.hpp"

namespace stave::driver {

namespace {

using Json = nlohmann::json;

constexpr int version = 1;
constexpr std::string_view about =
    "What Stave wrote into this folder. It takes away only what it finds here unchanged.";
constexpr std::size_t hash_size = 64;

bool is_hash(std::string_view text) {
    constexpr std::string_view digits = "0123456789abcdef";
    return text.size() == hash_size &&
           std::ranges::all_of(text, [&](char sign) { return digits.contains(sign); });
}

std::string hidden_start() {
    return std::string(private_folder) + ":";
}

bool is_listed_name(const std::string& name) {
    const std::string start = hidden_start();
    if (name.starts_with(start)) return is_hash(std::string_view(name).substr(start.size()));
    const std::filesystem::path path(name);
    const bool inside = std::ranges::none_of(path, [](const std::filesystem::path& part) {
        return part.empty() || part == "." || part == "..";
    });
    // A name with a zero would be cut where it stands.
    return inside && !name.empty() && path.is_relative() && !name.contains('\0');
}

bool read_entry(const Json& json, ManifestEntry& entry) {
    if (!json.is_object() || !json.contains("sha256") || !json["sha256"].is_array()) return false;
    for (const Json& hash : json["sha256"]) {
        if (!hash.is_string() || !is_hash(hash.get_ref<const std::string&>())) return false;
        entry.hashes.push_back(hash.get<std::string>());
    }
    if (json.contains("from")) {
        if (!json["from"].is_string()) return false;
        entry.source = json["from"].get<std::string>();
    }
    if (json.contains("feed of")) {
        if (!json["feed of"].is_string()) return false;
        entry.feed_of = json["feed of"].get<std::string>();
    }
    return !entry.hashes.empty();
}

// A source's name may be no UTF-8.
std::string as_json(std::string_view text) {
    return Json(text).dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

bool is_private_path(std::string_view path) {
    return path.starts_with(private_folder) && path.substr(private_folder.size()).starts_with('/');
}

std::string listed_name(const std::string& path) {
    return is_private_path(path) ? hidden_start() + sha256(path) : path;
}

std::string listed_hash(const std::string& path, std::string_view bytes) {
    Sha256 hash = listed_hash_of(path);
    hash.add(bytes);
    return hash.digits();
}

Sha256 listed_hash_of(const std::string& path) {
    Sha256 hash;
    if (is_private_path(path)) hash.add(std::string(path).append(1, '\0'));
    return hash;
}

// As the library lays it out, but without a tree of all, which of many thousand files is large.
std::string to_json(const Manifest& manifest) {
    std::string text = fmt::format("{{\n  \"about\": {},\n  \"files\": {{", as_json(about));
    std::string_view before = "\n";
    for (const auto& [name, entry] : manifest) {
        text += fmt::format("{}    {}: {{\n", std::exchange(before, ",\n"), as_json(name));
        if (!entry.feed_of.empty())
            text += fmt::format("      \"feed of\": {},\n", as_json(entry.feed_of));
        if (!entry.source.empty())
            text += fmt::format("      \"from\": {},\n", as_json(entry.source));
        text += fmt::format("      \"sha256\": [\n        \"{}\"\n      ]\n    }}",
                            fmt::join(entry.hashes, "\",\n        \""));
    }
    text += manifest.empty() ? "}" : "\n  }";
    return text + fmt::format(",\n  \"version\": {}\n}}\n", version);
}

std::expected<Manifest, Code> read_manifest(std::string_view text) {
    const Json json = Json::parse(text, nullptr, false);
    if (!json.is_object() || !json.contains("version") || !json["version"].is_number_integer())
        return std::unexpected(Code::manifest_damaged);
    if (json["version"] > version) return std::unexpected(Code::manifest_newer);
    if (json["version"] != version || !json.contains("files") || !json["files"].is_object())
        return std::unexpected(Code::manifest_damaged);
    Manifest manifest;
    for (const auto& [name, value] : json["files"].items()) {
        if (!is_listed_name(name) || !read_entry(value, manifest[name]))
            return std::unexpected(Code::manifest_damaged);
    }
    return manifest;
}

}  // namespace stave::driver
