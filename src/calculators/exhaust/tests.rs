use super::{CALCULATOR, HCN, OPENINGS, PLAIN, SHARED, VAPOURS};
use crate::calculator::{Outcome, Stop, Texts};
use crate::units::*;

type Rows = &'static [(&'static str, &'static str, Texts)];

fn exhaust(inputs: Texts, rows: Rows) -> Result<Outcome, Stop> {
    let cabinet: Rows = &[(OPENINGS, "Cabinet", &[("v_c", "0.5 m/s"), ("A_f", "0.1 m²")])];
    let rows: Rows = Box::leak(cabinet.iter().chain(rows).copied().collect());
    CALCULATOR.tried(inputs, rows)
}

fn found(outcome: &Outcome, symbol: &str) -> Option<f64> {
    CALCULATOR.answered(outcome).find(|(output, ..)| output.symbol == symbol).map(|(_, si, _)| si)
}

/// EPA-600/2-80-076, chart groups 11 with 1: cyanide and acid give a gas that kills.
#[test]
fn acid_and_cyanide_never_share_a_duct() {
    for (own, other) in
        [("acid", "cyanide"), ("cyanide", "acid"), ("cyanide", "unknown"), ("solvent", "oxidiser")]
    {
        let cells: Texts = Box::leak(Box::new([("class_s", other)]));
        let rows: Rows = Box::leak(Box::new([(SHARED, "Other", cells)]));
        let stop = exhaust(Box::leak(Box::new([("class", own)])), rows).unwrap_err();
        assert!(stop.at == Some("class_s") && stop.reason.contains("must not meet"), "{}", stop.text());
    }
    // Two that share a duct with this bath are held against each other too.
    let rows: Rows = &[(SHARED, "One", &[("class_s", "acid")]), (SHARED, "Two", &[("class_s", "sulfite")])];
    assert!(exhaust(&[("class", "acid")], rows).is_err());
    assert!(exhaust(&[("class", "acid")], &[(SHARED, "One", &[("class_s", "acid")])]).is_ok());
}

/// Limits: header of NIOSH Method 6010.
#[test]
fn what_kills_at_little_is_captured_and_not_diluted() {
    let rows: [Rows; 4] = [
        &[(VAPOURS, "Gas", &[("what", HCN), ("G", "1 g/h"), ("C_m", "5 mg/m³")])],
        &[(VAPOURS, "Gas", &[("formula", "HCN"), ("G", "1 g/h"), ("C_m", "5 mg/m³")])],
        &[(VAPOURS, "Gas", &[("formula", "HF"), ("G", "1 g/h"), ("C_m", "1 mg/m³")])],
        &[(VAPOURS, "Gas", &[("what", "hydrogen fluoride"), ("G", "1 g/h"), ("C_m", "1 mg/m³")])],
    ];
    for rows in rows {
        let stop = exhaust(&[], rows).unwrap_err();
        assert!(stop.reason.contains("never left to dilution"), "{}", stop.text());
    }
    let stop = exhaust(&[], rows[0]).unwrap_err();
    assert!(stop.reason.contains("10 ppm over 8 h and 4.7 ppm over 15 minutes"), "{}", stop.reason);
    // Over a cyanide bath what has no formula may be just that.
    let nameless: Rows = &[(VAPOURS, "Gas", &[("G", "1 g/h"), ("C_m", "5 mg/m³")])];
    assert!(exhaust(&[("class", "acid")], nameless).is_ok());
    assert!(exhaust(&[("class", "cyanide")], nameless).is_err());
}

/// Balance of a stirred room: air that comes in at 2.5 mg/m³ never brings it to 2.
#[test]
fn where_the_rooms_own_air_is_above_the_limit_no_flow_helps() {
    let rows: Rows = &[(VAPOURS, "Gas", &[("G", "50 g/h"), ("C_m", "2 mg/m³"), ("C_0", "2.5 mg/m³")])];
    let stop = exhaust(&[], rows).unwrap_err();
    assert!(stop.at == Some("C_0") && stop.reason.contains("no flow helps"), "{}", stop.text());
}

