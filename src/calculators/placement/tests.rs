//! What the rule says. Common practice, no source; numbers by hand.

use super::*;
use crate::calculator::{Outcome, Texts};

fn of(inputs: Texts, spare: &'static str) -> Outcome {
    let cells: Texts = Box::leak(Box::new([("h", spare)]));
    let rows: &'static [(&str, &str, Texts)] = Box::leak(Box::new([(DRAINS, "Drain", cells)]));
    CALCULATOR.tried(inputs, rows).unwrap_or_else(|stop| panic!("{}", stop.text()))
}

fn stands(outcome: &Outcome, unit: &str) -> (&'static str, &'static str) {
    let word = |symbol| {
        let port = CALCULATOR.port(symbol).unwrap();
        let (_, row) = outcome.answers[port.table].iter().find(|(key, _)| **key == *unit).unwrap();
        CALCULATOR.output_at(port).unwrap().words[row[port.column] as usize]
    };
    (word("where"), word("why"))
}

#[test]
fn on_one_floor_all_stands_beside_and_a_short_drain_takes_a_lift_station() {
    let falls = of(&[], "10 mm");
    for unit in [TREATMENT, COLLECTION] {
        assert_eq!(stands(&falls, unit), (BESIDE, NO_FLOOR), "{unit}");
    }
    for unit in [SUPPLY, HEAT] {
        assert_eq!(stands(&falls, unit), (BESIDE, SHORTEST), "{unit}");
    }
    assert_eq!(stands(&falls, LIFT), (NONE, ENOUGH));
    let short = of(&[], "-1 mm");
    assert_eq!((stands(&short, LIFT), stands(&short, TREATMENT)), ((BESIDE, SHORT), (BEHIND, SHORT)));
    assert_eq!(stands(&short, COLLECTION), (BESIDE, NO_FLOOR));
    let none = CALCULATOR.tried(&[], &[]).unwrap();
    assert_eq!(stands(&none, LIFT), (NOT_KNOWN, NO_DRAIN));
}

/// NIOSH Publication 94-110: 23 kg at best.
#[test]
fn with_a_floor_below_waste_falls_there_unless_its_containers_cannot_get_out() {
    let below = of(&[("floor", FLOOR), ("z", "5 m"), ("m", "200 kg")], "-300 mm");
    for unit in [TREATMENT, COLLECTION] {
        assert_eq!(stands(&below, unit), (BELOW, FALLS), "{unit}");
    }
    assert_eq!(stands(&below, LIFT), (NONE, FALLS));
    let no_way = of(&[("floor", FLOOR), ("z", "5 m"), ("m", "200 kg"), ("way", NO)], "10 mm");
    assert_eq!(stands(&no_way, COLLECTION), (BESIDE, NO_WAY));
    // Its drain falls short on this floor, and its drums cannot get out below: what cannot stand there is lifted to.
    let drums: &[(&str, &str, Texts)] = &[(DRAINS, "Drums", &[("h", "-300 mm"), ("to", TO_COLLECTION)])];
    let inputs: Texts = &[("floor", FLOOR), ("z", "5 m"), ("m", "200 kg"), ("way", NO)];
    let lifted = CALCULATOR.tried(inputs, drums).unwrap();
    assert_eq!((stands(&lifted, LIFT), stands(&lifted, COLLECTION)), ((BESIDE, SHORT), (BEHIND, SHORT)));
    let light = of(&[("floor", FLOOR), ("z", "5 m"), ("m", "20 kg"), ("way", NO)], "10 mm");
    assert_eq!(stands(&light, COLLECTION), (BELOW, FALLS));
}

/// By hand: 12 m of 1.84 kg/L are 22.08 m of water, more than 20; 10 m are 18.4.
#[test]
fn supply_goes_below_only_where_there_is_no_room_beside_and_its_pumps_lift_so_high() {
    let full = [("floor", FLOOR), ("room", FOR_NONE)];
    let at = |z: &'static str| -> Texts { [full.as_slice(), &[("z", z)]].concat().leak() };
    assert_eq!(stands(&of(at("10 m"), "10 mm"), SUPPLY), (BELOW, NO_ROOM));
    assert_eq!(stands(&of(at("12 m"), "10 mm"), SUPPLY), (NOWHERE, LEAK));
}

#[test]
fn above_goes_a_heat_unit_of_water_and_nothing_else() {
    let inputs: Texts = &[("room", FOR_NONE), ("top", YES)];
    let outcome = of(inputs, "10 mm");
    assert_eq!(stands(&outcome, HEAT), (ABOVE, NO_FLOOR));
    for unit in [SUPPLY, TREATMENT, COLLECTION] {
        assert_eq!(stands(&outcome, unit).0, NOWHERE, "{unit}");
    }
    let inline = of(&[("room", FOR_NONE), ("top", YES), ("heat", INLINE)], "10 mm");
    assert_eq!(stands(&inline, HEAT), (NOWHERE, LEAK));
    assert!(inline.findings.iter().any(|found| found.at == "where[Heat unit]"));
}
