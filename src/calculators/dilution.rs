//! Dilution of a stock and mixing of two liquids: masses add up, volumes do not, and it may get hot.

use crate::calculator::{
    Calculator, Caution, Example, Input, Picture, Refuse, Stop, Subject, Table, Weight, When, Work,
    WorkOrder, choice, input, note, output,
};
use crate::quantity::Q;
use crate::science::dilution::{self, Liquid};
use crate::science::formula::Formula;
use crate::science::heat_of_mixing::{self, Heating, Warm};
use crate::science::solutions::{self, Solute, known_solute};
use crate::science::water;
use crate::units::{
    CELSIUS, G_PER_L, KELVINS, KG, KG_PER_L, KJ, KJ_PER_KG_K, L, MASS_FRACTION, MASS_PERCENT, MOL_PER_L,
    NUMBER, Unit,
};

const BY_MASS: &str = "a stock to a strength in mass %";
const BY_VOLUME: &str = "a stock to a strength per litre";
const MIX: &str = "two liquids into one another";
const IN_MOL: &str = "mol/L";
const IN_GRAMS: &str = "g/L";
const A_VOLUME: &str = "a volume";
const A_MASS: &str = "a mass";

const SULFURIC: &str = "sulfuric acid";
const HYDROCHLORIC: &str = "hydrochloric acid";
const NITRIC: &str = "nitric acid";
const PHOSPHORIC: &str = "phosphoric acid";
const SODIUM: &str = "sodium hydroxide";
const POTASSIUM: &str = "potassium hydroxide";
const OTHER: &str = "another, with densities typed";

const SUBSTANCES: &[(&str, f64)] = &[
    (SULFURIC, 0.0),
    (HYDROCHLORIC, 0.0),
    (NITRIC, 0.0),
    (PHOSPHORIC, 0.0),
    (SODIUM, 0.0),
    (POTASSIUM, 0.0),
    (OTHER, 0.0),
];
const ACIDS: &[&str] = &[SULFURIC, HYDROCHLORIC, NITRIC, PHOSPHORIC];
const CAUSTICS: &[&str] = &[SODIUM, POTASSIUM];
const KNOWN_ONLY: &str = "choose the substance, or type the densities";
const HEAT_ONLY: &str = "the heat of this substance is not known here";

/// Of strong sulfuric acid, above what the solution model knows, kJ/(kg·K) (from memory).
const STRONG_ACID_HEAT_CAPACITY: f64 = 1.42;

fn formula(word: &str) -> Option<&'static str> {
    Some(match word {
        SULFURIC => "H2SO4",
        HYDROCHLORIC => "HCl",
        NITRIC => "HNO3",
        PHOSPHORIC => "H3PO4",
        SODIUM => "NaOH",
        POTASSIUM => "KOH",
        _ => return None,
    })
}

const fn strength(
    symbol: &'static str,
    label: &'static str,
    unit: &'static Unit,
    most: f64,
    at: f64,
) -> Input {
    input(symbol, label, unit, [0.0, most], [0.0, most], at)
}