/// By hand: two lids of 0.1 m² at 0.5 m/s, each open half of the time, are 360 m³/h and 180 in the mean.
#[test]
fn a_duct_is_sized_for_all_lids_open_at_once() {
    let lids: Rows =
        &[(OPENINGS, "Lid of the tank", &[("v_c", "0.5 m/s"), ("A_f", "0.1 m²"), ("n", "2"), ("d", "50 %")])];
    let outcome = CALCULATOR.tried(&[], lids).unwrap();
    let [all, mean] = ["Q_t", "Q_m"].map(|symbol| M3_PER_H.from_si(found(&outcome, symbol).unwrap()));
    assert!((all - 360.0).abs() < 1e-9 && (mean - 180.0).abs() < 1e-9, "{all} {mean}");
    let bore = found(&outcome, "D_n").unwrap();
    assert!((bore - (4.0 * 0.1 / (std::f64::consts::PI * 10.0)).sqrt()).abs() < 1e-12, "{bore}");
}

/// By hand: 15 m³/s at 10 m/s take a bore of 1.38 m; ducts are made up to 1.25 m as a rule, common practice.
#[test]
fn a_bore_that_nobody_makes_is_told() {
    let hall: Rows = &[(OPENINGS, "Tank", &[("v_c", "0.5 m/s"), ("A_f", "30 m²")])];
    let outcome = CALCULATOR.tried(&[], hall).unwrap();
    let told = |outcome: &Outcome| outcome.findings.iter().any(|finding| finding.at == "D_u");
    assert!((found(&outcome, "D_u").unwrap() - 1.382).abs() < 1e-3 && told(&outcome));
    assert!(!told(&CALCULATOR.tried(&[("D", "1.4 m")], hall).unwrap()));
}

#[test]
fn a_hood_beyond_its_reach_is_refused_at_the_distance() {
    let far: Rows =
        &[(OPENINGS, "Bench", &[("form", PLAIN), ("v_c", "0.5 m/s"), ("A_f", "0.1 m²"), ("x", "0.6 m")])];
    let stop = exhaust(&[], far).unwrap_err();
    assert!(stop.at == Some("x") && stop.row == "Bench", "{}", stop.text());
}

/// A duct of 400 Pa behind a scrubber of 350 Pa: by hand, what the duct itself loses is above 50 Pa.
#[test]
fn a_plastic_duct_that_may_cave_in_is_pointed_out() {
    let thin: Texts = &[("D", "80 mm"), ("l", "20 m"), ("K_s", "3"), ("p_x", "350 Pa"), ("p_b", "400 Pa")];
    let outcome = exhaust(thin, &[]).unwrap();
    assert!(found(&outcome, "Δp").unwrap() > 50.0);
    assert!(
        outcome.findings.iter().any(|finding| finding.text.contains("draw it flat")),
        "{:?}",
        outcome.findings
    );
}

/// PsychroLib 2.5.0: 6 kg/h into 600 m³/h of a room of 21 °C and 45 % drip at 20.7 °C; 7 kg/h above the room's own.
#[test]
fn a_duct_that_drips_is_pointed_out() {
    let wide: Rows = &[(OPENINGS, "Tank", &[("v_c", "0.5 m/s"), ("A_f", "0.2333333333 m²")])];
    let drips = |w: &'static str| {
        let outcome = exhaust(Box::leak(Box::new([("w", w)])), wide).unwrap();
        outcome.findings.iter().any(|finding| finding.text.contains("the duct drips"))
    };
    assert!(!drips("6 kg/h") && drips("7 kg/h"));
}

#[test]
fn it_never_stands_in_for_an_engineer() {
    let outcome = exhaust(&[], &[]).unwrap();
    assert!(outcome.cautions.iter().any(|text| text.contains("ventilation engineer")));
}
