// How long each pass takes, and how many bytes of source a second the front of the
// compiler reads. Times of a whole process are measured from outside.

#include <benchmark/benchmark.h>

#include <memory>
#include <stdexcept>
#include <string>
#include <utility>

#include "backends/calendar/feed.hpp"
#include "backends/calendar/previous.hpp"
#include "backends/card/layout.hpp"
#include "backends/card/pdf/pdf_writer.hpp"
#include "compiler/analysis/analyse.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/format/format.hpp"
#include "compiler/movements/movements.hpp"
#include "compiler/parse/parse.hpp"
#include "compiler/syntax/lower.hpp"
#include "compiler/zones/zone_loader.hpp"
#include "tests/bench/memory.hpp"
#include "tests/fuzz/varied_sessions.hpp"

namespace stave {
namespace {

constexpr std::size_t large = 10'000'000;
constexpr std::chrono::sys_seconds now{std::chrono::seconds{1'790'000'000}};

// About 14,000 sessions, none like another.
const SourceFile& season() {
    static const SourceFile file("season.stave", testing::sessions(1, large));
    return file;
}

// What a coach builds most often: one session of about 25 lines.
std::string evening() {
    testing::Chance chance(8);
    return testing::session(chance, 1);
}

check::Options options() {
    static zones::ZoneLoader zones;
    return {zones.finder(), {}};
}

analysis::Snapshot without_errors(std::string text) {
    analysis::Snapshot snapshot = analysis::analyse("bench", std::move(text), options());
    if (snapshot.sink.has_errors()) throw std::logic_error("the made-up session has errors");
    return snapshot;
}

void count_bytes(benchmark::State& state, std::size_t size) {
    state.SetBytesProcessed(static_cast<std::int64_t>(size) * state.iterations());
}

void load(benchmark::State& state) {
    const std::string text(season().text());
    for (auto _ : state) {
        const SourceFile file("bench", text);
        benchmark::DoNotOptimize(file.line_count());
    }
    count_bytes(state, text.size());
}

void parse(benchmark::State& state) {
    for (auto _ : state) {
        DiagnosticSink sink;
        benchmark::DoNotOptimize(parse::parse(season(), sink));
    }
    count_bytes(state, season().text().size());
}

void lower(benchmark::State& state) {
    DiagnosticSink sink;
    const auto tree = parse::parse(season(), sink);
    for (auto _ : state)
        benchmark::DoNotOptimize(syntax::lower(tree, season(), sink));
    count_bytes(state, season().text().size());
}

void check(benchmark::State& state) {
    DiagnosticSink sink;
    const auto tree = parse::parse(season(), sink);
    const auto document = syntax::lower(tree, season(), sink);
    for (auto _ : state)
        benchmark::DoNotOptimize(check::check(document, options(), sink));
    if (sink.has_errors()) throw std::logic_error("the made-up sessions have errors");
    count_bytes(state, season().text().size());
}

void parse_lower_and_check(benchmark::State& state) {
    for (auto _ : state) {
        DiagnosticSink sink;
        const auto tree = parse::parse(season(), sink);
        const auto document = syntax::lower(tree, season(), sink);
        benchmark::DoNotOptimize(check::check(document, options(), sink));
    }
    count_bytes(state, season().text().size());
}

// Sessions numbered from 1, as many as the benchmark asks for.
std::string sessions_of(const benchmark::State& state) {
    testing::Chance chance(3);
    std::string text;
    for (int number = 1; number <= state.range(0); ++number)
        text += testing::session(chance, number) + '\n';
    return text;
}

// The whole front with the library, as `stave check` runs it: the time for a session
// must not grow with their number.
void analyse_a_file(benchmark::State& state) {
    const std::string text = sessions_of(state);
    zones::ZoneLoader zones;
    for (auto _ : state) {
        movements::Library library;
        benchmark::DoNotOptimize(analysis::analyse("bench", text,
                                                   driver::make_check_options(zones, library),
                                                   driver::make_sources("bench", library)));
    }
    count_bytes(state, text.size());
    state.SetItemsProcessed(state.range(0) * state.iterations());
}

// Sessions that are each based on the first and use one routine.
void compose_a_file(benchmark::State& state) {
    std::string text =
        "routine Prep: reps 8\n  warm-up:\n    squat: [reps]\n    push-up: [reps]\n"
        "session 0:\nuse Prep:\nsets:\n  deadlift: 4 x 5 @ 60 kg\n  row: 5 min\n";
    for (int number = 1; number < state.range(0); ++number) {
        text += "session " + std::to_string(number) +
                ":\nbased on: session 0\nsets:\n  deadlift: 4 x 5 @ 70 kg\n";
    }
    for (auto _ : state)
        benchmark::DoNotOptimize(analysis::analyse("bench", text, {}));
    count_bytes(state, text.size());
    state.SetItemsProcessed(state.range(0) * state.iterations());
}

void format_a_file(benchmark::State& state) {
    const SourceFile source("bench", sessions_of(state));
    DiagnosticSink sink;
    const auto tree = parse::parse(source, sink);
    const auto document = syntax::lower(tree, source, sink);
    for (auto _ : state)
        benchmark::DoNotOptimize(format::format(document, source.text()));
    count_bytes(state, source.text().size());
    state.SetItemsProcessed(state.range(0) * state.iterations());
}

void index_the_library(benchmark::State& state) {
    for (auto _ : state) {
        movements::Library library;
        benchmark::DoNotOptimize(library.find("push-up"));
    }
}

void analyse_one_session(benchmark::State& state) {
    const std::string text = evening();
    for (auto _ : state)
        benchmark::DoNotOptimize(analysis::analyse("bench", text, options()));
    count_bytes(state, text.size());
}

void expand_one_session(benchmark::State& state) {
    const auto snapshot = without_errors(evening());
    for (auto _ : state) {
        benchmark::DoNotOptimize(timeline::expand(snapshot.program, snapshot.program.sessions[0]));
    }
}

std::optional<std::vector<card::Page>> pages_of(analysis::Snapshot& snapshot, card::Fonts& fonts) {
    return card::lay_out(snapshot.program, snapshot.program.sessions[0], snapshot.timelines[0],
                         {"0000000"}, fonts, snapshot.sink);
}

void load_fonts(benchmark::State& state) {
    for (auto _ : state) {
        card::Fonts fonts;
        benchmark::DoNotOptimize(fonts.shape(card::Face::regular, "8").advance);
    }
}

// As in a new process: every text is shaped for the first time.
void lay_out_first_card(benchmark::State& state) {
    auto snapshot = without_errors(evening());
    for (auto _ : state) {
        card::Fonts fonts;
        benchmark::DoNotOptimize(pages_of(snapshot, fonts));
    }
}

void lay_out_again(benchmark::State& state) {
    auto snapshot = without_errors(evening());
    card::Fonts fonts;
    for (auto _ : state)
        benchmark::DoNotOptimize(pages_of(snapshot, fonts));
}

void write_pdf(benchmark::State& state) {
    auto snapshot = without_errors(evening());
    card::Fonts fonts;
    const auto page = pages_of(snapshot, fonts);
    for (auto _ : state)
        benchmark::DoNotOptimize(card::write_pdf(page.value(), fonts));
}

std::string feed_of(const analysis::Snapshot& snapshot) {
    const program::Session& session = snapshot.program.sessions[0];
    const civil::Zone* zone =
        session.when->zone.empty() ? nullptr : options().zones(session.when->zone);
    const calendar::Feed feed{
        "bench", "Bench",
        calendar::Events({calendar::make_event(snapshot.program, session, snapshot.timelines[0],
                                               zone, wording::Language::english)})};
    return calendar::write(feed, {}, now);
}

// Cards of one session that differ in what is printed for one athlete: the title has a
// name, the revision a number. Laid out and written one after the other, as a build does.
void personal_cards(benchmark::State& state) {
    auto snapshot = without_errors(evening());
    program::Session& session = snapshot.program.sessions[0];
    std::size_t bytes = 0;
    for (auto _ : state) {
        card::Fonts fonts;
        card::PdfWriter writer(fonts);
        testing::Chance chance(5);
        for (std::int64_t athlete = 0; athlete < state.range(0); ++athlete) {
            std::string name;
            for (int letter = 0; letter < 9; ++letter)
                name += static_cast<char>('a' + chance.pick(26));
            session.title = "Card of " + name;
            const auto pages =
                card::lay_out(snapshot.program, session, snapshot.timelines[0],
                              {std::to_string(1'000'000 + athlete)}, fonts, snapshot.sink);
            bytes += writer.write(pages.value()).value().size();
            fonts.forget_shapes(20'000);
        }
    }
    state.SetItemsProcessed(state.range(0) * state.iterations());
    state.counters["bytes a card"] =
        static_cast<double>(bytes) / static_cast<double>(state.range(0) * state.iterations());
    state.counters["most MB"] = testing::most_megabytes();
}

void write_feed(benchmark::State& state) {
    const auto snapshot = without_errors(evening());
    for (auto _ : state)
        benchmark::DoNotOptimize(feed_of(snapshot));
}

// All that `stave build` does with one session, but for the disk.
void build_one_session(benchmark::State& state) {
    const std::string text = evening();
    for (auto _ : state) {
        auto snapshot = without_errors(text);
        card::Fonts fonts;
        const auto page = pages_of(snapshot, fonts);
        benchmark::DoNotOptimize(card::write_pdf(page.value(), fonts));
        benchmark::DoNotOptimize(feed_of(snapshot));
    }
}

BENCHMARK(load)->Unit(benchmark::kMillisecond);
BENCHMARK(parse)->Unit(benchmark::kMillisecond);
BENCHMARK(lower)->Unit(benchmark::kMillisecond);
BENCHMARK(check)->Unit(benchmark::kMillisecond);
BENCHMARK(parse_lower_and_check)->Unit(benchmark::kMillisecond);
BENCHMARK(analyse_a_file)->RangeMultiplier(10)->Range(100, 10'000)->Unit(benchmark::kMillisecond);
BENCHMARK(compose_a_file)->RangeMultiplier(10)->Range(100, 10'000)->Unit(benchmark::kMillisecond);
BENCHMARK(format_a_file)->RangeMultiplier(10)->Range(100, 10'000)->Unit(benchmark::kMillisecond);
BENCHMARK(index_the_library)->Unit(benchmark::kMicrosecond);
BENCHMARK(analyse_one_session)->Unit(benchmark::kMicrosecond);
BENCHMARK(expand_one_session)->Unit(benchmark::kMicrosecond);
BENCHMARK(load_fonts)->Unit(benchmark::kMicrosecond);
BENCHMARK(lay_out_first_card)->Unit(benchmark::kMicrosecond);
BENCHMARK(lay_out_again)->Unit(benchmark::kMicrosecond);
BENCHMARK(write_pdf)->Unit(benchmark::kMicrosecond);
BENCHMARK(personal_cards)->RangeMultiplier(10)->Range(1, 10'000)->Unit(benchmark::kMillisecond);
BENCHMARK(write_feed)->Unit(benchmark::kMicrosecond);
BENCHMARK(build_one_session)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace stave

BENCHMARK_MAIN();
