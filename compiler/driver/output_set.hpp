// The files that one run makes: gathered, then written together.
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "compiler/diagnostics/diagnostic.hpp"
#include "compiler/driver/spool.hpp"

namespace stave::driver {

struct Output {
    // What a person calls it: card, feed, picture.
    std::string_view kind;
    Content content;
    // The source it is made from, as the folder's list knows it; empty where it is made from all.
    std::string source;
    // See ManifestEntry::feed_of.
    std::string feed_of = {};
    // As the folder's list has it; known once it is written, or where nothing was made.
    std::string hash = {};
    // Of a file that holds already what would be made, so that it has not been made.
    std::optional<std::size_t> standing_size = std::nullopt;
    // Whether the file holds these bytes already; known once they are written.
    bool as_before = false;

    [[nodiscard]] std::size_t size() const { return standing_size.value_or(content.size()); }
};

// By path. Many do not take the memory of all.
class OutputSet {
public:
    using value_type = std::map<std::string, Output>::value_type;

    // What is made waits on the disk of the folder that it goes to; without one, in memory.
    explicit OutputSet(std::string folder = {}) : folder_(folder), spool_(std::move(folder)) {}
    // Empty for none.
    [[nodiscard]] const std::string& folder() const { return folder_; }

    // False where the path has an output already.
    bool add(const std::string& path, std::string_view kind, std::string bytes);
    bool add(const std::string& path, std::string_view kind, Content content);
    // What need not be made, since the file of that hash and size holds it.
    bool add_standing(const std::string& path, std::string_view kind, std::string hash,
                      std::size_t size);
    // What `write` hands over, to be added or not.
    [[nodiscard]] Content gather(const std::function<void(const PartSink&)>& write) {
        return spool_.take_parts(write);
    }

    [[nodiscard]] auto begin() { return by_path_.begin(); }
    [[nodiscard]] auto end() { return by_path_.end(); }
    [[nodiscard]] auto begin() const { return by_path_.begin(); }
    [[nodiscard]] auto end() const { return by_path_.end(); }
    [[nodiscard]] std::size_t size() const { return by_path_.size(); }
    [[nodiscard]] bool contains(const std::string& path) const { return by_path_.contains(path); }
    [[nodiscard]] Output& at(const std::string& path) { return by_path_.at(path); }
    [[nodiscard]] const Output& at(const std::string& path) const { return by_path_.at(path); }

private:
    std::string folder_;
    Spool spool_;
    std::map<std::string, Output> by_path_;
};

// A problem where the path has an output already.
[[nodiscard]] std::optional<Diagnostic> add_output(OutputSet& outputs, std::string_view kind,
                                                   const std::string& path, std::string bytes);
[[nodiscard]] std::optional<Diagnostic> add_output(OutputSet& outputs, std::string_view kind,
                                                   const std::string& path, Content content);

// Whatever has no source yet was made from this one.
void say_source(OutputSet& outputs, const std::string& source);

// Makes the folders, and removes from them what killed runs left.
[[nodiscard]] std::optional<Diagnostic> make_ready(const std::vector<std::string>& folders);

[[nodiscard]] std::string output_line(std::string_view kind, const std::string& path,
                                      bool as_before);

// A line for each file.
void say_outputs(const OutputSet& outputs, std::ostream& out);

}  // namespace stave::driver
