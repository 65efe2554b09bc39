//! Water that is brought to a pH and the reagent that does it: what the sheets of treatment ask for alike.

use super::{CLASSES, UNKNOWN, class_of, ph::bottles::NAMES, routes};
use crate::calculator::{Input, Output, Refuse, Row, Severity, Stop, When, Work, choice, input, output};
use crate::quantity::Q;
use crate::science::formula::Formula;
use crate::science::neutralisation::{TOLD, by_equivalents, none, reagent_for, strong_acid_at};
use crate::science::ph::substance::{Ion, Partner};
use crate::science::ph::{Activities, Portion, Reagent, SUBSTANCES, Solution, Substance, known};
use crate::science::segregation::{Class, acid_frees, must_not_meet};
use crate::science::{elements, lime, solutions};
use crate::units::{CELSIUS, G_PER_L, G_PER_MOL_METAL, KG_PER_L, MASS_PERCENT, MOL_PER_L, NUMBER, Value};

/// The acidity is given as the pH of water whose acid is strong.
pub const BY_PH: &str = "its pH: strong acid or base alone";
/// The acidity is given as what is dissolved.
pub const BY_NAME: &str = "what is dissolved";
const GRAMS: &str = "g/L";
const MOLES: &str = "mol/L";
/// The strength of the stock is an amount.
pub const STOCK_MOLES: &str = "in mol/L";
/// The strength of the stock is a mass in a volume.
pub const STOCK_GRAMS: &str = "in g/L";
/// The strength of the stock is by mass.
pub const STOCK_SHARE: &str = "in % by mass";
/// How the strength of a liquid may be given.
pub const STRENGTHS: &[(&str, f64)] = &[(STOCK_MOLES, 0.0), (STOCK_GRAMS, 0.0), (STOCK_SHARE, 0.0)];
/// What raises.
pub const BASES: &[(&str, f64)] = &[("Sodium hydroxide", 1.0), (POTASH, 1.0), (SODA, 2.0), (LIME, 2.0)];
/// Its heat of dilution is in no table here.
pub const POTASH: &str = "Potassium hydroxide";
/// Carbonate: it foams, and its heat is another.
pub const SODA: &str = "Sodium carbonate";
/// Lime: a slurry, slow, and gypsum with sulfate.
pub const LIME: &str = "Calcium hydroxide";
/// What lowers.
pub const ACIDS: &[(&str, f64)] = &[("Sulfuric acid", 2.0), ("Hydrochloric acid", 1.0)];
/// Strong acids and bases, with the hydrogen ions that one gives off; less than none is hydroxide.
const STRONG: &[(&str, f64)] = &[
    ("Sulfuric acid", 2.0),
    ("Hydrochloric acid", 1.0),
    ("Nitric acid", 1.0),
    ("Methanesulfonic acid", 1.0),
    ("Sulfamic acid", 1.0),
    ("Sodium hydrogensulfate", 1.0),
    ("Sodium hydroxide", -1.0),
    ("Potassium hydroxide", -1.0),
    ("Sodium chloride", 0.0),
    ("Sodium sulfate", 0.0),
];
/// Where what is left free is nothing beside the amount taken up.
const BY_AMOUNT: [f64; 2] = [4.0, 11.0];
/// The table of what is dissolved.
pub const DISSOLVED: &str = "acids";
/// The table of what arrives.
pub const ARRIVING: &str = "arriving";

/// What the route is for.
pub const fn kind() -> Input {
    choice("kind_r", "What the route is for", crate::units::MG_PER_L_METAL, routes::KINDS)
        .starts_at(1)
        .follows(&[("route", "kind")])
        .group("Water")
        .help("What must not meet the reagent is refused by it, and by the classes of the streams below.")
}

/// The classes of what arrives.
pub const CLASS_OF_STREAM: Input = choice("class_s", "Class", NUMBER, CLASSES)
    .starts_at(UNKNOWN)
    .follows(&[("route", "class")])
    .help("Follows the stream by way of the route.");

