//! Load and life of a resin, its breakthrough, and water through its bed.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::breakthrough::Column;
use bathbook::science::column_test::{Test, break_of_depth, unused_depth};
use bathbook::science::formula::Formula;
use bathbook::science::{ion_exchange::*, packed_bed::*, water};
use bathbook::units::*;

pub fn topics() -> Vec<Topic> {
    vec![
        ("G.meq", |row| {
            let m = metal_molar_mass(row.text("metal")?)?;
            let n = equivalents(row.q("c", MG_PER_L_METAL)?, row.q("z", NUMBER)?, m)?;
            Ok(Found::Quantity(n, MEQ_PER_L))
        }),
        ("G.bed-volumes", |row| Ok(Found::Number(volumes(row)?.si))),
        ("G.run-length", |row| {
            Ok(Found::Quantity(run_length(volumes(row)?, row.q("bed", L)?, row.q("flow", L_PER_H)?)?, HOUR))
        }),
        ("G.useful-capacity", |row| Ok(Found::Number(useful(row, "alpha")?.number(MEQ_PER_L)))),
        ("G.max-volume", |row| {
            let volumes = bed_volumes(useful(row, "alpha_Na/Ca")?, Q::from(1.0), row.q("Ca", MEQ_PER_L)?)?;
            Ok(Found::Number(volumes.si))
        }),
        ("G.exhaustion-time", |row| lasts(row, Q::from(1.0))),
        ("G.breakthrough-time", |row| lasts(row, row.q("fraction", NUMBER)?)),
        ("G.bohart-adams", |row| {
            let column = Column {
                inlet: mol_per_m3(row, "c0")?,
                capacity: mol_per_m3(row, "N0")?,
                contact: row.q("L", M)? / row.q("u_superficial", M_PER_S_OF_BED)?,
                void: row.q("eps", SHARE)?,
            };
            Ok(Found::Number(column.bohart_adams(row.q("k", M3_PER_MOL_S)?, row.q("t", SECOND)?).si))
        }),
        ("G.klinkenberg", |row| {
            // A second of contact without void, at one per second: τ is the time, and ξ the capacity.
            let meq = |number| Q::constant("c", number, MEQ_PER_L);
            let column = Column {
                inlet: meq(1.0),
                capacity: meq(row.number("xi")?),
                contact: Q::constant("t0", 1.0, SECOND),
                void: Q::from(0.0),
            };
            let rate = Q::constant("k", 60.0, PER_MINUTE);
            Ok(Found::Number(column.klinkenberg(rate, Q::constant("t", row.number("tau")?, SECOND))?.si))
        }),
        ("G.bed-area", |row| {
            let bore = bore_for(row.q("Q", M3_PER_DAY)?, row.q("surface loading", M3_PER_DAY_M2)?)?;
            Ok(Found::Quantity(cross_section(bore), M2))
        }),
        ("G.breakthrough-integral", |row| {
            let test = copper_test()?;
            let breaks = test.reaches(mol_per_l(0.01 * LAST))?;
            let (used, total) = (test.until(breaks), test.total());
            let report = row.text("report")?;
            Ok(match report {
                "t_total" => Found::Quantity(total, SECOND),
                "t_break" => Found::Quantity(breaks, SECOND),
                "length of unused bed" => Found::Quantity(unused_depth(row.q("H", CM)?, used, total), CM),
                _ => Found::Number((used / total).si),
            })
        }),
        ("G.scale-up-break-time", |row| {
            let (depth, ratio) = (row.q("H1", FOOT)?, Q::from(row.number("usable ratio")?));
            let unused = unused_depth(depth, ratio, Q::from(1.0));
            Ok(Found::Quantity(
                break_of_depth(row.q("tb1", MINUTE)?, depth, unused, row.q("H2", FOOT)?)?,
                MINUTE,
            ))
        }),
        ("G.scale-up-diameter", |row| {
            let velocity = row.q("Q1", GALLON_PER_HOUR)? / cross_section(row.q("D1", INCH)?);
            Ok(Found::Quantity(bore_for(row.q("Q2", GALLON_PER_HOUR)?, velocity)?, INCH))
        }),
        ("R.bed-pressure-drop", |row| {
            let velocity = row.q("velocity", M_PER_S_OF_BED)?;
            let gradient = bed(row, celsius(row, "water at ")?)?.pressure_gradient(velocity)?;
            Ok(Found::Quantity(gradient * row.q("depth", M)?, KPA))
        }),
        ("R.velocity-for-pressure", |row| {
            let gradient = row.q("pressure drop", KPA)? / row.q("depth", M)?;
            Ok(Found::Quantity(bed(row, celsius(row, "water at ")?)?.velocity_for(gradient)?, M_PER_H))
        }),
        ("R.backwash-velocity", |row| {
            let bed = bed(row, celsius(row, "water at ")?)?;
            let v = backwash_velocity(&bed, row.q("bead density", KG_PER_M3)?, row.q("expansion", SHARE)?)?;
            Ok(Found::Quantity(v, M_PER_H))
        }),
        ("R.cold-water-ratio", |row| {
            let velocity = row.q("velocity", M_PER_S_OF_BED)?;
            let at = |t| -> Result<Q, Problem> { Ok(bed(row, t)?.pressure_gradient(velocity)?) };
            Ok(Found::Number((at(5.0)? / at(25.0)?).si))
        }),
        ("R.bed-reynolds-laminar", |row| {
            // Printed in feet and pounds; the viscosity in lb/(ft·s) is 1.488164 Pa·s.
            let bed = Bed {
                bead: row.q("bead", FOOT)?,
                void: row.q("void", SHARE).or_else(|_| row.q("settled void", SHARE))?,
                density: Q::constant("ρ", row.number("rho")? * 0.45359237 / 0.3048f64.powi(3), KG_PER_M3),
                viscosity: Q::constant("µ", row.number("mu")? * 1.488164, PA_S),
            };
            let velocity = Q::constant("v", row.number("velocity")? * 0.3048, M_PER_S_OF_BED);
            Ok(Found::Quantity(bed.reynolds(velocity), NUMBER))
        }),
        ("R.column-diameter", |row| {
            Ok(Found::Quantity(bore_for(row.q("flow", L_PER_H)?, row.q("velocity", M_PER_H)?)?, MM))
        }),
        ("R.bed-volume", |row| {
            Ok(Found::Quantity(bed_for(row.q("flow", L_PER_H)?, row.q("service", BED_VOLUMES_PER_HOUR)?)?, L))
        }),
        ("R.bed-depth", |row| {
            Ok(Found::Quantity(row.q("resin", L)? / cross_section(row.q("column bore", MM)?), M))
        }),
        ("R.contact-time", |row| {
            let bed = Q::constant("V", 1.0, L);
            let time = contact_time(bed, row.q("service", BED_VOLUMES_PER_HOUR)? * bed)?;
            Ok(Found::Quantity(time, MINUTE))
        }),
        ("R.regeneration-waste", |row| {
            let steps = STEPS.map(|name| row.number(name));
            let [a, b, c] = steps;
            let steps = [a?, b?, c?].map(|volumes| Q::constant("BV", volumes, NUMBER));
            Ok(Found::Quantity(regeneration_waste(row.q("resin", L)?, &steps), L))
        }),
        ("R.regeneration-time", |row| {
            let mut steps = Vec::new();
            for name in STEPS {
                let text = row.text(name)?;
                let rate = text.split(" at ").nth(1).unwrap_or_default();
                let rate = Q::named("S", value(rate, BED_VOLUMES_PER_HOUR)?);
                steps.push((Q::constant("BV", row.number(name)?, NUMBER), rate));
            }
            Ok(Found::Quantity(regeneration_time(&steps)?, HOUR))
        }),
    ]
}

