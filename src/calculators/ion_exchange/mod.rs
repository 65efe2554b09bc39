//! Ion exchange: how long a resin lasts on a route's water, what size of column that takes, what leaks, and
//! what becomes of the metal that it holds.
//!
//! - this file: the declaration;
//! - [`sum`]: load, run, column and curve;
//! - [`meets`]: what must not reach a resin;
//! - [`regeneration`]: exchange service, or regenerant and rinses;
//! - [`examples`]: worked examples with known answers.

mod examples;
mod meets;
mod regeneration;
mod sum;
#[cfg(test)]
mod tests;

use super::CLASSES;
use super::routes::{self, KINDS};
use crate::calculator::Severity::{Caution as Look, Note, Serious};
use crate::calculator::{Calculator, Caution, Input, Picture, Subject, Table, When, choice, input, output};
use crate::science::{ion_exchange, metals};
use crate::units::{
    BED_VOLUMES_PER_HOUR, CELSIUS, DAYS, EQ_PER_DAY, EQ_PER_L, G_METAL, G_PER_DAY_METAL, G_PER_L, HOUR, KG,
    KG_PER_DAY, KG_PER_L, KPA, L, L_PER_DAY, L_PER_EQ_H, L_PER_H, M, M_PER_H, MEQ_PER_L, MG_PER_L,
    MG_PER_L_METAL, MINUTE, MM, MONEY, NUMBER, PER_HOUR, PERCENT,
};

const NO: &str = "no";
const YES: &str = "yes";
const NONE: &str = "none";
const FILTER: &str = "a filter before the column";
const CHELATING: &str = "chelating, for metals (iminodiacetate)";
const STRONG: &str = "strong acid";
const WEAK: &str = "weak acid";
const ANION: &str = "strong base, for metal in cyanide";
const SODIUM: &str = "sodium";
const HYDROGEN: &str = "hydrogen";
const ONE: &str = "one column";
const LEAD_LAG: &str = "lead and lag";
const FIRM: &str = "firmly held: Bohart and Adams, Thomas";
const LOOSE: &str = "loosely held: Klinkenberg";
pub(super) const EXCHANGE: &str = "resin is taken away and exchanged";
pub(super) const HERE: &str = "regenerated here";
const HCL: &str = "hydrochloric acid";
const H2SO4: &str = "sulfuric acid";

const AS_IT_COMES: &str = "as it comes on the route";
const BEHIND: &str = "behind its precipitation";
const IS_BEHIND: When = When::Is("behind", &[BEHIND]);

const OTHERS: &str = "others";
const STREAMS: &str = "streams";

const WATER: &str = "Water";
const RESIN: &str = "Resin and columns";
const PH: &str = "pH before and after";
const CURVE: &str = "Breakthrough curve";
const AFTER: &str = "When it is full";
const BACKWASH: &str = "Backwash";
const NEEDS_BEADS: &str = "the density of the beads";
const NEEDS_BOTH: &str = "the density of the beads, and the bore of the column";
const IS_HERE: When = When::Is("service", &[HERE]);
const NEEDS_BORE: &str = "the bore of the column";
const NEEDS_K: &str =
    "type the rate constant of a column test; there is none where the water keeps the aim as it is";
const NEEDS_REGENERATION: &str = "only where it is regenerated here";

const fn step(
    symbol: &'static str,
    label: &'static str,
    hard: [f64; 2],
    usual: [f64; 2],
    usually: f64,
) -> Input {
    input(symbol, label, NUMBER, hard, usual)
        .usually(usually)
        .group(AFTER)
        .help("In bed volumes: common practice, no source.")
        .when(IS_HERE)
}

