#include "tests/fuzz/mutate.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <utility>

namespace stave::testing {

namespace {

using namespace std::string_view_literals;

// Signs that mean something to the notation, or to an editor, or to nobody.
constexpr std::string_view signs[] = {":",
                                      "::",
                                      "-",
                                      "--",
                                      "@",
                                      ",",
                                      ",,",
                                      ".",
                                      "..",
                                      "#",
                                      " # ",
                                      "%",
                                      "+",
                                      "/",
                                      "'",
                                      "\"",
                                      "(",
                                      ")",
                                      "->",
                                      "x",
                                      "×",
                                      "–",
                                      "…",
                                      "→",
                                      "½",
                                      "°",
                                      "％",
                                      "‐",
                                      " ",
                                      "\t",
                                      "\n",
                                      "\r\n",
                                      "\r",
                                      "0",
                                      "1",
                                      "99",
                                      "007",
                                      "1.5",
                                      "2,5",
                                      "1:30",
                                      "é",
                                      "e\u0301",
                                      "🚣",
                                      "北",
                                      "\u00A0",
                                      "\u200B",
                                      "\u202E",
                                      "\uFEFF",
                                      "\x00"sv,
                                      "\x1b",
                                      "\u009B",
                                      "\x7f",
                                      "\xff",
                                      "\xc3",
                                      "999999999999999999999",
                                      "0.000000000001",
                                      "100000",
                                      "1000000"};

constexpr std::string_view every_kind =
    "movement step-up:\n"
    "  counted in: reps, steps\n  sides: each leg\n  pattern: squat\n  speed: 3 s per rep\n"
    "  cue: whole foot on the box\n  fault: pushing off the back foot -> lift its toes first\n"
    "session 9: Slack water\n"
    "when: 2026-12-03 18:30 for 55 min, Europe/Lisbon\n"
    "place: Boathouse loft\n"
    "kit: band heavy, sandbag 20 kg, 2 kettlebells 8 12 kg, box 40 cm\n"
    "stop: sharp pain anywhere\nnote: the tide turns at eight\n"
    "warm-up:\n"
    "  inchworm + shoulder tap: 5..1 + 1..5\n    cue: long hands, quiet hips\n"
    "  hip circle: 8 each way\n"
    "sets Haul: rest 2 min\n"
    "  deadlift: 4 x 5 @ 60 kg, tempo 3-1-X-0\n    rest: 3 min\n"
    "  chin-up: 3 x max\n  row: 3 x 200 m, rest 1:30\n"
    "  bench press: 12-10-8 @ 40-45-50 kg\n  snatch: 5-3-2 then 5-3-2\n"
    "superset: 3 rounds, rest 60 s between rounds, 15 s between movements\n"
    "  floor press: 8 to 10 @ 2 x 8 kg\n  band pull: 12 @ band heavy\n"
    "circuit Deck legs: 3 rounds, rest 60 s\n"
    "  step-up: 12-10-8 each side @ 4 kg overhead and 16 kg low\n"
    "  sandbag row: 15 @ 20 kg\n    or band row: 18 @ band heavy, if no sandbag\n"
    "  wall sit: 40 s\n  suitcase carry: 60 steps each side @ 16 kg\n    count: steps forward\n"
    "  leg raise: 8 left, arc 10 deg in to 30 deg out, hold 2 s at the top\n"
    "cool-down:\n  do warm-up jog: 5 min\n  90/90 hip switch: 6 alternating\n"
    "  box breathing: 10 breaths\n";

// Lines that this version does not read, or that people write all the same.
constexpr std::string_view other_lines =
    "circuit Finisher: as many rounds as possible in 8 min\nMonday 18:30: run\nA1: squat 3x8\n"
    "- push-up: 10\npush-up 3 sets of 8\ndeadlift: 5 @ 75 %\ndeadlift: 5 @ 135#\nplank: 12 kg\n"
    "squat: 3x8@60kg\nsquat: 8/8\nrow: 400 m @ 68\nsquat: 8-10\nsquat: 3 x 8; rest 60\n"
    "squat: 1/2 mile\nrest: 60\nsquat: 8, arc 200 deg\nsquat: 31X0\nsquat: 3 x 8 @ 2,5 kg\n"
    "squat: 5 x (2 + 2, rest 15 s)\nathlete Rae: 80 kg\nplan: 6 weeks\nuse Prep: 8 reps\n"
    "squat: build to 3 @ RPE 8\nsquat: 1.234 kg\nsquat: .5 mile\nsquat: 3 x 8 each\n"
    "when: tomorrow\nwhen: 2026-02-30 25:61 for 0 min, Nowhere/Nothing\nzone: Europe/Lisbon\n"
    "kit: 2 8 kg\nfault: wrong\nor: 8\ndo: 8\nmovement:\nsession\nsets: 3 rounds\ncircuit: 3\n";

std::vector<std::string> split(std::string_view text, std::string_view at) {
    std::vector<std::string> parts;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find_first_of(at), text.size());
        if (end > 0) parts.emplace_back(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return parts;
}

// A random stretch between two characters of `at`, as begin and length.
std::pair<std::size_t, std::size_t> stretch(const std::string& text, std::string_view at,
                                            Chance& chance) {
    const std::size_t from = chance.pick(text.size() + 1);
    const std::size_t before = from == 0 ? std::string::npos : text.find_last_of(at, from - 1);
    const std::size_t begin = before == std::string::npos ? 0 : before + 1;
    const std::size_t end = std::min(text.find_first_of(at, begin), text.size());
    return {begin, end - begin};
}

void swap_stretches(std::string& text, std::string_view at, Chance& chance) {
    auto first = stretch(text, at, chance);
    auto second = stretch(text, at, chance);
    if (first.first > second.first) std::swap(first, second);
    if (first.first + first.second > second.first) return;
    const std::string late = text.substr(second.first, second.second);
    const std::string early = text.substr(first.first, first.second);
    text.replace(second.first, second.second, early);
    text.replace(first.first, first.second, late);
}

void double_stretch(std::string& text, std::string_view at, Chance& chance) {
    const auto [begin, length] = stretch(text, at, chance);
    const std::string joint = begin > 0 ? text.substr(begin - 1, 1) : std::string(at.substr(0, 1));
    text.insert(begin, text.substr(begin, length) + joint);
}

}  // namespace

Corpus::Corpus(std::vector<std::string> texts) : texts_(std::move(texts)) {
    for (const std::string& text : texts_) {
        for (const std::string& line : split(text, "\r\n")) {
            lines_.push_back(line);
            for (std::string& word : split(line, " "))
                words_.push_back(std::move(word));
        }
    }
}

std::string Corpus::start(Chance& chance) const {
    constexpr std::size_t most_lines = 30;
    if (chance.one_in(3)) {
        std::string text =
            chance.one_in(2) ? "session: A\nsets:\n" : "session: A\ncircuit: 3 rounds\n";
        for (std::size_t line = 1 + chance.pick(6); line > 0; --line)
            text += chance.of(lines_) + '\n';
        return text;
    }
    const std::vector<std::string> lines = split(chance.of(texts_), "\r\n");
    if (lines.empty()) return "";
    const std::size_t first =
        lines.size() > most_lines && chance.one_in(2) ? chance.pick(lines.size() - most_lines) : 0;
    std::string text;
    for (std::size_t i = first; i < std::min(lines.size(), first + most_lines); ++i)
        text += lines[i] + '\n';
    return text;
}

void Corpus::break_once(std::string& text, Chance& chance) const {
    const std::size_t place = chance.pick(text.size() + 1);
    const auto [word, word_length] = stretch(text, " \n", chance);
    const auto [line, line_length] = stretch(text, "\n", chance);
    switch (chance.pick(12)) {
        case 0:
            if (place < text.size()) text.erase(place, 1 + chance.pick(3));
            break;
        case 1:
        case 2:
            text.insert(place, chance.of(signs));
            break;
        case 3:
            if (place < text.size()) text[place] = static_cast<char>(chance.pick(256));
            break;
        case 4:
            text.erase(word, word_length);
            break;
        case 5:
            text.replace(word, word_length, chance.of(words_));
            break;
        case 6:
            swap_stretches(text, " \n", chance);
            break;
        case 7:
            double_stretch(text, " ", chance);
            break;
        case 8:
            text.erase(line, line_length);
            break;
        case 9:
            text.insert(line, chance.of(lines_) + '\n');
            break;
        case 10:
            swap_stretches(text, "\n", chance);
            break;
        default:
            double_stretch(text, "\n", chance);
    }
}

std::string Corpus::broken(Chance& chance) const {
    std::string text = start(chance);
    for (std::size_t places = 1 + chance.pick(chance.one_in(4) ? 6 : 2); places > 0; --places)
        break_once(text, chance);
    return text;
}

std::vector<std::string> starting_texts(const std::string& source_folder) {
    std::vector<std::filesystem::path> paths;
    for (const std::string_view folder : {"/examples", "/tests/files"}) {
        const std::string root = source_folder + std::string(folder);
        for (const auto& entry : std::filesystem::recursive_directory_iterator(root)) {
            if (entry.path().extension() == ".stave") paths.push_back(entry.path());
        }
    }
    // A folder's own order differs from disk to disk.
    std::ranges::sort(paths);
    std::vector<std::string> texts{std::string(every_kind), std::string(other_lines)};
    for (const auto& path : paths) {
        std::ostringstream bytes;
        bytes << std::ifstream(path, std::ios::binary).rdbuf();
        texts.push_back(bytes.str());
    }
    return texts;
}

}  // namespace stave::testing
