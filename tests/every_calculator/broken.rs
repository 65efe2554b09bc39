//! Each check can fail: declarations that are wrong in one point, and what is said of them.

use crate::{declared, links, tried};
use bathbook::ask::self_check;
use bathbook::calculator::{
    Calculator, Caution, Example, Input, Output, Role, Severity, Stop, Subject, Table, When, Work, choice,
    input, note, output,
};
use bathbook::calculators::{ALL, find};
use bathbook::quantity::Q;
use bathbook::units::{CELSIUS, KELVINS, L, MG_PER_L_METAL, NUMBER};

/// Invented, and in order: twice a volume.
const GOOD: Calculator = Calculator {
    id: "twice",
    title: "Twice",
    question: "How much is twice as much?",
    subject: Subject::Stream,
    quick: true,
    from_start: true,
    inputs: &[VOLUME],
    tables: &[],
    outputs: &[TWICE],
    picture: None,
    work_order: None,
    recipes: &[],
    cautions: &[Caution { when: &[When::Above("W", 100.0)], text: "That is a lot." }],
    sources: &["Arithmetic."],
    examples: &[EXAMPLE],
    work: twice,
};
const VOLUME: Input = input("V", "Volume", L, [0.0, 1000.0], [1.0, 100.0]).usually(10.0).help("Any.");
const TWICE: Output = output("W", "Twice the volume", L)
    .above(150.0, Severity::Caution, "It runs over.")
    .cured_by(&[("twice", "V")]);
const EXAMPLE: Example = Example {
    source: "Arithmetic",
    inputs: &[("V", "4 L")],
    rows: &[],
    answers: &[("W", "8 L")],
    within: 1e-9,
};

fn twice(w: &mut Work) -> Result<(), Stop> {
    let [v] = w.inputs(["V"])?;
    w.answer("W", v * 2.0).map(drop)
}

fn kept(calculator: Calculator) -> &'static Calculator {
    Box::leak(Box::new(calculator))
}

/// Asserts that exactly one thing is said, and that it says this.
fn says(found: Vec<String>, what: &str) {
    assert!(found.len() == 1 && found[0].contains(what), "wanted “{what}”, found {found:#?}");
}

#[test]
fn what_is_in_order_passes() {
    let good = kept(GOOD);
    for found in [declared::faults(good), tried::faults(good), self_check(good)] {
        assert_eq!(found, Vec::<String>::new());
    }
}

#[test]
fn an_example_that_proves_nothing_is_found() {
    let with =
        |example: Example| declared::faults(&Calculator { examples: Box::leak(Box::new([example])), ..GOOD });
    says(with(Example { answers: &[], ..EXAMPLE }), "has no answers");
    says(with(Example { within: 0.05, ..EXAMPLE }), "is held to 0.05 only");
    says(with(Example { source: "", ..EXAMPLE }), "without a source");
    says(declared::faults(&Calculator { examples: &[], ..GOOD }), "no example");
    const WRONG: Example = Example { answers: &[("W", "9 L")], ..EXAMPLE };
    says(self_check(kept(Calculator { examples: &[WRONG], ..GOOD })), "is not 0.009");
}

#[test]
fn twins_are_found() {
    says(declared::twins(&[&GOOD, &Calculator { title: "Other", ..GOOD }]), "id “twice” twice");
    says(declared::twins(&[&GOOD, &Calculator { id: "other", ..GOOD }]), "title “Twice” twice");
    says(declared::faults(&Calculator { id: "Twice as much", ..GOOD }), "cannot stand in an address");
}

#[test]
fn texts_that_name_nothing_or_have_capitals_within_words_are_found() {
    says(declared::faults(&Calculator { sources: &["x"], ..GOOD }), "no source");
    says(declared::faults(&Calculator { title: "TwicEfold as much", ..GOOD }), "is not in sentence case");
    const LABEL: Input = Input { label: "volume", ..VOLUME };
    says(declared::faults(&Calculator { inputs: &[LABEL], ..GOOD }), "is not in sentence case");
}

#[test]
fn a_number_that_starts_in_no_way_or_out_of_range_is_found() {
    const OPEN: Input = input("k", "Number", NUMBER, [0.0, 9.0], [1.0, 9.0]).help("Any.");
    says(declared::faults(&Calculator { inputs: &[VOLUME, OPEN], ..GOOD }), "neither usually so");
    const LOW: Input = OPEN.usually(0.5);
    says(declared::faults(&Calculator { inputs: &[VOLUME, LOW], ..GOOD }), "its usual value is not usual");
}

