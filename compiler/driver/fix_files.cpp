#include "compiler/driver/fix_files.hpp"

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <utility>

#include "compiler/driver/files.hpp"
#include "compiler/driver/make_mends.hpp"

namespace stave::driver {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

Mended fix_text(const std::string& shown, std::string text, zones::ZoneLoader& zones,
                movements::Library& library) {
    const check::Options options = make_check_options(zones, library);
    const bool has_mark = text.starts_with(byte_order_mark);
    if (has_mark) text.erase(0, byte_order_mark.size());
    Mended mended = make_mends(text, [&](const std::string& one, std::size_t kept) {
        return analysis::analyse(shown, one, options, make_sources(shown, library), kept);
    });
    if (has_mark) mended.text.insert(0, byte_order_mark);
    return mended;
}

// Takes the file's place; says what was done.
std::optional<Diagnostic> write(const std::string& path, const Mended& mended,
                                Environment& environment) {
    if (path == "-") {
        environment.out << mended.text;
        return std::nullopt;
    }
    if (mended.count == 0) return std::nullopt;
    if (auto failed = replace_source(path, mended.text)) return failed;
    environment.out << fmt::format("{}: {} mend{} made\n", path, mended.count,
                                   mended.count == 1 ? "" : "s");
    return std::nullopt;
}

}  // namespace

Loaded fix_files(const Options& options, zones::ZoneLoader& zones, movements::Library& library,
                 Environment& environment) {
    Loaded loaded;
    loaded.strict = options.strict;
    for (const std::string& path : options.files) {
        const std::string shown = path == "-" ? "standard input" : path;
        auto text = path == "-" ? read_stream(environment.in, shown) : read_file(path);
        if (!text) {
            loaded.file_problems.push_back(std::move(text.error()));
            continue;
        }
        Mended mended = fix_text(shown, std::move(*text), zones, library);
        if (auto failed = write(path, mended, environment)) {
            loaded.file_problems.push_back(std::move(*failed));
        }
        loaded.snapshots.push_back(std::move(mended.snapshot));
    }
    return loaded;
}

}  // namespace stave::driver