const fn rate(symbol: &'static str, label: &'static str, usual: [f64; 2], usually: f64) -> Input {
    input(symbol, label, BED_VOLUMES_PER_HOUR, [0.1, 100.0], usual)
        .usually(usually)
        .group(AFTER)
        .help("Common practice, no source.")
        .when(IS_HERE)
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "ion-exchange",
    title: "Ion exchange",
    question: "How long does a resin column last on this water, and what comes out of it?",
    subject: Subject::Route,
    quick: true,
    from_start: false,
    inputs: &[
        choice("kind", "Route", MG_PER_L_METAL, KINDS)
            .starts_at(1)
            .follows(&[("route", "kind")])
            .group(WATER)
            .help("What the route is for, and so what its water may hold."),
        choice("ox", "Nitric acid, peroxide, persulfate or chlorine in it", NUMBER, &[(NO, 0.0), (YES, 0.0)])
            .group(WATER)
            .help("Any of these, from any stream. They attack resin, and strong nitric acid makes it burst into fire."),
        choice("behind", "Water reaches the column", NUMBER, &[(AS_IT_COMES, 0.0), (BEHIND, 0.0)])
            .group(WATER)
            .help("A column behind a precipitation takes off what hydroxide leaves dissolved."),
        input("Q", "Water a day", L_PER_DAY, [0.0, 1e8], [10.0, 1e6])
            .needed()
            .follows(&[("route", "Q_day")])
            .group(WATER)
            .help("On a working day, through the collecting tank."),
        input("Q_c", "Water from its precipitation", L_PER_DAY, [0.0, 1e9], [0.0, 1e6])
            .only_followed()
            .follows(&[("precipitation", "Q_out")])
            .if_known()
            .group(WATER)
            .help("Counts in place of the route’s.")
            .when(IS_BEHIND),
        input("s_c", "Solids that its precipitation leaves", MG_PER_L, [0.0, 1e5], [0.0, 100.0])
            .only_followed()
            .follows(&[("precipitation", "s_c")])
            .if_known()
            .group(WATER)
            .help("Count where no suspended solids are typed.")
            .when(IS_BEHIND),
        input("q_p", "Pump flow", L_PER_H, [0.001, 1e6], [1.0, 20_000.0])
            .optional()
            .group(WATER)
            .help("From the collecting tank to the column, while the pump runs. Left out, the water is spread over the hours of service."),
        input("hours", "Hours of service a day", HOUR, [0.1, 24.0], [4.0, 24.0])
            .usually(24.0)
            .from_site(&[("site", "hours")])
            .group(WATER)
            .help("Only for a pump flow that is left out."),
        input("ss", "Suspended solids", MG_PER_L, [0.0, 1e5], [0.0, 50.0])
            .optional()
            .group(WATER)
            .help("In the collecting tank. They clog a bed."),
        choice("filter", "Filter", NUMBER, &[(NONE, 0.0), (FILTER, 0.0)])
            .group(WATER)
            .help("Cartridge or bag, changed by its own pressure."),
        input("T", "Coldest water", CELSIUS, [0.0, 60.0], [5.0, 40.0])
            .usually(20.0)
            .group(WATER)
            .help("Cold water is thick: the pressure is worked out for it."),
        choice("resin", "Resin", NUMBER, &[(CHELATING, 0.0), (STRONG, 0.0), (WEAK, 0.0), (ANION, 0.0)])
            .group(RESIN)
            .help("Chelating resin holds the metals and lets sodium, calcium and acid pass; the others count all ions."),
        choice("form", "Delivered as", NUMBER, &[(SODIUM, 0.0), (HYDROGEN, 0.0)])
            .group(RESIN)
            .help("What it gives off for what it takes. Hydrogen makes the water acid.")
            .when(When::Not("resin", &[ANION])),
        input("q_T", "Total capacity", EQ_PER_L, [0.01, 10.0], [0.5, 4.5])
            .needed()
            .picks(&[("chelating", 1.2), ("strong acid", 2.0), ("weak acid", 3.8), ("strong base", 1.2)])
            .group(RESIN)
            .help("Of the settled bed, from the maker’s data. The picks are common practice, no source."),
        input("u", "Share of it used", PERCENT, [1.0, 100.0], [40.0, 70.0])
            .usually(60.0)
            .group(RESIN)
            .help("Before the metal comes through: 40 to 70 % is common practice, no source.")
            .when(When::Is("beds", &[ONE])),
        input("u_l", "Share of the lead’s used", PERCENT, [1.0, 100.0], [60.0, 100.0])
            .usually(90.0)
            .group(RESIN)
            .help("With a bed behind it, the lead is changed when it is nearly full, not at its own breakthrough.")
            .when(When::Is("beds", &[LEAD_LAG])),
        input("α", "Selectivity of the other ions", NUMBER, [0.0, 100.0], [0.05, 2.0])
            .usually(1.0)
            .group(RESIN)
            .help("Against the metals, in equivalents. 1 counts them in full; less where the resin prefers the metals.")
            .when(When::Not("resin", &[CHELATING])),
        choice("beds", "Columns", NUMBER, &[(ONE, 0.0), (LEAD_LAG, 0.0)])
            .group(RESIN)
            .help("Lead and lag: when the lead is full it goes out, the lag takes its place, and the fresh bed goes behind."),
        input("V_b", "Bed of one column", L, [0.01, 1e5], [1.0, 5000.0])
            .needed()
            .group(RESIN)
            .help("Settled resin, without the free room above it."),
        input("D", "Bore of the column", MM, [10.0, 10_000.0], [100.0, 2000.0])
            .optional()
            .group(RESIN)
            .help("Inside. Velocity, depth and pressure come from it."),
        input("S_w", "Service rate wanted", BED_VOLUMES_PER_HOUR, [0.1, 200.0], [5.0, 20.0])
            .usually(10.0)
            .group(RESIN)
            .help("5 to 20 bed volumes an hour for metal below 1 mg/L: common practice, no source. A US gal/(min·ft³) is 8.02 of them."),
        input("v_w", "Velocity wanted", M_PER_H, [0.1, 200.0], [10.0, 40.0])
            .usually(15.0)
            .group(RESIN)
            .help("10 to 40 m/h: common practice, no source."),
        input("d_p", "Size of the beads", MM, [0.05, 5.0], [0.3, 1.2])
            .usually(0.6)
            .group(RESIN)
            .help("Harmonic mean size, from the maker’s data."),
        input("ε", "Void between the beads", PERCENT, [10.0, 90.0], [33.0, 45.0])
            .usually(38.0)
            .group(RESIN)
            .help("Of the settled bed. 2 % more or less move the pressure by a fifth."),
        input("c_a", "Aim at the outlet, each metal", MG_PER_L_METAL, [1e-4, 1000.0], [0.05, 5.0])
            .usually(1.0)
            .group(RESIN)
            .help("1 mg/L is common practice, no source. Silver, lead and cadmium have lower published limits."),
        input("a", "Free acid", MEQ_PER_L, [0.0, 1e4], [0.0, 50.0])
            .optional()
            .group(PH)
            .help("By titration. Left out, it is what the pH says of a strong acid. It loads strong acid resin."),
        input("pH_i", "pH of the water", NUMBER, [0.0, 14.0], [1.0, 12.0])
            .optional()
            .group(PH)
            .help("In the collecting tank."),
        input("pH_s", "pH set before the column", NUMBER, [0.0, 14.0], [2.0, 8.0])
            .optional()
            .group(PH)
            .help("With caustic, in the collecting tank. Chelating resin works from 2 to 5: common practice, no source."),
        choice("model", "The metals are", NUMBER, &[(FIRM, 0.0), (LOOSE, 0.0)])
            .group(CURVE)
            .help("Which published curve to draw. Chelating resin holds most metals firmly."),
        input("k", "Rate constant", L_PER_EQ_H, [0.0, 1e7], [1.0, 1000.0])
            .optional()
            .follows(&[("column-test", "k")])
            .if_known()
            .group(CURVE)
            .help("From a column test with this water and this resin; no other number stands for it.")
            .when(When::Is("model", &[FIRM])),
        input("k_K", "Rate constant", PER_HOUR, [0.0, 1e6], [0.01, 100.0])
            .optional()
            .group(CURVE)
            .help("Between bead and water, from a column test with this water and this resin.")
            .when(When::Is("model", &[LOOSE])),
        input("t_try", "Days of service tried", DAYS, [0.0, 1e5], [0.0, 365.0])
            .usually(10.0)
            .group(CURVE)
            .help("The picture shows the outlet over these."),
        choice("service", "The full resin is", NUMBER, &[(EXCHANGE, 0.0), (HERE, 0.0)])
            .group(AFTER)
            .help("Exchange service takes the metal away on the resin. Regeneration makes a strong acid waste of it, which has to go somewhere."),
        choice("acid", "Regenerant", NUMBER, &[(HCL, 1.0), (H2SO4, 2.0)])
            .group(AFTER)
            .help("What the resin’s maker names.")
            .when(IS_HERE),
        input("λ", "Acid, times what is held", NUMBER, [1.0, 20.0], [1.5, 3.0])
            .usually(2.0)
            .group(AFTER)
            .help("In equivalents, of the whole capacity: 1.5 to 3 is common practice, no source.")
            .when(IS_HERE),
        step("b_r", "Volume of the regenerant", [0.1, 50.0], [2.0, 4.0], 3.0),
        rate("s_r", "Regenerant and slow rinse run at", [2.0, 4.0], 3.0),
        step("b_1", "Volume of the slow rinse", [0.0, 50.0], [1.0, 4.0], 2.0),
        step("b_2", "Volume of the fast rinse", [0.0, 50.0], [3.0, 10.0], 6.0),
        rate("s_2", "Fast rinse runs at", [5.0, 20.0], 10.0),
        input("ρ_p", "Density of the wet beads", KG_PER_L, [1.0, 3.0], [1.04, 1.35])
            .optional()
            .picks(&[("strong acid", 1.25), ("chelating", 1.17), ("weak acid", 1.18), ("strong base", 1.08)])
            .group(BACKWASH)
            .help("From the maker’s data; the picks are common practice, no source. For the velocity of a backwash."),
        input("x_e", "Bed widened by", PERCENT, [0.0, 200.0], [30.0, 100.0])
            .usually(50.0)
            .group(BACKWASH)
            .help("Of its settled depth: about 50 % is published."),
        input("t_w", "The backwash lasts", MINUTE, [0.5, 240.0], [5.0, 30.0])
            .usually(10.0)
            .group(BACKWASH)
            .help("Until the water is clear: 10 to 15 min, common practice."),
        input("days", "Days of service a year", NUMBER, [1.0, 366.0], [100.0, 366.0])
            .usually(350.0)
            .from_site(&[("site", "days")])
            .group(AFTER)
            .help("For the changes in a year."),
        input("p_x", "Price of an exchange", MONEY, [0.0, 1e9], [0.0, 1e6])
            .optional()
            .from_site(&[("site", "p_resin")])
            .group(AFTER)
            .help("Of one column’s resin.")
            .when(When::Is("service", &[EXCHANGE])),
    ],
    tables: &[
        Table {
            id: metals::TABLE,
            label: "Metals",
            key_label: "Metal",
            add: Some("Add a metal"),
            suggest: metals::SYMBOLS,
            presets: &[],
            columns: &[
                input("c", "In the water", MG_PER_L_METAL, [0.0, 1e5], [0.0, 200.0])
                    .needed()
                    .follows(&[("route", "c_mean")])
                    .help("In the collecting tank, in the mean."),
                input("c_l", "Left by its precipitation", MG_PER_L_METAL, [0.0, 1e5], [0.0, 200.0])
                    .only_followed()
                    .follows(&[("precipitation", "c_l")])
                    .if_known()
                    .help("Counts in place of what the route’s water holds.")
                    .when(IS_BEHIND),
                input("z", "Charge of its ion", NUMBER, [1.0, 4.0], [1.0, 3.0])
                    .optional()
                    .help("Left out, as in acid water: copper 2, silver 1. In cyanide, that of the complex: gold 1."),
                input("c_k", "Outlet as measured", MG_PER_L_METAL, [0.0, 1e5], [0.0, 10.0])
                    .optional()
                    .help("Left out, the aim stands, or what runs in if that is less."),
            ],
            answers: &[
                output("c_o", "At the outlet", MG_PER_L_METAL),
                output("n", "Loads the resin with", MEQ_PER_L),
                output("m_i", "Runs in", G_PER_DAY_METAL),
                output("m_o", "Leaves with the water", G_PER_DAY_METAL),
                output("m_h", "Held", G_PER_DAY_METAL),
                output("m_b", "In a bed when it is changed", G_METAL),
                output("m_x", "Goes away with exchanged resin", G_PER_DAY_METAL),
                output("c_s", "In spent regenerant and rinses", MG_PER_L_METAL).missing(NEEDS_REGENERATION),
            ],
        },
        Table {
            id: OTHERS,
            label: "Other ions",
            key_label: "Ion",
            add: Some("Add an ion"),
            suggest: ion_exchange::ION_NAMES,
            presets: &[],
            columns: &[
                input("c_j", "In the water", MG_PER_L, [0.0, 1e5], [0.0, 2000.0])
                    .needed()
                    .help("Of the ion itself. Chelating resin lets it pass."),
                input("z_j", "Charge", NUMBER, [1.0, 4.0], [1.0, 3.0])
                    .optional()
                    .help("Left out, that of the ion of the list."),
            ],
            answers: &[output("n_j", "In equivalents", MEQ_PER_L)],
        },
        Table {
            id: STREAMS,
            label: "Streams of the route",
            key_label: "Stream",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[
                choice("class", "Class", NUMBER, CLASSES)
                    .follows(&[("route", "class")])
                    .help("Follows the stream. Some must not reach a resin."),
            ],
            answers: &[],
        },
    ],
    outputs: &[
        output("t_b", "Days of service to the change", DAYS),
        output("BV", "Bed volumes to the change", NUMBER).beside(),
        output("S", "Service rate", BED_VOLUMES_PER_HOUR)
            .beside()
            .above(20.0, Look, "Metal slips through faster than that: 5 to 20 is common practice for less than 1 mg/L.")
            .cured_by(&[("ion-exchange", "V_b"), ("ion-exchange", "q_p")]),
        output("t_p", "Pump hours to the change", HOUR),
        output("C_m", "Metals", MEQ_PER_L),
        output("C_o", "Other ions and acid that count", MEQ_PER_L),
        output("L", "Load", EQ_PER_DAY),
        output("q_m", "Held of the metals when full", EQ_PER_L),
        output("τ", "Contact time of the empty bed", MINUTE),
        output("h_p", "Pump runs a day", HOUR),
        output("h_x", "Hours that it has to spare", HOUR)
            .below(0.0, Serious, "The pump cannot pass the water of a day in a day.")
            .cured_by(&[("ion-exchange", "q_p")]),
        output("V_w", "Bed for the service rate wanted", L),
        output("D_w", "Bore for the velocity wanted", MM),
        output("v", "Velocity", M_PER_H)
            .needs(NEEDS_BORE)
            .above(40.0, Look, "That is faster than beds are run: 10 to 40 m/h is common practice.")
            .cured_by(&[("ion-exchange", "D"), ("ion-exchange", "q_p")]),
        output("h", "Depth of the bed", M)
            .needs(NEEDS_BORE)
            .below(0.6, Look, "Water finds channels through a shallow bed: 0.6 to 0.75 m at least is common practice, 0.9 to 4 m is published.")
            .above(4.0, Note, "Published beds are up to 4 m deep.")
            .cured_by(&[("ion-exchange", "D"), ("ion-exchange", "V_b")]),
        output("Δp", "Pressure that the clean bed takes", KPA)
            .needs(NEEDS_BORE)
            .above(135.0, Look, "Published beds take 135 kPa at most; dirt, fines and swelling come on top.")
            .cured_by(&[("ion-exchange", "D"), ("ion-exchange", "q_p")]),
        output("Re", "Reynolds number between the beads", NUMBER).needs(NEEDS_BORE),
        output("v_x", "Velocity at 135 kPa", M_PER_H).needs(NEEDS_BORE),
        output("v_b", "Velocity of a backwash, upward", M_PER_H).needs(NEEDS_BEADS),
        output("q_b", "Flow of a backwash", L_PER_H).needs(NEEDS_BOTH),
        output("h_b", "Free room above the bed for it", M).needs(NEEDS_BOTH),
        output("V_bw", "Water of a backwash, back to the collecting tank", L).needs(NEEDS_BOTH),
        output("c_T", "Outlet, all metals together", MG_PER_L_METAL),
        output("c_try", "Outlet after the days tried, all metals", MG_PER_L_METAL).missing(NEEDS_K),
        output("c_b", "Richest metal at the outlet when the bed is changed", MG_PER_L_METAL).missing(NEEDS_K),
        output("t_a", "Days until the outlet comes to the aim", DAYS).missing(NEEDS_K),
        output("u_a", "Share used by then", PERCENT).missing(NEEDS_K),
        output("u_x", "Share to spare by the curve", PERCENT)
            .missing(NEEDS_K)
            .below(0.0, Look, "By the curve the outlet is above the aim before the bed is changed.")
            .cured_by(&[("ion-exchange", "V_b"), ("ion-exchange", "u"), ("ion-exchange", "u_l")]),
        output("Q_o", "Treated water a day", L_PER_DAY),
        output("B_1", "Caustic before the column", KG_PER_DAY).missing("type the pH to be set, and the acid or the pH of the water"),
        output("B_2", "Caustic after the column, to neutral", KG_PER_DAY).missing("type the free acid or the pH of the water"),
        output("n_y", "Changes a year", NUMBER),
        output("V_y", "Resin changed a year", L),
        output("K_y", "Changes cost a year", MONEY).missing("only for exchange, with its price at the site"),
        output("V_s", "Spent regenerant and rinses, each time", L).missing(NEEDS_REGENERATION),
        output("Q_s", "The same, a day", L_PER_DAY).missing(NEEDS_REGENERATION),
        output("t_s", "A regeneration takes", HOUR).missing(NEEDS_REGENERATION),
        output("m_a", "Acid, each time", KG).missing(NEEDS_REGENERATION),
        output("c_r", "Strength of the regenerant", G_PER_L)
            .missing(NEEDS_REGENERATION)
            .above(105.0, Look, "5 to 10 % is common practice: stronger acid shocks the beads.")
            .below(50.0, Note, "5 to 10 % is common practice.")
            .cured_by(&[("ion-exchange", "b_r"), ("ion-exchange", "λ")]),
    ],
    picture: Some(Picture { across: "t_try", up: "c_try" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[],
            text: "Never nitric acid, peroxide, persulfate, chlorine or any other oxidiser on resin: it heats, gasses and can burst the column. No closed column without a relief valve and a vent.",
        },
        Caution {
            when: &[When::Is("kind", &[routes::CYANIDE])],
            text: "No acid ever reaches this resin, its column or its drum: cyanide and acid give a gas that kills. A resin loaded in cyanide goes back as it is.",
        },
        Caution {
            when: &[When::Is("kind", &[routes::FLUORIDE])],
            text: "Hydrofluoric acid: no glass, no metal column; the site’s own first aid for it stands ready.",
        },
        Caution {
            when: &[IS_HERE],
            text: "Regenerant is strong acid: face shield, acid-proof gloves and apron, eyewash and shower within reach, acid into water. What comes out is acid and rich in metal: to a container or the concentrate, never back to this route.",
        },
    ],
    sources: &[
        "Balance of equivalents; what competes by Davis, Water and Wastewater Engineering (2010), equation 8-16.",
        "Curves: Bohart and Adams (1920), Thomas (1944); Klinkenberg (1954). They hold for one front of all metals together; ions that the resin likes less come out earlier.",
        "Pressure of the clean bed: Ergun (1952). Depth of 0.9 to 4 m and 135 kPa: Davis (2010), table 8-3; 0.6 m: common practice, no source.",
        "Backwash: Richardson and Zaki (1954), exponent from memory; drag by Clift, Grace and Weber (1978); checked against fluids 1.3.1. 50 %: Davis (2010), table 8-3.",
        "Solids up to 5 mg/L without a filter; weak acid resin from pH 4: from memory. Complexed metal, as in tin and silver baths or beside ammonia, may not bind at all.",
        "Lead and lag: the curve is that of both beds, fresh.",
    ],
    examples: examples::LIST,
    work: sum::work,
};
