//! How strong a solution is, in every measure of it: from the label, from what was weighed in, or as it is wanted.

use crate::calculator::{
    Calculator, Example, Input, Picture, Refuse, Stop, Subject, When, Work, choice, input, note, output,
};
use crate::quantity::Q;
use crate::science::dilution::{mass_of_molarity, molarity_of_mass, strength_after};
use crate::science::formula::Formula;
use crate::science::solutions::{
    self, known_solute, mass_concentration, mass_fraction, mass_fraction_of_amount, molarity,
};
use crate::units::{CELSIUS, G_PER_L, GRAM, KG, KG_PER_L, L, MASS_PERCENT, ML, MOL, MOL_PER_L, NUMBER, Unit};

const BY_MASS: &str = "% by mass";
const GRAMS: &str = "grams in a litre";
const MOLES: &str = "mol in a litre";
const WEIGHED: &str = "a mass made up to a volume";
const IN_WATER: &str = "mol in a mass of water";
const KNOWN: &str = "from the solution model";
const TYPED: &str = "typed";

const fn given(
    symbol: &'static str,
    label: &'static str,
    unit: &'static Unit,
    hard: [f64; 2],
    way: &'static [&'static str],
) -> Input {
    input(symbol, label, unit, hard, hard).needed().group("Strength").when(When::Is("given", way))
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "strength",
    title: "Strength of a solution",
    question: "How strong is it, in % by mass, in grams and in moles a litre?",
    subject: Subject::Mixing,
    quick: true,
    from_start: false,
    inputs: &[
        note("formula", "What is dissolved").help("Its formula, as it is counted: H2SO4, NaOH, CuSO4·5H2O."),
        choice(
            "given",
            "Strength given as",
            NUMBER,
            &[(BY_MASS, 0.0), (GRAMS, 0.0), (MOLES, 0.0), (WEIGHED, 0.0), (IN_WATER, 0.0)],
        )
        .group("Strength")
        .help("As on the label. Equivalents (N) are not moles."),
        given("w_0", "Share in the solution, by mass", MASS_PERCENT, [1e-6, 100.0], &[BY_MASS])
            .help("Grams in a hundred grams of the solution."),
        given("c_0", "Mass in a litre", G_PER_L, [1e-6, 2500.0], &[GRAMS])
            .help("Of the solution, not of water."),
        given("C_0", "Amount in a litre", MOL_PER_L, [1e-9, 50.0], &[MOLES])
            .help("Of the solution, not of water."),
        given("m_0", "Weighed in", GRAM, [1e-6, 1e9], &[WEIGHED])
            .help("With its water of hydration, if the formula has it."),
        given("V_0", "Made up to", L, [1e-6, 1e6], &[WEIGHED]).help("The volume at the end, to the mark."),
        given("n_0", "Amount dissolved", MOL, [1e-9, 1e9], &[IN_WATER]).help("Of what is dissolved."),
        given("m_w", "Water that it is put into", KG, [1e-6, 1e6], &[IN_WATER])
            .help("The water that it is put into; what it brings along is not counted."),
        choice("by", "Density of the solution", NUMBER, &[(KNOWN, 0.0), (TYPED, 0.0)])
            .group("Density")
            .help("The model knows the common acids, bases and salts; a measured density is better."),
        input("ρ_0", "Measured density", KG_PER_L, [0.6, 3.0], [0.8, 1.9])
            .needed()
            .group("Density")
            .help("From the label or a hydrometer.")
            .when(When::Is("by", &[TYPED])),
        input("T_v", "Temperature of the solution", CELSIUS, [5.0, 60.0], [15.0, 30.0])
            .usually(20.0)
            .group("Density")
            .help("Volumes are meant at this temperature."),
        input("V", "Volume to work out the mass for", L, [1e-6, 1e6], [0.1, 5000.0])
            .usually(1.0)
            .group("And then")
            .help("How much of the substance so much of the solution holds."),
        input("V_1", "Portion to dilute", ML, [0.001, 1e9], [0.1, 1000.0])
            .optional()
            .group("And then")
            .help("Of this solution, made up to the next volume."),
        input("V_2", "The portion is made up to", ML, [0.001, 1e9], [1.0, 10_000.0])
            .optional()
            .group("And then")
            .help("The volume at the end, to the mark."),
    ],
    tables: &[],
    outputs: &[
        output("C", "Amount in a litre", MOL_PER_L),
        output("c", "Mass in a litre", G_PER_L).beside(),
        output("w", "Share by mass", MASS_PERCENT).beside(),
        output("ρ", "Density of the solution", KG_PER_L),
        output("M", "Grams in a mol", crate::units::G_PER_MOL),
        output("m", "Mass in the volume", KG),
        output("C_d", "After the dilution", MOL_PER_L).missing("type both volumes of the dilution"),
    ],
    picture: Some(Picture { across: "w_0", up: "C" }),
    work_order: None,
    recipes: &[],
    cautions: &[],
    sources: &[
        "Definitions of mass fraction, concentration and molality. Molar masses: IUPAC standard atomic weights 2021, abridged.",
        "Density of solutions: Laliberté, J. Chem. Eng. Data 54 (2009) 1725; strong sulfuric acid: table of the public atmospheric model CARMA.",
    ],
    examples: &[
        Example {
            source: "By hand: 9.81 g of H2SO4 (98.07 g/mol) in a litre are 0.1000 mol/L; at 1.0050 kg/L 0.976 % by mass",
            inputs: &[
                ("formula", "H2SO4"),
                ("given", GRAMS),
                ("c_0", "9.81 g/L"),
                ("by", TYPED),
                ("ρ_0", "1.0050 kg/L"),
            ],
            rows: &[],
            answers: &[("C", "0.10003 mol/L"), ("w", "0.97612 %"), ("m", "9.81 g")],
            within: 1e-3,
        },
        Example {
            source: "Label of concentrated hydrochloric acid, 37 % and 1.18 kg/L: 12.0 mol/L (handbook tables, from memory)",
            inputs: &[("formula", "HCl"), ("w_0", "37 %"), ("by", TYPED), ("ρ_0", "1.18 kg/L")],
            rows: &[],
            answers: &[("C", "11.97 mol/L"), ("c", "436.6 g/L")],
            within: 1e-3,
        },
        Example {
            source: "thermo 0.6.1 (Laliberté): 30 % sulfuric acid at 20 °C is 1.2192 kg/L",
            inputs: &[("formula", "H2SO4"), ("w_0", "30 %")],
            rows: &[],
            answers: &[("ρ", "1.2192 kg/L")],
            within: 1e-3,
        },
        Example {
            source: "By hand: 24.968 g of CuSO4·5H2O (249.68 g/mol) to 1 L are 0.1 mol/L, and 10 mL of it to 100 mL 0.01",
            inputs: &[
                ("formula", "CuSO4·5H2O"),
                ("given", WEIGHED),
                ("m_0", "24.9680 g"),
                ("V_0", "1 L"),
                ("V_1", "10 mL"),
                ("V_2", "100 mL"),
            ],
            rows: &[],
            answers: &[("C", "0.1 mol/L"), ("C_d", "0.01 mol/L")],
            within: 1e-3,
        },
        Example {
            source: "By hand: 1 mol of NaOH (39.997 g) in a kilogram of water is 39.997/1039.997 = 3.8459 %",
            inputs: &[("formula", "NaOH"), ("given", IN_WATER), ("n_0", "1 mol"), ("m_w", "1 kg")],
            rows: &[],
            answers: &[("w", "3.8459 %")],
            within: 1e-3,
        },
    ],
    work,
};

