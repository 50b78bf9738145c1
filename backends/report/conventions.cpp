#include "backends/report/conventions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

namespace stave::report {

namespace {

constexpr Convention all[] = {
    {"How long is the `X` of a tempo?", "1 s, said among the assumptions",
     "Sources say “maximal speed” only; with 0 s, 4 x 8 at 3-1-X-0 with 90 s of rest are 398 s and "
     "not 430"},
    {"Does the fourth digit of a tempo count after the last repetition?",
     "Yes, each repetition is the sum of all four", "One pause a set"},
    {"Does the rest after the last set or round count?", "No", "One rest a block"},
    {"Is `8 each side` 8 or 16 repetitions?",
     "8 left and 8 right, 16 in all; time and volume load double, and are told by side and "
     "together",
     "Twice"},
    {"What is time under tension?",
     "A movement's seconds of work: tempo, holds and pauses within repetitions count, a carry has "
     "a row of its own, rests never count",
     "Wilk et al. (2018) leave out rests alone"},
    {"Do carries add to volume load?", "No; their load, distance and steps are told",
     "Kilograms times metres are another measure"},
    {"Does body weight add to volume load?",
     "No; what is hung from it does, and what carries a part of it takes nothing away",
     "Published practice varies"},
    {"Which standard deviation is that of monotony?",
     "A sample's (n - 1), of seven days, days of rest as 0",
     "A population's makes monotony 1.08 times as large"},
    {"Where does a weighted average (EWMA) begin?", "At the load of the first day",
     "Up to about a fifth in a ratio over 28 days"},
    {"What is recent to earlier load?",
     "Daily means of 7 and of 28 days, coupled; uncoupled, of days 8 to 28 back; no verdict on "
     "either",
     "Contested (Lolli et al. 2019, Impellizzeri et al. 2020)"},
    {"Where does a load go that cannot be made?",
     "To the nearest, a tie down; `rounding: down` or `up` where an athlete says so; a warning "
     "where it is far off",
     "Safety; no source"},
    {"Does the load of a barbell hold the bar and its collars?",
     "The bar always, collars where the kit lists them", "5 kg with two collars of 2.5 kg"},
    {"What is the max of a test with one repetition?", "Its load, by no equation",
     "Epley would add 3.3 %, Mayhew 8.9 %"},
    {"Which form of Epley's and Brzycki's equations?",
     "1 + r/30 and 36/(37 - r), not their printed decimals", "0.03 % at most up to 10 repetitions"},
    {"How many metres a minute is a mile an hour?",
     "26.8224, since a mile is 1609.344 m; `mph` itself is not read, `7 miles per h` is",
     "Teaching rounds it to 26.8, 0.08 % less"},
    {"How much energy does a session take?",
     "No estimate, on purpose; `kcal` is an amount of work that a machine shows, to be done",
     "From METs it can be several-fold off in lifting (Reis et al. 2017)"},
    {"Do more than 10 repetitions give a max?",
     "Yes, with a warning that they are outside what equations were held against; 37 and more are "
     "refused",
     "Equations differ by 7 % at 10, 22 % at 15, 45 % at 20"},
};

// Without the marks of code.
std::string plain(std::string_view text) {
    std::string said(text);
    std::erase(said, '`');
    return said;
}

}  // namespace

std::span<const Convention> conventions() {
    return all;
}

std::string conventions_text() {
    std::string text;
    std::size_t number = 0;
    for (const Convention& one : all) {
        text += fmt::format("{:2}  {}\n    {}.\n    Why it matters: {}.\n", ++number,
                            plain(one.question), plain(one.choice), plain(one.matters));
    }
    return text;
}

std::string conventions_json() {
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const Convention& one : all) {
        list.push_back({{"number", list.size() + 1},
                        {"question", plain(one.question)},
                        {"choice", plain(one.choice)},
                        {"matters", plain(one.matters)}});
    }
    constexpr int indent = 2;
    return list.dump(indent) + '\n';
}

}  // namespace stave::report