/// How the acidity is given.
pub const fn given() -> Input {
    choice("given", "Acidity is given as", NUMBER, &[(BY_PH, 0.0), (BY_NAME, 0.0)])
        .group("Water")
        .help("A pH tells strong acid alone: weak ones and what buffers hold far more, and strong acid of bath strength goes by amount.")
}

/// The pH of the water.
pub const fn ph_in() -> Input {
    input("pH_0", "pH of the water", NUMBER, TOLD, [1.0, 12.0])
        .needed()
        .group("Water")
        .help("As it comes, all streams mixed. Below 0.5 give what is dissolved.")
        .when(When::Is("given", &[BY_PH]))
}

/// In a row of what is dissolved: its unit.
pub const fn unit_of_acid() -> Input {
    choice("as_a", "Given in", NUMBER, &[(GRAMS, 0.0), (MOLES, 0.0)])
        .help("Of the substance itself, in the mixed water.")
        .when(When::Is("given", &[BY_NAME]))
}

/// By mass.
pub const fn acid_by_mass() -> Input {
    input("c_a", "In the water", G_PER_L, [0.0, 1000.0], [0.0, 100.0])
        .needed()
        .help("Of the pure substance: of sulfuric acid, H2SO4.")
        .when(When::Is("as_a", &[GRAMS]))
}

/// By amount.
pub const fn acid_by_amount() -> Input {
    input("C_a", "In the water", MOL_PER_L, [0.0, 20.0], [0.0, 1.0])
        .needed()
        .help("Of the pure substance; not equivalents.")
        .when(When::Is("as_a", &[MOLES]))
}

/// Names to offer for what is dissolved.
pub const DISSOLVED_NAMES: &[&str] = NAMES;

/// The amount in the water.
pub const AMOUNT: Output = output("C_0", "Amount in the water", MOL_PER_L).missing("the pH alone is given");

/// The base.
pub const fn base() -> Input {
    choice("up", "Base that raises", NUMBER, BASES).group("Reagent").help(
        "Calcium hydroxide is hydrated lime, as a slurry: with sulfate it makes gypsum, which is sludge too.",
    )
}

/// How its strength is given.
pub const fn strength_as() -> Input {
    choice("as_b", "Strength of the stock is given", NUMBER, STRENGTHS)
        .group("Reagent")
        .help("Of the liquid in the reagent’s container.")
}

/// In mol/L.
pub const fn strength_by_amount() -> Input {
    input("C_b", "Strength of the stock", MOL_PER_L, [0.001, 30.0], [0.1, 20.0])
        .needed()
        .group("Reagent")
        .help("mol/L of the substance; not equivalents.")
        .when(When::Is("as_b", &[STOCK_MOLES]))
}

/// In g/L.
pub const fn strength_by_mass() -> Input {
    input("c_b", "Strength of the stock", G_PER_L, [0.05, 2000.0], [5.0, 1000.0])
        .needed()
        .group("Reagent")
        .help("Of the pure substance in a litre of the stock.")
        .when(When::Is("as_b", &[STOCK_GRAMS]))
}

/// By mass.
pub const fn strength_by_share() -> Input {
    input("w_b", "Strength of the stock", MASS_PERCENT, [0.01, 98.0], [1.0, 96.0])
        .needed()
        .group("Reagent")
        .help("By mass, from the label: 10, 25 or 50 % caustic are usual.")
        .when(When::Is("as_b", &[STOCK_SHARE]))
}

/// Its density.
pub const fn density() -> Input {
    input("ρ_b", "Density of the stock", KG_PER_L, [0.8, 2.5], [0.95, 1.9])
        .optional()
        .group("Reagent")
        .help("Left out, the density of the pure substance in water at 20 °C.")
        .when(When::Is("as_b", &[STOCK_SHARE]))
}

