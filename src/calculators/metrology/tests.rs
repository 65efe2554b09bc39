//! What the rule says. Common practice, no source.

use super::*;
use crate::calculator::{Outcome, Severity, Texts};

type Rows = &'static [(&'static str, &'static str, Texts)];

const PATTERN: (&str, &str) = ("open", "20 %");
const WHOLE: (&str, &str) = ("open", "100 %");
const THIN: (&str, &str) = ("d", "1 µm");
const ACID: (&str, &str) = ("class", "acid");

fn of(inputs: Texts, rows: Rows) -> Outcome {
    CALCULATOR.tried(inputs, rows).unwrap_or_else(|stop| panic!("{}", stop.text()))
}

/// What a tool is, and how many there are of it.
fn tool(outcome: &Outcome, name: &str) -> (&'static str, f64) {
    let [need, n] = ["need", "n"].map(|symbol| CALCULATOR.port(symbol).unwrap());
    let (_, row) = outcome.answers[need.table].iter().find(|(key, _)| **key == *name).unwrap();
    (CALCULATOR.output_at(need).unwrap().words[row[need.column] as usize], row[n.column])
}

#[test]
fn a_probe_is_for_blanket_films_and_a_profile_for_patterns() {
    let blanket = of(&[], &[(LAYERS, "Copper", &[THIN, WHOLE, ACID])]);
    assert_eq!((tool(&blanket, FOUR_POINT).0, tool(&blanket, PROFILE).0), (REQUIRED, NOT_NEEDED));
    let patterned = of(&[], &[(LAYERS, "Copper", &[THIN, PATTERN, ACID])]);
    assert_eq!((tool(&patterned, FOUR_POINT).0, tool(&patterned, PROFILE).0), (NOT_NEEDED, REQUIRED));
    let both = of(&[], &[(LAYERS, "Copper", &[THIN, ACID, ("film", MONITORS)])]);
    assert_eq!((tool(&both, FOUR_POINT).0, tool(&both, PROFILE).0), (REQUIRED, REQUIRED));
    for outcome in [blanket, patterned, both] {
        assert_eq!(tool(&outcome, MICROSCOPE).0, REQUIRED);
    }
}

#[test]
fn what_is_recommended_follows_stack_thickness_additives_and_ph() {
    let plain = of(&[], &[(LAYERS, "Copper", &[THIN, PATTERN, ACID, ("held", NO), ("u_a", "0 mL/day")])]);
    let full = of(
        &[],
        &[
            (LAYERS, "Nickel", &[("d", "6 µm"), PATTERN, ACID, ("held", YES), ("u_a", "10 mL/day")]),
            (LAYERS, "Gold", &[THIN, PATTERN, ("class", "sulfite"), ("on", YES)]),
        ],
    );
    for name in [SECTION, STRESS, CELL, PH_PROBE] {
        assert_eq!((tool(&plain, name), tool(&full, name).0), ((NOT_NEEDED, 0.0), RECOMMENDED), "{name}");
    }
    // All but strong acid is held by its pH.
    let alkaline = of(&[], &[(LAYERS, "Gold", &[THIN, PATTERN, ("class", "alkaline")])]);
    assert_eq!(tool(&alkaline, PH_PROBE).0, RECOMMENDED);
}

#[test]
fn tools_that_touch_wafers_are_doubled_for_groups_and_the_section_is_not() {
    let rows: Rows = &[
        (LAYERS, "Copper", &[THIN, PATTERN, ACID, ("group", COPPER), ("on", YES)]),
        (LAYERS, "Gold", &[THIN, PATTERN, ACID, ("group", GOLD)]),
    ];
    let apart = of(&[], rows);
    assert_eq!(
        (tool(&apart, MICROSCOPE).1, tool(&apart, PROFILE).1, tool(&apart, SECTION).1),
        (2.0, 2.0, 1.0)
    );
    let together = of(&[("rule", TOGETHER)], rows);
    assert_eq!(tool(&together, MICROSCOPE).1, 1.0);
    assert!(together.findings.iter().any(|found| found.severity == Severity::Caution));
}

/// EPA-600/2-80-076, chart groups 11 with 1: cyanide and acid meet on no bench.
#[test]
fn what_must_not_meet_has_a_probe_of_its_own() {
    let with = |class: &'static str| {
        let gold: Texts = Box::leak(Box::new([THIN, PATTERN, ("class", class), ("held", YES)]));
        let rows: Rows = Box::leak(Box::new([
            (LAYERS, "Nickel", [THIN, PATTERN, ACID, ("held", YES)].to_vec().leak() as Texts),
            (LAYERS, "Gold", gold),
        ]));
        tool(&of(&[], rows), PH_PROBE).1
    };
    assert_eq!((with("cyanide"), with("acid"), with("alkaline")), (2.0, 1.0, 1.0));
}

/// Common practice, no source: what nobody said is asked for, and a dip without metal asks for nothing.
#[test]
fn what_is_not_said_of_a_bath_is_not_taken_for_none() {
    let open = of(&[], &[(LAYERS, "Copper", &[THIN, PATTERN, ACID])]);
    for (name, at) in [(CELL, "u_a"), (PH_PROBE, "held")] {
        assert_eq!(tool(&open, name), (NOT_SAID, 0.0), "{name}");
        assert!(open.findings.iter().any(|found| found.at == at && found.text.contains("Copper")), "{at}");
    }
    let dip: Rows = &[
        (LAYERS, "Copper", &[THIN, PATTERN, ACID, ("held", NO), ("u_a", "0 mL/day")]),
        (LAYERS, "Acid dip", &[ACID, ("plates", NOTHING)]),
    ];
    assert_eq!(tool(&of(&[], dip), PH_PROBE), (NOT_NEEDED, 0.0));
    let untold = CALCULATOR.tried(&[], &[(LAYERS, "Acid dip", &[ACID])]).unwrap_err();
    assert!(untold.todo && untold.remedy.contains(NOTHING), "{}", untold.text());
    assert!(CALCULATOR.tried(&[], &dip[1..]).unwrap_err().todo);
}

#[test]
fn a_film_of_which_nothing_is_known_is_asked_for() {
    let stop = CALCULATOR.tried(&[], &[(LAYERS, "Copper", &[THIN])]).unwrap_err();
    assert!(stop.todo && stop.at == Some("film"));
    assert!(CALCULATOR.tried(&[], &[]).unwrap_err().todo);
}
