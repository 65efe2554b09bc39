//! Containers that fill or are drawn from: how long they last, what stands under them, what they weigh.

use super::Refusal;
use super::bounds::{above_zero, not_negative, positive};
use crate::quantity::Q;
use crate::units::{DAYS, KG, NUMBER};

/// Load that one person may lift at best, both hands, close, rarely: 23 kg (51 lb). Any other posture allows less.
/// Source: NIOSH Publication 94-110, load constant of the revised lifting equation.
pub fn lifting_limit() -> Q {
    Q::constant("m_lift", 23.0, KG)
}

/// Volume of a container that may be used: `V·f`.
///
/// `V` brim volume, `f` share of it, 0.9 to 0.95 (common practice). Source: definition.
pub fn usable(v: Q, f: Q) -> Q {
    v * f
}

/// Time until a container is full, or empty: `V/q`.
///
/// `V` usable volume, not the brim's, `q` flow in or out. Of two containers it is the time in which the full one
/// has to be gone. Refuses no flow. Source: volume balance.
pub fn time_to_full(usable: Q, q: Q) -> Result<Q, Refusal> {
    above_zero(q, "Nothing flows, so a container never fills.")?;
    Ok(usable / q)
}

/// Time from the alarm until the container is full: `V·(f − a)/q`.
///
/// `V` brim volume, `f` and `a` shares of it, `q` flow in. Refuses an alarm that does not come before full.
/// Source: volume balance.
pub fn warning_time(v: Q, full: Q, alarm: Q, q: Q) -> Result<Q, Refusal> {
    if alarm.si >= full.si {
        return Err(Refusal::new(
            "The alarm comes no sooner than full.",
            "Set the alarm below the level that counts as full.",
        ));
    }
    above_zero(q, "Nothing flows, so a container never fills.")?;
    Ok(v * (full - alarm) / q)
}

/// Time by the calendar of what takes days of service: `t·365/d`.
///
/// `t` in days of service, `d` days of service a year. A container that takes 100 working days of 250 a year is
/// 146 days in use. Refuses no days. Source: arithmetic.
pub fn calendar_time(t: Q, days: Q) -> Result<Q, Refusal> {
    positive(days, "the number of days of service")?;
    Ok(t * days.max(Q::from(365.0)) / days)
}

/// Containers that a volume takes, rounded up; what is whole to a part in 10⁹ is not rounded to one more.
///
/// `V/v`. `V` volume in a time, `v` usable volume of one. Refuses none. Source: arithmetic.
pub fn containers_for(volume: Q, usable: Q) -> Result<Q, Refusal> {
    let all = not_negative(volume, "the volume")? / positive(usable, "the usable volume")?;
    Ok(Q::call("whole, rounded up", &[all], (all.si * (1.0 - 1e-9)).ceil().max(0.0), NUMBER))
}

/// Volume that must be caught under containers: `max(0.1·ΣV, V_l)`.
///
/// `ΣV` of all containers in it, `V_l` of the largest, by their brim. Source: 40 CFR 264.175(b)(3), the same words
/// in 261.175(b)(3). The least of US federal rules for hazardous waste: local codes often ask more.
pub fn containment(total: Q, largest: Q) -> Q {
    (0.1 * total).max(largest)
}

/// Volume to be caught by many local codes and insurers: `1.1·V_l`. Common practice, no source.
pub fn containment_of_largest(largest: Q) -> Q {
    1.1 * largest
}

/// Mass of a filled container: `V·ρ + m`. `V` liquid, `ρ` its density, `m` the empty one. Source: definition.
pub fn filled_mass(v: Q, rho: Q, empty: Q) -> Q {
    v * rho + empty
}

/// Metal in a container: `V·c`. Source: definition.
pub fn metal_held(v: Q, c: Q) -> Q {
    v * c
}

