#include "compiler/check/athlete_tests.hpp"

#include <fmt/format.h>

#include <utility>

#include "compiler/names/names.hpp"

namespace stave::check {

namespace {

// Equations for a greatest load leave their range behind 10 reps (Mayhew et al. 1995, J Sports
// Med Phys Fitness 35:108-113; Reynolds et al. 2006, JSCR 20:584-592); Brzycki's has its pole
// at 37 (1993, JOPERD 64(1):88-90; from memory).
constexpr std::int64_t most_valid_reps = 10;
constexpr std::int64_t most_reps = 36;

class TestReader {
public:
    TestReader(const syntax::Line& line, const Definitions& definitions, DiagnosticSink& sink)
        : line_(line),
          dose_(std::get<syntax::Dose>(line.body)),
          definitions_(definitions),
          sink_(sink) {}

    std::optional<program::Test> read() {
        if (!read_name()) return std::nullopt;
        const syntax::Value* amount = only_amount();
        if (amount == nullptr || !dose_.details.empty())
            return fail(Code::test_form, said_span(line_));
        test_.amount = amount->quantity;
        if (dose_.work->within) test_.time = dose_.work->within->quantity;
        if (!dose_.load.empty() && !read_load(*amount)) return std::nullopt;
        if (!dose_.on) return fail_undated();
        test_.date = dose_.on->date;
        test_.span = said_span(line_);
        return std::move(test_);
    }

private:
    std::nullopt_t fail(Code code, Span span, std::vector<std::string> arguments = {}) {
        arguments.insert(arguments.begin(), test_.movement);
        sink_.report({code, span, std::move(arguments), {}, {}});
        return std::nullopt;
    }

    std::nullopt_t fail_undated() {
        const Span end{line_.body_span.end, line_.body_span.end};
        sink_.report({Code::test_date, said_span(line_), {test_.movement}, {}, {{end, "the day"}}});
        return std::nullopt;
    }

    bool read_name() {
        if (line_.names.size() != 1) {
            test_.movement = clean_text(line_.title.text);
            fail(Code::test_form, said_span(line_));
            return false;
        }
        test_.movement = clean_text(line_.names.front().text);
        test_.folded_movement = fold_name(test_.movement);
        const auto found = definitions_.by_name.find(test_.folded_movement);
        if (found != definitions_.by_name.end()) test_.definition = found->second;
        return true;
    }

    // The one amount of the line; null where there is none, or are several.
    [[nodiscard]] const syntax::Value* only_amount() const {
        if (!dose_.work || !dose_.work->next.empty() || dose_.work->side) return nullptr;
        const syntax::WorkStep& step = dose_.work->first;
        if (step.sets || step.waves || step.group || step.parts.size() != 1) return nullptr;
        const syntax::Series& series = step.parts.front();
        const bool is_single = series.form == syntax::SeriesForm::single &&
                               series.extent == syntax::Extent::none && series.values.size() == 1;
        return is_single && series.values.front() ? &*series.values.front() : nullptr;
    }

    bool read_load(const syntax::Value& amount) {
        const syntax::LoadTerm& term = dose_.load.front();
        const bool is_weight =
            dose_.load.size() == 1 && term.kind == syntax::LoadKind::measured &&
            term.weight.form == syntax::SeriesForm::single &&
            term.weight.values.front()->has_unit && !term.shift &&
            dimension(term.weight.values.front()->quantity.unit) == Dimension::mass;
        if (!is_weight || test_.time) {
            fail(Code::test_form, said_span(line_));
            return false;
        }
        const syntax::Value& weight = *term.weight.values.front();
        test_.load = weight.quantity;
        if (term.implements) test_.implements = term.implements->quantity.value.numerator();
        return is_in_range(weight) && has_whole_reps(amount);
    }

    bool is_in_range(const syntax::Value& weight) {
        constexpr std::int64_t heaviest_kg = 2000;
        const Ratio kilograms = in_base_units(weight.quantity);
        if (kilograms > Ratio(0) && kilograms <= Ratio(heaviest_kg) && test_.implements >= 1 &&
            test_.implements <= 2) {
            return true;
        }
        fail(Code::test_load, weight.span);
        return false;
    }

    bool has_whole_reps(const syntax::Value& amount) {
        const Ratio reps = amount.quantity.value;
        const std::string said = to_decimal(reps);
        if (amount.quantity.unit != Unit::reps || !reps.is_whole() || reps < Ratio(1) ||
            reps > Ratio(most_reps)) {
            fail(Code::test_reps, amount.span, {said});
            return false;
        }
        if (reps > Ratio(most_valid_reps))
            sink_.report({Code::test_many_reps, amount.span, {test_.movement, said}, {}, {}});
        return true;
    }

    const syntax::Line& line_;
    const syntax::Dose& dose_;
    const Definitions& definitions_;
    DiagnosticSink& sink_;
    program::Test test_;
};

}  // namespace

std::optional<program::Test> check_test(const syntax::Line& line, const Definitions& definitions,
                                        DiagnosticSink& sink) {
    return TestReader(line, definitions, sink).read();
}

}  // namespace stave::check
