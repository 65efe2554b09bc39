//! Where a lift station may stand: its inlet must lie below the pipe that comes to it.

use super::*;
use crate::calculator::{Stop, Work};
use crate::science::drain::fall_to_spare;

/// Beside the tool, on the floor below, or in a pit.
pub(super) fn find(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let heights = (w.optional(&top, "z_o")?, w.optional(&top, "l_s")?, w.optional(&top, "H_in")?);
    let (Some(outlet), Some(run), Some(inlet)) = heights else { return Ok(()) };
    let [slope] = w.inputs(["S"])?;
    let spare = w.answer("z_s", fall_to_spare(outlet, inlet, run, slope))?;
    let has_floor = w.word(&top, "floor")? == BELOW;
    let stands = match (spare.si >= 0.0, has_floor) {
        (true, _) => ON_FLOOR,
        (false, true) => ON_BELOW,
        (false, false) => IN_PIT,
    };
    w.say(&top, "stands", stands)?;
    if stands == ON_BELOW {
        let text = "The pipe to the station goes through the floor, so the rise of its discharge counts from the floor below. Acid above people needs a second wall around it.";
        w.add_finding(&top, "stands", Severity::Note, text);
    }
    if stands == IN_PIT {
        let deep = w.style.answer(-spare.si, MM);
        let text = format!(
            "The station’s inlet lies {deep} too high for the pipe to run into it: a pit so deep, lined and watched, a lower station, or a nearer one."
        );
        w.add_finding(&top, "stands", Severity::Caution, text);
    }
    Ok(())
}