/// The table that the rows name as “same data”: seconds, and mol/L at the outlet; the last one counts as inlet.
const COPPER: [(f64, f64); 11] = [
    (420.0, 0.0),
    (480.0, 0.0033),
    (510.0, 0.0075),
    (540.0, 0.0157),
    (600.0, 0.0527),
    (660.0, 0.1063),
    (720.0, 0.1433),
    (780.0, 0.1634),
    (810.0, 0.1722),
    (870.0, 0.1763),
    (900.0, LAST),
];
const LAST: f64 = 0.180;

fn mol_per_l(number: f64) -> Q {
    Q::constant("c", number, MOL_PER_L)
}

fn copper_test() -> Result<Test, Problem> {
    let readings = COPPER.iter().map(|(t, c)| (Q::constant("t", *t, SECOND), mol_per_l(*c)));
    Ok(Test::new(mol_per_l(LAST), readings.collect())?)
}

const STEPS: [&str; 3] = ["regenerant", "slow rinse", "fast rinse"];

/// Bed volumes of “ions(mg/L)=Cu2:50+Ni2:10”.
fn volumes(row: &Row) -> Result<Q, Problem> {
    let unread = || Problem::Unread(format!("no ions in “{}”", row.inputs));
    let mut load = Q::constant("none", 0.0, MEQ_PER_L);
    for part in row.text("ions(mg/L)")?.split('+') {
        let (ion, c) = part.split_once(':').ok_or_else(unread)?;
        let (symbol, z) = ion.split_at(ion.len() - 1);
        let [z, c]: [Result<f64, _>; 2] = [z.parse(), c.parse()];
        let (z, c) = (z.map_err(|_| unread())?, c.map_err(|_| unread())?);
        let m = Formula::read(symbol)?.molar_mass();
        load = load + equivalents(Q::constant("c", c, MG_PER_L), Q::constant("z", z, NUMBER), m)?;
    }
    Ok(bed_volumes(row.q("capacity", EQ_PER_L)?, row.q("utilisation", SHARE)?, load)?)
}

