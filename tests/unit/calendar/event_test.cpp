// The event of a session, its description as an athlete reads it on a phone.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "backends/calendar/content_line.hpp"
#include "backends/calendar/feed.hpp"
#include "tests/unit/calendar/feed_testing.hpp"

namespace stave::calendar::testing {
namespace {

using program::Amount;
using program::AmountForm;
using program::Item;
using program::Program;
using program::Session;

program::Item item(std::string name, std::int64_t sets, std::int64_t amount, Unit unit) {
    const Quantity quantity{Ratio{amount}, unit};
    Item result;
    result.parts.emplace_back();
    result.parts.front().name = std::move(name);
    result.parts.front().amounts.assign(static_cast<std::size_t>(sets),
                                        Amount{AmountForm::exact, quantity, quantity});
    return result;
}

// A session of the Skerry Point crew, with everything that a description tells.
Session slack_water() {
    Session session;
    session.number = "9";
    session.title = "Slack water";
    session.slug = "9-slack-water";
    session.place = "Boathouse loft";
    session.stops = {"sharp pain anywhere"};
    session.notes = {"bring dry socks"};
    session.when = program::When{};
    session.when->date = std::chrono::year{2026} / 12 / 3;
    session.when->clock = std::chrono::hours{18} + std::chrono::minutes{30};
    session.when->time_limit = Quantity{Ratio{55}, Unit::minute};
    session.kit.push_back({1, "sandbag", {Ratio{20}}, Unit::kilogram});

    program::Block legs;
    legs.kind = program::BlockKind::circuit;
    legs.title = "Deck legs";
    legs.rounds = 3;
    legs.by_rounds = true;
    legs.stops = {"knees that give way"};
    Item row = item("sandbag row", 3, 15, Unit::reps);
    row.cues = {"pull to the belt"};
    row.faults = {{"shrugging", "long neck"}};
    row.counts = {"both hands on the bag"};
    row.substitutes.push_back({item("band row", 3, 18, Unit::reps), "no sandbag", ""});
    legs.items.push_back(row);
    legs.items.push_back(item("wall sit", 3, 40, Unit::second));
    session.blocks.push_back(legs);
    return session;
}

timeline::Timeline minutes_long(std::int64_t minutes) {
    timeline::Timeline timeline;
    timeline.total_seconds = Ratio{minutes * 60};
    return timeline;
}

Event event_of(const Session& session, wording::Language language = wording::Language::english) {
    Program program;
    program.sessions.push_back(session);
    return make_event(program, session, minutes_long(40), nullptr, language);
}

TEST(MakeEvent, takes_time_place_and_length_from_the_session) {
    const Event event = event_of(slack_water());
    EXPECT_EQ(event.summary, "Session 9: Slack water");
    EXPECT_EQ(event.location, "Boathouse loft");
    EXPECT_EQ(event.start, local(2026, 12, 3, 18, 30));
    EXPECT_EQ(event.zone, nullptr);
}

TEST(MakeEvent, ends_with_the_address_of_its_card_and_leads_there) {
    Session session = slack_water();
    Program program;
    program.sessions.push_back(session);
    const std::string card = "https://example.org/cards/slack-water.pdf";
    const auto made = [&](const Session& one) {
        return make_event(program, one, minutes_long(40), nullptr, wording::Language::english,
                          card);
    };
    EXPECT_TRUE(made(session).description.ends_with("\n\nCard (PDF): " + card));
    EXPECT_EQ(made(session).url, card);
    session.link = "https://example.org/own";
    EXPECT_EQ(made(session).url, session.link);
    EXPECT_TRUE(made(session).description.ends_with(card));
    // However long the session is.
    session.notes.assign(300, std::string(100, 'n'));
    EXPECT_TRUE(made(session).description.ends_with(card));
    EXPECT_LE(made(session).description.size(), 8100U);
}

TEST(MakeEvent, begins_with_what_it_was_moved_from) {
    Session session = slack_water();
    Program program;
    program.sessions.push_back(session);
    const std::string moved = "Moved (before: Thu 3 December 2026, 18:30): ice";
    const auto made = [&] {
        return make_event(program, session, minutes_long(40), nullptr, wording::Language::english,
                          "", moved);
    };
    EXPECT_TRUE(made().description.starts_with(moved + "\n40\u00A0min of 55\u00A0min"));
    // Where there is little room it is not what goes.
    session.notes.assign(300, std::string(100, 'n'));
    EXPECT_TRUE(made().description.starts_with(moved + "\n"));
    EXPECT_LE(made().description.size(), 8100U);
}

TEST(MakeEvent, lasts_as_long_as_is_booked_or_else_as_reckoned) {
    Session session = slack_water();
    EXPECT_EQ(event_of(session).length, std::chrono::minutes{55});
    session.when->time_limit.reset();
    EXPECT_EQ(event_of(session).length, std::chrono::minutes{40});
}

TEST(MakeEvent, names_the_group_that_it_is_for) {
    Session session = slack_water();
    session.group = "A";
    EXPECT_EQ(event_of(session).summary, "Session 9: Slack water (A)");
}

TEST(MakeEvent, describes_the_session_for_a_phone) {
    EXPECT_EQ(event_of(slack_water()).description,
              "40\u00A0min of 55\u00A0min, Boathouse loft\n"
              "Kit: sandbag 20\u00A0kg\n"
              "Stop: sharp pain anywhere\n"
              "Note: bring dry socks\n"
              "\n"
              "A Circuit Deck legs: 3\u00A0rounds\n"
              "Stop: knees that give way\n"
              "sandbag row: 15\n"
              "or band row: 18, if no sandbag\n"
              "Count: both hands on the bag\n"
              "Cue: pull to the belt\n"
              "Fault: shrugging. Mend: long neck\n"
              "wall sit: 40\u00A0s\n"
              "\n"
              "Stop and tell the coach: pain in chest, jaw or arm, feeling faint, breath you "
              "cannot catch, sudden weakness, a sharp pain in a joint. Call the emergency number "
              "if it does not pass within minutes. This is not medical advice.");
}

// French leaves a blank before a colon that does not break.
TEST(MakeEvent, speaks_the_language_that_is_asked_for) {
    const Event event = event_of(slack_water(), wording::Language::french);
    EXPECT_EQ(event.summary, "Séance 9\u00A0: Slack water");
    EXPECT_EQ(
        event.description,
        "40\u00A0min sur 55\u00A0min, Boathouse loft\n"
        "Matériel\u00A0: sandbag 20\u00A0kg\n"
        "Stop\u00A0: sharp pain anywhere\n"
        "Note\u00A0: bring dry socks\n"
        "\n"
        "A Circuit Deck legs\u00A0: 3\u00A0tours\n"
        "Stop\u00A0: knees that give way\n"
        "sandbag row\u00A0: 15\n"
        "ou band row\u00A0: 18, si no sandbag\n"
        "À compter\u00A0: both hands on the bag\n"
        "Consigne\u00A0: pull to the belt\n"
        "Défaut\u00A0: shrugging. Correction\u00A0: long neck\n"
        "wall sit\u00A0: 40\u00A0s\n"
        "\n"
        "Arrêtez-vous et prévenez le coach\u00A0: douleur dans la poitrine, la mâchoire ou le "
        "bras, impression de s’évanouir, souffle qui ne revient pas, faiblesse soudaine, "
        "douleur vive dans une articulation. Appelez le numéro d’urgence si cela ne passe "
        "pas en quelques minutes. Ceci n’est pas un avis médical.");
}

TEST(MakeEvent, tells_the_series_the_coach_and_the_address) {
    Session session = slack_water();
    session.series = "Winter strength";
    session.coach = "M. Okafor";
    session.audience = {"Mara", "Jonas"};
    session.link = "https://example.org/winter";
    const Event event = event_of(session);
    EXPECT_TRUE(
        event.description.starts_with("40\u00A0min of 55\u00A0min, Boathouse loft\n"
                                      "Series: Winter strength\n"
                                      "For Mara, Jonas\n"
                                      "Coach: M. Okafor\n"
                                      "Kit: sandbag 20\u00A0kg\n"))
        << event.description;
    EXPECT_EQ(event.url, "https://example.org/winter");
    EXPECT_EQ(event_of(slack_water()).url, "");
}

TEST(MakeEvent, a_session_with_a_new_title_stays_the_same_event) {
    Session renamed = slack_water();
    renamed.title = "Spring tide";
    renamed.slug = "9-spring-tide";
    EXPECT_EQ(event_of(slack_water()).id, "session-9");
    EXPECT_EQ(event_of(renamed).id, "session-9");
}

TEST(EventId, is_made_of_session_and_slot) {
    const Event event = event_of(slack_water());
    EXPECT_EQ(event.session, "session-9");
    EXPECT_EQ(event.slot, "");
    EXPECT_EQ(event.status, EventStatus::confirmed);
    EXPECT_EQ(event_id("session-9", ""), "session-9");
    EXPECT_EQ(event_id("session-9", "20261203-a"), "session-9.20261203-a");
}

TEST(MakeEvent, a_session_without_a_number_is_known_by_its_slug) {
    Session untold = slack_water();
    untold.number.clear();
    untold.slug = "session-9";
    EXPECT_EQ(event_of(untold).id, "titled-session-9") << "never taken for session 9";
    untold.number = "девять";
    EXPECT_EQ(event_of(untold).id, "titled-session-9");
}

TEST(MakeEvent, has_a_summary_whatever_the_session_is_called) {
    Session session = slack_water();
    session.title.clear();
    EXPECT_EQ(event_of(session).summary, "Session 9");
    session.number.clear();
    EXPECT_EQ(event_of(session).summary, "Session");
    session.title = "Slack water";
    EXPECT_EQ(event_of(session).summary, "Slack water");
}

TEST(MakeEvent, cues_are_left_out_where_the_description_is_too_long) {
    Session wordy = slack_water();
    wordy.blocks.front().items.front().cues = {std::string(9000, 'c')};
    const std::string description = event_of(wordy).description;
    EXPECT_EQ(description.find("Cue"), std::string::npos);
    EXPECT_NE(description.find("wall sit"), std::string::npos);
    EXPECT_NE(description.find("Stop: knees that give way"), std::string::npos);
    EXPECT_TRUE(description.ends_with("This is not medical advice."));
}

TEST(MakeEvent, the_caution_stays_however_long_the_session_is) {
    Session endless = slack_water();
    const Item wall_sit = item("wall sit", 3, 40, Unit::second);
    endless.blocks.front().items.insert(endless.blocks.front().items.end(), 1000, wall_sit);
    const std::string description = event_of(endless).description;
    EXPECT_LE(utf16_length(description), 8000U);
    EXPECT_GT(utf16_length(description), 7900U);
    EXPECT_NE(description.find("\n… The rest is on the card.\n\nStop and tell"), std::string::npos);
    EXPECT_TRUE(description.ends_with("This is not medical advice."));
}

}  // namespace
}  // namespace stave::calendar::testing