#[test]
fn choices_that_start_nowhere_are_found() {
    const AT_99: Input = choice("k", "Sort", NUMBER, &[("dump", 0.0)]).starts_at(99).help("Any.");
    says(declared::faults(&Calculator { inputs: &[VOLUME, AT_99], ..GOOD }), "starts at none of its words");
    const TWINS: Input = choice("k", "Sort", NUMBER, &[("dump", 0.0), ("dump", 1.0)]).help("Any.");
    says(declared::faults(&Calculator { inputs: &[VOLUME, TWINS], ..GOOD }), "a word twice");
}

/// Each row of the one would be held against the same-numbered row of the other.
#[test]
fn a_caution_on_two_tables_is_found() {
    const A: Table = Table {
        id: "a",
        label: "A",
        key_label: "A",
        add: Some("Add"),
        suggest: &[],
        presets: &[],
        columns: &[Input { symbol: "x", ..VOLUME }],
        answers: &[],
    };
    const B: Table = Table { id: "b", columns: &[Input { symbol: "y", ..VOLUME }], ..A };
    const BOTH: Caution =
        Caution { when: &[When::Above("x", 1.0), When::Above("y", 1.0)], text: "That is a lot." };
    says(declared::faults(&Calculator { tables: &[A, B], cautions: &[BOTH], ..GOOD }), "rows of two tables");
}

/// The second would silently stand in place of the first. In a declaration this is an error of compilation.
#[test]
fn a_second_limit_condition_or_link_is_no_declaration() {
    fn fails<T>(build: impl FnOnce() -> T + std::panic::UnwindSafe) -> bool {
        std::panic::catch_unwind(build).is_err()
    }
    assert!(fails(|| TWICE.above(200.0, Severity::Serious, "It is far too much.")));
    assert!(fails(|| TWICE.below(1.0, Severity::Note, "Little.").below(0.0, Severity::Note, "None.")));
    assert!(fails(|| VOLUME.when(When::Above("a", 1.0)).when(When::Above("b", 1.0))));
    assert!(fails(|| VOLUME.follows(&[("make-up", "V")]).from_site(&[("site", "V")])));
    assert!(fails(|| VOLUME.if_known()));
    assert!(fails(|| VOLUME.needed()));
    assert!(!fails(|| VOLUME.when(When::Above("a", 1.0)).follows(&[("make-up", "V")]).if_known()));
}

#[test]
fn a_step_under_a_symbol_that_stands_already_is_found() {
    let steps = |w: &mut Work| {
        let [v] = w.inputs(["V"])?;
        w.step("V", "Another volume", L, v * 2.0)?;
        twice(w)
    };
    let found = tried::faults(kept(Calculator { work: steps, examples: &[], ..GOOD }));
    assert!(found.iter().any(|fault| fault.contains("V stands for")), "{found:#?}");
    let again = |w: &mut Work| {
        let [v] = w.inputs(["V"])?;
        w.step("X", "One volume", L, v * 2.0)?;
        w.step("X", "Another volume", L, v * 3.0)?;
        twice(w)
    };
    let found = tried::faults(kept(Calculator { work: again, examples: &[], ..GOOD }));
    assert!(found.iter().any(|fault| fault.contains("X stands for")), "{found:#?}");
}

/// Only what no input can cure is at fault; all else leads to an input.
#[test]
fn a_refusal_that_leads_nowhere_is_found() {
    let refuses = |w: &mut Work| {
        let [v] = w.inputs(["V"])?;
        if v.si > 0.5 {
            return Err(Stop::at("nowhere", "that is too much", "Take less."));
        }
        twice(w)
    };
    says(tried::faults(kept(Calculator { work: refuses, cautions: &[], ..GOOD })), "refuses at nowhere");
}

/// One fault, and not the ten that follow from it.
#[test]
fn where_no_example_answers_only_the_refusal_is_told() {
    let refuses = |_: &mut Work| Err(Stop::at("V", "the sum has no end", "Take less."));
    says(
        tried::faults(kept(Calculator { work: refuses, ..GOOD })),
        "no example answers: The sum has no end.",
    );
}

