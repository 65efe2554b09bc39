//! Diluting, mixing and the heat of it.

use crate::runner::*;
use bathbook::quantity::Q;
use bathbook::science::dilution::{self, Liquid};
use bathbook::science::formula::Formula;
use bathbook::science::heat_of_mixing::{self, Heating};
use bathbook::science::solutions::{self, known_solute};
use bathbook::units::*;

fn share(number: f64) -> Q {
    Q::constant("w", number, MASS_FRACTION)
}

fn kg(number: f64) -> Q {
    Q::constant("m", number, KG)
}

fn moles_of_water(row: &Row) -> Result<Q, Problem> {
    Ok(Q::constant("n", row.number("n_H2O_per_mol")?, NUMBER))
}

pub fn topics() -> Vec<Topic> {
    vec![
        ("A.dilution", |row| {
            let (c1, v1, v2) = (row.q("C1", MOL_PER_L)?, row.q("V1", L)?, row.q("V2", L)?);
            Ok(Found::Quantity(dilution::strength_after(c1, v1, v2)?, MOL_PER_L))
        }),
        ("A.dilution-volume", |row| {
            let (c1, c2, v2) = (row.q("C1", MOL_PER_L)?, row.q("C2", MOL_PER_L)?, row.q("V2", L)?);
            Ok(Found::Quantity(dilution::stock_volume(c1, c2, v2)?, L))
        }),
        ("A.volume-contraction", contraction),
        ("A.heat-of-solution", |row| {
            let q = heat_of_mixing::heat_of_solution(Heating::SulfuricAcid, moles_of_water(row)?)?;
            Ok(Found::Quantity(q, KJ_PER_MOL))
        }),
        ("A.heat-of-dilution-HCl", |row| {
            let (n, m_w) = (Q::constant("n", row.number("m")?, MOL), kg(1.0));
            let molar_mass = Heating::HydrochloricAcid.molar_mass();
            let w = solutions::mass_fraction_of_amount(n, molar_mass, m_w)?;
            let n = heat_of_mixing::water_per_mole(w, molar_mass)?;
            let q = heat_of_mixing::heat_to_infinite_dilution(Heating::HydrochloricAcid, n)?;
            Ok(Found::Quantity(q, KJ_PER_MOL))
        }),
        ("A.adiabatic-rise", adiabatic_rise),
        ("A.moles-water-per-acid", |row| {
            let molar_mass = Heating::SulfuricAcid.molar_mass();
            let density = Q::constant("ρ", row.number("SG")?, KG_PER_L);
            let w = solutions::mass_fraction(row.q("C", MOL_PER_L)?, density, molar_mass)?;
            Ok(Found::Number(heat_of_mixing::water_per_mole(w, molar_mass)?.si))
        }),
        ("A.precooled-water-temperature", |row| {
            let acid = row.number_before("L")? * row.number_before("mol/L")?;
            let water = row.number_before("mol")?;
            let n = Q::constant("n", water / acid, NUMBER);
            let heat =
                heat_of_mixing::heat_of_solution(Heating::SulfuricAcid, n)? * Q::constant("n_A", acid, MOL);
            let capacity = Q::constant("C", water * row.number("cp")?, KJ_PER_K);
            let end = Q::constant("T", row.number_before("degC")?, CELSIUS);
            Ok(Found::Quantity(heat_of_mixing::starting_temperature(end, heat, capacity)?, CELSIUS))
        }),
    ]
}

/// `acid=H2SO4 w=0.90 m=100 kg;water_to=w 0.30;T=20 degC`, as a share of the volumes before.
fn contraction(row: &Row) -> Outcome {
    let acid = known_solute(&Formula::read(row.text("acid")?)?)?;
    let target = row.text("water_to")?.trim_start_matches("w ").parse();
    let target: f64 = target.map_err(|_| Problem::Unread("no strength after mixing".into()))?;
    let (w, m, t) = (row.q("w", MASS_FRACTION)?, row.q("m", KG)?, row.q("T", CELSIUS)?);
    let whole = m * w / share(target);
    let volume = |m: Q, w: Q| dilution::volume(m, solutions::density(&[(acid, w)], t)?);
    let mixed = dilution::mix(Liquid { mass: m, w }, Liquid { mass: whole - m, w: share(0.0) })?;
    let before = [volume(m, w)?, volume(whole - m, share(0.0))?];
    let lost = dilution::contraction(&before, volume(mixed.mass, mixed.w)?);
    Ok(Found::Number(100.0 * (lost / (before[0] + before[1])).si))
}

/// `acid_w=1.0 m=10 kg;water=90 kg;T0=25 degC`, with the heat capacity of the mixture at the start.
fn adiabatic_rise(row: &Row) -> Outcome {
    let acid = Liquid { mass: row.q("m", KG)?, w: row.q("acid_w", MASS_FRACTION)? };
    let water = Liquid { mass: row.q("water", KG)?, w: share(0.0) };
    let mixed = dilution::mix(acid, water)?;
    let heat = heat_of_mixing::heat_of_mixing(Heating::SulfuricAcid, &[acid, water])?;
    let solute = known_solute(&Formula::read("H2SO4")?)?;
    let cp = solutions::heat_capacity(&[(solute, mixed.w)], row.q("T0", CELSIUS)?)?;
    Ok(Found::Quantity(heat_of_mixing::adiabatic_rise(heat, mixed.mass, cp)?, KELVINS))
}
