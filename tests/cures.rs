//! What would cure a finding, and what must not be offered as a cure.

use bathbook::ask::{Cure, cures};
use bathbook::calculator::{Depth, Example, Finding, Texts};
use bathbook::calculators::find;
use bathbook::network::Network;
use bathbook::units::Style;

type Rows = &'static [(&'static str, &'static str, Texts)];

/// The finding about an answer of a sheet by itself, and what would cure it.
#[track_caller]
fn offered(id: &str, inputs: Texts, rows: Rows, at: &str) -> (Finding, Vec<Cure>) {
    let calculator = find(id).expect("a calculator");
    let given = calculator.given(&Example { source: "", inputs, rows, answers: &[], within: 0.0 }).unwrap();
    let outcome = calculator.evaluate(&given, &Style::default(), Depth::Findings).unwrap();
    let finding = outcome.findings.iter().find(|finding| finding.at == at);
    let finding = finding.unwrap_or_else(|| panic!("nothing about {at}: {:?}", outcome.findings));
    let found = cures(&Network::alone(calculator, given), 0, finding);
    (finding.clone(), found)
}

/// The invented line of Gannet Point. By hand: 50 g/L in 1 L a wafer come to 60 mg/L with 1.2 mL of drag-out (50 times
/// 1.2 over 1001.2); no drag-out at all must leave every sheet behind it an answer, or the search finds no way back.
#[test]
fn a_rinse_too_rich_is_cured_by_less_drag_out_and_by_more_water_last() {
    let plan = bathbook::plan::examples::plan("gannet-point").expect("an example");
    let results = bathbook::results::Results::of(&plan, None);
    let found = results.findings().into_iter().find(|it| it.finding.at == "c_s[Copper first rinse]");
    let found = found.expect("a rinse too rich");
    let offered: Vec<String> =
        cures(&results.network, found.cell, &found.finding).iter().map(|cure| cure.said(0)).collect();
    assert!(offered[0].starts_with("Copper bath: drag-out a wafer 1.20"), "{offered:?}");
    assert!(
        offered.last().is_some_and(|last| last.contains("dilution in place of treatment")),
        "{offered:?}"
    );
}

/// Chicago Municipal Code, table 18-29-704.1: 1/4 in per ft up to 2 1/2 in, 1/8 for 3 to 6 in. By hand: 28 m
/// at 1/8 in per ft, 1 in 96, take 292 mm, and 300 are there.
#[test]
fn a_slope_below_the_codes_least_is_no_cure_and_a_wider_bore_is() {
    let narrow: Texts = &[("l", "28 m"), ("h_av", "300 mm"), ("D", "50 mm")];
    let (finding, found) = offered("drain", narrow, &[], "spare");
    assert!(finding.text.contains("75 mm (3 in) may fall at 0.125\u{a0}in/ft"), "{}", finding.text);
    assert!(found.iter().any(|cure| cure.symbol == "l"), "{found:?}");
    assert!(found.iter().all(|cure| cure.symbol != "S"), "1/4 in per ft is the least for 50 mm: {found:?}");
    // With 75 mm, which the trade calls 3 in, the code allows 1/8, and flattening the slope does it.
    let wide: Texts = &[("l", "28 m"), ("h_av", "300 mm"), ("D", "75 mm")];
    let (_, found) = offered("drain", wide, &[], "spare");
    assert!(found.iter().any(|cure| cure.symbol == "S" && cure.text.starts_with("0.12")), "{found:?}");
}

/// By hand: 28 m at 1 in 48 are 283 mm short, and 300 mm reach 14.4 m. A station takes what does not run off; with one
/// planned nothing is left to cure by a word.
#[test]
fn a_trench_too_far_is_cured_by_a_shorter_run_or_a_lift_station() {
    let short: Texts = &[("l", "28 m"), ("h_av", "300 mm"), ("D", "50 mm")];
    let (_, found) = offered("drain", short, &[], "spare");
    let by = |symbol: &str| found.iter().find(|cure| cure.symbol == symbol).map(|cure| cure.text.as_str());
    assert_eq!(by("l"), Some("14.4\u{a0}m"), "{found:?}");
    assert_eq!(by("station"), Some("one is planned"), "{found:?}");
    let planned: Texts = &[("l", "28 m"), ("h_av", "300 mm"), ("D", "50 mm"), ("station", "one is planned")];
    let (_, found) = offered("drain", planned, &[], "spare");
    assert!(found.iter().all(|cure| cure.symbol != "station"), "{found:?}");
}

