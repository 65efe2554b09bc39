use super::*;
use crate::science::{exchange::*, open_tank::*};

fn q(number: f64, unit: &'static Unit) -> Q {
    Q::constant("x", number, unit)
}

fn tank(litres: f64, rho: f64, cp: f64, loss: f64, room: f64) -> Tank {
    Tank {
        capacity: heat_capacity(q(litres, L), q(rho, KG_PER_L), q(cp, KJ_PER_KG_K)),
        loss: q(loss, KW_PER_K),
        room: q(room, CELSIUS),
    }
}

fn close(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance * expected.abs(), "{got} is not {expected}");
}

/// Buck 1996, within 0.04 % of IAPWS up to 60 °C (from memory).
fn buck(t: Q) -> Result<Q, Refusal> {
    let c = t.number(CELSIUS);
    Ok(q(0.61121 * ((18.678 - c / 234.5) * c / (257.14 + c)).exp(), KPA))
}

/// Coulson & Richardson, Chemical Engineering vol. 1, example 9.25: 1000 kg of 4 kJ/(kg·K) heated by
/// steam at 393 K through 0.5 m² of 600 W/(m²·K), losing 60 W/K at 293 K: settles at 376.3 K, 353 K
/// after 14 155 s (printed with rounded steps); with the steam off it falls to 346.9 K in 7200 s.
#[test]
fn steam_coil_of_a_textbook() {
    let tank = Tank { capacity: q(4000.0, KJ_PER_K), loss: q(60.0, W_PER_K), room: q(293.0, KELVIN) };
    let steam = Drive::medium(q(300.0, W_PER_K), q(393.0, KELVIN));
    close(final_temperature(tank, steam).unwrap().si, 376.3, 3e-4);
    close(time_to_temperature(tank, steam, q(293.0, KELVIN), q(353.0, KELVIN)).unwrap().si, 14155.0, 2e-3);
    close(temperature_after(tank, Drive::default(), q(353.0, KELVIN), q(7200.0, SECOND)).si, 346.9, 3e-4);
}

/// Kern, Process Heat Transfer, example 18.1a: 5.2056 h.
#[test]
fn external_exchanger_of_a_textbook() {
    let capacity = q(54978.0, POUND) * q(0.48, BTU_PER_LB_F);
    let tank = Tank { capacity, loss: q(0.0, W_PER_K), room: q(70.0, FAHRENHEIT) };
    let medium = q(10000.0, LB_PER_H) * q(0.6, BTU_PER_LB_F);
    let bath = q(40000.0, LB_PER_H) * q(0.48, BTU_PER_LB_F);
    let k = exchanger_conductance(q(20000.0, BTU_PER_H_F), medium, bath).unwrap();
    let time = time_to_temperature(
        tank,
        Drive::medium(k, q(400.0, FAHRENHEIT)),
        q(100.0, FAHRENHEIT),
        q(300.0, FAHRENHEIT),
    );
    close(time.unwrap().number(HOUR), 5.2056, 1e-3);
}

/// `ht` 1.2.0 `effectiveness_from_NTU`, counterflow: NTU 2, Cr 0.5 gives 0.7746; NTU 2.5, Cr 1 gives
/// 0.714286; NTU 1 in a stirred tank 0.632121.
#[test]
fn effectiveness_of_the_library() {
    let eps = |ua: f64, c_max: f64| {
        effectiveness_counterflow(q(ua, W_PER_K), q(1.0, W_PER_K), q(c_max, W_PER_K)).si
    };
    close(eps(2.0, 2.0), 0.7746, 1e-5);
    close(eps(2.5, 1.0), 0.714286, 1e-6);
    close(effectiveness_in_tank(q(1.0, W_PER_K), q(1.0, W_PER_K)).si, 0.632121, 1e-6);
}

/// A source at 46 °C with 0.25 kW/K against a loss of 0.02 kW/K to 21 °C settles at
/// (0.25·46 + 0.02·21)/0.27 = 44.15 °C, by the steady balance; 45 °C needs 46.92 °C.
#[test]
fn what_is_not_reached_says_what_would_do() {
    let tank = tank(250.0, 1.18, 3.4, 0.02, 21.0);
    let refusal = time_to_temperature(
        tank,
        Drive::medium(q(0.25, KW_PER_K), q(46.0, CELSIUS)),
        q(21.0, CELSIUS),
        q(45.0, CELSIUS),
    )
    .unwrap_err();
    assert!(refusal.reason.contains("44.1"), "{}", refusal.reason);
    assert!(refusal.remedy.contains("46.9"), "{}", refusal.remedy);
    let weak =
        time_to_temperature(tank, Drive::power(q(0.3, KW)), q(21.0, CELSIUS), q(45.0, CELSIUS)).unwrap_err();
    assert!(weak.remedy.contains("0.48"), "{}", weak.remedy);
    assert!(final_temperature(Tank { loss: q(0.0, W_PER_K), ..tank }, Drive::default()).is_err());
}