/// A percent of 25 °C is a quarter of a degree, and not three.
#[test]
fn a_temperature_is_held_to_degrees() {
    const EXAMPLE_OF_T: Example = Example { within: 0.01, ..EXAMPLE };
    const T: Output = output("T", "Temperature reached", CELSIUS);
    let warm = |w: &mut Work| {
        let [v] = w.inputs(["V"])?;
        let t = Q::constant("T_0", 25.2, CELSIUS) + (v - v) / v * Q::constant("ΔT", 1.0, KELVINS);
        w.answer("T", t).map(drop)
    };
    let held = |text: &'static str| {
        let answers = Box::leak(Box::new([("T", text)]));
        let examples = Box::leak(Box::new([Example { answers, ..EXAMPLE_OF_T }]));
        self_check(kept(Calculator { outputs: &[T], work: warm, examples, ..GOOD }))
    };
    assert_eq!(held("25 °C"), Vec::<String>::new());
    says(held("26 °C"), "is not 299.15");
}

#[test]
fn texts_that_are_no_sentences_are_found() {
    const EMPTY: Caution = Caution { when: &[When::Above("W", 100.0)], text: "" };
    says(declared::faults(&Calculator { cautions: &[EMPTY], ..GOOD }), "is no sentence");
    const DOTS: Output = Output { above: None, ..TWICE }.above(150.0, Severity::Caution, "It runs over..");
    says(declared::faults(&Calculator { outputs: &[DOTS], ..GOOD }), "is no sentence");
    // Refusals are made sentences; what a finding says, a sheet writes itself.
    let small = |w: &mut Work| {
        w.add_finding(&w.top(), "W", Severity::Note, "small letters");
        twice(w)
    };
    says(tried::faults(kept(Calculator { work: small, ..GOOD })), "finds in no sentence");
    let elsewhere = |w: &mut Work| {
        w.add_finding(&w.top(), "nowhere", Severity::Note, "It is so.");
        twice(w)
    };
    says(tried::faults(kept(Calculator { work: elsewhere, ..GOOD })), "nowhere, which is not declared");
}

#[test]
fn a_symbol_that_is_not_declared_is_found() {
    let reads = |w: &mut Work| w.inputs(["nowhere"]).and_then(|[_]: [_; 1]| twice(w));
    let found = tried::faults(kept(Calculator { work: reads, examples: &[], ..GOOD }));
    assert!(found.iter().any(|fault| fault == "faulty: No input nowhere."), "{found:#?}");
    let gives = |w: &mut Work| {
        twice(w)?;
        let [v] = w.inputs(["V"])?;
        w.answer("nowhere", v).map(drop)
    };
    let found = tried::faults(kept(Calculator { work: gives, examples: &[], ..GOOD }));
    assert!(found.iter().any(|fault| fault == "faulty: No answer nowhere."), "{found:#?}");
}

#[test]
fn an_input_that_nothing_reads_is_found() {
    const SPARE: Input = Input { symbol: "spare", label: "Spare", ..VOLUME };
    says(tried::faults(kept(Calculator { inputs: &[VOLUME, SPARE], ..GOOD })), "spare: changes nothing");
    const NEVER: Input = SPARE.when(When::Above("V", 1000.0));
    says(tried::faults(kept(Calculator { inputs: &[VOLUME, NEVER], ..GOOD })), "spare: never asked for");
}

#[test]
fn cautions_limits_and_optional_answers_that_never_come_are_found() {
    const FAR: Caution = Caution { when: &[When::Above("W", 3000.0)], text: "That is too much." };
    says(tried::faults(kept(Calculator { cautions: &[FAR], ..GOOD })), "caution never reached");
    const PLAIN: Output = Output { above: None, cures: &[], ..TWICE };
    const HIGH: Output = PLAIN.above(3000.0, Severity::Caution, "It runs over.");
    says(tried::faults(kept(Calculator { outputs: &[HIGH], ..GOOD })), "limit never reached");
    const WITHOUT: Output = output("W", "Twice the volume", L).cured_by(&[("twice", "V")]);
    says(tried::faults(kept(Calculator { outputs: &[WITHOUT], ..GOOD })), "never a finding with a limit");
    const ALWAYS: Output = TWICE.needs("a volume");
    says(tried::faults(kept(Calculator { outputs: &[ALWAYS], ..GOOD })), "may be missing, and never is");
    const LEFT: Output = Output { symbol: "X", ..output("X", "Never given", L) }.needs("a volume");
    says(
        tried::faults(kept(Calculator { outputs: &[TWICE, LEFT], ..GOOD })),
        "may be missing, and always is",
    );
}

