//! What stays dissolved over hydroxides.

use crate::runner::*;
use bathbook::science::precipitation::{sets_of, solubility};
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("F.hydroxide-solubility", |row| {
            let metal = row.text("metal")?.trim_end_matches("(II)");
            let [first, second] =
                sets_of(metal).ok_or_else(|| Problem::Unread(format!("no set of {metal}")))?;
            // The rows of tin name their file with the source.
            let set = match row.given("database").unwrap_or("minteq.v4.dat") {
                "minteq.v4.dat" => first,
                "wateq4f.dat" | "sit.dat" => second,
                other => return Err(Problem::Unread(format!("no set from {other}"))),
            };
            Ok(Found::Quantity(solubility(set, row.q("pH", NUMBER)?)?, MG_PER_L_METAL))
        }),
        ("F.Ksp", |_| {
            Err(Problem::LeftOut(
                "the sheet takes whole published sets, hydroxo complexes included, and no solubility product alone",
            ))
        }),
        ("F.Ksp-only-solubility", |_| {
            Err(Problem::LeftOut("a value for teaching: hydroxo complexes left out, it reads far too low"))
        }),
        ("F.minimum-solubility-pH", |_| {
            Err(Problem::LeftOut("a rule of the trade, quoted in words, not computed"))
        }),
        ("F.copper-floor", |_| Err(Problem::LeftOut("a rule of the trade, quoted in words, not computed"))),
    ]
}
