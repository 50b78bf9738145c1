// One run at a time in a folder that Stave writes into: a run reads what the last one left there
// and goes on from it, so two at once would undo each other's work.
//
// The lock is the system's own, on the folder itself (flock): nothing lies about in the folder,
// and it ends with its run, however that ends. Where a file system knows no such locks, nothing
// is locked.
#pragma once

#include <expected>
#include <optional>
#include <string>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/driver/descriptor.hpp"
#include "compiler/driver/load.hpp"

namespace stave::driver {

class FolderLock {
public:
    // Makes the folder, and locks nothing where it cannot be made. Waits some seconds for another
    // run to end, then refuses.
    [[nodiscard]] static std::expected<FolderLock, Diagnostic> take(const std::string& folder);

    // Folders that it made go again if nothing came to stand in them.
    ~FolderLock();
    FolderLock(FolderLock&&) noexcept = default;
    FolderLock& operator=(FolderLock&&) = delete;

    // Whether nobody else can write there now; not so where there are no locks.
    [[nodiscard]] bool is_held() const { return held_.is_open(); }

private:
    FolderLock(Descriptor held, std::vector<std::string> made)
        : held_(std::move(held)), made_(std::move(made)) {}

    Descriptor held_;
    // The innermost first.
    std::vector<std::string> made_;
};

// Of a run that may write, the lock of its folder; none where the problems so far forbid that.
[[nodiscard]] std::expected<std::optional<FolderLock>, Diagnostic> lock_for(
    const std::string& folder, const Loaded& loaded);
[[nodiscard]] bool is_held(const std::optional<FolderLock>& lock);

}  // namespace stave::driver