/// Most that may be filled in cold, so that it is no fuller than a share when it is hottest:
/// `V·s/(1 + k·(ρ₁/ρ₂ − 1))`.
///
/// `V` brim volume, `s` share that may be full when hottest, `ρ₁`, `ρ₂` density of water when filled and when
/// hottest, `k` how much more than water the liquid grows: 1 for water and dilute solutions, 2 to 5 for
/// concentrated acids and solvents (from memory). Refuses densities of none. Source: mass balance.
pub fn fill_limit(v: Q, share: Q, cold: Q, hot: Q, k: Q) -> Result<Q, Refusal> {
    let gain = positive(cold, "the density")? / positive(hot, "the density")? - 1.0;
    Ok(v * share / (1.0 + k * gain))
}

/// Time to pump a container out: `(V − h)/q`. `h` heel that stays. Refuses no flow and a heel of all.
/// Source: volume balance.
pub fn pump_out_time(v: Q, heel: Q, q: Q) -> Result<Q, Refusal> {
    if heel.si >= v.si {
        return Err(Refusal::new(
            "The heel is all that the container holds.",
            "Give a heel that is less than the liquid.",
        ));
    }
    above_zero(q, "The pump moves nothing.")?;
    Ok((v - heel) / q)
}

/// Pick-ups a year by the calendar: `365 days/t`. Refuses no time. Source: arithmetic.
pub fn pick_ups_a_year(t: Q) -> Result<Q, Refusal> {
    Ok(Q::constant("365 days", 365.0, DAYS) / positive(t, "the time between two pick-ups")?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::*;

    fn litres(number: f64) -> Q {
        Q::constant("V", number, L)
    }

    /// 40 CFR 264.175(b)(3), as a public page works it: four drums of 55 gal are 55 gal, as 10 % are 22 gal.
    #[test]
    fn ten_per_cent_decides_only_above_ten_equal_containers() {
        let of = |n: f64, each: f64| containment(litres(n * each), litres(each)).number(L);
        assert!(
            (containment(Q::constant("V", 220.0, GALLON), Q::constant("V", 55.0, GALLON)).number(GALLON)
                - 55.0)
                .abs()
                < 1e-9
        );
        assert!((of(10.0, 60.0) - 60.0).abs() < 1e-9);
        assert!((of(12.0, 60.0) - 72.0).abs() < 1e-9);
    }

    /// NIOSH Publication 94-110: the load constant is 23 kg, printed as 51 lb.
    #[test]
    fn the_limit_of_lifting_is_the_load_constant() {
        assert!((lifting_limit().number(POUND) - 51.0).abs() < 0.5);
    }

    /// By hand: 100 days of service at 250 a year are 146 days; a plant that never stops has no more days than that.
    #[test]
    fn working_days_are_no_calendar_days() {
        let t = Q::constant("t", 100.0, DAYS);
        let by = |days: f64| calendar_time(t, Q::from(days)).unwrap().number(DAYS);
        assert!((by(250.0) - 146.0).abs() < 1e-9);
        assert_eq!([by(365.0), by(366.0)], [100.0, 100.0]);
        assert!(calendar_time(t, Q::from(0.0)).is_err());
    }

    /// iapws 1.5.5: 999.10 kg/m³ at 15 °C and 992.22 at 40 °C; 208 L at most 97 % full then take 200.37 L.
    #[test]
    fn room_is_left_for_what_grows_warm() {
        let rho = |number| Q::constant("ρ", number, KG_PER_M3);
        let most = |k: f64| {
            let share = Q::constant("s", 0.97, SHARE);
            fill_limit(litres(208.0), share, rho(999.10), rho(992.22), Q::from(k)).unwrap().number(L)
        };
        assert!((most(1.0) - 200.369).abs() < 0.03, "{}", most(1.0));
        assert!(most(5.0) < most(1.0));
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let (none, flow) = (Q::constant("q", 0.0, L_PER_DAY), Q::constant("q", 8.0, L_PER_DAY));
        assert!(time_to_full(litres(200.0), none).is_err());
        assert!(warning_time(litres(208.0), Q::from(0.8), Q::from(0.9), flow).is_err());
        assert!(pump_out_time(litres(20.0), litres(20.0), flow).is_err());
        assert!(containers_for(litres(20.0), litres(0.0)).is_err());
        assert!(pick_ups_a_year(Q::constant("t", 0.0, DAYS)).is_err());
    }
}
