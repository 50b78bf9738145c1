// How long each pass takes, and how many bytes of source a second the front of the
// compiler reads. Times of a whole process are measured from outside.

#include <benchmark/benchmark.h>

#include <memory>
#include <stdexcept>
#include <string>
#include <utility>

#include "backends/calendar/feed.hpp"
#include "backends/card/layout.hpp"
#include "backends/card/pdf/pdf_writer.hpp"
#include "compiler/analysis/analyse.hpp"
#include "compiler/parse/parse.hpp"
#include "compiler/syntax/lower.hpp"
#include "compiler/zones/zone_loader.hpp"
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

std::optional<card::Page> page_of(analysis::Snapshot& snapshot, card::Fonts& fonts) {
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
        benchmark::DoNotOptimize(page_of(snapshot, fonts));
    }
}

void lay_out_again(benchmark::State& state) {
    auto snapshot = without_errors(evening());
    card::Fonts fonts;
    for (auto _ : state)
        benchmark::DoNotOptimize(page_of(snapshot, fonts));
}

void write_pdf(benchmark::State& state) {
    auto snapshot = without_errors(evening());
    card::Fonts fonts;
    const auto page = page_of(snapshot, fonts);
    for (auto _ : state)
        benchmark::DoNotOptimize(card::write_pdf({&page.value(), 1}, fonts));
}

std::string feed_of(const analysis::Snapshot& snapshot) {
    const program::Session& session = snapshot.program.sessions[0];
    const civil::Zone* zone =
        session.when->zone.empty() ? nullptr : options().zones(session.when->zone);
    const calendar::Feed feed{
        "bench", "Bench", {calendar::make_event(session, snapshot.timelines[0], zone)}};
    return calendar::write(feed, {}, now);
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
        const auto page = page_of(snapshot, fonts);
        benchmark::DoNotOptimize(card::write_pdf({&page.value(), 1}, fonts));
        benchmark::DoNotOptimize(feed_of(snapshot));
    }
}

BENCHMARK(load)->Unit(benchmark::kMillisecond);
BENCHMARK(parse)->Unit(benchmark::kMillisecond);
BENCHMARK(lower)->Unit(benchmark::kMillisecond);
BENCHMARK(check)->Unit(benchmark::kMillisecond);
BENCHMARK(parse_lower_and_check)->Unit(benchmark::kMillisecond);
BENCHMARK(analyse_one_session)->Unit(benchmark::kMicrosecond);
BENCHMARK(expand_one_session)->Unit(benchmark::kMicrosecond);
BENCHMARK(load_fonts)->Unit(benchmark::kMicrosecond);
BENCHMARK(lay_out_first_card)->Unit(benchmark::kMicrosecond);
BENCHMARK(lay_out_again)->Unit(benchmark::kMicrosecond);
BENCHMARK(write_pdf)->Unit(benchmark::kMicrosecond);
BENCHMARK(write_feed)->Unit(benchmark::kMicrosecond);
BENCHMARK(build_one_session)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace stave

BENCHMARK_MAIN();
