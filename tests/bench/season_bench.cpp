// What grows with a season: the entries of feeds, and sessions fitted to many athletes.

#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cstddef>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <utility>

#include "backends/calendar/feed.hpp"
#include "backends/calendar/previous.hpp"
#include "compiler/analysis/analyse.hpp"
#include "compiler/analysis/issues.hpp"
#include "compiler/driver/feed_output.hpp"
#include "compiler/driver/load.hpp"
#include "compiler/driver/parted_file.hpp"
#include "compiler/loads/rack.hpp"
#include "compiler/movements/movements.hpp"
#include "compiler/zones/zone_loader.hpp"
#include "tests/bench/memory.hpp"
#include "tests/fuzz/varied_sessions.hpp"

namespace stave {
namespace {

constexpr std::chrono::sys_seconds now{std::chrono::seconds{1'790'000'000}};

zones::ZoneLoader& zones() {
    static zones::ZoneLoader loader;
    return loader;
}

analysis::Snapshot without_errors(std::string text) {
    static movements::Library library;
    analysis::Snapshot snapshot =
        analysis::analyse("bench", std::move(text), driver::make_check_options(zones(), library),
                          driver::make_sources("bench", library));
    if (snapshot.sink.has_errors()) throw std::logic_error("the made-up file has errors");
    return snapshot;
}

// Entries that differ in their number and moment, from noon to noon; their text is that of a
// session of about 25 lines. Each is made when it is written. Four hundred would be a year's.
calendar::Feed feed_of(std::int64_t count, const std::string& ending) {
    testing::Chance chance(8);
    const auto snapshot = without_errors(testing::session(chance, 1));
    calendar::Event model =
        calendar::make_event(snapshot.program, snapshot.program.sessions[0], snapshot.timelines[0],
                             zones().find("Europe/Lisbon"), wording::Language::english);
    model.description += ending;
    const auto outline = [zone = model.zone](std::size_t number) {
        constexpr std::int64_t days = 400;
        const auto day = static_cast<std::int64_t>(number) % days;
        const auto minute = static_cast<std::int64_t>(number) / days;
        calendar::EventOutline event;
        event.session = fmt::format("session-{}", number);
        event.id = event.session;
        event.start = std::chrono::local_days{std::chrono::year{2026} / 11 / 1} +
                      std::chrono::hours{24} * day + std::chrono::minutes{minute};
        event.zone = zone;
        return event;
    };
    const auto make = [model, outline](std::size_t number) {
        const calendar::EventOutline its = outline(number);
        calendar::Event event = model;
        event.session = its.session;
        event.id = its.id;
        event.start = its.start;
        event.summary += fmt::format(" {}", number);
        event.description = fmt::format("{} {}", number, model.description);
        return event;
    };
    return {"bench", "Bench", calendar::Events(static_cast<std::size_t>(count), outline, make)};
}

// A feed as an earlier build has left it, in a file that is gone at the end.
class FeedFile {
public:
    explicit FeedFile(const calendar::Feed& feed)
        : path_(std::filesystem::temp_directory_path() / fmt::format("bench.{}.ics", ::getpid())) {
        std::ofstream file(path_, std::ios::binary);
        static_cast<void>(
            calendar::write(feed, {}, now, [&file](std::string_view part) { file << part; }));
    }
    ~FeedFile() { std::filesystem::remove(path_); }
    FeedFile(const FeedFile&) = delete;
    FeedFile& operator=(const FeedFile&) = delete;

    [[nodiscard]] calendar::PreviousFeed read() const {
        auto text = driver::open_file(path_.string(), driver::largest_feed).value();
        return calendar::read_previous(std::move(text), zones().finder()).value();
    }

private:
    std::filesystem::path path_;
};

// In parts, as they would go to the disk; previous ones are read back first.
void write_entries(benchmark::State& state, const FeedFile* before, const calendar::Feed& feed) {
    std::size_t bytes = 0;
    for (auto _ : state) {
        const auto previous = before == nullptr ? calendar::PreviousFeed() : before->read();
        const auto written = calendar::write(
            feed, previous, now, [&bytes](std::string_view part) { bytes += part.size(); });
        if (!written.is_whole) state.SkipWithError("the previous feed was not whole");
    }
    state.SetItemsProcessed(state.range(0) * state.iterations());
    state.SetBytesProcessed(static_cast<std::int64_t>(bytes));
    state.counters["most MB"] = testing::most_megabytes();
}

void new_entries(benchmark::State& state) {
    write_entries(state, nullptr, feed_of(state.range(0), ""));
}

void unchanged_entries(benchmark::State& state) {
    const calendar::Feed feed = feed_of(state.range(0), "");
    const FeedFile before(feed);
    write_entries(state, &before, feed);
}

void changed_entries(benchmark::State& state) {
    const FeedFile before(feed_of(state.range(0), ""));
    write_entries(state, &before, feed_of(state.range(0), "Bring boots."));
}

// A crew whose lifts, kit and tests differ, and twelve sessions of two barbell lifts and a row.
std::string crew_file(std::int64_t athletes) {
    std::string text =
        "kit Boathouse: barbell 20 kg, rack, bench, 2 pairs of plates 25 20 15 10 5 2.5 1.25 kg, "
        "rower\n\n";
    // A line has no room for a thousand names.
    constexpr std::int64_t hands_of_watch = 100;
    std::string watches;
    std::string all;
    for (std::int64_t number = 0; number < athletes; ++number) {
        text += fmt::format(
            "athlete Hand {0}:\n  weight: {1} kg\n  kit: Boathouse\n"
            "  test back squat: {2} @ {3} kg on 2026-12-20\n"
            "  test bench press: {2} @ {4} kg on 2026-12-20\n"
            "  test row: 2000 m in 7:{5:02} on 2026-12-20\n\n",
            number, 55 + number % 40, 1 + number % 8, 60 + number * 7 % 80, 40 + number * 7 % 60,
            number % 60);
        const std::int64_t watch = number / hands_of_watch;
        const bool is_first = number % hands_of_watch == 0;
        watches += is_first ? fmt::format("\n\nsquad Watch {}: ", watch) : ", ";
        watches += fmt::format("Hand {}", number);
        if (is_first) all += fmt::format("{}Watch {}", watch == 0 ? "" : ", ", watch);
    }
    text += watches + "\n\n";
    for (int session = 1; session <= 12; ++session) {
        text += fmt::format(
            "session {}:\nfor: {}\nsets: rest 2 min\n  back squat: 3 x 5 @ {} %\n"
            "  bench press: 8-6-4 @ {} %\ncircuit: 3 rounds, rest 90 s\n"
            "  row: 250 m @ 2000 m pace plus 8 s\n  push-up: 10\n\n",
            session, all, 60 + session, 58 + session);
    }
    return text;
}

void fit_a_crew(benchmark::State& state) {
    const auto snapshot = without_errors(crew_file(state.range(0)));
    for (auto _ : state) {
        for (std::size_t id = 0; id < analysis::issue_count(snapshot); ++id) {
            const analysis::Issue issue = analysis::issue(snapshot, id);
            for (const std::uint32_t athlete_id : snapshot.people[id]) {
                DiagnosticSink sink;
                benchmark::DoNotOptimize(fit::fit(snapshot.program, issue.session(),
                                                  snapshot.outfits[athlete_id], "-", sink));
            }
        }
    }
    const auto sessions = static_cast<std::int64_t>(analysis::issue_count(snapshot));
    state.SetItemsProcessed(sessions * state.range(0) * state.iterations());
    state.counters["most MB"] = testing::most_megabytes();
}

// The whole front over the same file; it fits each session for what there is to say of it.
void analyse_a_crew(benchmark::State& state) {
    const std::string text = crew_file(state.range(0));
    for (auto _ : state)
        benchmark::DoNotOptimize(without_errors(text));
    state.SetItemsProcessed(12 * state.range(0) * state.iterations());
}

// Twelve plates of six weights, two of each a side: every sum there is, once for each kit.
loads::ReachableLoads twelve_plates() {
    std::vector<loads::Weight> pairs;
    for (const Ratio kilograms :
         {Ratio(25), Ratio(20), Ratio(15), Ratio(10), Ratio(5), Ratio(5, 2)})
        pairs.push_back({kilograms, 2});
    return loads::ReachableLoads::of_bar(Ratio(20), pairs);
}

// As before, with twelve different plates of which there is one pair each.
loads::ReachableLoads twelve_weights() {
    std::vector<loads::Weight> pairs;
    for (std::int64_t quarter = 100; quarter > 4; quarter -= 8)
        pairs.push_back({Ratio(quarter, 4), 1});
    return loads::ReachableLoads::of_bar(Ratio(20), pairs);
}

void make_a_rack(benchmark::State& state) {
    for (auto _ : state)
        benchmark::DoNotOptimize(state.range(0) == 0 ? twelve_plates() : twelve_weights());
}

void find_the_plates(benchmark::State& state) {
    const loads::ReachableLoads rack = state.range(0) == 0 ? twelve_plates() : twelve_weights();
    std::int64_t halves = 0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(rack.choose(Ratio(41 + halves, 2), loads::Direction::nearest));
        halves = (halves + 7) % 300;
    }
}

BENCHMARK(new_entries)->Arg(1000)->Arg(100'000)->Unit(benchmark::kMillisecond);
BENCHMARK(unchanged_entries)->Arg(100'000)->Unit(benchmark::kMillisecond);
BENCHMARK(changed_entries)->Arg(100'000)->Unit(benchmark::kMillisecond);
BENCHMARK(fit_a_crew)->Arg(100)->Arg(1000)->Unit(benchmark::kMillisecond);
BENCHMARK(analyse_a_crew)->Arg(1000)->Unit(benchmark::kMillisecond);
BENCHMARK(make_a_rack)->Arg(0)->Arg(1)->Unit(benchmark::kMicrosecond);
BENCHMARK(find_the_plates)->Arg(0)->Arg(1)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace stave
