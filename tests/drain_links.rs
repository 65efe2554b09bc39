//! From the runs that join to the drain: which run decides, what arrives, and what a station then takes.

mod common;

use bathbook::calculator::{Severity, Subject};
use bathbook::plan::{Id, Plan};
use bathbook::results::Results;
use bathbook::units::{L, M, MM, NUMBER, PERCENT};
use common::{answer, found, near, row, type_in};

/// Two runs by 1 in 48: 10 m with 300 mm, and 4 m with 250 mm of which a trap takes 100.
fn two_runs() -> (Plan, Id) {
    let mut plan = Plan::new("Drains");
    let drain = plan.add(Subject::Drain, "Trench");
    plan.add_sheet(drain, "drain-runs");
    type_in(&mut plan, drain, "drain-runs", &[("D", "50 mm"), ("n", "0.011")]);
    let runs = ("drain-runs", "runs");
    let far = [
        ("class", "acid"),
        ("l_b", "6 m"),
        ("x", "4 m"),
        ("h", "300 mm"),
        ("q", "20 L/min"),
        ("D_b", "50 mm"),
    ];
    let near = [
        ("class", "acid"),
        ("l_b", "2 m"),
        ("x", "2 m"),
        ("h", "250 mm"),
        ("o", "100 mm"),
        ("q", "40 L/min"),
        ("D_b", "50 mm"),
    ];
    row(&mut plan, drain, runs, "Copper rinse", &far);
    row(&mut plan, drain, runs, "Nickel rinse", &near);
    (plan, drain)
}

/// By hand: 300 − 208.3 = 91.7 mm and 250 − 100 − 83.3 = 66.7 mm to spare: the shorter run decides.
#[test]
fn the_drain_follows_the_run_that_decides_and_the_flow_of_all() {
    let (mut plan, drain) = two_runs();
    let of = |plan: &Plan, symbol, unit| found(plan, drain, "drain", symbol, "", unit);
    near(of(&plan, "need", MM), 4000.0 / 48.0);
    near(of(&plan, "spare", MM), 150.0 - 4000.0 / 48.0);
    near(of(&plan, "l_max", M), 0.150 * 48.0);
    // Manning by `fluids` 1.3.1: half full 50 mm carry 50.8813 L/min at n 0.009, and 41.6302 at 0.011; 60 arrive.
    assert!((answer(&plan, drain, "drain", "share_m", "", PERCENT) - 100.0 * 60.0 / 41.6302).abs() < 1e-3);
    // Flatter runs are flatter at the drain; a value typed there goes before what it follows.
    type_in(&mut plan, drain, "drain-runs", &[("S", "0.125 in/ft")]);
    near(of(&plan, "S_1", NUMBER), 96.0);
    type_in(&mut plan, drain, "drain", &[("l", "28 m")]);
    near(of(&plan, "need", MM), 28_000.0 / 96.0);
}

/// By hand: 28 m at 1 in 48 are 583.3 mm, and 300 are there. 60 L/min and ten starts an hour: 90 L.
#[test]
fn a_run_too_far_is_told_by_the_runs_and_stopped_by_the_drain_until_a_station_takes_it() {
    let (mut plan, drain) = two_runs();
    let cells = [
        ("class", "acid"),
        ("l_b", "28 m"),
        ("x", "0 m"),
        ("h", "300 mm"),
        ("q", "5 L/min"),
        ("D_b", "50 mm"),
    ];
    row(&mut plan, drain, ("drain-runs", "runs"), "Far cell", &cells);
    let worst = |plan: &Plan, id: &str| {
        let results = Results::of(plan, None);
        let cell = results.network.cell_at(drain, id).expect("a sheet");
        let found = results.findings();
        let worst = found.iter().filter(|found| found.cell == cell && found.finding.at.starts_with("spare"));
        worst.map(|found| found.finding.severity).max()
    };
    assert_eq!(worst(&plan, "drain-runs"), Some(Severity::Note));
    assert_eq!(worst(&plan, "drain"), Some(Severity::Serious));
    near(found(&plan, drain, "drain", "spare", "", MM), 300.0 - 28_000.0 / 48.0);
    type_in(
        &mut plan,
        drain,
        "drain",
        &[("station", "one is planned"), ("q_p", "25 L/min"), ("q_pump", "60 L/min")],
    );
    assert_eq!(worst(&plan, "drain"), Some(Severity::Note));
    assert!((answer(&plan, drain, "drain", "V_b", "", L) - 90.0).abs() < 1e-9);
}

/// EPA-600/2-80-076, compatibility chart, groups 11 with 1: what may not join leaves the drain without an answer.
#[test]
fn a_drain_waits_for_runs_that_must_not_meet() {
    let (mut plan, drain) = two_runs();
    type_in(&mut plan, drain, "drain", &[("l", "6 m"), ("h_av", "300 mm"), ("D", "50 mm")]);
    let cells = [
        ("class", "cyanide"),
        ("l_b", "2 m"),
        ("x", "0 m"),
        ("h", "300 mm"),
        ("q", "5 L/min"),
        ("D_b", "50 mm"),
    ];
    row(&mut plan, drain, ("drain-runs", "runs"), "Silver rinse", &cells);
    let results = Results::of(&plan, None);
    let stop = |id: &str| results.stop(results.network.cell_at(drain, id).expect("a sheet"));
    assert!(stop("drain-runs").is_some_and(|stop| stop.reason.contains("hydrogen cyanide")));
}
