// The disk: whole files in, whole files out.
//
// Files are written beside their places, flushed to the disk and only then, all
// together, renamed: each place holds the old file or the new one at any moment,
// and no place changes while one of them has no room. Problems come back as
// diagnostics without a place in a source.
#pragma once

#include <cstddef>
#include <cstdint>
#include <expected>
#include <istream>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/source/parted_text.hpp"
#include "compiler/source/source_file.hpp"

namespace stave::driver {

// At most `largest` bytes; `shown` is the path as people know it.
[[nodiscard]] std::expected<std::string, Diagnostic> read_file(
    const std::string& path, std::size_t largest = SourceFile::largest);
[[nodiscard]] std::expected<std::string, Diagnostic> read_stream(
    std::istream& in, const std::string& shown, std::size_t largest = SourceFile::largest);

// Whether a plain file is there; a diagnostic where something else stands in its place.
[[nodiscard]] std::expected<bool, Diagnostic> is_file_there(const std::string& path);

// What an earlier build left there: nothing where there is no such file, a
// diagnostic where it cannot be read or something else stands in its place.
[[nodiscard]] std::expected<std::optional<std::string>, Diagnostic> read_if_there(
    const std::string& path, std::size_t largest = SourceFile::largest);

[[nodiscard]] std::optional<Diagnostic> make_folder(const std::string& path);

// Of what killed builds left beside the places of their files. A build at work has files there
// as well, so all is for who holds the folder's lock alone.
// Gives the folders that are in it, without links.
enum class Leftovers : std::uint8_t { of_an_hour_ago, all };
std::vector<std::string> remove_leftovers(const std::string& folder,
                                          Leftovers which = Leftovers::of_an_hour_ago);

// Puts new text into a file that a person wrote: where the path is a link, into the
// file it leads to, with the rights, owner and group it had. Refuses one that may not be
// written, and one whose owner it cannot keep: whoever mends a colleague's file must not
// take it away from them. Where only the group cannot be kept, the new one gets no rights
// that others have not.
[[nodiscard]] std::optional<Diagnostic> replace_source(const std::string& path,
                                                       std::string_view bytes);

// Files on their way to their places. What has not been put in place when the
// batch goes away is removed.
class FileBatch {
public:
    FileBatch() = default;
    ~FileBatch();
    FileBatch(const FileBatch&) = delete;
    FileBatch& operator=(const FileBatch&) = delete;

    // As POSIX has them, without the umask's; see `replace_source`.
    struct Ownership {
        unsigned owner = 0;
        unsigned group = 0;
        unsigned rights = 0;
    };

    // Each path once in a batch, and none that is a link. Can be called by several threads.
    [[nodiscard]] std::optional<Diagnostic> add(const std::string& path, std::string_view bytes,
                                                const std::optional<Ownership>& ownership = {});
    [[nodiscard]] std::optional<Diagnostic> add(const std::string& path, const PartedText& text,
                                                const std::optional<Ownership>& ownership = {});
    [[nodiscard]] std::optional<Diagnostic> put_in_place();
    [[nodiscard]] bool is_empty() const { return waiting_.empty(); }

private:
    struct Waiting {
        std::string temporary;
        std::string path;
    };
    std::mutex mutex_;
    std::vector<Waiting> waiting_;
};

}  // namespace stave::driver
