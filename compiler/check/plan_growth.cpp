#include "compiler/check/plan_growth.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <utility>

#include "compiler/names/edit_distance.hpp"
#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

using program::GrowthOf;

std::string shown(const syntax::GrowthAmount& amount) {
    const syntax::Value& value = amount.value;
    const std::string number = to_decimal(value.quantity.value);
    const bool is_one = value.quantity.value == Ratio(1);
    switch (amount.count) {
        case syntax::GrowthCount::sets:
            return number + (is_one ? " set" : " sets");
        case syntax::GrowthCount::rounds:
            return number + (is_one ? " round" : " rounds");
        case syntax::GrowthCount::unit:
            break;
    }
    if (!value.has_unit) return number;
    const Unit unit = value.quantity.unit;
    return number + ' ' + std::string(is_one ? singular(unit) : plural(unit));
}

class GrowthReader {
public:
    GrowthReader(const syntax::Line& line, DiagnosticSink& sink)
        : line_(line), body_(std::get<syntax::Growth>(line.body)), sink_(sink) {}

    // What grows, and by how much; nothing after a problem.
    std::optional<program::Growth> read() {
        program::Growth growth;
        growth.target = clean_text(line_.title.text);
        growth.folded_target = fold_name(growth.target);
        growth.span = said_span(line_);
        growth.step = body_.step.value.quantity;
        if (!read_step(growth)) return std::nullopt;
        if (body_.limit && !read_limit(growth)) return std::nullopt;
        return growth;
    }

private:
    bool fail(Code code, Span span, std::vector<std::string> arguments) {
        sink_.report({code, span, std::move(arguments), {}, {}});
        return false;
    }

    bool read_step(program::Growth& growth) {
        const syntax::Value& value = body_.step.value;
        const std::string number = to_decimal(value.quantity.value);
        if (!value.has_unit || value.quantity.value == Ratio(0))
            return fail(Code::grow_unit, value.span, {number});
        if (body_.step.count != syntax::GrowthCount::unit) {
            const bool are_sets = body_.step.count == syntax::GrowthCount::sets;
            growth.of = are_sets ? GrowthOf::sets : GrowthOf::rounds;
            return no_reference();
        }
        switch (dimension(value.quantity.unit)) {
            case Dimension::share:
                return read_share(growth);
            case Dimension::mass:
            case Dimension::power:
                growth.of = GrowthOf::load;
                return no_reference();
            case Dimension::angle:
                return fail(Code::grow_unit, value.span, {number});
            default:
                growth.of = GrowthOf::amount;
                return no_reference();
        }
    }

    // Only a share is a share of something.
    bool no_reference() {
        if (!body_.reference) return true;
        return fail(Code::line_end, body_.reference->span,
                    {"of " + clean_text(body_.reference->text)});
    }

    bool read_share(program::Growth& growth) {
        constexpr std::array<std::string_view, 5> amounts{"amount", "reps", "time", "distance",
                                                          "steps"};
        const std::string of = body_.reference ? fold_name(body_.reference->text) : "";
        growth.is_share = true;
        if (of == "max") {
            growth.of = GrowthOf::share_of_max;
            growth.is_share = false;
        } else if (of == "load") {
            growth.of = GrowthOf::load;
        } else if (std::ranges::find(amounts, of) != amounts.end()) {
            growth.of = GrowthOf::amount;
        } else {
            const Span span = body_.reference ? body_.reference->span : body_.step.value.span;
            return fail(Code::grow_share, span, {shown(body_.step)});
        }
        return true;
    }

    // Measured like what grows: a bare number counts what the step counts.
    bool read_limit(program::Growth& growth) {
        const syntax::GrowthAmount& limit = *body_.limit;
        Quantity quantity = limit.value.quantity;
        if (!limit.value.has_unit && !growth.is_share) quantity.unit = growth.step.unit;
        const bool same_count = limit.count == body_.step.count || !limit.value.has_unit;
        const bool same_unit = growth.is_share
                                   ? fits_share(growth.of, quantity.unit)
                                   : dimension(quantity.unit) == dimension(growth.step.unit) &&
                                         (dimension(quantity.unit) != Dimension::count ||
                                          quantity.unit == growth.step.unit);
        if (!same_count || !same_unit) {
            return fail(Code::grow_limit, limit.value.span,
                        {shown(limit), shown(body_.step), example(growth)});
        }
        growth.limit = quantity;
        return true;
    }

    static bool fits_share(GrowthOf of, Unit unit) {
        const Dimension measured = dimension(unit);
        const bool is_load = measured == Dimension::mass || measured == Dimension::power;
        return of == GrowthOf::load
                   ? is_load
                   : !is_load && measured != Dimension::share && measured != Dimension::angle;
    }

    static std::string example(const program::Growth& growth) {
        switch (growth.of) {
            case GrowthOf::load:
                return "up to 100 kg";
            case GrowthOf::share_of_max:
                return "up to 85 %";
            case GrowthOf::amount:
                return "up to 12 reps, up to 40 min";
            case GrowthOf::sets:
                return "up to 5 sets";
            case GrowthOf::rounds:
                break;
        }
        return "up to 5 rounds";
    }

    const syntax::Line& line_;
    const syntax::Growth& body_;
    DiagnosticSink& sink_;
};

}  // namespace

GrowingNames::GrowingNames(const program::Plan& plan, const std::vector<program::Session>& sessions,
                           bool is_whole)
    : is_whole_(is_whole) {
    std::set<std::uint32_t> met;
    for (const program::PlanSlot& slot : plan.slots) {
        for (const std::uint32_t id : slot.session_ids) {
            if (!met.insert(id).second) continue;
            for (const program::Block& block : sessions[id].blocks) {
                if (!block.title.empty()) names_.emplace(fold_name(block.title), block.title);
                for (const program::Item& item : block.items)
                    add(item);
            }
        }
    }
}

void GrowingNames::add(const program::Item& item) {
    for (const program::Part& part : item.parts) {
        names_.emplace(part.folded_name, part.name);
        if (part.definition) definitions_.insert(*part.definition);
    }
    for (const program::Substitute& substitute : item.substitutes)
        add(substitute.item);
}

std::string GrowingNames::advice(const std::string& folded_name) const {
    constexpr std::size_t most_slips = 2;
    std::string nearest;
    std::size_t least = most_slips + 1;
    for (const auto& [name, written] : names_) {
        const std::size_t distance = edit_distance(folded_name, name, most_slips);
        if (distance >= least) continue;
        least = distance;
        nearest = written;
    }
    return nearest.empty() ? "Write the name as the session has it; a block goes by its title."
                           : "Write grow " + nearest + ":";
}

std::optional<program::Growth> GrowingNames::check(const syntax::Line& line,
                                                   const Definitions& definitions,
                                                   DiagnosticSink& sink) const {
    auto growth = GrowthReader(line, sink).read();
    if (!growth) return std::nullopt;
    if (const auto* movement = definitions.find(growth->folded_target)) {
        growth->definition = static_cast<std::uint32_t>(movement - definitions.movements.data());
    }
    const bool is_named = names_.contains(growth->folded_target) ||
                          (growth->definition && definitions_.contains(*growth->definition));
    if (is_named || !is_whole_) return growth;
    sink.report({Code::grow_unknown,
                 line.title.span,
                 {growth->target, advice(growth->folded_target)},
                 {},
                 {}});
    return std::nullopt;
}

}  // namespace stave::check