/// Sulfate in the water, for the gypsum of lime.
pub const fn sulfate() -> Input {
    input("c_4", "Sulfate in the water", G_PER_L, [0.0, 1000.0], [0.0, 100.0])
        .optional()
        .group("Reagent")
        .help("Of acids and salts together. Left out, that of the acid and the salts named below, without that of the metals’ own salts.")
        .when(When::Is("up", &[LIME]))
}

/// Why there is no gypsum.
pub const NO_GYPSUM: &str = "only with lime, where the sulfate in the water is known";

/// Metal in the water.
pub const fn metal_in() -> Input {
    input("c_m", "In the water", crate::units::MG_PER_L_METAL, [0.0, 100_000.0], [0.0, 5000.0])
        .needed()
        .follows(&[("route", "c_mean")])
        .help("Mean of the route, or as measured.")
}

/// What asks for the strength of a liquid: the inputs, and the steps of the working.
pub struct Strength {
    /// How it is given, one of [`STRENGTHS`].
    pub given: &'static str,
    /// In mol/L.
    pub moles: &'static str,
    /// In g/L.
    pub grams: &'static str,
    /// In % by mass.
    pub share: &'static str,
    /// Its density, if typed.
    pub density: &'static str,
    /// The steps of density and strength.
    pub steps: [&'static str; 2],
    /// What the liquid is called.
    pub called: &'static str,
}

const STOCK: Strength = Strength {
    given: "as_b",
    moles: "C_b",
    grams: "c_b",
    share: "w_b",
    density: "ρ_b",
    steps: ["ρ_r", "C_r"],
    called: "the stock",
};

impl Strength {
    /// The strength in mol/L, and the share by mass where that is how it is given.
    pub fn read(&self, w: &mut Work, substance: &Substance) -> Result<(Q, Option<Q>), Stop> {
        let top = w.top();
        let (given, grams, by_mass) = (self.given, self.grams, self.share);
        let [density_step, strength_step] = self.steps;
        let molar_mass = substance.molar_mass().or_stop(given)?;
        let word = w.word(&top, given)?;
        let (strength, share) = match word {
            STOCK_SHARE => {
                let solute = solutions::solute(&Formula::read(substance.formula).or_stop(given)?);
                let [share] = w.inputs([by_mass])?;
                let density = match (w.optional(&top, self.density)?, solute) {
                    (Some(typed), _) => typed,
                    (None, Some(solute)) => {
                        let at_20 = Q::constant("20 °C", 20.0, CELSIUS);
                        let found = solutions::density(&[(solute, share)], at_20).or_stop(by_mass)?;
                        w.step(density_step, &format!("Density of {}", self.called), KG_PER_L, found)?
                    }
                    (None, None) => {
                        let reason = format!("no density of {} is known here", substance.name);
                        return Err(Stop::todo(self.density, reason, "Type it, from the label."));
                    }
                };
                (solutions::molarity(share, density, molar_mass).or_stop(by_mass)?, Some(share))
            }
            STOCK_GRAMS => (w.inputs([grams])?[0] / molar_mass, None),
            _ => (w.inputs([self.moles])?[0], None),
        };
        let label = format!("Strength of {}", self.called);
        Ok((w.step(strength_step, &label, MOL_PER_L, strength)?, share))
    }
}

/// A stock of reagent.
pub struct Stock {
    /// What is in it.
    pub substance: &'static Substance,
    /// Its molar mass.
    pub molar_mass: Q,
    /// Hydrogen ions, or hydroxide, that one takes up.
    pub takes_up: f64,
    /// Its strength, mol/L.
    pub strength: Q,
    /// Its strength by mass, where it is known.
    pub share: Option<Q>,
}

impl Stock {
    /// Reads it; `symbol` is the choice of what it is.
    pub fn read(w: &mut Work, symbol: &'static str) -> Result<Stock, Stop> {
        let top = w.top();
        let name = w.word(&top, symbol)?;
        let lime = (name == LIME).then_some(&lime::LIME);
        let substance =
            lime.or_else(|| known(name)).ok_or_else(|| Stop::fault(format!("{name} is not known")))?;
        let [takes_up] = w.inputs([symbol])?;
        let molar_mass = substance.molar_mass().or_stop(symbol)?;
        let (strength, share) = STOCK.read(w, substance)?;
        if share.is_some() {
            return Ok(Stock { substance, molar_mass, takes_up: takes_up.si, strength, share });
        }
        let solute = solutions::solute(&Formula::read(substance.formula).or_stop(symbol)?);
        let at_20 = Q::constant("20 °C", 20.0, CELSIUS);
        let mass = strength * molar_mass;
        let density =
            solute.and_then(|solute| solutions::density_of_concentrations(&[(solute, mass)], at_20).ok());
        Ok(Stock {
            substance,
            molar_mass,
            takes_up: takes_up.si,
            strength,
            share: density.map(|rho| mass / rho),
        })
    }