#[test]
fn roles_that_do_not_fit_are_found() {
    const FLOW: Output = TWICE.role(Role::Flow);
    says(declared::faults(&Calculator { outputs: &[FLOW], ..GOOD }), "cannot be Flow");
    const VOLUMES: (&[Input], &[Output]) = (&[VOLUME.role(Role::Volume)], &[TWICE.role(Role::Volume)]);
    says(
        declared::faults(&Calculator { inputs: VOLUMES.0, outputs: VOLUMES.1, ..GOOD }),
        "role Volume twice",
    );
    const SORT: Input =
        choice("k", "Sort", NUMBER, &[("dump", 0.0)]).role(Role::OwnWater(&["rinse"])).help("Any.");
    says(declared::faults(&Calculator { inputs: &[VOLUME, SORT], ..GOOD }), "cannot be OwnWater");
    let without: Vec<&Calculator> =
        ALL.iter().copied().filter(|calculator| calculator.id != "route").collect();
    assert_eq!(
        declared::roles_not_given(&without),
        ["no sheet of a Route gives Flow", "no sheet of a Route gives Load"]
    );
}

/// The stream's own declaration with this input in place of its own.
fn following(input: Input) -> Vec<String> {
    let stream = find("stream").expect("the stream");
    links::faults(&Calculator { inputs: Box::leak(Box::new([input])), ..*stream })
}

/// The stream's own declaration with this answer in place of its own.
fn cured(output: Output) -> Vec<String> {
    let stream = find("stream").expect("the stream");
    links::faults(&Calculator { outputs: Box::leak(Box::new([output])), ..*stream })
}

#[test]
fn links_that_no_place_can_have_are_found() {
    const HOURS: Input = input("h", "Hours", NUMBER, [0.0, 1.0], [0.0, 1.0]).usually(0.0);
    assert_eq!(following(VOLUME.from_origin(&[("make-up", "V_dump")])), Vec::<String>::new());
    says(following(VOLUME.from_origin(&[("dilution", "V")])), "no place of that sort");
    says(following(VOLUME.follows(&[("make-up", "V_dump")])), "no place of that sort");
    says(following(VOLUME.sums(&[("make-up", "V_dump")])), "no place of that sort");
    says(following(VOLUME.each(&[("make-up", "V_dump")])), "no place of that sort");
    says(following(VOLUME.largest(&[("make-up", "V_dump")])), "no place of that sort");
    says(following(VOLUME.from_site(&[("make-up", "V_dump")])), "no place of that sort");
    says(following(VOLUME.follows(&[("stream", "V_d")])), "that is itself");
    says(following(VOLUME.from_origin(&[("route", "V_dump")])), "declared later");
    says(following(VOLUME.from_origin(&[("make-up", "nowhere")])), "no such symbol");
    says(following(VOLUME.from_origin(&[])), "follows nothing");
    says(following(HOURS.from_site(&[("site", "hours")])), "another kind");
    says(following(note("t", "Remark").from_origin(&[("make-up", "V_dump")])), "a text is not passed on");
    says(following(HOURS.from_origin(&[("make-up", "formula")])), "a text is not passed on");
    const WORDS: Input = choice("k", "Class", NUMBER, &[("sweet", 0.0)]);
    says(following(WORDS.from_origin(&[("make-up", "class")])), "other words");
    // A bath comes from nowhere.
    let bath = find("make-up").expect("the make-up");
    let inputs: &[Input] = Box::leak(Box::new([VOLUME.from_origin(&[("make-up", "V_dump")])]));
    says(links::faults(&Calculator { inputs, tables: &[], outputs: &[], ..*bath }), "no place of that sort");
}

#[test]
fn cures_that_cannot_be_typed_are_found() {
    const RICH: Output = output("c", "Concentration", MG_PER_L_METAL);
    assert_eq!(cured(RICH.cured_by(&[("stream", "v_w"), ("make-up", "V_t")])), Vec::<String>::new());
    says(cured(RICH.cured_by(&[("make-up", "formula")])), "that is a text");
    says(cured(RICH.cured_by(&[("stream", "c_w")])), "that is an answer");
    says(cured(RICH.cured_by(&[("stream", "nowhere")])), "no such symbol");
    says(cured(RICH.cured_by(&[("dilution", "V_2")])), "that is not upstream");
    says(cured(RICH.cured_by(&[("stream", "m_prev")])), "that is never typed");
}
