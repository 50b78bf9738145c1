// Golden files of every form between the passes.
#include <gtest/gtest.h>

#include "backends/calendar/previous.hpp"
#include "compiler/analysis/analyse.hpp"
#include "compiler/diagnostics/render.hpp"
#include "compiler/driver/outputs.hpp"
#include "compiler/parse/parse.hpp"
#include "compiler/program/dump.hpp"
#include "compiler/syntax/lower.hpp"
#include "compiler/timeline/dump.hpp"
#include "compiler/zones/zone_loader.hpp"
#include "tests/unit/core/expectations.hpp"

namespace stave::tests {
namespace {

class FormFile : public testing::TestWithParam<std::filesystem::path> {};

TEST_P(FormFile, DumpsEveryFormAsInItsGoldenFiles) {
    zones::ZoneLoader zones;
    analysis::Snapshot snapshot = analysis::analyse(GetParam().filename().string(),
                                                    read_text(GetParam()), {zones.finder(), {}});
    const std::vector<Diagnostic> sorted = snapshot.sink.sorted();
    EXPECT_EQ("", render_text({snapshot.source.get(), sorted, 0}, false));
    std::string timelines;
    for (const auto& timeline : snapshot.timelines)
        timelines += timeline::dump(timeline);
    card::Fonts fonts;
    std::string pages;
    for (std::size_t i = 0; i < analysis::issue_count(snapshot); ++i) {
        const analysis::Issue issue = analysis::issue(snapshot, i);
        if (!issue.is_held()) continue;
        const auto made = driver::make_pages(snapshot, issue, {}, fonts);
        for (const card::Page& page : made.value_or(std::vector<card::Page>{}))
            pages += card::dump(page);
    }
    // 2026-11-24 12:00:00 UTC, as good a moment as any.
    const std::chrono::sys_seconds now(std::chrono::seconds(1'795'521'600));
    std::string feeds;
    for (const auto& content : driver::feed_contents(snapshot)) {
        const auto feed = driver::make_feed(snapshot, content, zones, wording::Language::english);
        feeds += calendar::write(feed, {}, now);
    }
    const std::pair<const char*, std::string> forms[] = {
        {".parse.txt", parse::dump(snapshot.tree, *snapshot.source)},
        {".syntax.txt", syntax::dump(snapshot.document)},
        {".program.txt", program::dump(snapshot.program)},
        {".timeline.txt", timelines},
        {".page.txt", pages},
        {".feed.txt", feeds},
    };
    for (const auto& [ending, text] : forms) {
        EXPECT_EQ(
            "", compare_golden(std::filesystem::path(GetParam()).replace_extension(ending), text));
    }
}

INSTANTIATE_TEST_SUITE_P(Files, FormFile, testing::ValuesIn(test_files("tests/files/forms")),
                         [](const auto& file) { return file.param.stem().string(); });

}  // namespace
}  // namespace stave::tests
