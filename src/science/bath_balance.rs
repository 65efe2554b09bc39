//! What a stirred bath holds over time, of anything that is added, used up, carried out or decays.
//!
//! `V·dC/dt = g − s + q_b·C_f − (q_d + q_b + k·V)·C`: added `g` and used `s` at constant rates, feed `C_f`
//! that replaces what is bled, `q_d` carried out and replaced by water, `q_b` bled, `k` decay. Concentrations may be of
//! metal or of anything else, all of one sort; the volume stays. Evaporation removes no solute, so it is
//! not among what leaves: what evaporates is replaced by water.

use super::Refusal;
use super::bounds::positive;
use crate::quantity::Q;

/// What a bath gains and loses.
#[derive(Clone, Copy, Debug)]
pub struct Balance {
    /// Volume.
    pub volume: Q,
    /// Gained less used, at rates that do not hang on the concentration; negative if more is used.
    pub gained: Q,
    /// Flow that leaves with what is dissolved: dragged out and bled.
    pub out: Q,
    /// Share that decays in a time.
    pub decay: Q,
}

impl Balance {
    /// The flow that empties as fast as all that leaves and decays: `q + k·V`.
    pub fn sink(&self) -> Q {
        self.out + self.decay * self.volume
    }

    fn has_sink(&self) -> bool {
        self.sink().si > 0.0
    }

    /// Time constant: `V/(q + k·V)`; 95 % of a step takes three of it, 99 % 4.6. Refuses no sink.
    /// Source: solution of the balance.
    pub fn time_constant(&self) -> Result<Q, Refusal> {
        if self.has_sink() { Ok(self.volume / self.sink()) } else { Err(no_sink()) }
    }

    /// Concentration at which it settles: `g/(q + k·V)`; below zero if more is used than gained.
    ///
    /// Refuses no sink: then it grows or falls without end. Source: the balance in steady state.
    pub fn settles_at(&self) -> Result<Q, Refusal> {
        if self.has_sink() { Ok(self.gained / self.sink()) } else { Err(no_sink()) }
    }

    /// Concentration after a time: `C_∞ + (C_0 − C_∞)·exp(−t/τ)`, or `C_0 + g·t/V` where nothing leaves.
    ///
    /// Exact. Refuses what would be used up before: constant use cannot go on below zero.
    /// Source: solution of the balance; scipy 1.17.1 `solve_ivp`.
    pub fn after(&self, start: Q, time: Q) -> Result<Q, Refusal> {
        positive(self.volume, "the volume of the bath")?;
        let found = if self.has_sink() {
            let end = self.settles_at()?;
            end + (start - end) * (-(time / self.time_constant()?)).exp()
        } else {
            start + self.gained * time / self.volume
        };
        if found.si < -1e-12 * start.si.abs() {
            return Err(Refusal::new(
                "It is used up before that: the sum does not hold below zero.",
                "Look at a shorter time, or add more.",
            ));
        }
        Ok(found)
    }

    /// Time until a concentration is reached: `τ·ln((C_0 − C_∞)/(C − C_∞))`, or `(C − C_0)·V/g`.
    ///
    /// Refuses a concentration that it never comes to, and one that is behind it.
    /// Source: inverse of [`Balance::after`].
    pub fn time_to(&self, start: Q, wanted: Q) -> Result<Q, Refusal> {
        positive(self.volume, "the volume of the bath")?;
        if wanted.si == start.si {
            return Ok(0.0 * self.volume / positive(self.sink(), "what leaves")?);
        }
        let never = || {
            Refusal::new(
                "It never comes to that concentration.",
                "Compare with where it settles, and with where it starts.",
            )
        };
        if !self.has_sink() {
            let is_on_the_way = (wanted.si - start.si) * self.gained.si > 0.0;
            return if is_on_the_way {
                Ok((wanted - start) * self.volume / self.gained)
            } else {
                Err(never())
            };
        }
        let end = self.settles_at()?;
        let ratio = (start - end) / (wanted - end);
        if ratio.si.is_finite() && ratio.si > 1.0 {
            Ok(self.time_constant()? * ratio.ln())
        } else {
            Err(never())
        }
    }

    /// Time until nothing is left: [`Balance::time_to`] zero. Refuses where it never comes to that.
    pub fn time_to_zero(&self, start: Q) -> Result<Q, Refusal> {
        self.time_to(start, 0.0 * start)
    }
}

fn no_sink() -> Refusal {
    Refusal::new(
        "Nothing leaves and nothing decays, so it never settles.",
        "Give what is dragged out, a bleed or a decay.",
    )
}

/// Bleed that keeps what is generated at a limit: `(g − q·C)/(C − C_f)`; less than none where `q` is enough.
///
/// `g` generated in a time, `C` limit, `C_f` in the fresh bath that replaces the bleed, `q` what leaves and
/// decays besides. Refuses fresh bath that holds as much as the limit. Source: the balance in steady state.
pub fn bleed_for_limit(generated: Q, limit: Q, feed: Q, besides: Q) -> Result<Q, Refusal> {
    if limit <= feed {
        return Err(Refusal::new(
            "Fresh bath holds as much of it as the limit allows.",
            "Give a limit above what fresh bath holds.",
        ));
    }
    Ok((generated - besides * limit) / (limit - feed))
}

