// The folder that is served, as `server::answer` asks for it.
//
// Nothing outside of it is opened: a path is walked name by name from the folder, and a link on
// the way is as good as nothing. (openat2 does the same in one call, but not on every kernel,
// nor in every container.) A file of usual size is read whole before anything of it is sent, a
// large one stays open while it is sent in pieces, which ends where somebody writes to it. So
// whoever asks gets the one that stood there or the one that took its place, and never some of
// each.
#pragma once

#include <sys/stat.h>

#include <array>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>

#include "backends/server/answer.hpp"
#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/driver/descriptor.hpp"

namespace stave::driver {

class ServedFolder {
public:
    explicit ServedFolder(std::string path) : path_(std::move(path)) {}

    // Why it cannot be served: it is not there, or has no index that Stave published.
    [[nodiscard]] std::optional<Diagnostic> find_fault();

    // By a path without `..` and without empty names.
    [[nodiscard]] server::Found find(const std::string& path);

private:
    // What changes when a file is another one, or is written to: device, number, size, and the
    // times of its content and of its entry in nanoseconds.
    using Identity = std::array<std::int64_t, 5>;
    struct Kept {
        Identity identity{};
        server::File file;
        std::size_t bytes = 0;
    };

    [[nodiscard]] static Identity identity_of(const struct stat& status);
    [[nodiscard]] static server::File in_pieces(Descriptor file, const struct stat& status);
    [[nodiscard]] server::Found read(const std::string& path, Descriptor file,
                                     const struct stat& before);
    void keep(const std::string& path, Kept kept);

    std::string path_;
    std::map<std::string, Kept> kept_;
    std::size_t kept_bytes_ = 0;
};

}  // namespace stave::driver
