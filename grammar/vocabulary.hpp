// The vocabulary of keywords.def as types: the kinds of lines, the words for
// sides and the patterns of movement. A line's head alone decides its kind: a
// field's words, an opener's first word, else a movement.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace stave::grammar {

enum class LineKind : std::uint8_t {
    // Nothing, or a remark alone.
    blank,
    remark,
    // Without a head that can be read.
    unclassified,
    // Between the lines of one file and those of another; it stands in no text.
    border,
    // A movement and its amount.
    movement_line,
#define STAVE_FIELD(id, words, body) id,
#include "grammar/keywords.def"
#define STAVE_OPENER(id, word, body) open_##id,
#include "grammar/keywords.def"
};

// As the enumerators are called, for dumps.
[[nodiscard]] constexpr std::string_view line_kind_name(LineKind kind) {
    constexpr std::string_view names[] = {
        "blank", "remark", "unclassified", "border", "movement_line",
#define STAVE_FIELD(id, words, body) #id,
#include "grammar/keywords.def"
#define STAVE_OPENER(id, word, body) "open_" #id,
#include "grammar/keywords.def"
    };
    return names[static_cast<std::size_t>(kind)];
}

// Whether the line opens a block.
[[nodiscard]] constexpr bool is_block(LineKind kind) {
    switch (kind) {
        case LineKind::open_warm_up:
        case LineKind::open_sets:
        case LineKind::open_superset:
        case LineKind::open_circuit:
        case LineKind::open_stations:
        case LineKind::open_cool_down:
            return true;
        default:
            return false;
    }
}

// Whether the line is a movement of a block.
[[nodiscard]] constexpr bool is_item(LineKind kind) {
    return kind == LineKind::movement_line || kind == LineKind::open_plain_movement ||
           kind == LineKind::open_game;
}

// The rule that reads what stands behind a line's colon.
enum class BodyKind : std::uint8_t {
    nothing,
    // Words, at least one.
    text,
    // Words or none.
    raw,
    when,
    zone,
    kit,
    fault,
    rest_line,
    counted_in,
    sides_line,
    pattern_line,
    speed_line,
    dose,
    format,
    names,
    starts,
    measure,
    days,
    moved,
    slot,
    once,
    lighter,
    waves,
    grow,
    did,
};

// What takes turns behind `each`; `way` is a direction of turning.
enum class SideWord : std::uint8_t {
#define STAVE_SIDE_WORD(id, word) id,
#include "grammar/keywords.def"
};

enum class Pattern : std::uint8_t {
#define STAVE_PATTERN(id, word) id,
#include "grammar/keywords.def"
};

// What a person may have to avoid in a movement.
enum class Demand : std::uint8_t {
#define STAVE_DEMAND(id, words) id,
#include "grammar/keywords.def"
};

// What cards, feeds and pages can speak.
enum class Language : std::uint8_t {
#define STAVE_LANGUAGE(id, tag, name, own_name) id,
#include "grammar/keywords.def"
};

// How a greatest load is reckoned from a set.
enum class Estimate : std::uint8_t {
#define STAVE_ESTIMATE(id, word) id,
#include "grammar/keywords.def"
};

enum class LoadedWith : std::uint8_t {
#define STAVE_LOADED_WITH(id, word) id,
#include "grammar/keywords.def"
};

// A motion of a joint, measured from its zero.
enum class Joint : std::uint8_t {
#define STAVE_JOINT(id, words, degrees, source) id,
#include "grammar/keywords.def"
};

[[nodiscard]] constexpr std::string_view demand_words(Demand demand) {
    constexpr std::string_view names[] = {
#define STAVE_DEMAND(id, words) words,
#include "grammar/keywords.def"
    };
    return names[static_cast<std::size_t>(demand)];
}

[[nodiscard]] constexpr std::string_view pattern_name(Pattern pattern) {
    constexpr std::string_view names[] = {
#define STAVE_PATTERN(id, word) word,
#include "grammar/keywords.def"
    };
    return names[static_cast<std::size_t>(pattern)];
}

[[nodiscard]] constexpr std::string_view estimate_word(Estimate estimate) {
    constexpr std::string_view names[] = {
#define STAVE_ESTIMATE(id, word) word,
#include "grammar/keywords.def"
    };
    return names[static_cast<std::size_t>(estimate)];
}

[[nodiscard]] constexpr std::string_view loaded_with_word(LoadedWith what) {
    constexpr std::string_view names[] = {
#define STAVE_LOADED_WITH(id, word) word,
#include "grammar/keywords.def"
    };
    return names[static_cast<std::size_t>(what)];
}

[[nodiscard]] constexpr std::string_view joint_words(Joint joint) {
    constexpr std::string_view names[] = {
#define STAVE_JOINT(id, words, degrees, source) words,
#include "grammar/keywords.def"
    };
    return names[static_cast<std::size_t>(joint)];
}

// Degrees from the joint's zero and where they are published; 0 where no range is
// known.
struct JointRange {
    int degrees = 0;
    std::string_view source;
};
[[nodiscard]] constexpr JointRange joint_range(Joint joint) {
    constexpr JointRange ranges[] = {
#define STAVE_JOINT(id, words, degrees, source) JointRange{degrees, source},
#include "grammar/keywords.def"
    };
    return ranges[static_cast<std::size_t>(joint)];
}

[[nodiscard]] constexpr char to_lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

// Whether two words are the same but for ASCII letter case.
// What the weight of one's own body is called; the rule `bodyweight` reads the same.
inline constexpr std::array bodyweight_words{
    std::string_view("bodyweight"), std::string_view("body weight"), std::string_view("BW")};

[[nodiscard]] constexpr bool same_word(std::string_view left, std::string_view right) {
    return std::ranges::equal(left, right, {}, to_lower, to_lower);
}

[[nodiscard]] constexpr std::optional<SideWord> find_side_word(std::string_view text) {
#define STAVE_SIDE_WORD(id, word) \
    if (same_word(text, word)) return SideWord::id;
#include "grammar/keywords.def"
    return std::nullopt;
}

[[nodiscard]] constexpr std::optional<Pattern> find_pattern(std::string_view text) {
#define STAVE_PATTERN(id, word) \
    if (same_word(text, word)) return Pattern::id;
#include "grammar/keywords.def"
    return std::nullopt;
}

[[nodiscard]] constexpr std::optional<Demand> find_demand(std::string_view text) {
#define STAVE_DEMAND(id, words) \
    if (same_word(text, words)) return Demand::id;
#include "grammar/keywords.def"
    return std::nullopt;
}

[[nodiscard]] constexpr std::optional<Estimate> find_estimate(std::string_view text) {
#define STAVE_ESTIMATE(id, word) \
    if (same_word(text, word)) return Estimate::id;
#include "grammar/keywords.def"
    return std::nullopt;
}

[[nodiscard]] constexpr std::optional<LoadedWith> find_loaded_with(std::string_view text) {
#define STAVE_LOADED_WITH(id, word) \
    if (same_word(text, word)) return LoadedWith::id;
#include "grammar/keywords.def"
    return std::nullopt;
}

[[nodiscard]] constexpr std::optional<Joint> find_joint(std::string_view text) {
#define STAVE_JOINT(id, words, degrees, source) \
    if (same_word(text, words)) return Joint::id;
#include "grammar/keywords.def"
    return std::nullopt;
}

}  // namespace stave::grammar