    /// Whether it is lime.
    pub fn is_lime(&self) -> bool {
        self.substance.name == LIME
    }

    /// As a reagent of the pH law.
    pub fn reagent(&self) -> Reagent<'static> {
        Reagent { substance: self.substance, strength: Some(self.strength) }
    }
}

/// The water as it comes.
pub struct Water {
    /// What is dissolved, but for metals, and how much of it.
    pub holds: Vec<(&'static Substance, Q)>,
    /// Its temperature.
    pub t: Q,
    /// Its pH, where it is told by one.
    pub ph: Q,
    /// Whether it is so strong that it goes by amount.
    pub is_strong: bool,
}

impl Water {
    /// Reads it.
    pub fn read(w: &mut Work, t: Q) -> Result<Water, Stop> {
        let top = w.top();
        if w.word(&top, "given")? == BY_PH {
            let [ph] = w.inputs(["pH_0"])?;
            let acid = w.step(
                "C_s",
                "Strong acid, negative if base",
                MOL_PER_L,
                strong_acid_at(ph, t).or_stop("pH_0")?,
            )?;
            let (name, c) =
                if acid.si < 0.0 { ("Potassium hydroxide", -acid) } else { ("Hydrochloric acid", acid) };
            let substance = known(name).ok_or_else(|| Stop::fault(format!("{name} is not known")))?;
            return Ok(Water { holds: vec![(substance, c)], t, ph, is_strong: false });
        }
        let mut holds = Vec::new();
        for row in w.rows(DISSOLVED)? {
            holds.push(dissolved(w, &row)?);
        }
        if holds.is_empty() {
            return Err(Stop::todo("given", "nothing is dissolved yet", "Add an acid or a base below."));
        }
        let ph = Solution::new(portions(&holds), t, Activities::Counted).or_stop("T")?.ph();
        Ok(Water { holds, t, ph, is_strong: !(TOLD[0]..=TOLD[1]).contains(&ph.si) })
    }

    /// Strong acid in it less strong base; `None` where something else is dissolved too.
    pub fn equivalents(&self) -> Option<f64> {
        let each = |(substance, c): &(&'static Substance, Q)| {
            let known = STRONG.iter().find(|(name, _)| *name == substance.name)?;
            Some(c.si * known.1)
        };
        self.holds.iter().map(each).sum()
    }

    /// For the laws of pH.
    pub fn portions(&self) -> Vec<Portion<'static>> {
        portions(&self.holds)
    }