const fn density(symbol: &'static str, label: &'static str) -> Input {
    input(symbol, label, KG_PER_L, [0.6, 3.0], [0.8, 1.9], 1.0)
        .optional()
        .group("Liquids")
        .help("As measured or from the label, at the temperature at which volumes are read.")
        .when(When::Is("what", &[OTHER]))
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "dilution",
    title: "Dilution and mixing",
    question: "How much stock and how much water, what volume do they make, and how hot does it get?",
    subject: Subject::Mixing,
    quick: true,
    inputs: &[
        choice("ask", "Bring", NUMBER, &[(BY_MASS, 0.0), (BY_VOLUME, 0.0), (MIX, 0.0)])
            .help("By mass it is exact; by volume it is filled up to the mark."),
        choice("what", "What is dissolved", NUMBER, SUBSTANCES)
            .help("Density and heat of these are known; of another only what is typed counts."),
        strength("w_1", "Strength of the stock", MASS_PERCENT, 100.0, 96.0)
            .group("Strengths")
            .help("Mass of the substance in a hundred of the stock, from the label.")
            .when(When::Is("ask", &[BY_MASS])),
        strength("w_2", "Strength wanted", MASS_PERCENT, 100.0, 10.0)
            .group("Strengths")
            .help("Of the finished solution, by mass.")
            .when(When::Is("ask", &[BY_MASS])),
        choice("size", "How much is wanted", NUMBER, &[(A_VOLUME, 0.0), (A_MASS, 0.0)])
            .group("Strengths")
            .help("Of the finished solution.")
            .when(When::Is("ask", &[BY_MASS])),
        input("V_m", "Volume wanted", L, [0.001, 100_000.0], [0.1, 5000.0], 10.0)
            .group("Strengths")
            .help("Of the finished solution.")
            .when(When::Is("size", &[A_VOLUME])),
        input("m_2", "Mass wanted", KG, [0.001, 100_000.0], [0.1, 5000.0], 10.0)
            .group("Strengths")
            .help("Of the finished solution.")
            .when(When::Is("size", &[A_MASS])),
        choice("per", "Strengths in", NUMBER, &[(IN_MOL, 0.0), (IN_GRAMS, 0.0)])
            .group("Strengths")
            .help("Both strengths in the same measure; equivalents are not moles.")
            .when(When::Is("ask", &[BY_VOLUME])),
        strength("C_1", "Strength of the stock", MOL_PER_L, 40.0, 5.0)
            .group("Strengths")
            .help("Amount of the substance in a litre.")
            .when(When::Is("per", &[IN_MOL])),
        strength("C_2", "Strength wanted", MOL_PER_L, 40.0, 0.5)
            .group("Strengths")
            .help("Amount of the substance in a litre of the finished solution.")
            .when(When::Is("per", &[IN_MOL])),
        strength("c_1", "Strength of the stock", G_PER_L, 2000.0, 500.0)
            .group("Strengths")
            .help("Grams of the substance in a litre.")
            .when(When::Is("per", &[IN_GRAMS])),
        strength("c_2", "Strength wanted", G_PER_L, 2000.0, 50.0)
            .group("Strengths")
            .help("Grams of the substance in a litre of the finished solution.")
            .when(When::Is("per", &[IN_GRAMS])),
        input("V_2", "Volume wanted", L, [0.001, 100_000.0], [0.1, 5000.0], 10.0)
            .group("Strengths")
            .help("Of the finished solution, filled up to the mark.")
            .when(When::Is("ask", &[BY_VOLUME])),
        input("V_a", "Volume of the first liquid", L, [0.001, 100_000.0], [0.1, 5000.0], 10.0)
            .group("Strengths")
            .help("For two streams, what flows of each in the same time.")
            .when(When::Is("ask", &[MIX])),
        strength("w_a", "Strength of the first liquid", MASS_PERCENT, 100.0, 30.0)
            .group("Strengths")
            .help("By mass; nought for water.")
            .when(When::Is("ask", &[MIX])),
        input("V_k", "Volume of the second liquid", L, [0.001, 100_000.0], [0.1, 5000.0], 10.0)
            .group("Strengths")
            .help("For two streams, what flows of each in the same time.")
            .when(When::Is("ask", &[MIX])),
        strength("w_k", "Strength of the second liquid", MASS_PERCENT, 100.0, 5.0)
            .group("Strengths")
            .help("By mass, of the same substance; nought for water.")
            .when(When::Is("ask", &[MIX])),
        input("T_v", "Volumes are read at", CELSIUS, [5.0, 60.0], [15.0, 30.0], 20.0)
            .group("Liquids")
            .help("Densities and volumes are meant at this temperature."),
        input("T_1", "Stock, or first liquid, starts at", CELSIUS, [5.0, 60.0], [10.0, 30.0], 20.0)
            .group("Liquids")
            .help("Its temperature before mixing."),
        input("T_0", "Water, or second liquid, starts at", CELSIUS, [2.0, 60.0], [5.0, 30.0], 20.0)
            .group("Liquids")
            .help("Its temperature before mixing; cold water leaves more room for the heat."),
        density("ρ_1", "Density of the stock, or first liquid"),
        density("ρ_0", "Density of the second liquid"),
        density("ρ_2", "Density of the finished solution"),
    ],
    tables: &[Table {
        id: "batches",
        label: "Batches that were made",
        key_label: "Batch",
        add: Some("Add a batch"),
        suggest: &[],
        presets: &[],
        columns: &[
            input("V_added", "Stock taken", L, [0.0, 1e5], [0.0, 5000.0], 0.0)
                .optional()
                .help("What was really measured in."),
            note("lot", "Lot").help("From the label of the stock."),
            note("initials", "Made by").help("Initials of who made it."),
            note("checked", "Checked by").help("Initials of a second person."),
        ],
        answers: &[output("V_got", "Fill up to, for that stock", L).optional("type the stock taken")],
    }],
    outputs: &[
        output("V_1", "Stock, or first liquid", L),
        output("m_0", "Water, or second liquid", KG).beside().optional(KNOWN_ONLY),
        output("V", "Volume it makes", L).beside(),
        output("ΔT", "It warms by", KELVINS).beside().optional(HEAT_ONLY),
        output("T", "Temperature reached, without cooling", CELSIUS)
            .beside()
            .optional(HEAT_ONLY)
            .cured_by(&[("dilution", "T_0")]),
        output("m_1", "Mass of the stock, or first liquid", KG).optional(KNOWN_ONLY),
        output("V_0", "Volume of the water, or second liquid", L).optional(KNOWN_ONLY),
        output("ΔV", "Lost on mixing", L).optional(KNOWN_ONLY),
        output("w", "Strength", MASS_PERCENT).optional("choose the substance, or mass %"),
        output("c", "Strength per volume", G_PER_L).optional("choose the substance, or mass %"),
        output("C", "Strength in mol/L", MOL_PER_L).optional("choose the substance"),
        output("ρ", "Density", KG_PER_L).optional(KNOWN_ONLY),
        output("m", "Mass in all", KG).optional(KNOWN_ONLY),
        output("H", "Heat given off", KJ).optional(HEAT_ONLY),
    ],
    picture: Some(Picture { across: "w_2", up: "V_1" }),
    work_order: Some(WorkOrder {
        table: "batches",
        added: "V_added",
        signed: &["lot", "initials", "checked"],
    }),
    cautions: &[
        Caution {
            when: &[When::Is("what", ACIDS)],
            text: "Strong acid: face shield, apron and gloves; acid into water, slowly, never water into acid; eyewash and shower within reach; two persons. The site’s rules and a trained person decide.",
        },
        Caution {
            when: &[When::Is("what", CAUSTICS)],
            text: "Caustic burns eyes at once and heats water strongly: face shield, apron and gloves; add it to cold water in small portions; eyewash and shower within reach; two persons.",
        },
        Caution {
            when: &[When::Is("what", &[NITRIC])],
            text: "Nitric acid oxidises: keep it from organics, solvents and resin; brown fume is poisonous.",
        },
        Caution {
            when: &[When::Is("what", &[OTHER])],
            text: "Mix only what is known to go together: never cyanide with acid, never an oxidiser with organics. The safety data sheets and a trained person decide.",
        },
        Caution {
            when: &[When::Above("ΔT", 20.0)],
            text: "It gets hot: add in portions, stir, cool between, and stop at the limit of the vessel. PVC 60 °C, PP 80 °C, PVDF 100 °C from memory, lower in strong acid; the maker’s data rule.",
        },
    ],
    sources: &[
        "Balance of the amount, C₁V₁ = C₂V₂, to the mark; mass balance (lever rule).",
        "Density and heat capacity of solutions: Laliberté, J. Chem. Eng. Data 54 (2009) 1725; strong sulfuric acid: table of the public atmospheric model CARMA.",
        "Heat of mixing: NBS TN 270; CRC Handbook after Parker, NSRDS-NBS 2 (1965); Koretsky, Engineering and Chemical Thermodynamics, table 6.1.",
        "Heat capacity of sulfuric acid above 94 %, limits of plastics: from memory.",
        "Acid into water: 40 CFR 265, appendix V.",
    ],
    examples: &[
        Example {
            source: "OpenStax Chemistry 2e, m68703: 0.314 L of 1.59 mol/L for 5.00 L of 0.100 mol/L",
            inputs: &[("ask", BY_VOLUME), ("what", OTHER), ("C_1", "1.59"), ("C_2", "0.1"), ("V_2", "5")],
            rows: &[],
            answers: &[("V_1", "0.3140 L"), ("V", "5 L")],
            within: 3e-3,
        },
        Example {
            source: "chempy (Myhre), thermo 0.6.1 (Laliberté) and iapws: 100 kg of 90 % acid to 30 % shrinks by 3.652 % of 255.5 L",
            inputs: &[("w_1", "90 %"), ("w_2", "30 %"), ("size", A_MASS), ("m_2", "300 kg")],
            rows: &[],
            answers: &[("ΔV", "9.33 L"), ("m_1", "100 kg"), ("m_0", "200 kg"), ("w", "30 %")],
            within: 0.1,
        },
        Example {
            source: "Koretsky table 6.1 and Felder & Rousseau table B.11 with thermo 0.6.1: 20 kg of 96 % acid in 80 kg of water, +35.03 K",
            inputs: &[
                ("w_1", "96 %"),
                ("w_2", "19.2 %"),
                ("size", A_MASS),
                ("m_2", "100 kg"),
                ("T_v", "25 °C"),
                ("T_1", "25 °C"),
                ("T_0", "25 °C"),
            ],
            rows: &[],
            answers: &[("ΔT", "35.03 K"), ("m_1", "20 kg"), ("m_0", "80 kg")],
            within: 0.06,
        },
        Example {
            source: "thermo 0.6.1 (Laliberté): 30 % sulfuric acid at 20 °C is 1.2192 kg/L; mixed with its own kind it stays so",
            inputs: &[("ask", MIX), ("w_a", "30 %"), ("w_k", "30 %"), ("V_a", "10 L"), ("V_k", "5 L")],
            rows: &[],
            answers: &[("ρ", "1.2192 kg/L"), ("V", "15 L"), ("m", "18.29 kg"), ("w", "30 %")],
            within: 1e-3,
        },
    ],
    work,
};

