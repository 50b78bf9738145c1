#include "compiler/loads/equations.hpp"

#include <algorithm>

namespace stave::loads {

namespace {

// Of 2 to 36 repetitions, in units of 1e-9, from 40 digits; a test works them out anew.
constexpr std::int64_t table_unit = 1'000'000'000;

constexpr std::array<std::int64_t, 35> lombardi{
    1'071'773'463, 1'116'123'174, 1'148'698'355, 1'174'618'943, 1'196'231'199, 1'214'814'044,
    1'231'144'413, 1'245'730'940, 1'258'925'412, 1'270'981'615, 1'282'088'854, 1'292'392'221,
    1'302'005'454, 1'311'019'423, 1'319'507'911, 1'327'531'675, 1'335'141'363, 1'342'379'651,
    1'349'282'848, 1'355'882'107, 1'362'204'367, 1'368'273'083, 1'374'108'810, 1'379'729'661,
    1'385'151'685, 1'390'389'170, 1'395'454'894, 1'400'360'331, 1'405'115'826, 1'409'730'738,
    1'414'213'562, 1'418'572'035, 1'422'813'220, 1'426'943'588, 1'430'969'081};

constexpr std::array<std::int64_t, 35> mayhew{
    1'114'386'786, 1'139'903'215, 1'165'154'367, 1'190'106'805, 1'214'728'765, 1'238'990'306,
    1'262'863'432, 1'286'322'185, 1'309'342'734, 1'331'903'429, 1'353'984'835, 1'375'569'754,
    1'396'643'216, 1'417'192'463, 1'437'206'907, 1'456'678'079, 1'475'599'559, 1'493'966'901,
    1'511'777'539, 1'529'030'694, 1'545'727'265, 1'561'869'724, 1'577'462'001, 1'592'509'369,
    1'607'018'329, 1'620'996'493, 1'634'452'476, 1'647'395'778, 1'659'836'683, 1'671'786'150,
    1'683'255'719, 1'694'257'413, 1'704'803'652, 1'714'907'171, 1'724'580'939};

constexpr std::array<std::int64_t, 35> wathan{
    1'051'457'387, 1'089'797'427, 1'127'954'985, 1'165'825'053, 1'203'305'800, 1'240'299'638,
    1'276'714'191, 1'312'463'149, 1'347'466'995, 1'381'653'580, 1'414'958'563, 1'447'325'697,
    1'478'706'969, 1'509'062'613, 1'538'360'986, 1'566'578'340, 1'593'698'490, 1'619'712'410,
    1'644'617'753, 1'668'418'330, 1'691'123'552, 1'712'747'857, 1'733'310'124, 1'752'833'102,
    1'771'342'842, 1'788'868'164, 1'805'440'143, 1'821'091'636, 1'835'856'838, 1'849'770'884,
    1'862'869'487, 1'875'188'613, 1'886'764'200, 1'897'631'908, 1'907'826'907};

// Of 1 to 12 repetitions, in thousandths.
constexpr std::array<std::int64_t, 12> chart{1000, 950, 930, 900, 870, 850,
                                             830,  800, 770, 750, 725, 700};
constexpr auto last_row = static_cast<std::int64_t>(chart.size());

Ratio from_table(const std::array<std::int64_t, 35>& table, std::int64_t reps) {
    return {table[static_cast<std::size_t>(reps - 2)], table_unit};
}

}  // namespace

std::optional<Ratio> max_factor(Equation equation, std::int64_t reps) {
    if (reps < 1 || reps > most_reps) return std::nullopt;
    if (reps == 1) return Ratio(1);
    switch (equation) {
        case Equation::epley:
            return Ratio(30 + reps, 30);
        case Equation::brzycki:
            return Ratio(36, 37 - reps);
        case Equation::lombardi:
            return from_table(lombardi, reps);
        case Equation::lander:
            return Ratio(10'000'000, 10'130'000 - 267'123 * reps);
        case Equation::mayhew:
            return from_table(mayhew, reps);
        case Equation::oconner:
            return Ratio(40 + reps, 40);
        case Equation::wathan:
            break;
    }
    return from_table(wathan, reps);
}

std::optional<Spread> max_factors(std::int64_t reps) {
    std::array<Ratio, equations.size()> factors;
    for (std::size_t i = 0; i < equations.size(); ++i) {
        const auto factor = max_factor(equations[i], reps);
        if (!factor) return std::nullopt;
        factors[i] = *factor;
    }
    std::ranges::sort(factors);
    return Spread{factors.front(), factors[factors.size() / 2], factors.back()};
}

std::optional<Ratio> chart_share(std::int64_t reps) {
    if (reps < 1 || reps > last_row) return std::nullopt;
    constexpr std::int64_t thousand = 1000;
    return Ratio(chart[static_cast<std::size_t>(reps - 1)], thousand);
}

std::optional<ChartRow> chart_row(Ratio share) {
    constexpr std::int64_t between_rows = 11;
    if (share < *chart_share(last_row)) return std::nullopt;
    for (std::int64_t reps = last_row; reps > 1; --reps) {
        const Ratio row = *chart_share(reps);
        if (reps != between_rows && row >= share) return ChartRow{reps, row};
    }
    return ChartRow{1, Ratio(1)};
}

}  // namespace stave::loads
