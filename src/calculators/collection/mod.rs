//! Drums, carboys and bottles that a route fills: how long one lasts, what a change stops, what is caught under
//! them, what a full one weighs, when it goes and what that costs.
//!
//! - this file: the declaration;
//! - [`examples`]: worked examples with known answers;
//! - [`sum`]: the sum;
//! - [`meets`]: what must never meet in one container.

mod examples;
mod sum;
mod meets;
#[cfg(test)]
mod tests;

use super::{CLASSES, UNKNOWN, routes};
use crate::calculator::{
    Calculator, Caution, Input, Picture, Severity, Subject, Table, When, choice, input, output, verdict,
};
use crate::science::metals;
use crate::units::{
    CELSIUS, DAYS, HOUR, KG, KG_METAL, KG_PER_L, L, L_PER_DAY, L_PER_MIN, MG_PER_L_METAL, MINUTE, MONEY,
    NUMBER, PER_KG, PERCENT,
};

const STREAMS: &str = "streams";
const WAYS: &str = "ways";
const ALARMS: &str = "alarms";
const PICK_UPS: &str = "pick-ups";

const DRUM: &str = "plastic drum";
const STEEL: &str = "bare steel drum";
const CARBOY: &str = "plastic carboy";
const BOTTLE: &str = "plastic bottle";
const GLASS: &str = "glass bottle";
const BULK: &str = "bulk container";

const NEW: &str = "nothing: new, or rinsed clean";
const VENTED: &str = "vented cap, to exhaust";
const TIGHT: &str = "tight cap";
pub(super) const SINGLE: &str = "one container";
pub(super) const DUAL: &str = "two, with automatic change-over";

const STOPS: &str = "the line stops at each change";
const GOES_ON: &str = "nothing stops; the full one goes before the other is full";
const BY_HAND: &str = "by one person at best";
const BY_AIDS: &str = "only with a trolley, drum truck or hoist";

const CALLS: &str = "calls for the next container";
const CLOSES: &str = "closes the inlet and stops the line";
const CHANGES: &str = "changes over, and calls";
const CUTS: &str = "stops the source, apart from the level switch";

/// What a container held before: nothing, or the words of [`CLASSES`].
const BEFORE: &[(&str, f64)] = &{
    let mut words = [(NEW, 0.0); CLASSES.len() + 1];
    let mut k = 0;
    while k < CLASSES.len() {
        words[k + 1] = CLASSES[k];
        k += 1;
    }
    words
};

const PRICES: &str = "Prices, in your own currency";

const fn of_share(symbol: &'static str, label: &'static str, usual: [f64; 2], value: f64) -> Input {
    input(symbol, label, PERCENT, [1.0, 100.0], usual).usually(value)
}