    /// Reagent to a litre that brings it to a pH while `metals` (in hydroxide) fall.
    pub fn reagent(
        &self,
        w: &mut Work,
        stock: &Stock,
        metals: Q,
        target: Q,
        at: &'static str,
    ) -> Result<Q, Stop> {
        if stock.is_lime() && target.si > lime::HIGHEST_PH {
            let reason = format!("lime dissolves too little to be sure of a pH above {}", lime::HIGHEST_PH);
            return Err(Stop::at(at, reason, "Take caustic, or a lower pH."));
        }
        if !self.is_strong {
            return reagent_for(self.portions(), metals, stock.reagent(), target, self.t).or_stop(at);
        }
        if !(BY_AMOUNT[0]..=BY_AMOUNT[1]).contains(&target.si) {
            let reason = format!(
                "so strong an acid or base goes by amount, and that ends between pH {} and {}",
                BY_AMOUNT[0], BY_AMOUNT[1]
            );
            return Err(Stop::at(at, reason, "Take a pH between them."));
        }
        let mut ions = if metals.si > 0.0 { vec![metals] } else { Vec::new() };
        for (substance, c) in &self.holds {
            let each = STRONG.iter().find(|(name, _)| *name == substance.name).ok_or_else(|| {
                let reason = format!("{} beside so strong an acid is not told by amount", substance.name);
                Stop::at("given", reason, "Titrate the water, and give the strong acid that it comes to.")
            })?;
            ions.push(*c * each.1);
        }
        let is_base = BASES.iter().any(|(name, _)| *name == stock.substance.name);
        let ions: Q = ions.into_iter().sum();
        let ions =
            w.step("C_e", "Taken up, in hydrogen ions", MOL_PER_L, if is_base { ions } else { -ions })?;
        if ions.si <= 0.0 {
            return Err(Stop::at(
                at,
                "the reagent pulls the other way",
                "Take the one that pulls towards the pH wanted.",
            ));
        }
        by_equivalents(ions, 1.0, stock.takes_up).or_stop(at)
    }
}

/// Gypsum that falls as lime meets sulfate, in a litre of the water with its reagent, and the sulfate left there;
/// `None` with another reagent, or where the sulfate is not known. `n` reagent to a litre of the water as it comes.
pub fn gypsum(w: &mut Work, water: &Water, stock: &Stock, n: Q) -> Result<Option<(Q, Q)>, Stop> {
    if !stock.is_lime() {
        return Ok(None);
    }
    let top = w.top();
    let molar_mass = Formula::read("SO4").or_stop("c_4")?.molar_mass();
    let is_named = w.word(&top, "given")? == BY_NAME;
    let has_sulfate = |substance: &Substance| substance.formula.contains("SO4");
    let named = || water.holds.iter().filter(|(substance, _)| has_sulfate(substance)).map(|(_, c)| *c);
    let sulfate = match w.optional(&top, "c_4")? {
        Some(typed) => typed / molar_mass,
        None if is_named => named().fold(none(), |sum, c| sum + c),
        None => {
            let text = "With sulfate lime makes gypsum, which is sludge and scale. Type the sulfate, or give what is dissolved.";
            w.add_finding(&top, "c_4", Severity::Caution, text);
            return Ok(None);
        }
    };
    let thinned = 1.0 / (1.0 + n / stock.strength);
    let calcium = w.step("C_Ca", "Calcium of the lime in the mixture", MOL_PER_L, n * thinned)?;
    let sulfate = w.step("C_S", "Sulfate in the mixture", MOL_PER_L, sulfate * thinned)?;
    // What is neither calcium nor sulfate: ions by name, or at least those that their charges call for.
    let by_charge = (calcium - sulfate).max(sulfate - calcium);
    let of = |(substance, c): &(&Substance, Q)| {
        let squares = |ion: &Ion| f64::from(ion.charge).powi(2) * ion.count;
        *c * thinned * (0.5 * substance.ions.iter().map(squares).sum::<f64>())
    };
    let sodium_in = |(substance, c): &(&Substance, Q)| {
        let ions = substance.ions.iter().filter(|ion| ion.partner == Some(Partner::Sodium));
        *c * thinned * ions.map(|ion| ion.count).sum::<f64>()
    };
    let (others, sodium) = if is_named {
        let others = water.holds.iter().map(of).fold(none(), |sum, c| sum + c);
        (others.max(by_charge), water.holds.iter().map(sodium_in).fold(none(), |sum, c| sum + c))
    } else {
        (by_charge, none().max(2.0 * (sulfate - calcium)))
    };
    let others = w.step("I_o", "Ionic strength of all other ions", MOL_PER_L, others)?;
    let sodium = w.step("C_Na", "Sodium in the mixture", MOL_PER_L, sodium)?;
    let falls = lime::gypsum(calcium, sulfate, sodium, others, water.t).or_stop("T")?;
    let falls = w.step("C_g", "Gypsum that falls, of the mixture", MOL_PER_L, falls)?;
    if falls.si > 0.0 {
        let text = "Gypsum falls: it is sludge beside the hydroxide, and goes on falling as scale in pipes, pumps and probes.";
        w.add_finding(&top, "m_g", Severity::Caution, text);
    }
    let gypsum = falls * Formula::read("CaSO4·2H2O").or_stop("c_4")?.molar_mass();
    Ok(Some((gypsum, (sulfate - falls) * molar_mass)))
}