/// A liquid with its volume.
struct Part {
    liquid: Liquid,
    volume: Q,
}

/// What is dissolved, as far as the science here knows it.
struct Substance {
    solute: &'static Solute,
    formula: Formula,
}

impl Substance {
    fn density(&self, w: Q, t: Q, at: &'static str) -> Result<Q, Stop> {
        solutions::density(&[(self.solute, w)], t).or_stop(at)
    }
}

fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let what = w.word(&top, "what")?;
    let substance = match formula(what) {
        Some(text) => {
            let formula = Formula::read(text).or_stop("what")?;
            Some(Substance { solute: known_solute(&formula).or_stop("what")?, formula })
        }
        None => None,
    };
    let [t] = w.inputs(["T_v"])?;
    let both = match w.word(&top, "ask")? {
        BY_MASS => Some(by_mass(w, substance.as_ref(), t)?),
        BY_VOLUME => by_volume(w, substance.as_ref(), t)?,
        _ => Some(two_liquids(w, substance.as_ref(), t)?),
    };
    let makes = match &both {
        Some([first, second]) => together(w, what, substance.as_ref(), first, second, t)?,
        None => w.inputs(["V_2"])?[0],
    };
    order(w, what, both.as_ref(), makes)
}

/// Density as typed; asks for it if it is not.
fn typed(w: &Work, symbol: &'static str) -> Result<Q, Stop> {
    w.optional(&w.top(), symbol)?.ok_or_else(|| {
        Stop::todo(
            symbol,
            "The density of this liquid is still to be typed",
            "Type it, or choose the substance.",
        )
    })
}