/// The declaration.
pub static CALCULATOR: Calculator = Calculator {
    id: "collection",
    title: "Collection",
    question: "How soon is a container full, what does a change stop, and what must stand under it?",
    subject: Subject::Route,
    quick: true,
    from_start: false,
    inputs: &[
        choice("kind", "What the route is for", MG_PER_L_METAL, routes::KINDS)
            .starts_at(10)
            .group("What comes")
            .follows(&[("route", "kind")])
            .help("What it is there to carry counts, whatever leads there today."),
        input("Q", "Volume a day", L_PER_DAY, [0.0, 1e7], [0.0, 1e4])
            .needed()
            .group("What comes")
            .follows(&[("route", "Q_day")])
            .help("On a mean working day."),
        input("q_p", "Peak flow", L_PER_MIN, [0.0, 1e6], [0.0, 100.0])
            .optional()
            .group("What comes")
            .follows(&[("route", "q_mean")])
            .help("All that may run at one time. The route knows its flow in the hours of service only; left out, the day’s volume is spread over the day."),
        input("V_1", "Largest dump", L, [0.0, 1e6], [0.0, 5000.0]).usually(0.0)
            .group("What comes")
            .follows(&[("route", "V_dump")])
            .help("A dump once begun is seldom stopped: the whole of it counts."),
        input("days", "Days of service a year", NUMBER, [1.0, 366.0], [100.0, 366.0]).usually(350.0)
            .group("What comes")
            .from_site(&[("site", "days")])
            .help("Working days; the calendar has more of them."),
        input("ρ", "Density of the liquid", KG_PER_L, [0.6, 2.5], [0.95, 1.9])
            .needed()
            .group("What comes")
            .help("Rinse water is 1.0, a copper bath about 1.2, concentrated sulfuric acid 1.84 kg/L."),
        choice("what", "Container", NUMBER, &[
            (DRUM, 0.0), (STEEL, 0.0), (CARBOY, 0.0), (BOTTLE, 0.0), (GLASS, 0.0), (BULK, 0.0),
        ])
            .group("Container")
            .help("Its wall must bear the liquid: the maker’s list rules."),
        input("V", "Volume to the brim", L, [0.1, 50_000.0], [1.0, 1200.0])
            .needed()
            .group("Container")
            .picks(&[("drum of 55 US gal", 208.198), ("60 L", 60.0), ("20 L", 20.0), ("10 L", 10.0), ("1000 L", 1000.0)])
            .help("Of one container."),
        of_share("f", "Usable part", [70.0, 97.0], 90.0)
            .group("Container")
            .help("Share of the brim at which it counts as full: 90 to 95 % is common practice."),
        input("m_t", "Empty mass", KG, [0.0, 5000.0], [0.05, 100.0])
            .needed()
            .group("Container")
            .help("With its cap, from its marking."),
        input("ρ_u", "Density in its marking", KG_PER_L, [0.5, 3.0], [1.0, 2.0]).usually(1.2)
            .group("Container")
            .help("Greatest density that it was tested with. A marking without one stands for 1.2 (49 CFR 178.503, from memory)."),
        input("V_0", "In the container today", L, [0.0, 50_000.0], [0.0, 1200.0]).usually(0.0)
            .group("Container")
            .help("For the first pick-up."),
        choice("before", "The container held before", NUMBER, BEFORE)
            .group("Container")
            .help("Residues meet what comes in."),
        choice("cap", "Cap while it stands", NUMBER, &[(VENTED, 0.0), (TIGHT, 0.0)])
            .group("Container")
            .help("Peroxide, persulfate and nitric acid gas: a tight cap lets the container burst."),
        choice("arr", "Arrangement", NUMBER, &[(SINGLE, 0.0), (DUAL, 0.0)])
            .group("Change")
            .help("Both are worked out below, side by side."),
        input("t_r", "Until somebody is there", MINUTE, [0.0, 10_000.0], [1.0, 480.0])
            .optional()
            .group("Change")
            .help("From the call until an empty container stands ready; nights and weekends count."),
        input("t_s", "Time of a swap", MINUTE, [0.0, 1440.0], [2.0, 60.0])
            .optional()
            .group("Change")
            .help("With the inlet closed: disconnect, cap, roll away, connect."),
        of_share("a", "The next one is called for at", [50.0, 90.0], 80.0)
            .group("Alarms")
            .help("Share of the brim at which the next container is called for."),
        of_share("f_h", "Overfill switch at", [85.0, 99.0], 95.0)
            .group("Alarms")
            .help("Share of the brim; a switch of its own, above what counts as full."),
        input("n_s", "Other containers of this size beside it", NUMBER, [0.0, 1000.0], [0.0, 40.0]).usually(0.0)
            .group("Containment")
            .help("Full ones that wait, in the same containment; with two in turn the second counts by itself."),
        input("V_x", "Other containers there, all together", L, [0.0, 1e6], [0.0, 10_000.0]).usually(0.0)
            .group("Containment")
            .help("By their brims."),
        input("V_l", "Largest of the other containers", L, [0.0, 1e5], [0.0, 1200.0])
            .needed()
            .group("Containment")
            .help("By its brim.")
            .when(When::Above("V_x", 0.0)),
        input("V_c", "The containment holds", L, [0.0, 1e6], [1.0, 10_000.0])
            .optional()
            .group("Containment")
            .help("To its rim, less what stands in it."),
        input("T_1", "Coldest when it is filled", CELSIUS, [0.0, 60.0], [5.0, 30.0]).usually(20.0)
            .group("Warmth")
            .help("Of the liquid as it comes in."),
        input("T_2", "Hottest while it stands", CELSIUS, [0.0, 80.0], [20.0, 50.0]).usually(40.0)
            .group("Warmth")
            .help("In the sun or on a lorry too."),
        of_share("s_h", "Full when hottest, at most", [90.0, 98.0], 97.0)
            .group("Warmth")
            .help("Share of the brim; 95 to 98 % is common practice."),
        choice("grow", "The liquid grows with warmth", NUMBER, &[("as water", 1.0), ("as concentrated acid or solvent", 5.0)])
            .group("Warmth")
            .help("These grow 2 to 5 times as much as water (from memory); 5 is counted."),
        input("n_p", "Containers at a pick-up", NUMBER, [1.0, 1000.0], [1.0, 20.0]).usually(1.0)
            .group("Pick-up")
            .help("Full ones that go at once."),
        input("t_a", "Containers may stand, by permit or law", DAYS, [1.0, 10_000.0], [30.0, 365.0])
            .optional()
            .group("Pick-up")
            .picks(&[("90 days", 90.0), ("180 days", 180.0)])
            .help("Calendar days. For hazardous waste 40 CFR 262.17 gives large generators 90 and 262.16 small ones 180; local law rules."),
        input("q_e", "Pump that empties it", L_PER_MIN, [0.01, 1e4], [1.0, 200.0])
            .optional()
            .group("Pick-up")
            .help("Where it is pumped out in place of being taken away."),
        input("V_h", "Heel that stays", L, [0.0, 10_000.0], [0.0, 200.0]).usually(0.0)
            .group("Pick-up")
            .help("What the pump does not reach.")
            .when(When::Above("q_e", 0.0)),
        input("p_c", "Price of a container taken away", MONEY, [0.0, 1e9], [0.0, 1e6])
            .optional()
            .group(PRICES)
            .from_site(&[("site", "p_drum")])
            .help("With a new one in its place; only what you type is used."),
        input("p_u", "Price of a pick-up, besides", MONEY, [0.0, 1e9], [0.0, 1e6])
            .optional()
            .group(PRICES)
            .help("Travel and papers, however many containers go; only what you type is used."),
    ],
    tables: &[
        Table {
            id: STREAMS,
            label: "What meets in it",
            key_label: "Liquid",
            add: Some("Add a liquid"),
            suggest: &[],
            presets: &[],
            columns: &[choice("class", "Class", NUMBER, CLASSES)
                .starts_at(UNKNOWN)
                .follows(&[("route", "class")])
                .help("What it is by hazard. Unknown counts as incompatible with cyanide.")],
            answers: &[],
        },
        Table {
            id: metals::TABLE,
            label: "Metals in it",
            key_label: "Metal",
            add: Some("Add a metal"),
            suggest: metals::SYMBOLS,
            presets: &[],
            columns: &[
                input("c_M", "In the liquid", MG_PER_L_METAL, [0.0, 1e6], [0.0, 2e5]).usually(0.0)
                    .follows(&[("route", "c_mean")])
                    .help("The mean of all that leads there."),
                input("p_M", "Price", PER_KG, [0.0, 1e9], [0.0, 1e6])
                    .optional()
                    .from_site(&[("site", "p_metal")])
                    .help("What a kilogram of the metal is worth to you, after the refiner’s share."),
            ],
            answers: &[
                output("m_M", "In a full one", KG_METAL),
                output("w_M", "Worth of it", MONEY).needs("a price of the metal"),
            ],
        },
        Table {
            id: WAYS,
            label: "One container, or two in turn",
            key_label: "Arrangement",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[
                verdict("gives", "What it means", &[STOPS, GOES_ON]),
                output("t_x", "Line stopped at each change", MINUTE).needs("the times to be there and to swap"),
                output("t_xy", "Line stopped a year", HOUR).needs("the times to be there and to swap"),
                output("t_g", "Time to change it, at the peak", HOUR),
                output("V_r", "Takes at once, at worst", L),
                output("V_rs", "Room to spare for the largest dump", L),
                output("V_n", "Containment for it", L),
            ],
        },
        Table {
            id: ALARMS,
            label: "Alarms",
            key_label: "Alarm",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[
                verdict("does", "What it does", &[CALLS, CLOSES, CHANGES, CUTS]),
                output("f_a", "Share of the brim", PERCENT).missing("no level: any liquid in the containment, or too little draught"),
                output("V_a", "Volume at the alarm", L).missing("no level: any liquid in the containment, or too little draught"),
                output("m_a", "On a scale", KG).missing("no level: any liquid in the containment, or too little draught"),
            ],
        },
        Table {
            id: PICK_UPS,
            label: "Next pick-ups",
            key_label: "Pick-up",
            add: None,
            suggest: &[],
            presets: &[],
            columns: &[],
            answers: &[output("t_n", "From today, by the calendar", DAYS)],
        },
    ],
    outputs: &[
        output("t_cal", "A container is full after, by the calendar", DAYS),
        output("t_d", "A container is full after, in days of service", DAYS).beside(),
        output("m_f", "Mass when full", KG).beside().cured_by(&[("collection", "V")]),
        verdict("lift", "To lift a full one", &[BY_HAND, BY_AIDS]).beside(),
        output("V_need", "Containment by 40 CFR 264.175", L).beside(),
        output("V_u", "Usable volume", L).cured_by(&[("collection", "f")]),
        output("V_w", "Most that may be filled in, as it grows warm", L),
        output("t_pk", "Full at the peak flow after", HOUR),
        output("t_w", "From the call until full, at the peak", MINUTE),
        output("spare", "Room to spare for the largest dump", L)
            .below(0.0, Severity::Serious, "It runs over when the tank is let out. Take a larger container, call sooner, or take two in turn.")
            .cured_by(&[("collection", "V"), ("collection", "a"), ("collection", "f")]),
        output("V_110", "Containment at 110 % of the largest", L),
        output("V_sp", "Containment to spare", L)
            .needs("what the containment holds")
            .below(0.0, Severity::Serious, "It does not hold what the published rule asks.")
            .cured_by(&[("collection", "V_c")]),
        output("n_y", "Containers a year", NUMBER),
        output("t_up", "A pick-up every, by the calendar", DAYS),
        output("n_up", "Pick-ups a year", NUMBER),
        output("cost", "Taking away costs a year", MONEY).needs("the price of a container taken away, or of a pick-up"),
        output("m_T", "Metal in a full one", KG_METAL),
        output("worth", "Worth of that metal", MONEY).needs("a price of some metal in it"),
        output("t_e", "Time to pump it out", MINUTE).needs("a pump that empties it"),
    ],
    picture: Some(Picture { across: "Q", up: "t_cal" }),
    work_order: None,
    recipes: &[],
    cautions: &[
        Caution {
            when: &[],
            text: "Overfill, a leak in the containment and loss of exhaust each alarm by a switch of their own and stop the source. Permit and law decide where a container may stand, how long, and who takes it away.",
        },
        Caution {
            when: &[],
            text: "At each change: goggles, face shield, apron and gloves; read the label of the container and of the line aloud; eyewash and shower within reach. Each container says what it holds, its hazard and its date.",
        },
        Caution {
            when: &[When::Is("lift", &[BY_AIDS])],
            text: "A full one is never lifted by hand: drum truck, trolley or hoist that bears its mass, on a floor that does.",
        },
        Caution {
            when: &[When::Is("class", &["oxidiser"])],
            text: "Oxidisers gas: vented cap, no organic matter, no metal, nothing else ever in that container. A tight cap lets it burst.",
        },
        Caution {
            when: &[When::Is("class", &["cyanide"])],
            text: "No acid ever reaches this container, its containment, its vent or the floor beside it: cyanide and acid give a gas that kills.",
        },
        Caution {
            when: &[When::Is("class", &["fluoride"])],
            text: "Hydrofluoric acid: no glass, no metal; the site’s own first aid for it stands ready where the container is changed.",
        },
        Caution {
            when: &[When::Is("class", &["solvent"])],
            text: "Vapour burns: metal parts bonded and earthed, no free fall into the container, no spark, store and exhaust as the fire code says.",
        },
    ],
    sources: &[
        "Filling: volume balance. Calendar days are days of service times 365 over the days of service a year.",
        "Containment: 40 CFR 264.175(b)(3), the greater of 10 % of all and the largest; 110 % of the largest: common practice, no source.",
        "Lifting: NIOSH Publication 94-110, load constant of 23 kg, for the best posture. Accumulation times: 40 CFR 262.16 and 262.17.",
        "What must not meet: EPA-600/2-80-076, compatibility chart; 40 CFR 264 and 265, appendix V; rest, and what walls bear, from memory.",
        "Growth with warmth: density of water after Kell (1975); concentrated acids and solvents 2 to 5 times as much, from memory.",
        "Levels of 80, 90, 95 and 97 %: common practice, no source.",
    ],
    examples: examples::LIST,
    work: sum::work,
};
