#include "backends/report/conventions.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

namespace stave::report {

namespace {

constexpr Convention all[] = {
    {"How long X of a tempo lasts", "1 s, told as assumed",
     "4 x 8 at 3-1-X-0 with 90 s of rest take 430 s; were X nothing, 398 s"},
    {"Whether the last phase of a tempo counts after the last repetition",
     "it does: every repetition is the sum of its four phases", "a pause in each set"},
    {"Whether the rest after the last set or round counts", "it does not", "a rest in each block"},
    {"What 8 each side is",
     "8 left and 8 right, 16 in all: the time counts twice, work is told for each side and "
     "together",
     "twice as much"},
    {"Which seconds count as work",
     "those of a hold, and those of a carry in its own total; a rest's never do",
     "a plank of 40 s is 40 s or nothing"},
    {"Whether a carry adds to the kilograms moved",
     "it does not: its load and its metres, steps or seconds are told",
     "30 m with 2 x 24 kg would be any number"},
    {"What a body weight adds to the kilograms moved",
     "nothing, unless a load in kilograms or pounds is written",
     "published practice varies, up to all of the body weight"},
    {"Which standard deviation monotony divides by",
     "that of a sample (n - 1) of seven days, of which days of rest are 0",
     "that of a population makes monotony 1.08 times as high"},
    {"Where an exponentially weighted mean of loads begins", "at the load of the first day",
     "up to a fifth of what is compared with 28 days"},
    {"What the last 7 days are compared with", "the mean of a day of the last 28, the 7 among them",
     "little (Coyne et al. 2019)"},
    {"Where a load goes that the kit cannot make",
     "to the nearest, a tie down; up or down by choice; what is far off is warned of",
     "half a step of the kit"},
    {"Whether the load of a bar counts the bar and its collars",
     "the bar always, collars where the kit lists them", "5 kg with two competition collars"},
    {"What the max of a tested single is", "the load itself, whatever the equation",
     "Epley would add 3.3 %, Mayhew 8.9 %"},
    {"Which constants Epley's and Brzycki's equations have",
     "1/30 and 36/(37 - r), not 0.0333 and 1.0278 - 0.0278 r", "0.03 % up to 10 repetitions"},
    {"How far a mile is, and a mile in an hour",
     "1609.344 m, so 26.8224 m in a minute and not the 26.8 of textbooks; a speed is written as a "
     "pace or with its two units (10 km per 1 h)",
     "0.08 %"},
    {"How much energy a session takes",
     "not estimated: kcal in a line is what a machine counts, an amount like metres",
     "an estimate for lifting may be off several-fold (Reis et al. 2017), and its two usual forms "
     "differ by 5 %"},
    {"Whether a test of more than 10 repetitions counts",
     "it does, with a warning; 37 repetitions and more are refused",
     "the equations differ by 7 % at 10 repetitions, by 45 % at 20"},
};

}  // namespace

std::span<const Convention> conventions() {
    return all;
}

std::string conventions_text() {
    std::string text = "Where no source settles a question, or sources differ, Stave takes:\n";
    int number = 0;
    for (const Convention& one : all)
        text += fmt::format("\n{:2}. {}: {}.\n    What hangs on it: {}.\n", ++number, one.question,
                            one.choice, one.matters);
    return text;
}

std::string conventions_json() {
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const Convention& one : all)
        list.push_back({{"number", list.size() + 1},
                        {"question", one.question},
                        {"choice", one.choice},
                        {"matters", one.matters}});
    constexpr int indent = 2;
    return list.dump(indent) + '\n';
}

}  // namespace stave::report
