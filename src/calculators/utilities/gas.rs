//! What the compressed air takes: litres at other references, the compressor, the receiver, a year.

use super::sum::{AIR_USED, Bill};
use crate::calculator::{Refuse, Stop, Work};
use crate::quantity::Q;
use crate::science::cost::cost_of;
use crate::science::gas::{actual_flow, compressor_power, receiver_time, receiver_volume};
use crate::units::KPA;

pub fn answers(w: &mut Work, bill: &Bill, (t, room): (Q, Q)) -> Result<(), Stop> {
    let top = w.top();
    let (peak, _) = bill.totals(&AIR_USED);
    let drawn = w.answer("a_r", actual_flow(peak, t, room).or_stop("T_room")?)?;
    year(w, bill)?;
    let Some(gauge) = w.optional(&top, "p_s")? else { return Ok(()) };
    let supplied = w.step("p_a", "Pressure supplied, absolute", KPA, gauge + room)?;
    w.answer("a_s", actual_flow(peak, t, supplied).or_stop("p_s")?)?;
    if peak.si <= 0.0 {
        return Ok(());
    }
    let [efficiency] = w.inputs(["η_c"])?;
    w.answer("P_k", compressor_power(drawn, room, supplied, efficiency).or_stop("p_s")?)?;
    let Some(least) = w.optional(&top, "p_l")? else { return Ok(()) };
    if let Some(receiver) = w.optional(&top, "V_k")? {
        w.answer("t_l", receiver_time(receiver, gauge, least, peak, t).or_stop("p_l")?)?;
    }
    if let Some(time) = w.optional(&top, "t_k")? {
        w.answer("V_n", receiver_volume(time, gauge, least, peak, t).or_stop("p_l")?)?;
    }
    Ok(())
}

/// What gas costs a year, where a price is typed.
fn year(w: &mut Work, bill: &Bill) -> Result<(), Stop> {
    let top = w.top();
    let [days] = w.inputs(["days"])?;
    for (price, cost, used) in [("p_air", "c_a", &bill.air), ("p_N2", "c_n", &bill.nitrogen)] {
        if let Some(price) = w.optional(&top, price)?.filter(|_| !used.is_empty()) {
            let used: Q = used.iter().copied().sum();
            w.answer(cost, cost_of(used * days, price))?;
        }
    }
    Ok(())
}
