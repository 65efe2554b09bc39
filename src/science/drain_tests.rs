use super::*;

fn q(number: f64, unit: &'static Unit) -> Q {
    Q::constant("x", number, unit)
}

fn close(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance * expected.abs(), "{got} is not {expected}");
}

fn pipe(depth: f64) -> PartFull {
    part_full(q(50.0, MM), Q::from(depth), q(0.020833, NUMBER), q(0.009, ROUGHNESS)).unwrap()
}

/// `fluids` 1.3.1 `V_Manning`: 50 mm, n 0.009, slope 0.020833: 50.8813 L/min and 0.863787 m/s at
/// half depth, 99.4695 L/min at 0.8. `V_Manning(Rh=5, S=0.001, n=0.05)` is 1.8493111942973235.
#[test]
fn part_full_flow_of_the_library() {
    close(pipe(0.5).flow.number(L_PER_MIN), 50.8813, 1e-4);
    close(pipe(0.5).velocity.si, 0.863787, 1e-4);
    close(pipe(0.8).flow.number(L_PER_MIN), 99.4695, 1e-4);
    close(manning_velocity(q(5.0, M), q(0.001, NUMBER), q(0.05, ROUGHNESS)).si, 1.8493111942973235, 1e-12);
}

/// Scipy `minimize_scalar` on Manning's form: most flow 1.07571 of full at 0.938182 of the bore, most
/// velocity 1.14003 at 0.812803.
#[test]
fn the_crest_is_below_full() {
    let [most_flow, most_velocity] = [DEPTH_OF_MOST_FLOW, DEPTH_OF_MOST_VELOCITY].map(Q::from);
    close(flow_ratio(most_flow).unwrap().si, 1.07571, 1e-5);
    close(velocity_ratio(most_velocity).unwrap().si, 1.14003, 1e-5);
    for step in [-1e-3, 1e-3] {
        assert!(flow_ratio(most_flow + step).unwrap() < flow_ratio(most_flow).unwrap());
        assert!(velocity_ratio(most_velocity + step).unwrap() < velocity_ratio(most_velocity).unwrap());
    }
}

/// Scipy `brentq` on Manning's form: 60 L/min in 50 mm, n 0.009, slope 0.0208333, stands at 0.552257;
/// above 109.5 L/min it runs under pressure.
#[test]
fn a_flow_has_a_depth_until_the_pipe_is_full() {
    let depth =
        |flow| depth_for_flow(q(flow, L_PER_MIN), q(50.0, MM), q(0.0208333, NUMBER), q(0.009, ROUGHNESS));
    close(depth(60.0).unwrap().si, 0.552257, 1e-5);
    let refusal = depth(120.0).unwrap_err();
    assert!(refusal.reason.contains("109"), "{}", refusal.reason);
}

/// Schaschke, Fluid Mechanics: Worked Examples for Engineers, examples 6.3 (1 m tank of 1 m³, 20 mm
/// orifice, 2124.5 s) and 6.6 (0.01504 m³/s).
#[test]
fn dumps_of_a_textbook() {
    let area = bore_area(q(1.0, M));
    let levels = (q(1.0, M3) / area, q(0.0, M));
    close(dump_time(area, levels, q(0.6, NUMBER), bore_area(q(20.0, MM))).unwrap().si, 2124.5, 1e-3);
    close(dump_peak(q(0.62, NUMBER), q(0.01, M2), q(0.3, M)).si, 0.01504, 1e-3);
}

/// Coulson & Richardson, Chemical Engineering vol. 1, example 3.3: a 5 m tank falls from 3 to 0.3 m
/// through 100 m of 225 mm, f 0.016, in 751 s.
#[test]
fn a_long_pipe_throttles_the_dump() {
    let d = q(225.0, MM);
    let cd = discharge_coefficient(q(0.016, NUMBER), q(100.0, M), d, Q::from(0.0));
    close(dump_time(bore_area(q(5.0, M)), (q(3.0, M), q(0.3, M)), cd, bore_area(d)).unwrap().si, 751.0, 2e-3);
}

/// Chicago Municipal Code, table 18-29-704.1: 2 1/2 in and less 1/4, 3 to 6 in 1/8, 8 in and more 1/16.
#[test]
fn least_slopes_of_a_code() {
    let least = |inches| code_least_slope(&PLUMBING_CODES[0], q(inches, INCH)).number(INCH_PER_FOOT);
    let found = [2.0, 2.5, 2.75, 3.0, 6.0, 7.0, 8.0, 10.0].map(least);
    let expected = [0.25, 0.25, 0.25, 0.125, 0.125, 0.125, 0.0625, 0.0625];
    found.into_iter().zip(expected).for_each(|(found, expected)| close(found, expected, 1e-12));
}

#[test]
fn the_working_keeps_its_dimensions() {
    let (_, fault) = crate::quantity::with_tape(Some(Style::default()), || {
        let (d, s, n) = (q(50.0, MM), q(0.02, NUMBER), q(0.009, ROUGHNESS));
        let kind = |q: Q| q.shown().map(|shown| shown.dim);
        let part = part_full(d, q(0.5, NUMBER), s, n).unwrap();
        assert_eq!(kind(part.flow), Some(Kind::Flow.dim()));
        assert_eq!(kind(slope_for_flow(part.flow, d, q(0.5, NUMBER), n).unwrap()), Some(Kind::Slope.dim()));
        assert_eq!(kind(dump_peak(q(0.6, NUMBER), bore_area(d), q(0.5, M))), Some(Kind::Flow.dim()));
        let bore = valve_bore_for_peak(part.flow, q(0.5, M), q(0.6, NUMBER)).unwrap();
        assert_eq!(kind(bore), Some(Kind::Length.dim()));
        let time = dump_time(q(1.0, M2), (q(0.5, M), q(0.1, M)), q(0.6, NUMBER), bore_area(d)).unwrap();
        assert_eq!(kind(time), Some(Kind::Time.dim()));
        furthest_run(q(0.5, M), q(0.1, M), s).unwrap();
    });
    assert_eq!(fault, None);
}
