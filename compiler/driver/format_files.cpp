#include "compiler/driver/format_files.hpp"

#include <fmt/format.h>

#include <utility>

#include "compiler/diagnostics/render.hpp"
#include "compiler/driver/files.hpp"
#include "compiler/driver/format_guard.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/run.hpp"

namespace stave::driver {

namespace {

class Formatter {
public:
    Formatter(const Options& options, Environment& environment)
        : options_(options), environment_(environment) {}

    int run() {
        for (const std::string& path : options_.files)
            format(path);
        check_results_written(loaded_, environment_);
        say_problems(loaded_, options_.diagnostics, environment_);
        if (loaded_.exit_code() != exit_done) return loaded_.exit_code();
        return options_.only_check && changed_ > 0 ? exit_source_errors : exit_done;
    }

private:
    void format(const std::string& path) {
        const bool standard_input = path == "-";
        const std::string shown = standard_input ? "standard input" : path;
        auto text = standard_input ? read_stream(environment_.in, shown) : read_file(path);
        if (!text) return problem(std::move(text.error()));
        const std::string before = *text;
        FormattedFile file = read_formatted(shown, std::move(*text));
        const bool readable = !file.snapshot.sink.has_errors();
        const bool sound = readable && says_the_same(file, read_formatted(shown, file.formatted));
        // A text that cannot be formatted is handed back, so that no editor loses it.
        if (standard_input && !options_.only_check) {
            environment_.out << (sound ? file.formatted : before);
        }
        if (readable && !sound) problem({Code::layout_differs, {}, {shown}, {}, {}});
        if (sound && before != file.formatted) change(path, shown, file.formatted);
        loaded_.snapshots.push_back(std::move(file.snapshot));
    }

    void change(const std::string& path, const std::string& shown, const std::string& formatted) {
        ++changed_;
        if (options_.only_check) {
            environment_.out << fmt::format("{} is not formatted\n", shown);
            return;
        }
        if (path == "-") return;
        if (auto failed = replace_source(path, formatted)) return problem(std::move(*failed));
        environment_.out << fmt::format("{} formatted\n", path);
    }

    void problem(Diagnostic diagnostic) { loaded_.file_problems.push_back(std::move(diagnostic)); }

    const Options& options_;
    Environment& environment_;
    Loaded loaded_;
    std::size_t changed_ = 0;
};

}  // namespace

int format_files(const Options& options, Environment& environment) {
    return Formatter(options, environment).run();
}

}  // namespace stave::driver
