//! Evaporation from an open bath: published forms side by side, the water that makes up for it, and what it
//! does to the bath.
//!
//! - this file: the declaration;
//! - [`sum`]: the sum.

mod sum;
#[cfg(test)]
mod tests;

use super::bath_inputs;
use crate::calculator::{
    Calculator, Caution, Example, Picture, Severity, Subject, Table, When, choice, input, output, verdict,
};
use crate::units::{CELSIUS, DAYS, HOUR, KG_PER_H, KG_PER_H_M2, KW, L, L_PER_DAY, M2, NUMBER, PERCENT};

const TABLE: &str = "forms";
const POOL: &str = "Indoor pool";
const RATIO: &str = "Humidity ratios";
const SPILL: &str = "Outdoor spill";
const PLATE: &str = "Laminar plate";
const STILL: &str = "Still air";
const FORMS: &[&str] = &[POOL, RATIO, SPILL, PLATE, STILL];

const HIGHEST: &str = "the highest of the pool forms";
const TAKE_POOL: &str = "indoor pool";
const TAKE_RATIO: &str = "humidity ratios";
const TAKE_SPILL: &str = "outdoor spill";
const TAKE_STILL: &str = "still air";

const WITHIN: &str = "within its range";
const BEYOND: &str = "outside of its range";
const LOWER: &str = "a lower bound";
const NOT: &str = "does not hold here";