fn none() -> Q {
    Q::constant("none", 0.0, MASS_FRACTION)
}

/// The water that goes with a stock.
fn water_of(w: &mut Work, mass: Q, t: Q) -> Result<Part, Stop> {
    let density = w.step("ρ_w", "Density of water", KG_PER_L, water::density(t).or_stop("T_v")?)?;
    let volume = dilution::volume(mass, density).or_stop("T_v")?;
    Ok(Part { liquid: Liquid { mass, w: none() }, volume })
}

fn by_mass(w: &mut Work, substance: Option<&Substance>, t: Q) -> Result<[Part; 2], Stop> {
    let top = w.top();
    let [w_1, w_2] = w.inputs(["w_1", "w_2"])?;
    let is_mass = w.word(&top, "size")? == A_MASS;
    let density = |w: &Work, share: Q, symbol: &'static str, at: &'static str| match substance {
        Some(substance) => substance.density(share, t, at),
        None => typed(w, symbol),
    };
    // What cannot be reached is refused before anything is asked for.
    let m_2 = if is_mass { w.inputs(["m_2"])?[0] } else { Q::constant("1 kg", 1.0, KG) };
    dilution::stock_mass(w_1, none(), w_2, m_2).or_stop("w_2")?;
    let rho_1 = density(w, w_1, "ρ_1", "w_1")?;
    let rho_1 = w.step("ρ_1", "Density of the stock", KG_PER_L, rho_1)?;
    let m_2 = if is_mass {
        m_2
    } else {
        let rho_2 = density(w, w_2, "ρ_2", "w_2")?;
        let rho_2 = w.step("ρ_2", "Density of the finished solution", KG_PER_L, rho_2)?;
        let [v] = w.inputs(["V_m"])?;
        w.step("m_2", "Mass wanted", KG, v * rho_2)?
    };
    let mass = dilution::stock_mass(w_1, none(), w_2, m_2).or_stop("w_2")?;
    let volume = w.answer("V_1", dilution::volume(mass, rho_1).or_stop("w_1")?)?;
    let water = water_of(w, m_2 - mass, t)?;
    Ok([Part { liquid: Liquid { mass, w: w_1 }, volume }, water])
}

