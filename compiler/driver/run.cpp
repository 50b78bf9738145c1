#include "compiler/driver/run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <expected>
#include <filesystem>
#include <iterator>
#include <sstream>
#include <utility>

#include "backends/calendar/previous.hpp"
#include "backends/card/fonts.hpp"
#include "backends/report/conventions.hpp"
#include "compiler/driver/build.hpp"
#include "compiler/driver/card_outputs.hpp"
#include "compiler/driver/clock.hpp"
#include "compiler/driver/explain.hpp"
#include "compiler/driver/fix_files.hpp"
#include "compiler/driver/font_folder.hpp"
#include "compiler/driver/format_files.hpp"
#include "compiler/driver/last_build.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/options.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/driver/publish.hpp"
#include "compiler/driver/serve.hpp"
#include "compiler/driver/show_movements.hpp"
#include "compiler/driver/show_plan.hpp"
#include "compiler/driver/watch.hpp"
#include "compiler/parse/parse.hpp"
#include "compiler/program/dump.hpp"
#include "compiler/syntax/lower.hpp"
#include "compiler/timeline/dump.hpp"

namespace stave::driver {

namespace {

void check(const Options& options, Loaded& loaded, const Environment& environment) {
    OutputSet none;
    std::vector<CardPlace> places;
    for (analysis::Snapshot* snapshot : loaded.without_errors()) {
        places.push_back({snapshot, {}, {}, {}});
        // A card of somebody's own may be longer, and has their name on it.
        for (const std::uint32_t id : athletes_with_issues(*snapshot))
            places.push_back({snapshot, {}, {}, {}, {.athlete_id = id}});
    }
    CardMaker(options, loaded.family, environment, none, loaded.file_problems).only_lay_out(places);
}

std::string dump_pages(analysis::Snapshot& snapshot, const card::Family& family,
                       const Options& options) {
    std::string text;
    card::Fonts fonts(family);
    for (const std::size_t id : analysis::held_issues(snapshot)) {
        const auto pages = make_pages(snapshot, analysis::issue(snapshot, id), options.card, fonts);
        for (const card::Page& page : pages.value_or(std::vector<card::Page>{}))
            text += card::dump(page);
    }
    return text;
}

// As they are written, since they may be larger than the memory.
void dump_feeds(const analysis::Snapshot& snapshot, const Options& options,
                zones::ZoneLoader& zones, const Environment& environment) {
    if (snapshot.sink.has_errors()) return;
    for (const FeedContent& content : feed_contents(snapshot)) {
        const auto feed = make_feed(snapshot, content, zones, options.card.language);
        // Without a previous feed there is none that could be lost.
        static_cast<void>(calendar::write(feed, {}, environment.now(),
                                          [&](std::string_view part) { environment.out << part; }));
    }
}

void dump(analysis::Snapshot& snapshot, const card::Family& family, const Options& options,
          zones::ZoneLoader& zones, const Environment& environment) {
    switch (options.form) {
        case Form::parse:
            environment.out << parse::dump(snapshot.tree, *snapshot.source);
            break;
        case Form::syntax:
            environment.out << syntax::dump(snapshot.document);
            break;
        case Form::program:
            environment.out << program::dump(snapshot.program);
            break;
        case Form::timeline:
            for (const auto& timeline : snapshot.timelines)
                environment.out << timeline::dump(timeline);
            break;
        case Form::page:
            environment.out << dump_pages(snapshot, family, options);
            break;
        case Form::feed:
            dump_feeds(snapshot, options, zones, environment);
            break;
    }
}

// Says what was found; gives the exit code.
int finish(Loaded& loaded, const Options& options, Environment& environment) {
    check_results_written(loaded, environment);
    say_problems(loaded, options.diagnostics, environment);
    return loaded.exit_code();
}

// The typeface that is asked for; or the exit code, once what is wrong with it is said.
std::expected<card::ChosenFamily, int> choose_family(const Options& options,
                                                     Environment& environment) {
    if (options.font.empty()) return card::ChosenFamily();
    auto read = read_family(options.font);
    if (read) return std::move(*read);
    Loaded nothing;
    nothing.file_problems.push_back(std::move(read.error()));
    return std::unexpected(finish(nothing, options, environment));
}

void use_family(card::ChosenFamily chosen, Loaded& loaded) {
    loaded.family = std::move(chosen.family);
    std::ranges::move(chosen.notes, std::back_inserter(loaded.file_problems));
}

// What the last build said, of files that are all as it left them.
int say_again(const LastBuild& last, const Options& options, Environment& environment) {
    for (const LastBuild::Made& made : last.outputs) {
        if (!made.kind.empty()) environment.out << output_line(made.kind, made.path, true);
    }
    environment.out << last.summaries;
    Loaded nothing;
    check_results_written(nothing, environment);
    if (!nothing.file_problems.empty()) say_problems(nothing, options.diagnostics, environment);
    environment.err << last.problems;
    return nothing.exit_code();
}

// `build` and `publish`, which know what they have done already.
int make_all(const Options& options, const BuildMemory& memory, Environment& environment) {
    if (const auto last = memory.recall()) return say_again(*last, options, environment);
    auto chosen = choose_family(options, environment);
    if (!chosen) return chosen.error();
    zones::ZoneLoader zones;
    movements::Library library;
    Loaded loaded = load(options, zones, library, environment);
    use_family(std::move(*chosen), loaded);
    const auto built = options.command == Command::publish
                           ? publish(options, loaded, zones, environment)
                           : build(options, loaded, zones, environment);
    std::ostringstream problems;
    Environment told{environment.in, environment.out, problems, environment.colour,
                     environment.now};
    const int code = finish(loaded, options, told);
    environment.err << problems.str();
    // A feed that was left behind may be put away at any time.
    const bool is_settled = std::ranges::find(loaded.file_problems, Code::feed_dropped,
                                              &Diagnostic::code) == loaded.file_problems.end();
    if (built && code == exit_done && is_settled) {
        const auto list = std::filesystem::path(options.out) / manifest_file;
        memory.keep(loaded.sources, built->outputs, list.string(), built->summaries,
                    problems.str());
    }
    return code;
}

int show_conventions(const Options& options, Environment& environment) {
    environment.out << (options.json ? report::conventions_json() : report::conventions_text());
    Loaded nothing;
    return finish(nothing, options, environment);
}

int run_command(const Options& options, Environment& environment) {
    if (options.command == Command::movements) return show_movements(options, environment);
    if (options.command == Command::conventions) return show_conventions(options, environment);
    if (options.command == Command::serve) return serve(options, environment);
    if (options.command == Command::format) return format_files(options, environment);
    auto chosen = choose_family(options, environment);
    if (!chosen) return chosen.error();
    if (options.command == Command::watch) return watch(options, *chosen, environment);
    zones::ZoneLoader zones;
    movements::Library library;
    Loaded loaded = options.fix ? fix_files(options, zones, library, environment)
                                : load(options, zones, library, environment);
    use_family(std::move(*chosen), loaded);
    switch (options.command) {
        case Command::preview:
            preview(options, loaded, environment);
            break;
        case Command::check:
            check(options, loaded, environment);
            break;
        case Command::explain:
            explain(options, loaded, environment);
            break;
        case Command::plan:
            show_plans(loaded, options.json, environment);
            break;
        case Command::build:
        case Command::publish:
        case Command::watch:
        case Command::format:
        case Command::movements:
        case Command::conventions:
        case Command::serve:
            break;
        case Command::dump:
            for (analysis::Snapshot& snapshot : loaded.snapshots)
                dump(snapshot, loaded.family, options, zones, environment);
            break;
    }
    return finish(loaded, options, environment);
}

// What was asked for, or how the command line is wrong.
int say_message(const Message& message, Environment& environment) {
    if (message.is_error) {
        environment.err << message.text;
        return exit_usage;
    }
    environment.out << message.text;
    Loaded nothing;
    check_results_written(nothing, environment);
    say_problems(nothing, DiagnosticFormat::text, environment);
    return nothing.exit_code();
}

}  // namespace

int run(const std::vector<std::string>& words, Environment& environment) {
    auto options = parse_options(words);
    if (!options) {
        return say_message(options.error(), environment);
    }
    Loaded nothing;
    if (auto unfit = complete_base(*options)) {
        nothing.file_problems.push_back(std::move(*unfit));
        say_problems(nothing, options->diagnostics, environment);
        return exit_usage;
    }
    const bool needs_clock =
        options->command == Command::build || options->command == Command::watch ||
        options->command == Command::publish || options->command == Command::preview ||
        options->command == Command::dump;
    if (!needs_clock) return run_command(*options, environment);
    auto at_its_time = with_clock(*options, environment);
    const bool makes_all =
        options->command == Command::build || options->command == Command::publish;
    if (at_its_time && makes_all)
        return make_all(*options, {words, *options, *at_its_time}, *at_its_time);
    if (at_its_time) return run_command(*options, *at_its_time);
    nothing.file_problems.push_back(std::move(at_its_time.error()));
    say_problems(nothing, options->diagnostics, environment);
    return exit_usage;
}

}  // namespace stave::driver
