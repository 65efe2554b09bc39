use super::*;
use crate::science::pipe;

fn q(number: f64, unit: &'static Unit) -> Q {
    Q::constant("x", number, unit)
}

fn close(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance * expected.abs(), "{got} is not {expected}");
}

/// US Army EI 11C201 (1997): V = t·q/4, so 45 L/s and 900 s ask for 10 125 L. Counted by an event
/// simulation: 20 L/min in, 40 out, 50 L between levels start 12 times an hour.
#[test]
fn levels_and_starts() {
    close(volume_between_levels(q(2700.0, L_PER_MIN), q(900.0, SECOND)).number(L), 10125.0, 1e-9);
    close(volume_for_starts(q(60.0, L_PER_MIN), q(10.0, PER_HOUR)).unwrap().number(L), 90.0, 1e-9);
    let starts = starts_per_time(q(20.0, L_PER_MIN), q(40.0, L_PER_MIN), q(50.0, L)).unwrap();
    close(starts.number(PER_HOUR), 12.0, 1e-9);
    assert!(cycle_time(q(60.0, L_PER_MIN), q(60.0, L_PER_MIN), q(50.0, L)).is_err());
    assert!(run_fraction(q(45.0, L_PER_MIN), q(40.0, L_PER_MIN)).is_err());
}

/// Scipy `solve_ivp` of both tanks: 0.5 m² at 0.5 m through 40 mm, Cd 0.6, pump 60 L/min: 83.081 L.
#[test]
fn a_dump_outruns_the_pump() {
    let held = |pump| {
        let valve = crate::science::drain::bore_area(q(40.0, MM));
        storage_for_dump(q(0.5, M2), q(0.5, M), q(0.6, NUMBER), valve, q(pump, L_PER_MIN)).unwrap().number(L)
    };
    close(held(60.0), 83.081, 1e-3);
    assert_eq!(held(200.0), 0.0);
}

/// `fluids` 1.3.1 `friction_factor`: copper bath 1210 kg/m³, 1.9 mPa·s, 20 L/min in 20 mm, 25 m,
/// 0.0015 mm, K 10, 6 m up, 20 kPa at the end: 10.3178 m.
#[test]
fn head_of_a_copper_bath() {
    let (rho, d) = (q(1210.0, KG_PER_M3), q(20.0, MM));
    let v = pipe::velocity(q(20.0, L_PER_MIN), d).unwrap();
    let f = pipe::friction_factor(pipe::reynolds(rho, v, d, q(1.9, MPAS)), q(0.0015, MM) / d).unwrap();
    let lost = pipe::head_lost(f, q(25.0, M), d, q(10.0, NUMBER), v);
    close(total_head(q(6.0, M), lost, q(20.0, KPA), rho).si, 10.3178, 1e-4);
}

/// Volume balance: 60 L take 3 min at 20 L/min; 30 L less 20 L of pipes and 1 min come too late.
#[test]
fn time_to_overflow() {
    let ride = |v, pipes, inflow, t| {
        ride_through(q(v, L), q(pipes, L), q(inflow, L_PER_MIN), q(t, MINUTE)).unwrap().number(MINUTE)
    };
    close(ride(60.0, 0.0, 20.0, 0.0), 3.0, 1e-12);
    close(ride(30.0, 20.0, 12.0, 1.0), -1.0 / 6.0, 1e-12);
    assert!(ride_through_weak_pump(q(60.0, L), q(20.0, L_PER_MIN), q(20.0, L_PER_MIN)).is_err());
    let small = stop_level(q(0.3, M), q(20.0, L), q(30.0, L_PER_MIN), q(2.0, MINUTE), q(0.16, M2));
    assert!(small.unwrap_err().remedy.contains("tank of more than"));
}

/// Ideal gas: 0.5 L swept, 60 a minute, 400 kPa gauge at 20 °C is 138.304 normal litres a minute.
#[test]
fn air_of_a_pump() {
    let (air, fault) = crate::quantity::with_tape(Some(Style::default()), || {
        air_from_strokes(q(0.5, L), q(60.0, PER_MINUTE), q(400.0, KPA), q(101.325, KPA), q(20.0, CELSIUS))
    });
    close(air.number(NORMAL_L_PER_MIN), 138.304, 1e-5);
    assert_eq!(fault, None);
}