fn by_volume(w: &mut Work, substance: Option<&Substance>, t: Q) -> Result<Option<[Part; 2]>, Stop> {
    let top = w.top();
    let in_mol = w.word(&top, "per")? == IN_MOL;
    let (symbols, at) = if in_mol { (["C_1", "C_2"], "C_2") } else { (["c_1", "c_2"], "c_2") };
    let stock_at = if in_mol { "C_1" } else { "c_1" };
    let [c_1, c_2] = w.inputs(symbols)?;
    let [v_2] = w.inputs(["V_2"])?;
    let volume = w.answer("V_1", dilution::stock_volume(c_1, c_2, v_2).or_stop(at)?)?;
    let Some(substance) = substance else {
        w.answer("V", v_2)?;
        let (rho_1, rho_2) = (w.optional(&top, "ρ_1")?, w.optional(&top, "ρ_2")?);
        if let (Some(rho_1), Some(rho_2)) = (rho_1, rho_2) {
            let mass = w.answer("m_1", volume * rho_1)?;
            let whole = w.answer("m", v_2 * rho_2)?;
            let water = whole - mass;
            if water.si < 0.0 {
                let reason = "The stock weighs more than the finished solution";
                return Err(Stop::at("ρ_2", reason, "Check the two densities."));
            }
            let water = water_of(w, water, t)?;
            w.answer("m_0", water.liquid.mass)?;
            w.answer("V_0", water.volume)?;
            w.answer("ΔV", dilution::contraction(&[volume, water.volume], v_2))?;
            w.answer("ρ", rho_2)?;
        }
        return Ok(None);
    };
    let grams = |c: Q| if in_mol { c * substance.formula.molar_mass() } else { c };
    let model = |c: Q, at| solutions::density_of_concentrations(&[(substance.solute, c)], t).or_stop(at);
    let rho_1 = w.step("ρ_1", "Density of the stock", KG_PER_L, model(grams(c_1), stock_at)?)?;
    let rho_2 = w.step("ρ_2", "Density of the finished solution", KG_PER_L, model(grams(c_2), at)?)?;
    let w_1 = w.step("w_1", "Strength of the stock", MASS_PERCENT, grams(c_1) / rho_1)?;
    let mass = volume * rho_1;
    let rest = v_2 * rho_2 - mass;
    // A stock taken as it is needs no water, but for rounding.
    let rest = if rest.si < 0.0 { 0.0 * mass } else { rest };
    let water = water_of(w, rest, t)?;
    Ok(Some([Part { liquid: Liquid { mass, w: w_1 }, volume }, water]))
}

