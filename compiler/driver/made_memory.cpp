#include "compiler/driver/made_memory.hpp"

#include <algorithm>

namespace stave::driver {

void MadeMemory::begin() {
    noted_.clear();
    for (auto& [key, kept] : kept_)
        kept.has_come_up = false;
}

const MadeMemory::Kept* MadeMemory::find(const WideHash& key, std::chrono::sys_seconds now) {
    const auto found = kept_.find(key);
    if (found == kept_.end()) return nullptr;
    Kept& kept = found->second;
    if (now < kept.made.from || now >= kept.made.until) return nullptr;
    std::vector<Kept::File> files;
    {
        const std::scoped_lock lock(mutex_);
        files = kept.files;
    }
    if (!std::ranges::all_of(files, [](Kept::File& file) { return file.known.holds_still(); }))
        return nullptr;
    const std::scoped_lock lock(mutex_);
    kept.files = std::move(files);
    kept.has_come_up = true;
    return &kept;
}

void MadeMemory::keep(const OutputSet& outputs, const std::set<std::string>& sources) {
    std::erase_if(kept_, [&](const auto& one) {
        return !one.second.has_come_up && sources.contains(one.second.made.source);
    });
    std::erase_if(events_, [&](const auto& one) {
        return sources.contains(one.second.source) && !outputs.contains(one.first);
    });
    for (auto& [key, made] : std::exchange(noted_, {})) {
        Kept kept{std::move(made), {}, true};
        for (const std::string& path : kept.made.paths) {
            const Output& output = outputs.at(path);
            kept.files.push_back({output.kind, KnownFile(path, output.hash, output.size())});
        }
        kept_.insert_or_assign(key, std::move(kept));
    }
}

std::optional<Diagnostic> add_standing(OutputSet& outputs, const MadeMemory::Kept& kept) {
    for (const auto& [kind, known] : kept.files) {
        if (!outputs.add_standing(known.path(), kind, known.hash(), known.size()))
            return Diagnostic{Code::same_output, {}, {known.path()}, {}, {}};
        outputs.at(known.path()).source = kept.made.source;
    }
    return std::nullopt;
}

}  // namespace stave::driver
