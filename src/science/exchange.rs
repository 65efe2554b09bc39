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
///
/// No sheet uses it yet: it waits for “Exchanger and coil”.
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
///
/// No sheet uses it yet: it waits for “Exchanger and coil”.
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

fn conductance(k: Q) -> String {
    Style::default().show(k.si, KW_PER_K)
}
