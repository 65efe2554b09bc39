//! Coils and exchangers: what a flowing medium gives a stirred tank, per kelvin between its inlet and
//! the tank.

use super::bounds::above_zero;
use super::{Refusal, solve};
use crate::quantity::Q;
use crate::units::*;

/// Effectiveness of a coil or jacket in a stirred tank.
///
/// `ε = 1 − exp(−UA/C)`. `UA` conductance, `C` heat-capacity rate `m·cp` of the medium, above zero.
/// Holds where the tank has one temperature, so that its capacity ratio is zero.
/// Exact for constant `UA`; `UA` itself is an estimate, and falls as a coil is exposed or fouls.
/// Source: effectiveness–NTU relation for capacity ratio 0, as in `ht` 1.2.0 `effectiveness_from_NTU`.
pub fn effectiveness_in_tank(ua: Q, c: Q) -> Q {
    1.0 - (-(ua / c)).exp()
}

/// What a flowing medium exchanges per kelvin between its inlet and a stirred tank.
///
/// `k = ε·C`, with [`effectiveness_in_tank`] and `C = m·cp`. Never more than `UA`, nor than `C`.
/// Refuses a medium that does not flow. Source: as there.
pub fn stream_conductance(ua: Q, c: Q) -> Result<Q, Refusal> {
    above_zero(c, "The heating or cooling medium does not flow.")?;
    Ok(effectiveness_in_tank(ua, c) * c)
}

/// Effectiveness of a counterflow exchanger.
///
/// `ε = (1 − e)/(1 − r·e)`, `e = exp(−N·(1 − r))`, `N = UA/Cmin`, `r = Cmin/Cmax`; for equal
/// streams `N/(1 + N)`. Holds for constant `UA`, no loss, pure counterflow.
/// Source: effectiveness–NTU relation, as in `ht` 1.2.0 `effectiveness_from_NTU`.
pub fn effectiveness_counterflow(ua: Q, c_min: Q, c_max: Q) -> Q {
    let (ntu, r) = (ua / c_min, c_min / c_max);
    if (1.0 - r.si) * ntu.si < 1e-6 {
        return ntu / (1.0 + ntu);
    }
    let e = (-(ntu * (1.0 - r))).exp();
    (1.0 - e) / (1.0 - r * e)
}

/// What a counterflow exchanger outside of the tank exchanges per kelvin between the medium's inlet
/// and the tank, when a pump loops the bath through it.
///
/// `k = ε·Cmin`, with [`effectiveness_counterflow`]; `C` of medium and loop are `m·cp`.
/// Holds where the loop returns to a stirred tank. Refuses a stream that does not flow.
/// Source: Kern, Process Heat Transfer, example 18.1a, reproduced to 1e-5.
pub fn exchanger_conductance(ua: Q, c_medium: Q, c_loop: Q) -> Result<Q, Refusal> {
    above_zero(c_medium, "The heating or cooling medium does not flow.")?;
    above_zero(c_loop, "The bath does not flow through the exchanger.")?;
    let (least, most) = if c_medium <= c_loop { (c_medium, c_loop) } else { (c_loop, c_medium) };
    Ok(effectiveness_counterflow(ua, least, most) * least)
}

/// Temperature at which a medium leaves.
///
/// `T_out = Ts − k·(Ts − T)/C`. `k` from [`stream_conductance`] or [`exchanger_conductance`], `C`
/// the medium's `m·cp`, `T` the tank. Source: heat balance of the stream.
pub fn outlet_temperature(k: Q, c: Q, ts: Q, t: Q) -> Q {
    ts - k / c * (ts - t)
}

/// The heat-capacity rate `m·cp` of a flowing medium that gives a conductance in a stirred tank.
///
/// Solves `k = C·(1 − exp(−UA/C))`, to 1e-12: divide by `cp` for the flow.
/// Refuses `k ≥ UA`: no flow does it, as `UA` is what unlimited flow gives.
/// Source: inverse of [`stream_conductance`].
pub fn stream_for_conductance(ua: Q, k: Q) -> Result<Q, Refusal> {
    above_zero(k, "No heat is asked for.")?;
    if k.si >= ua.si * (1.0 - 1e-9) {
        return Err(Refusal::new(
            format!(
                "It needs {}, and unlimited flow through this coil gives {}.",
                conductance(k),
                conductance(ua)
            ),
            "Use a larger coil, a source further from the target, or allow more time.",
        ));
    }
    let given = |c: f64| -c * (-ua.si / c).exp_m1() - k.si;
    let mut most = ua.si;
    while given(most) < 0.0 && most < 1e30 {
        most *= 4.0;
    }
    let c = solve::bisect(|c| -given(c), k.si, most);
    Ok(Q::call("m·cp for the conductance", &[ua, k], c, W_PER_K))
}

/// How two streams pass each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// In opposite directions.
    Counter,
    /// In the same direction.
    Parallel,
}