/// 20.5 g of CuSO4, as 32.07 g of blue vitriol, dissolve in 100 g of water at 20 °C, its own water counted (handbook
/// tables, from memory). By hand: 200 L × 60 g/L / 0.2545 = 47.15 kg need 147.0 kg and bring 17.0: 130.0 of the 180.85
/// kg of water, 71.9 % of it.
#[test]
fn what_the_first_water_does_not_dissolve_is_cured_by_more_of_it() {
    let inputs: Texts = &[("V_t", "200 L"), ("by", "typed"), ("ρ_typed", "1.14 kg/L")];
    let rows: Rows = &[("ingredients", "Copper sulfate", &[("c_m", "60 g/L")])];
    let (_, found) = offered("make-up", inputs, rows, "s_1[Copper sulfate]");
    assert!(found.iter().any(|cure| cure.symbol == "f_1" && cure.text.starts_with("71.9")), "{found:?}");
}

/// PHREEQC 3.8.6 with pitzer.dat (see `science::solubility`): beside 180 g/L of acid copper sulfate falls out of 65 % of
/// the water once that is cold. More water first is offered, and with that it stays in solution.
#[test]
fn copper_sulfate_that_would_crystallise_beside_acid_is_cured_by_more_of_the_first_water() {
    let acid: Texts = &[
        ("supply", "solution by mass %"),
        ("wanted", "the substance itself"),
        ("c_s", "180 g/L"),
        ("w", "96 %"),
    ];
    let rows: Rows = Box::leak(Box::new([
        ("ingredients", "Copper sulfate", &[("c_m", "40 g/L")][..]),
        ("ingredients", "Sulfuric acid", acid),
    ]));
    let (finding, found) =
        offered("make-up", &[("V_t", "280 L"), ("class", "acid")], rows, "s_c[Copper sulfate]");
    assert!(finding.text.contains("crystallises if it cools"), "{}", finding.text);
    let share = |text: &str| text.split('\u{a0}').next().and_then(|number| number.parse::<f64>().ok());
    let cure = found.iter().find(|cure| cure.symbol == "f_1").and_then(|cure| share(&cure.text));
    assert!(cure.is_some_and(|share| (80.0..95.0).contains(&share)), "{found:?}");
}

/// Numpy 2.4.6 `linalg.solve` and scipy 1.17.1 `brentq`: of 1.5 mL of 50 g/L, 1 mg/L in the last of two stages takes
/// 0.334657681 L. More water is a cure, with what must be said against it.
#[test]
fn a_last_stage_richer_than_wanted_is_cured_by_more_water_with_a_remark() {
    let water: Texts = &[
        ("d_w", "1.5 mL"),
        ("N", "480 per day"),
        ("stages", "two in counterflow"),
        ("target", "nothing: the water is typed"),
        ("v_x", "0.2 L"),
        ("c_g", "1 mg/L"),
    ];
    let copper: Rows = &[("metals", "Cu", &[("c_in", "50 g/L")])];
    let (_, found) = offered("rinse", water, copper, "c_nT");
    let [cure] = found.as_slice() else { panic!("{found:?}") };
    assert!(cure.symbol == "v_x" && cure.text.starts_with("0.335"), "{cure:?}");
    assert!(cure.remark.contains("433.15(c)"), "{cure:?}");
}

/// Emslie, Bonner & Peck (1958): the film goes by one over the square root of time, so half of it takes four times as
/// long, or twice the speed.
#[test]
fn too_much_drag_out_is_cured_by_a_longer_or_faster_spin() {
    let spun: Texts = &[
        ("D", "300 mm"),
        ("n_s", "200 /min"),
        ("t_s", "4 s"),
        ("μ", "1.0 mPa·s"),
        ("ρ", "1.0 kg/L"),
        ("d_max", "0.7308 mL"),
        ("v_h", "0 mL"),
    ];
    let (_, found) = offered("drag-out", spun, &[], "d_w");
    let texts: Vec<_> = found.iter().map(|cure| (cure.symbol.as_str(), cure.text.as_str())).collect();
    assert_eq!(texts, [("t_s", "16.0\u{a0}s"), ("n_s", "400\u{a0}per min")]);
}