/// Time until a counter that runs at a constant rate comes to a limit: `limit/rate`.
///
/// Refuses a rate of zero: it never comes to that. Source: arithmetic.
pub fn time_to_limit(limit: Q, rate: Q) -> Result<Q, Refusal> {
    if rate.si > 0.0 {
        return Ok(limit / rate);
    }
    Err(Refusal::new(
        "The counter stands still, so it never comes to its limit.",
        "Give wafers or charge that it counts.",
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::*;

    fn bath(volume: f64, gained: f64, out: f64, decay: f64) -> Balance {
        Balance {
            volume: Q::constant("V", volume, L),
            gained: Q::constant("g", gained, ML_PER_H),
            out: Q::constant("q", out, L_PER_H),
            decay: Q::constant("k", decay, PER_HOUR),
        }
    }

    fn dose(number: f64) -> Q {
        Q::constant("C", number, ML_PER_L)
    }

    fn hours(number: f64) -> Q {
        Q::constant("t", number, HOUR)
    }

    #[track_caller]
    fn near(found: Q, unit: &Unit, expected: f64) {
        assert!(
            (found.number(unit) / expected - 1.0).abs() < 1e-5,
            "{} is not {expected}",
            found.number(unit)
        );
    }

    #[test]
    fn idle_time_and_drag_out_use_up_too() {
        // scipy 1.17.1 solve_ivp: 200 L, 10 mL/L, 0.15 mL a wafer at 6 an hour, 0.3 L/h, 0.002 per hour.
        near(bath(200.0, -0.9, 0.3, 0.002).after(dose(10.0), hours(24.0)).unwrap(), ML_PER_L, 9.090724);
        // scipy 1.17.1 solve_ivp with 1.2 mL/h dosed against 0.9 used and 0.4 L/h carried out.
        near(bath(200.0, 0.3, 0.4, 0.0).after(dose(6.0), hours(48.0)).unwrap(), ML_PER_L, 5.519436);
    }

    #[test]
    fn without_a_sink_it_runs_straight() {
        // By hand: 6 + 1 mL/h × 100 h/200 L.
        let grows = bath(200.0, 1.0, 0.0, 0.0);
        near(grows.after(dose(6.0), hours(100.0)).unwrap(), ML_PER_L, 6.5);
        near(grows.time_to(dose(6.0), dose(6.5)).unwrap(), HOUR, 100.0);
        assert!(grows.settles_at().is_err() && grows.time_constant().is_err());
        assert!(grows.time_to(dose(6.0), dose(5.0)).is_err(), "the other way");
        // The branch agrees with a sink that is next to none.
        let almost = bath(200.0, 1.0, 1e-9, 0.0);
        near(almost.after(dose(6.0), hours(100.0)).unwrap(), ML_PER_L, 6.5);
    }

    #[test]
    fn what_is_used_up_is_refused_and_the_time_is_told() {
        let runs_out = bath(100.0, -10.0, 1.0, 0.0);
        // By calculus: C_∞ −10 mL/L, τ 100 h: from 5 mL/L it takes 100 × ln(15/10) h.
        near(runs_out.time_to_zero(dose(5.0)).unwrap(), HOUR, 100.0 * 1.5f64.ln());
        assert!(runs_out.after(dose(5.0), hours(41.0)).is_err());
        assert!(runs_out.after(dose(5.0), hours(40.0)).is_ok());
    }

    #[test]
    fn three_time_constants_are_95_per_cent() {
        // ln 20 = 2.995732 (scipy solve_ivp event: 299.5732 h at 200 L and 2 L/h).
        let grows = bath(200.0, 5.0, 2.0, 0.0);
        let end = grows.settles_at().unwrap();
        near(grows.time_to(dose(0.0), end * 0.95).unwrap(), HOUR, 299.5732);
    }

    #[test]
    fn evaporation_removes_no_solute() {
        // There is no term for it: at constant volume, replaced by water, the balance is the same.
        let bath = bath(200.0, 0.0, 0.0, 0.0);
        assert_eq!(bath.after(dose(6.0), hours(1000.0)).unwrap(), dose(6.0));
    }

    #[test]
    fn an_impurity_is_held_by_what_leaves() {
        // scipy 1.17.1 solve_ivp: 5 g/h into 200 L with 2 L/h: 1.580301 g/L after 100 h; settles at 2.5.
        let generated = Q::constant("g", 5.0, G_PER_H);
        let bath = Balance { gained: generated, ..bath(200.0, 0.0, 2.0, 0.0) };
        near(bath.after(Q::constant("C", 0.0, G_PER_L), hours(100.0)).unwrap(), G_PER_L, 1.580301);
        // By hand: 2 L/h hold it at 2.5 g/L; half a litre dragged out leaves 1.5 to bleed; fresh bath with 0.5 g/L takes 1.875.
        let bleed = |feed: f64, besides: f64| {
            let [limit, feed] = [2.5, feed].map(|c| Q::constant("C", c, G_PER_L));
            bleed_for_limit(generated, limit, feed, Q::constant("q", besides, L_PER_H))
        };
        near(bleed(0.0, 0.0).unwrap(), L_PER_H, 2.0);
        near(bleed(0.0, 0.5).unwrap(), L_PER_H, 1.5);
        near(bleed(0.5, 0.5).unwrap(), L_PER_H, 1.875);
        assert!(bleed(2.5, 0.0).is_err() && bleed(0.0, 3.0).unwrap().si < 0.0);
    }
}
