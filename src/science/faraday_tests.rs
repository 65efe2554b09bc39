use super::*;
use crate::science::elements::molar_mass;
use crate::units::*;

fn part(symbol: &str, share: f64, electrons: f64) -> Constituent {
    Constituent {
        share: Q::constant("w", share, MASS_FRACTION),
        molar_mass: molar_mass(symbol).unwrap(),
        electrons: electrons.into(),
        density: Q::constant("ρ", plated_metal(symbol).unwrap().density, KG_PER_L),
    }
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found / expected - 1.0).abs() <= within, "{found} is not {expected}");
}

fn share(number: f64) -> Q {
    Q::constant("η", number, SHARE)
}

fn wafer(open: f64) -> Result<Q, Refusal> {
    plated_area(Q::constant("D", 300.0, MM), Q::constant("e", 3.0, MM), share(open))
}

#[test]
fn the_valence_of_gold_and_copper_changes_the_charge() {
    // Public surface-finishing tutorial no. 166, table 1: Au 7.351 and 2.450, Cu 1.186 and 2.371 g/(A·h).
    for (symbol, electrons, expected) in
        [("Au", 1.0, 7.351), ("Au", 3.0, 2.450), ("Cu", 2.0, 1.186), ("Cu", 1.0, 2.371), ("Pt", 4.0, 1.820)]
    {
        let found = equivalent(molar_mass(symbol).unwrap(), electrons.into()).unwrap();
        near(found.number(G_PER_AH), expected, 1e-3);
    }
    assert_eq!(usual_electrons("Au").unwrap().si, 1.0, "cyanide and sulfite, not chloride");
    assert_eq!(usual_electrons("In").unwrap().si, 3.0);
}

#[test]
fn silver_of_tin_silver_takes_less_current_than_its_mass_share() {
    // Equivalents by hand with periodictable masses: 2.5 % by mass takes 1.39128 % of the current.
    let parts = [part("Sn", 0.975, 2.0), part("Ag", 0.025, 1.0)];
    near(share_of_current(&parts[1], &parts).unwrap().si, 0.0139128, 1e-4);
    near(deposit_density(&parts).unwrap().number(KG_PER_L), 7.343175, 1e-3);
}

#[test]
fn only_the_open_area_is_plated_and_on_one_face() {
    // scipy quad of 2·π·r to 147 mm: 678.8668 cm².
    near(wafer(1.0).unwrap().number(CM2), 678.8668, 6e-6);
    near(wafer(0.15).unwrap().number(CM2), 0.15 * 678.8668, 6e-6);
    assert!(wafer(0.0).is_err() && wafer(1.5).is_err());
    let narrow = face_area(Q::constant("D", 100.0, MM), Q::constant("e", 50.0, MM));
    assert!(narrow.is_err());
}

#[test]
fn efficiency_counts_once() {
    // pint with CODATA F: 50 µm of copper at 98 % on 172.0336 cm² with 10 A/dm²: 398.0312 A·min, 23.13682 min.
    let area = Q::constant("A", 172.0336, CM2);
    let mass = deposit_mass(area, Q::constant("d", 50.0, UM), Q::constant("ρ", 8.96, KG_PER_L));
    let per_mass = charge_per_mass(&[part("Cu", 1.0, 2.0)]).unwrap();
    let needed = charge(mass, per_mass, share(0.98)).unwrap();
    near(needed.number(A_MIN), 398.0312, 1e-4);
    let amperes = current(Q::constant("j", 10.0, A_PER_DM2), area);
    near(time(needed, amperes).unwrap().number(MINUTE), 23.13682, 1e-4);
    near(mass_of_charge(needed, per_mass, share(0.98)).unwrap().si, mass.si, 1e-12);
    assert!(charge(mass, per_mass, share(1.01)).is_err(), "no more metal than the charge gives");
    assert!(charge(mass, per_mass, share(0.0)).is_err());
    assert!(time(needed, Q::constant("I", 0.0, AMPERE)).is_err());
}

#[test]
fn efficiency_lessens_what_a_charge_deposits() {
    // Public surface-finishing tutorial no. 166, table 1: 0.222 µm of copper for 1 A·min/dm² at 100 %. A tutorial that
    // divides the thickness by the efficiency is wrong: at 95 % it is less, not more.
    let per_mass = charge_per_mass(&[part("Cu", 1.0, 2.0)]).unwrap();
    let film = |efficiency| {
        let mass = mass_of_charge(Q::constant("Q", 1.0, A_MIN), per_mass, share(efficiency)).unwrap();
        let film = thickness(mass, Q::constant("ρ", 8.92, KG_PER_L), Q::constant("A", 1.0, DM2));
        film.unwrap().number(UM)
    };
    near(film(1.0), 0.222, 6e-3);
    near(film(0.95), 0.95 * film(1.0), 1e-12);
}

#[test]
fn a_pulse_plates_by_its_mean_current() {
    let j = |number| Q::constant("j", number, A_PER_DM2);
    let pulse = |back: f64, back_share: f64| Pulse {
        forward: j(10.0),
        forward_share: share(0.4),
        reverse: j(back),
        reverse_share: share(back_share),
    };
    // By hand: 10 × 0.4 = 4, less 20 × 0.05 = 1.
    near(pulse(0.0, 0.0).mean().unwrap().number(A_PER_DM2), 4.0, 1e-12);
    near(pulse(20.0, 0.05).mean().unwrap().number(A_PER_DM2), 3.0, 1e-12);
    near(pulse(20.0, 0.05).deposits(share(0.95)).unwrap().number(A_PER_DM2), 2.8, 1e-12);
    assert!(pulse(20.0, 0.2).mean().is_err(), "strips as much as it deposits");
    assert!(pulse(1.0, 0.7).mean().is_err(), "more than all of the time");
}

#[test]
fn amperes_per_square_foot_are_not_per_square_decimetre() {
    // 1 A/ft² is 0.107639 A/dm² (NIST SP 811: 1 ft is 0.3048 m).
    near(Q::constant("j", 1.0, A_PER_FT2).number(A_PER_DM2), 0.107639, 1e-5);
}

#[test]
fn an_inert_anode_makes_oxygen_and_acid() {
    // By hand: 96 485.33 C is a mole of electrons: a quarter of a mole of oxygen; at 95 % 0.95 mol of H+ stay
    // and 0.025 mol of hydrogen leave.
    let one = Q::constant("Q", 96_485.332_12, A_S);
    near(moles_of_electrons(one).si, 1.0, 1e-12);
    near(oxygen(one).si, 0.25, 1e-12);
    near(acid_made(one, share(0.95)).unwrap().si, 0.95, 1e-12);
    near(hydrogen(one, share(0.95)).unwrap().si, 0.025, 1e-9);
}

/// Definitions: a charge takes time only where there is current, a load only where something is open, and no
/// current deposits more than all of itself.
#[test]
fn no_current_no_open_area_and_more_than_all_efficiency_are_refused() {
    assert!(time(Q::constant("Q", 10.0, A_H), Q::constant("I", 0.0, AMPERE)).is_err());
    assert!(wafer(0.0).is_err() && wafer(1.2).is_err());
    assert!(efficient(share(1.01)).is_err() && efficient(share(0.0)).is_err());
    assert!(efficient(share(1.0)).is_ok());
}
