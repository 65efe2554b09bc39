//! Corrections worked out by hand.

use super::*;
use crate::units::G_PER_L;

fn litres(number: f64) -> Q {
    Q::constant("V", number, L)
}

fn part(name: &str, measured: f64, target: f64) -> Component<'_> {
    let c = |number| Q::constant("c", number, G_PER_L);
    Component { name, measured: c(measured), target: Some(c(target)), in_fill: None }
}

fn liquid(of: usize, holds: &[(usize, f64)]) -> Stock {
    Stock { of, is_liquid: true, holds: holds.to_vec() }
}

fn tank(now: f64, mark: f64, end: End) -> Tank {
    Tank { now: litres(now), mark: litres(mark), end }
}

fn is(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found}, not {expected}");
}

/// By hand: 200 L at 38 g/L to 40 g/L with 65 g/L of concentrate in a full tank: 200·2/(65 − 38) = 14.815 L
/// out and in. With room it is 200·2/(65 − 40) = 16 L.
#[test]
fn a_full_tank_must_be_drawn_off_first() {
    let stocks = [liquid(0, &[(0, 65.0)])];
    let parts = [part("Cu", 38.0, 40.0)];
    let full = correct(&tank(200.0, 200.0, End::Mark), &parts, &stocks, Draw::Least).unwrap();
    is(full.draw.number(L), 14.81481, 1e-5);
    is(full.amounts[0].number(L), 14.81481, 1e-5);
    let room = correct(&tank(200.0, 230.0, End::AsItComes), &parts, &stocks, Draw::Least).unwrap();
    is(room.draw.si, 0.0, 0.0);
    is(room.amounts[0].number(L), 16.0, 1e-9);
}

/// By hand: 180 L left of 200 L read 44.44 g/L; filled up with water that is 40 g/L, and nothing is to be added.
#[test]
fn an_analysis_at_a_low_level_overstates_the_bath() {
    let low = tank(180.0, 200.0, End::Mark);
    let parts = [part("Cu", 40.0 * 200.0 / 180.0, 40.0)];
    let found = correct(&low, &parts, &[liquid(0, &[(0, 65.0)])], Draw::Least).unwrap();
    is(found.draw.si, 0.0, 1e-12);
    is(found.amounts[0].number(L), 0.0, 1e-9);
    is(found.fill.number(L), 20.0, 1e-9);
}

/// By hand: nickel chloride brings 2·35.45/58.69 g of chloride with each gram of nickel.
#[test]
fn a_salt_that_brings_two_things_is_counted_for_both() {
    let parts = [part("Ni", 70.0, 77.0), part("Cl", 5.0, 12.0)];
    let solid = |of, holds: &[(usize, f64)]| Stock { of, is_liquid: false, holds: holds.to_vec() };
    let stocks = [solid(0, &[(0, 0.2233)]), solid(1, &[(1, 0.2983), (0, 0.2469)])];
    let full = tank(100.0, 100.0, End::Mark);
    let found = correct(&full, &parts, &stocks, Draw::Least).unwrap();
    let [sulfate, chloride] = [found.amounts[0], found.amounts[1]].map(|a| a.number(KG));
    is(chloride, 0.7 / 0.2983, 1e-6);
    is(sulfate, (0.7 - 0.2469 * chloride) / 0.2233, 1e-6);
    is(found.draw.si, 0.0, 0.0);
    // Of 75 g/L of nickel the chloride alone would bring too much: some of the bath must go first.
    let parts = [part("Ni", 70.0, 75.0), part("Cl", 5.0, 12.0)];
    let found = correct(&full, &parts, &stocks, Draw::Least).unwrap();
    assert!(found.draw.si > 0.0 && found.set_by.unwrap().contains("Ni would still be above"));
    is(found.amounts[0].number(KG), 0.0, 1e-9);
}

/// Copper is low and its concentrate brings acid, of which there is too much already.
#[test]
fn what_cannot_be_is_refused_by_name() {
    let parts = [part("Cu", 36.0, 40.0), part("H2SO4", 200.0, 180.0)];
    let acid = [liquid(0, &[(0, 65.0), (1, 400.0)])];
    let stopped = correct(&tank(200.0, 200.0, End::Mark), &parts, &acid, Draw::Least);
    let reason = stopped.err().unwrap().reason.clone();
    assert!(reason.contains("H2SO4"), "{reason}");
}

/// Too weak a stock never gets there.
#[test]
fn a_stock_weaker_than_the_target_is_refused() {
    let parts = [part("Cu", 36.0, 40.0)];
    let weak = [liquid(0, &[(0, 39.0)])];
    assert!(correct(&tank(200.0, 220.0, End::AsItComes), &parts, &weak, Draw::Least).is_err());
    assert!(correct(&tank(200.0, 200.0, End::Mark), &parts, &weak, Draw::Least).is_err());
}

/// Low in metal and high in acid, with a full tank: one draw-off does both, and the check is the target.
#[test]
fn low_in_metal_and_high_in_acid_with_a_full_tank() {
    let parts = [part("Cu", 36.0, 40.0), part("H2SO4", 200.0, 180.0)];
    let full = tank(200.0, 200.0, End::Mark);
    let found = correct(&full, &parts, &[liquid(0, &[(0, 65.0)])], Draw::Least).unwrap();
    is(found.draw.number(L), 27.5862, 1e-3);
    is(reached(&full, &parts[1], &found, None).unwrap().number(G_PER_L), 172.414, 1e-3);
    assert!(found.set_by.unwrap().contains("room"));
}