/// Effectiveness of an exchanger in parallel flow.
///
/// `ε = (1 − exp(−N·(1 + r)))/(1 + r)`, `N = UA/Cmin`, `r = Cmin/Cmax`. At most `1/(1 + r)`.
/// Source: effectiveness–NTU relation, as in `ht` 1.2.0 `effectiveness_from_NTU`.
pub fn effectiveness_parallel(ua: Q, c_min: Q, c_max: Q) -> Q {
    let (ntu, r) = (ua / c_min, c_min / c_max);
    (1.0 - (-(ntu * (1.0 + r))).exp()) / (1.0 + r)
}

/// Transfer units that an effectiveness takes: the inverse of the relations above.
///
/// Counterflow `N = ln((1 − ε·r)/(1 − ε))/(1 − r)`, `ε/(1 − ε)` for equal streams; parallel
/// `N = −ln(1 − ε·(1 + r))/(1 + r)`. `r = 0` is a tank, in either way.
/// Refuses what no area reaches: counterflow `ε ≥ 1`, parallel `ε ≥ 1/(1 + r)`.
/// Source: as in `ht` 1.2.0 `NTU_from_effectiveness`.
pub fn transfer_units(effectiveness: Q, r: Q, way: Way) -> Result<Q, Refusal> {
    let e = effectiveness;
    let most = if way == Way::Parallel { 1.0 / (1.0 + r.si) } else { 1.0 };
    if !(0.0..most).contains(&e.si) {
        let percent = |share: f64| format!("{:.0} %", 100.0 * share);
        return Err(Refusal::new(
            format!(
                "It asks for {} of what the flow could give; no area gives {}.",
                percent(e.si),
                percent(most)
            ),
            "Give more flow, or a source further from the target.",
        ));
    }
    Ok(match way {
        Way::Parallel => -((1.0 - e * (1.0 + r)).ln() / (1.0 + r)),
        Way::Counter if 1.0 - r.si < 1e-9 => e / (1.0 - e),
        Way::Counter => ((1.0 - e * r) / (1.0 - e)).ln() / (1.0 - r),
    })
}

/// Mean temperature difference of two streams, by logarithm.
///
/// `ΔT_m = (ΔT1 − ΔT2)/ln(ΔT1/ΔT2)` of the differences at both ends; equal ends: that difference.
/// The hot stream runs from `hot.0` to `hot.1`, the cold one from `cold.0` to `cold.1`; a stirred tank is a
/// stream that stays. Holds for streams that flow steadily: not for a tank while it warms up.
/// Refuses temperatures that cross. Source: definition, as in `ht` 1.2.0 `LMTD`.
pub fn mean_difference(hot: (Q, Q), cold: (Q, Q), way: Way) -> Result<Q, Refusal> {
    let (first, last) = match way {
        Way::Counter => (hot.0 - cold.1, hot.1 - cold.0),
        Way::Parallel => (hot.0 - cold.0, hot.1 - cold.1),
    };
    if !(first.si > 0.0 && last.si > 0.0) {
        return Err(Refusal::new(
            "The temperatures cross: at one end the cold side would be hotter than the hot side.",
            "Give more flow or a source further from the target; counterflow alone lets the cold side leave warmer than the hot side leaves.",
        ));
    }
    let ratio = first / last;
    if (ratio.si - 1.0).abs() < 1e-6 {
        return Ok(0.5 * (first + last));
    }
    Ok((first - last) / ratio.ln())
}

/// Area that a duty takes: `A = Q/(U·ΔT_m)`, with [`mean_difference`]. `U` and `A` are on the same side of
/// the wall. Source: definition; Coulson & Richardson, Chemical Engineering vol. 1, example 9.1.
pub fn area_needed(duty: Q, u: Q, difference: Q) -> Q {
    duty / (u * difference)
}

/// Length of tube for an outside area: `L = A/(π·d)`. `d` outside diameter, as `U` is on the outside.
/// Source: geometry.
pub fn tube_length(area: Q, d: Q) -> Q {
    area / (std::f64::consts::PI * d)
}

/// Outside area of a tube: `A = π·d·L`. Source: geometry.
pub fn tube_area(length: Q, d: Q) -> Q {
    std::f64::consts::PI * d * length
}

/// What a cooler must carry off: `Q = ΣQ·(1 + m)`. `m` margin, 10 to 20 % by common practice.
/// Source: sum.
pub fn chiller_load(gains: Q, margin: Q) -> Q {
    gains * (1.0 + margin)
}

/// Heat of a stream that warms or cools: `Q = m·cp·ΔT`. Source: definition.
pub fn stream_duty(m: Q, cp: Q, rise: Q) -> Q {
    m * cp * rise
}

/// Volume of coolant that carries a duty: `q = Q/(ρ·cp·ΔT)`, with the coolant's own `ρ` and `cp`: a glycol
/// mixture carries less than water. Source: definition.
pub fn coolant_flow(duty: Q, rho: Q, cp: Q, rise: Q) -> Q {
    duty / (rho * cp * rise)
}

fn conductance(k: Q) -> String {
    Style::default().show(k.si, KW_PER_K)
}