const COVERED: When = When::Above("f_c", 0.0);

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "evaporation",
    title: "Evaporation",
    question: "How much water leaves the open bath, what does it take along, and how soon is the bath stronger?",
    subject: Subject::Bath,
    quick: true,
    from_start: false,
    inputs: &[
        input("A_t", "Surface of the bath", M2, [0.0001, 100.0], [0.02, 10.0])
            .needed()
            .group("Surface")
            .help("Of the liquid in the tank, covered or not, and of open chambers and overflow weirs."),
        input("f_c", "Share of it under a cover", PERCENT, [0.0, 100.0], [0.0, 100.0]).usually(0.0)
            .group("Surface")
            .help("A lid, floating balls, or the work itself."),
        input("k_c", "A cover holds back", PERCENT, [0.0, 100.0], [50.0, 95.0]).usually(80.0)
            .group("Surface")
            .help("Share of evaporation where it covers: 70 to 90 % for a lid or balls, common practice.")
            .when(COVERED),
        input("T", "Bath temperature", CELSIUS, [0.0, 99.0], [10.0, 80.0])
            .needed()
            .group("Bath")
            .help("At the surface, as it is held in service."),
        bath_inputs::volume()
            .optional()
            .group("Bath")
            .if_known()
            .help("To see how soon the bath grows stronger."),
        bath_inputs::class()
            .group("Bath")
            .help("What it is by hazard; it decides what leaves with the water."),
        input("a_w", "Vapour pressure, against water’s", PERCENT, [1.0, 100.0], [50.0, 100.0]).usually(100.0)
            .group("Bath")
            .help("What is dissolved lowers it: a few percent in usual baths, more in strong acid (common practice). 100 % is the upper bound."),
        bath_inputs::air_speed().group("Room"),
        bath_inputs::humidity()
            .group("Room")
            .help("Of the air around the bath; below 40 °C it matters."),
        bath_inputs::room_temperature().group("Room"),
        bath_inputs::height()
            .group("Room")
            .help("It sets the pressure of the air."),
        choice("form", "Counted by", NUMBER, &[(HIGHEST, 0.0), (TAKE_POOL, 0.0), (TAKE_RATIO, 0.0), (TAKE_SPILL, 0.0), (TAKE_STILL, 0.0)])
            .group("Count")
            .help("The highest is the safe side for heater and water; a measured loss of level is better than any form. Made for: indoor pools at 25 to 30 °C; humidity ratios pools below 50 °C; outdoor spills 1.5 m/s and more; still air no draught."),
        input("w_m", "Measured instead", KG_PER_H, [0.0, 10_000.0], [0.0, 100.0])
            .optional()
            .group("Count")
            .help("From the level lost overnight without work: area times fall over hours, a litre being a kilogram. Typed, it is what counts."),
        input("h_d", "Hours a day at temperature", HOUR, [0.1, 24.0], [4.0, 24.0]).usually(24.0)
            .group("Count")
            .help("A warm bath evaporates day and night, plating or not."),
        input("d_y", "Days a year at temperature", NUMBER, [1.0, 366.0], [100.0, 366.0]).usually(350.0)
            .group("Count")
            .from_site(&[("site", "days")])
            .help("Weekends too, if it stays warm."),
        input("s", "The bath may grow stronger by", PERCENT, [0.1, 100.0], [1.0, 20.0]).usually(5.0)
            .group("Without topping up")
            .help("All that does not evaporate rises by the same share."),
        input("t_x", "Time without topping up", HOUR, [0.1, 10_000.0], [1.0, 200.0]).usually(60.0)
            .group("Without topping up")
            .help("A weekend, say."),
    ],
    tables: &[Table {
        id: TABLE,
        label: "Published forms",
        key_label: "Form",
        add: None,
        suggest: &[],
        presets: &[],
        columns: &[],
        answers: &[
            output("w_f", "Water that evaporates", KG_PER_H).needs("conditions in which the form holds"),
            output("n_f", "From each open area", KG_PER_H_M2).needs("conditions in which the form holds"),
            verdict("fit", "Here it is", &[WITHIN, BEYOND, LOWER, NOT]),
        ],
    }],
    outputs: &[
        output("w", "Water that evaporates", KG_PER_H)
            .below(0.0, Severity::Note, "The room’s water condenses on a bath as cold as this: it gains water, and grows weaker."),
        output("q_water", "Water to make up for it", L_PER_DAY).beside(),
        output("Q_wet", "Heat that it takes", KW).beside(),
        output("k_s", "Highest over lowest form", NUMBER)
            .beside()
            .needs("water that evaporates")
            .above(3.0, Severity::Note, "The published forms differ by this factor here: plan for the highest and measure."),
        output("V_y", "Water to make up for it a year", L),
        output("w_low", "Lowest form", KG_PER_H),
        output("w_top", "Highest form", KG_PER_H),
        output("A_o", "Surface as if open", M2),
        output("φ_e", "Counted, against the pool form", PERCENT).needs("water that evaporates by the pool form"),
        output("t_s", "As much stronger as allowed, after", DAYS).needs("the volume, and water that evaporates"),
        output("s_x", "Stronger after the time without topping up", PERCENT)
            .needs("the volume, and a time in which it does not dry up")
            .above(5.0, Severity::Caution, "All of the bath rises by that: analyses and additions read wrong until water is topped up.")
            .cured_by(&[("evaporation", "f_c"), ("evaporation", "t_x"), ("evaporation", "v_air")]),
    ],
    picture: Some(Picture { across: "T", up: "w" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[When::Above("T", 40.0)],
            text: "Mist and vapour of a warm bath are a matter of exposure: exhaust and a hygienist decide, not this sum.",
        },
        Caution {
            when: &[When::Is("class", &["acid", "fluoride", "oxidiser", "unknown"]), When::Above("T", 40.0)],
            text: "What leaves a hot acid bath is acid too: the exhaust takes it up, its duct and scrubber must stand it, and no acid exhaust joins that of a cyanide bath.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide"])],
            text: "Air and its carbon dioxide over a cyanide bath lower its pH, and what leaves it then kills: own exhaust, never joined with that of acid, gas alarm, licensed persons.",
        },
        Caution {
            when: &[When::Is("class", &["sulfite"])],
            text: "A sulfite bath gives off sulfur dioxide as its pH falls: exhaust, and the pH watched.",
        },
        Caution {
            when: &[When::Is("class", &["solvent"])],
            text: "These forms hold for water alone. A solvent’s vapour burns and explodes: its own safety data, exhaust and a licensed person decide.",
        },
    ],
    sources: &[
        "Indoor pool: Carrier 1918, (95 + 0.425 v)(pw − pa) in inch and pound units, as printed in the abstract of Smith, Loef & Jones, ASHRAE Transactions 104, 1998; quiet pools measured 74 % of it, busy ones up to 126 %.",
        "Humidity ratios: an engineering reference page on evaporation from water surfaces, with its example.",
        "Outdoor spill: US EPA, offsite consequence guidance, EPA 550-B-99-009, coefficient from memory.",
        "Laminar plate: Pohlhausen, by analogy. Still air: McAdams, coefficients from memory, by analogy.",
        "Water: IAPWS-IF97 and Kell 1975; pressure at height: standard atmosphere. No measured data of acid baths under exhaust were found: every form is one of plain water.",
        "Covers, and air speed over an exhausted tank: common practice, no source.",
    ],
    examples: &[
        Example {
            source: "iapws 1.5.5 and PsychroLib 2.5.0: 0.5 m² at 45 °C, room of 21 °C and 45 %, 0.3 m/s: pool 0.716589, ratios 0.891748, spill 0.308122, plate 0.256144 kg/h; still air 0.532007",
            inputs: &[("A_t", "0.5 m²"), ("T", "45 °C"), ("T_room", "21 °C"), ("RH", "45 %"), ("v_air", "0.3 m/s")],
            rows: &[],
            answers: &[
                ("w_f[Indoor pool]", "0.716589 kg/h"),
                ("w_f[Humidity ratios]", "0.891748 kg/h"),
                ("w_f[Outdoor spill]", "0.308122 kg/h"),
                ("w_f[Laminar plate]", "0.256144 kg/h"),
                ("w_f[Still air]", "0.532007 kg/h"),
                ("w", "0.891748 kg/h"),
            ],
            within: 0.005,
        },
        Example {
            source: "iapws 1.5.5: 1.2 kg/h at 45 °C take 0.798005 kW and 28.8517 L a day at 20 °C; by hand, 200 L are 5 % stronger in 0.330688 days at 1 kg/L",
            inputs: &[("A_t", "0.5 m²"), ("T", "45 °C"), ("w_m", "1.2 kg/h"), ("V", "200 L"), ("s", "5 %")],
            rows: &[],
            answers: &[("Q_wet", "0.798005 kW"), ("q_water", "28.8517 L/day"), ("t_s", "0.330688 days"), ("w", "1.2 kg/h")],
            within: 0.003,
        },
        Example {
            source: "The same at 3.5 kg/h and 60 °C for 10 h a day: 2.2922 kW and 35.0629 L a day",
            inputs: &[("A_t", "0.5 m²"), ("T", "60 °C"), ("w_m", "3.5 kg/h"), ("h_d", "10 h"), ("d_y", "300")],
            rows: &[],
            answers: &[("Q_wet", "2.2922 kW"), ("q_water", "35.0629 L/day"), ("V_y", "10.51887 m³")],
            within: 0.002,
        },
    ],
    work: sum::work,
};