fn two_liquids(w: &mut Work, substance: Option<&Substance>, t: Q) -> Result<[Part; 2], Stop> {
    let mut part = |[v, share]: [&'static str; 2], symbol: &'static str| {
        let [volume, share_of] = w.inputs([v, share])?;
        let density = match substance {
            Some(substance) => substance.density(share_of, t, share)?,
            None => typed(w, symbol)?,
        };
        let density = w.step(symbol, "Density", KG_PER_L, density)?;
        Ok(Part { liquid: Liquid { mass: volume * density, w: share_of }, volume })
    };
    let first = part(["V_a", "w_a"], "ρ_1")?;
    let second = part(["V_k", "w_k"], "ρ_0")?;
    w.answer("V_1", first.volume)?;
    Ok([first, second])
}

/// What both make together: mass, strength, volume, heat.
fn together(
    w: &mut Work,
    what: &str,
    substance: Option<&Substance>,
    first: &Part,
    second: &Part,
    t: Q,
) -> Result<Q, Stop> {
    w.answer("m_1", first.liquid.mass)?;
    w.answer("m_0", second.liquid.mass)?;
    w.answer("V_0", second.volume)?;
    let mixed = dilution::mix(first.liquid, second.liquid).or_stop("ask")?;
    let mass = w.answer("m", mixed.mass)?;
    let share = w.answer("w", mixed.w)?;
    let density = match substance {
        Some(substance) => substance.density(share, t, "T_v")?,
        None => typed(w, "ρ_2")?,
    };
    let density = w.answer("ρ", density)?;
    let volume = w.answer("V", dilution::volume(mass, density).or_stop("ρ_2")?)?;
    w.answer("ΔV", dilution::contraction(&[first.volume, second.volume], volume))?;
    let c = w.answer("c", share * density)?;
    let Some(substance) = substance else { return Ok(volume) };
    w.answer("C", c / substance.formula.molar_mass())?;
    let Some(heating) = Heating::of(&substance.formula) else {
        if what == POTASSIUM {
            let text = "Its heat is not counted here: it heats water as strongly as sodium hydroxide.";
            let top = w.top();
            w.find(&top, "what", Weight::Caution, text);
        }
        return Ok(volume);
    };
    let heat = heat_of_mixing::heat_of_mixing(heating, &[first.liquid, second.liquid]).or_stop("what")?;
    let heat = w.answer("H", heat)?;
    temperature(w, heating, substance, [first, second], mass, share, heat)?;
    Ok(volume)
}

/// Temperature that the mixture reaches if nothing cools it, and what it does to the vessel.
fn temperature(
    w: &mut Work,
    heating: Heating,
    substance: &Substance,
    [first, second]: [&Part; 2],
    mass: Q,
    share: Q,
    heat: Q,
) -> Result<(), Stop> {
    let [t_1, t_0] = w.inputs(["T_1", "T_0"])?;
    let c_1 = heat_capacity(w, "c_p1", heating, substance, first.liquid.w, t_1)?;
    let c_0 = heat_capacity(w, "c_p0", heating, substance, second.liquid.w, t_0)?;
    let c = heat_capacity(w, "c_p", heating, substance, share, t_0)?;
    w.answer("ΔT", heat_of_mixing::adiabatic_rise(heat, mass, c).or_stop("what")?)?;
    let warm = [
        Warm { capacity: second.liquid.mass * c_0, temperature: t_0 },
        Warm { capacity: first.liquid.mass * c_1, temperature: t_1 },
    ];
    let reached = heat_of_mixing::temperature_reached(&warm, heat, mass * c).or_stop("T_0")?;
    let reached = w.answer("T", reached)?;
    let top = w.top();
    let limit = |number| Q::constant("limit", number, CELSIUS);
    if reached.number(CELSIUS) > 90.0 {
        let why = "Added at once it spits. Add it in small portions, stir and cool, or dilute in two steps.";
        w.at_most(&top, "T", limit(90.0), Weight::Stop, why);
    } else {
        let why = "PVC and PP vessels soften (common practice). Add it in portions and cool between, or start colder.";
        w.at_most(&top, "T", limit(60.0), Weight::Caution, why);
    }
    Ok(())
}

/// Heat capacity from the solution model; where that does not hold, that of the liquid's water alone,
/// which makes the rise an upper bound.
fn heat_capacity(
    w: &mut Work,
    symbol: &str,
    heating: Heating,
    substance: &Substance,
    share: Q,
    t: Q,
) -> Result<Q, Stop> {
    let (label, c) = match solutions::heat_capacity(&[(substance.solute, share)], t) {
        Ok(c) => ("Heat capacity", c),
        Err(_) if heating == Heating::SulfuricAcid => {
            ("Heat capacity of strong acid", Q::constant("c_acid", STRONG_ACID_HEAT_CAPACITY, KJ_PER_KG_K))
        }
        Err(_) => {
            let c = (1.0 - share) * water::heat_capacity(t).or_stop("T_0")?;
            ("Heat capacity, of its water alone: an upper bound of the rise", c)
        }
    };
    w.step(symbol, label, KJ_PER_KG_K, c)
}

/// The steps, for each batch that is to be made, or once.
fn order(w: &mut Work, what: &str, both: Option<&[Part; 2]>, makes: Q) -> Result<(), Stop> {
    let is_acid = ACIDS.contains(&what);
    let into =
        if is_acid { "into the stirred water, never water into acid" } else { "into the stirred water" };
    let [first, second] = match both {
        Some([first, second]) => [Some(first), Some(second)],
        None => [None, None],
    };
    // The weaker liquid goes first: of two liquids it is the one with less of the substance.
    let is_swapped = first.zip(second).is_some_and(|(a, b)| a.liquid.w < b.liquid.w);
    let (strong, weak) = if is_swapped { (second, first) } else { (first, second) };
    let wanted = |part: Option<&Part>| part.map(|part| (part.volume, L));
    let has_water = weak.is_none_or(|weak| weak.liquid.w.si == 0.0);
    let name = if has_water { "Water" } else { "The weaker liquid" };
    w.instruct(None, format!("{name} into the vessel, stirrer and exhaust on."), wanted(weak));
    let text =
        format!("{what}: the stronger liquid, slowly, in portions, {into}. Cool between; stop at 45 °C.");
    let text = if what == OTHER { format!("The stronger liquid, slowly, {into}.") } else { capital(&text) };
    let rows = w.rows("batches")?;
    if rows.is_empty() {
        w.instruct(None, text.clone(), wanted(strong));
    }
    for row in rows {
        w.instruct(Some(&row), format!("{}. {text}", row.key), wanted(strong));
        let taken = w.optional(&row, "V_added")?;
        if let (Some(taken), Some(strong)) = (taken, strong)
            && strong.volume.si > 0.0
        {
            w.give(&row, "V_got", taken / strong.volume * makes)?;
        }
    }
    let last = if has_water {
        "Cool, fill up to the mark, mix, and check the strength."
    } else {
        "Cool, mix, and check the strength."
    };
    w.instruct(None, last, None);
    Ok(())
}

fn capital(text: &str) -> String {
    let mut marks = text.chars();
    marks.next().map_or_else(String::new, |first| first.to_uppercase().chain(marks).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calculator::{Depth, Outcome, Texts};
    use crate::units::Style;

    fn dilute(inputs: Texts) -> Result<Outcome, Stop> {
        let example = Example { source: "", inputs, rows: &[], answers: &[], within: 0.0 };
        let given = CALCULATOR.given(&example).unwrap_or_else(|why| panic!("{why}"));
        CALCULATOR.evaluate(&given, &Style::default(), Depth::Working)
    }

    fn number(outcome: &Outcome, symbol: &str, unit: &Unit) -> f64 {
        let port = CALCULATOR.port(symbol).unwrap();
        unit.from_si(outcome.answers[0][0].1[port.column])
    }

    #[test]
    fn a_strength_above_the_stock_is_refused() {
        let per_litre: Texts = &[("ask", BY_VOLUME), ("C_1", "1"), ("C_2", "2")];
        for inputs in [&[("w_1", "30 %"), ("w_2", "40 %")], per_litre] {
            assert!(dilute(inputs).unwrap_err().reason.contains("above that of the stock"));
        }
    }

    #[test]
    fn half_strength_acid_boils_if_it_is_made_at_once() {
        // By hand from NBS TN 270 and Felder, table B.11: about 50 kJ/mol × 5.1 mol/kg over 2.6 kJ/(kg·K)
        // are nearly 100 K.
        assert!(dilute(&[("w_2", "50 %")]).unwrap_err().reason.contains("boil"));
        let warm = dilute(&[("w_2", "30 %")]).unwrap();
        assert!(number(&warm, "T", CELSIUS) > 60.0);
        assert!(warm.findings.iter().any(|f| f.at == "T" && f.weight >= Weight::Caution));
        assert!(warm.order.iter().any(|step| step.text.contains("never water into acid")));
    }

    /// Both ways of asking are one law: 1 mol/L of a stock of 5 mol/L by volume, and by its mass %.
    #[test]
    fn by_volume_and_by_mass_agree() {
        let by_volume = dilute(&[("ask", BY_VOLUME), ("C_1", "5"), ("C_2", "1"), ("V_2", "10")]).unwrap();
        assert!((number(&by_volume, "V_1", L) - 2.0).abs() < 1e-12);
        assert!((number(&by_volume, "V", L) - 10.0).abs() < 1e-6);
        assert!((number(&by_volume, "C", MOL_PER_L) - 1.0).abs() < 1e-6);
    }

    #[test]
    fn what_is_not_known_of_another_liquid_is_asked_for() {
        let stop = dilute(&[("what", OTHER)]).unwrap_err();
        assert!(stop.todo && stop.at == Some("ρ_1"), "{stop:?}");
        let inputs: Texts = &[("what", OTHER), ("ask", MIX), ("ρ_1", "1.2"), ("ρ_0", "1.0"), ("ρ_2", "1.1")];
        assert!((number(&dilute(inputs).unwrap(), "V", L) - 20.0).abs() < 1e-9);
    }
}