fn useful(row: &Row, alpha: &str) -> Result<Q, Problem> {
    let selectivity = Q::constant("α", row.number(alpha)?, NUMBER);
    let (wanted, others) = (row.q("Ca", MEQ_PER_L)?, row.q("Na", MEQ_PER_L)?);
    Ok(useful_capacity(row.q("total_capacity", EQ_PER_L)?, wanted, others, selectivity)?)
}

/// Time that a whole capacity lasts, as of a bed of one litre.
fn lasts(row: &Row, used: Q) -> Outcome {
    let capacity = Q::constant("q", row.number("load")?, MEQ_PER_L);
    let volumes = bed_volumes(capacity, used, row.q("c", MEQ_PER_L)?)?;
    let bed = Q::constant("V", 1.0, L);
    Ok(Found::Quantity(run_length(volumes, bed, row.q("Q", M3_PER_DAY)?)?, HOUR))
}

fn mol_per_m3(row: &Row, name: &str) -> Result<Q, Problem> {
    Ok(Q::constant(name, row.number(name)?, MMOL_PER_L))
}

fn celsius(row: &Row, before: &str) -> Result<f64, Problem> {
    let text = row.inputs.split(before).nth(1).and_then(|rest| rest.split(' ').next());
    let number = text.and_then(|text| text.parse().ok());
    number.ok_or_else(|| Problem::Unread(format!("no temperature in “{}”", row.inputs)))
}

fn bed(row: &Row, celsius: f64) -> Result<Bed, Problem> {
    let t = Q::constant("T", celsius, CELSIUS);
    Ok(Bed {
        bead: row.q("bead", MM)?,
        void: row.q("void", SHARE).or_else(|_| row.q("settled void", SHARE))?,
        density: water::density(t)?,
        viscosity: water::viscosity(t)?,
    })
}
