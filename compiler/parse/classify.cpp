#include "compiler/parse/classify.hpp"

#include <algorithm>
#include <array>
#include <numeric>
#include <optional>
#include <vector>

#include "compiler/names/edit_distance.hpp"
#include "grammar/lexical.hpp"

namespace stave::parse {

namespace {

using grammar::BodyKind;
using grammar::LineKind;

struct Keyword {
    std::string_view words;
    LineKind kind;
    BodyKind body;
};

constexpr std::array fields{
#define STAVE_FIELD(id, words, body) Keyword{words, LineKind::id, BodyKind::body},
#include "grammar/keywords.def"
};

constexpr BodyKind opener_body(LineKind kind) {
    switch (kind) {
#define STAVE_OPENER(id, word, body) \
    case LineKind::open_##id:        \
        return BodyKind::body;
#include "grammar/keywords.def"
        default:
            return BodyKind::nothing;
    }
}

constexpr std::array openers{
#define STAVE_OPENER(id, word, body) Keyword{word, LineKind::open_##id, BodyKind::body},
#define STAVE_OPENER_SPELLING(id, words) \
    Keyword{words, LineKind::open_##id, opener_body(LineKind::open_##id)},
#include "grammar/keywords.def"
};

constexpr std::size_t longest_keyword = 16;

// The tables are short, and most words differ in their length alone.
template <typename Table>
const Keyword* find(const Table& table, std::string_view words) {
    const auto found = std::ranges::find_if(table, [words](const Keyword& keyword) {
        return keyword.words.size() == words.size() && grammar::same_word(keyword.words, words);
    });
    return found == table.end() ? nullptr : &*found;
}

// The head's first `longest_keyword` bytes or fewer, with dashes of any kind as
// `-` and runs of blanks as one, and for each byte where it came from.
struct FoldedHead {
    std::array<char, longest_keyword> bytes{};
    std::array<std::size_t, longest_keyword + 1> origin{};
    std::size_t size = 0;
    bool whole = false;

    [[nodiscard]] std::string_view text() const { return {bytes.data(), size}; }
};

// U+2010 to U+2013 and U+2212 stand for the hyphen.
std::size_t dash_size(std::string_view text) {
    const bool dash = text.starts_with("\u2010") || text.starts_with("\u2011") ||
                      text.starts_with("\u2012") || text.starts_with("\u2013") ||
                      text.starts_with("\u2212");
    return dash ? 3 : 0;
}

std::size_t head_blank_size(std::string_view text) {
    if (text.starts_with(' ') || text.starts_with('\t')) return 1;
    return text.starts_with("\u00A0") ? 2 : 0;
}

FoldedHead fold(std::string_view head) {
    FoldedHead result;
    std::size_t i = 0;
    while (i < head.size() && result.size < longest_keyword) {
        const std::string_view rest = head.substr(i);
        result.origin[result.size] = i;
        if (const std::size_t dash = dash_size(rest); dash > 0) {
            result.bytes[result.size++] = '-';
            i += dash;
        } else if (head_blank_size(rest) > 0) {
            result.bytes[result.size++] = ' ';
            while (const std::size_t blank = head_blank_size(head.substr(i)))
                i += blank;
        } else {
            result.bytes[result.size++] = head[i++];
        }
    }
    result.origin[result.size] = i;
    result.whole = i == head.size();
    return result;
}

// `level 2` and `group B` open variants; `level change` is a movement.
bool names_a_variant(std::string_view rest) {
    const bool digits =
        !rest.empty() && std::ranges::all_of(rest, [](char c) { return c >= '0' && c <= '9'; });
    return digits || rest.size() == 1;
}

const Keyword* find_opener(const FoldedHead& head, std::string_view original,
                           std::size_t& opener_size) {
    const std::string_view text = head.text();
    // Two words first: "warm up" before "warm".
    const std::size_t first_blank = text.find(' ');
    const std::size_t second_blank =
        first_blank == std::string_view::npos ? first_blank : text.find(' ', first_blank + 1);
    for (const std::size_t end : {second_blank, first_blank, std::string_view::npos}) {
        const bool to_end = end == std::string_view::npos;
        if (to_end && !head.whole) continue;
        const Keyword* opener = find(openers, to_end ? text : text.substr(0, end));
        if (opener == nullptr) continue;
        opener_size = head.origin[to_end ? head.size : end];
        const bool variant =
            opener->kind == LineKind::open_level || opener->kind == LineKind::open_group;
        if (variant && (to_end || !names_a_variant(original.substr(head.origin[end + 1])))) {
            return nullptr;
        }
        return opener;
    }
    return nullptr;
}

// "rests" for "rest".
bool has_one_letter_more(std::string_view longer, std::string_view shorter) {
    if (longer.size() != shorter.size() + 1) return false;
    std::size_t same = 0;
    while (same < shorter.size() &&
           grammar::to_lower(longer[same]) == grammar::to_lower(shorter[same])) {
        ++same;
    }
    return grammar::same_word(longer.substr(same + 1), shorter.substr(same));
}

}  // namespace

Classification classify(std::string_view head) {
    const FoldedHead folded_head = fold(head);
    if (folded_head.whole) {
        if (const Keyword* field = find(fields, folded_head.text())) {
            return {field->kind, field->body, 0};
        }
    }
    std::size_t opener_size = 0;
    if (const Keyword* opener = find_opener(folded_head, head, opener_size)) {
        return {opener->kind, opener->body, opener_size};
    }
    return {};
}

std::string_view near_opener(std::string_view word) {
    std::string_view best;
    if (word.size() < 4) return best;
    // One slip in a short word, two in a longer one.
    std::size_t least = word.size() < 6 ? 2 : 3;
    for (const Keyword& opener : openers) {
        // Who writes squat means the movement.
        if (opener.kind == LineKind::open_squad) continue;
        const std::size_t distance = edit_distance(word, opener.words, least);
        if (distance < least) {
            least = distance;
            best = opener.words;
        }
    }
    return best;
}

std::string_view near_field(std::string_view head) {
    if (head.size() < 3) return "";
    for (const Keyword& field : fields) {
        const bool same_start = grammar::to_lower(head[0]) == grammar::to_lower(field.words[0]);
        if (same_start && edit_distance(head, field.words, 1) == 1) return field.words;
    }
    return "";
}

std::string_view field_but_for_a_letter(std::string_view head, std::size_t least_size) {
    for (const Keyword& field : fields) {
        if (field.words.size() < least_size) continue;
        if (has_one_letter_more(head, field.words)) return field.words;
        if (has_one_letter_more(field.words, head)) return field.words;
    }
    return "";
}

std::string_view near_unit(std::string_view word) {
    if (word == "mi") return "min";
    if (word == "sek") return "s";
    if (word == "k") return "km";
    std::string_view best;
    std::size_t least = 2;
    if (word.size() < 3) return best;
    for (const std::string_view unit : grammar::unit_words) {
        if (grammar::to_lower(unit.front()) != grammar::to_lower(word.front())) continue;
        const std::size_t distance = edit_distance(word, unit, least);
        if (distance < least) {
            least = distance;
            best = unit;
        }
    }
    return best;
}

std::string_view near_word(std::string_view word, std::span<const std::string_view> words) {
    std::string_view best;
    if (word.size() < 3) return best;
    constexpr std::size_t long_word = 6;
    std::size_t least = word.size() < long_word ? 2 : 3;
    for (const std::string_view candidate : words) {
        const std::size_t distance = edit_distance(word, candidate, least);
        if (distance < least) {
            least = distance;
            best = candidate;
        }
    }
    return best;
}

}  // namespace stave::parse