fn portions(holds: &[(&'static Substance, Q)]) -> Vec<Portion<'static>> {
    holds.iter().map(|(substance, c)| Portion { substance, c: *c }).collect()
}

fn dissolved(w: &mut Work, row: &Row) -> Result<(&'static Substance, Q), Stop> {
    let name = row.key.trim();
    let found = SUBSTANCES.iter().find(|known| known.name.eq_ignore_ascii_case(name));
    let substance = found.ok_or_else(|| {
        Stop::at("as_a", format!("“{name}” is not known by its name"), "Take a name of the list.")
            .row(&row.key)
    })?;
    let c = if w.word(row, "as_a")? == GRAMS {
        w.of(row, ["c_a"])?[0] / substance.molar_mass().or_stop_row("c_a", &row.key)?
    } else {
        w.of(row, ["C_a"])?[0]
    };
    Ok((substance, w.give(row, "C_0", c)?))
}

/// The molar mass of a metal, as a mass of metal.
pub fn molar_mass(metal: &str) -> Result<Q, Stop> {
    let weight = elements::weight(metal).ok_or_else(|| Stop::fault(format!("{metal} has no weight")))?;
    Ok(Q::named(format!("M({metal})"), Value::new(weight, G_PER_MOL_METAL)))
}

/// No hydroxide.
pub fn nothing() -> Q {
    none()
}

/// What the route carries, by what it is for and by what arrives; unknown where nobody says it.
fn carried(w: &Work) -> Result<Vec<(String, Class)>, Stop> {
    let kind = w.word(&w.top(), "kind_r")?;
    let route = |class| (format!("the route “{kind}”"), class);
    let mut carried: Vec<_> = routes::carries(kind).map(route).into_iter().collect();
    for row in w.rows(ARRIVING)? {
        carried.push((row.key.to_string(), class_of(w.word(&row, "class_s")?)));
    }
    if carried.is_empty() {
        carried.push(route(Class::Unknown));
    }
    Ok(carried)
}

/// Whether a class is among what the route carries.
pub fn carries(w: &Work, class: Class) -> Result<bool, Stop> {
    Ok(carried(w)?.iter().any(|(_, carried)| *carried == class))
}

/// Refuses a reagent of a class that must not meet what the route carries.
pub fn refuse_what_must_not_meet(w: &Work, adds: Class) -> Result<(), Stop> {
    for (name, class) in carried(w)? {
        let found = match adds {
            Class::Acid => acid_frees(class),
            _ => must_not_meet(class, adds).map(|conflict| (conflict.consequence, conflict.source)),
        };
        let Some((consequence, source)) = found else { continue };
        let reason =
            format!("no {} is added to {name} ({}): {consequence} ({source})", adds.name(), class.name());
        let remedy = "Nothing is worked out for this. Treat it apart, by a treatment made for its class; a licensed person decides.";
        return Err(Stop::at("kind_r", reason, remedy));
    }
    Ok(())
}
