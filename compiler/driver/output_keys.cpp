#include "compiler/driver/output_keys.hpp"

#include <cstdint>
#include <string_view>

namespace stave::driver {

namespace {

// Of which kind the key is, so that keys of two kinds are never the same.
enum class Kind : std::uint8_t { issue, card, together, feed };

class Key {
public:
    explicit Key(Kind kind) { add(static_cast<std::uint64_t>(kind)); }

    Key& add(std::uint64_t number) {
        hasher_.add_number(number);
        return *this;
    }
    Key& add(std::string_view text) {
        hasher_.add_number(text.size());
        hasher_.add(text);
        return *this;
    }
    Key& add(const WideHash& hash) {
        hasher_.add_hash(hash);
        return *this;
    }

    [[nodiscard]] WideHash hash() const { return hasher_.hash(); }

private:
    WideHasher hasher_;
};

}  // namespace

OutputKeys::OutputKeys(Loaded& loaded, wording::Language usual) : usual_(usual) {
    for (const analysis::Snapshot* snapshot : loaded.without_errors())
        issues_.emplace(snapshot, *snapshot);
}

WideHash OutputKeys::issue(const analysis::Snapshot& snapshot, std::size_t issue_id,
                           const Reader& reader) const {
    const analysis::IssueKeys& keys = issues_.at(&snapshot);
    const auto& [athlete_id, is_public] = reader;
    return Key(Kind::issue)
        .add(athlete_id ? keys.of(issue_id, *athlete_id) : keys.of(issue_id))
        .add(std::uint64_t{athlete_id.has_value()})
        .add(std::uint64_t{is_public})
        .add(static_cast<std::uint64_t>(language_for(snapshot, reader, usual_)))
        .hash();
}

WideHash OutputKeys::card(const CardPlace& place, std::size_t issue_id) const {
    const auto& [snapshot, folder, source, lent_link, reader] = place;
    return Key(Kind::card)
        .add(folder)
        .add(source)
        .add(lent_link)
        .add(issue(*snapshot, issue_id, reader))
        .hash();
}

WideHash OutputKeys::together(const std::vector<const CardPlace*>& places,
                              std::size_t issue_id) const {
    Key key(Kind::together);
    for (const CardPlace* place : places)
        key.add(card(*place, issue_id));
    return key.hash();
}

WideHash OutputKeys::feed(const analysis::Snapshot& snapshot, const FeedContent& content,
                          const std::string& folder, const std::string& source) const {
    const auto& [name, title, issue_ids, reader] = content;
    Key key(Kind::feed);
    key.add(folder).add(source).add(name).add(title);
    key.add(static_cast<std::uint64_t>(language_for(snapshot, reader, usual_)));
    for (const std::size_t id : issue_ids)
        key.add(issue(snapshot, id, reader));
    return key.hash();
}

}  // namespace stave::driver
