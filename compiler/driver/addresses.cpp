#include "compiler/driver/addresses.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <utility>

#include "compiler/driver/files.hpp"
#include "compiler/driver/hashes.hpp"

namespace stave::driver {

namespace {

constexpr std::string_view preface =
    "# Private addresses. Who has one can read what is published there, so keep this file to\n"
    "# yourself. Delete a line, and the next publishing makes a new address and takes away what\n"
    "# stood at the old one.\n";

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view blanks = " \t\r";
    const std::size_t first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

// False for a line that is neither empty nor a remark nor a new name with a new token.
bool read_line(std::string_view line, Addresses& addresses) {
    line = trimmed(line);
    if (line.empty() || line.starts_with('#')) return true;
    // A name may hold colons, a token none.
    const std::size_t colon = line.rfind(':');
    if (colon == std::string_view::npos) return false;
    const std::string name(trimmed(line.substr(0, colon)));
    const std::string token(trimmed(line.substr(colon + 1)));
    if (name.empty() || !is_token(token)) return false;
    const bool is_taken = std::ranges::any_of(
        addresses.tokens, [&](const auto& known) { return known.second == token; });
    return !is_taken && addresses.tokens.emplace(name, token).second;
}

}  // namespace

std::expected<Addresses, Diagnostic> read_addresses(const std::string& source) {
    Addresses addresses;
    addresses.path = std::filesystem::path(source).replace_extension(addresses_ending).string();
    auto text = read_if_there(addresses.path);
    if (!text) return std::unexpected(std::move(text.error()));
    addresses.text = text->value_or(std::string(preface));
    std::string_view rest = addresses.text;
    for (std::size_t number = 1; !rest.empty(); ++number) {
        const std::size_t end = std::min(rest.find('\n'), rest.size());
        if (!read_line(rest.substr(0, end), addresses)) {
            return std::unexpected(Diagnostic{
                Code::addresses_damaged, {}, {addresses.path, std::to_string(number)}, {}, {}});
        }
        rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    return addresses;
}

std::optional<std::string> shared_name(const Addresses& addresses, const std::string& title) {
    if (addresses.tokens.contains(title)) return title;
    for (const auto& [name, token] : addresses.tokens) {
        if (!name.starts_with(athlete_word)) return name;
    }
    return std::nullopt;
}

std::string address_of(Addresses& addresses, const std::string& name) {
    const auto known = addresses.tokens.find(name);
    if (known != addresses.tokens.end()) return known->second;
    const std::string token = make_token();
    addresses.tokens.emplace(name, token);
    if (!addresses.text.empty() && !addresses.text.ends_with('\n')) addresses.text += '\n';
    addresses.text += fmt::format("{}: {}\n", name, token);
    addresses.is_changed = true;
    return token;
}

std::optional<Diagnostic> write_addresses(const Addresses& addresses) {
    constexpr unsigned owner_alone = 0600;
    if (!addresses.is_changed) return std::nullopt;
    FileBatch batch;
    auto failed = batch.add(addresses.path, addresses.text,
                            FileBatch::Ownership{::geteuid(), ::getegid(), owner_alone});
    return failed ? failed : batch.put_in_place();
}

}  // namespace stave::driver