fn work(w: &mut Work) -> Result<(), Stop> {
    let top = w.top();
    let text = w.text(&top, "formula")?;
    if text.is_empty() {
        return Err(Stop::todo("formula", "what is dissolved is still to be typed", "Type its formula."));
    }
    let formula = Formula::read(&text).or_stop("formula")?;
    let molar_mass = w.answer("M", formula.molar_mass())?;
    let (share, per_litre) = match w.word(&top, "given")? {
        BY_MASS => (Some(w.inputs(["w_0"])?[0]), None),
        GRAMS => (None, Some(w.inputs(["c_0"])?[0])),
        MOLES => {
            let [c] = w.inputs(["C_0"])?;
            (None, Some(w.step("c_m", "By mass", G_PER_L, c * molar_mass)?))
        }
        WEIGHED => {
            let [m, v] = w.inputs(["m_0", "V_0"])?;
            let c = molarity_of_mass(m, molar_mass, v).or_stop("V_0")?;
            let c = w.step("C_m", "Amount in a litre of it", MOL_PER_L, c)?;
            (None, Some(w.step("c_m", "By mass", G_PER_L, c * molar_mass)?))
        }
        _ => {
            let [n, water] = w.inputs(["n_0", "m_w"])?;
            (Some(mass_fraction_of_amount(n, molar_mass, water).or_stop("n_0")?), None)
        }
    };
    let density = density(w, &formula, share, per_litre)?;
    let density = w.answer("ρ", density)?;
    let (amount, at) = match (share, per_litre) {
        (Some(share), _) => (molarity(share, density, molar_mass).or_stop("w_0")?, "w_0"),
        (None, Some(c)) => (c / molar_mass, "c_0"),
        (None, None) => return Err(Stop::fault("no strength is given")),
    };
    let amount = w.answer("C", amount)?;
    let share = match share {
        Some(share) => share,
        None => mass_fraction(amount, density, molar_mass).or_stop("by")?,
    };
    let share = w.answer("w", share)?;
    w.answer("c", mass_concentration(share, density).or_stop(at)?)?;
    let [v] = w.inputs(["V"])?;
    w.answer("m", mass_of_molarity(amount, v, molar_mass).or_stop("V")?)?;
    if let (Some(portion), Some(makes)) = (w.optional(&top, "V_1")?, w.optional(&top, "V_2")?) {
        w.answer("C_d", strength_after(amount, portion, makes).or_stop("V_2")?)?;
    }
    Ok(())
}

/// As typed, or from the model by the anhydrous share.
fn density(w: &mut Work, formula: &Formula, share: Option<Q>, per_litre: Option<Q>) -> Result<Q, Stop> {
    if w.word(&w.top(), "by")? == TYPED {
        return Ok(w.inputs(["ρ_0"])?[0]);
    }
    let [t] = w.inputs(["T_v"])?;
    let solute = known_solute(formula).or_stop("by")?;
    let anhydrous = formula.anhydrous_molar_mass() / formula.molar_mass();
    match (share, per_litre) {
        (Some(share), _) => solutions::density(&[(solute, share * anhydrous)], t).or_stop("by"),
        (_, Some(c)) => solutions::density_of_concentrations(&[(solute, c * anhydrous)], t).or_stop("by"),
        _ => Err(Stop::fault("no strength is given")),
    }
}