/// Independent numerical solution (scipy 1.17.1 `solve_ivp` with iapws vapour pressure): 200 L of
/// water, 6 kW, 0.4 m² open at 0.2 m/s, room 21 °C and 45 % RH, 21 to 55 °C in 86.7217 min.
#[test]
fn an_open_tank_heats_more_slowly() {
    let tank = tank(200.0, 1.0, 4.18, 0.015, 21.0);
    let room_pressure = 0.45 * buck(q(21.0, CELSIUS)).unwrap();
    let surface = Surface { area: q(0.4, M2), air_speed: q(0.2, M_PER_S), room_pressure };
    let drive = Drive::power(q(6.0, KW));
    let way = (q(21.0, CELSIUS), q(55.0, CELSIUS));
    let time = time_with_evaporation(tank, drive, surface, buck, way).unwrap();
    close(time.number(MINUTE), 86.7217, 1e-3);
    let back = temperature_with_evaporation(tank, drive, surface, buck, way.0, time).unwrap();
    close(back.number(CELSIUS), 55.0, 1e-6);
    let held =
        time_with_evaporation(tank, Drive::power(q(2.0, KW)), surface, buck, (way.0, q(90.0, CELSIUS)));
    assert!(held.unwrap_err().reason.contains("does not come to"));
}

/// What is found backwards gives what was asked, forwards: by definition of an inverse.
#[test]
fn backwards_is_forwards() {
    let tank = tank(250.0, 1.18, 3.4, 0.02, 21.0);
    let (t0, t, ts) = (q(21.0, CELSIUS), q(45.0, CELSIUS), q(60.0, CELSIUS));
    let time = q(60.0, MINUTE);
    let forwards = |drive| time_to_temperature(tank, drive, t0, t).unwrap().number(MINUTE);
    let k = conductance_for_time(tank, ts, None, (t0, t), time).unwrap();
    close(forwards(Drive::medium(k, ts)), 60.0, 1e-9);
    let c = stream_for_conductance(q(0.5, KW_PER_K), k).unwrap();
    close(stream_conductance(q(0.5, KW_PER_K), c).unwrap().si, k.si, 1e-9);
    assert!(stream_for_conductance(q(0.2, KW_PER_K), k).is_err());
    let k = q(0.3, KW_PER_K);
    close(
        forwards(Drive::medium(k, source_temperature_for_time(tank, k, None, (t0, t), time).unwrap())),
        60.0,
        1e-9,
    );
    close(forwards(Drive::power(power_for_time(tank, t0, t, time).unwrap())), 60.0, 1e-9);
    assert!(conductance_for_time(tank, q(40.0, CELSIUS), None, (t0, t), time).is_err());
    assert!(conductance_for_time(tank, ts, Some(q(60.0, KW)), (t0, t), time).is_err());
}

/// Every law keeps its dimensions, whatever heats.
#[test]
fn the_working_keeps_its_dimensions() {
    let (_, fault) = crate::quantity::with_tape(Some(Style::default()), || {
        let tank = tank(250.0, 1.18, 3.4, 0.02, 21.0);
        let (t0, t, ts, time) = (q(21.0, CELSIUS), q(45.0, CELSIUS), q(60.0, CELSIUS), q(60.0, MINUTE));
        let (k, power) = (q(0.5, KW_PER_K), q(2.0, KW));
        let both = Drive { medium: Some(Medium { conductance: k, temperature: ts }), power: Some(power) };
        for drive in [both, Drive::medium(k, ts), Drive::power(q(9.0, KW)), Drive::default()] {
            let kind = |q: Q| q.shown().map(|shown| shown.dim);
            assert_eq!(kind(temperature_after(tank, drive, t0, time)), Some(Kind::Temperature.dim()));
            assert_eq!(kind(final_temperature(tank, drive).unwrap()), Some(Kind::Temperature.dim()));
            assert_eq!(kind(heating_rate(tank, drive, t)), Some(Kind::TemperatureRate.dim()));
            if let Ok(time) = time_to_temperature(tank, drive, t0, t) {
                assert_eq!(kind(time), Some(Kind::Time.dim()));
            }
        }
        let surface = Surface { area: q(0.4, M2), air_speed: q(0.2, M_PER_S), room_pressure: q(1.0, KPA) };
        time_with_evaporation(tank, both, surface, buck, (t0, t)).unwrap();
        source_temperature_for_time(tank, k, Some(power), (t0, t), time).unwrap();
        power_for_time(tank, t0, t, time).unwrap();
        duty_to_hold(tank, t, Some(power), Some(power));
    });
    assert_eq!(fault, None);
}
