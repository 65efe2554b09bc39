//! How long a whole plan takes to evaluate, natively and built as the page is: a figure for
//! `cargo xtask figures`, never asserted.

use bathbook::calculator::Subject;
use bathbook::plan::{Field, Plan, examples};
use bathbook::results::Results;
use std::io::Write;
use std::time::Instant;

/// The example with most places; without examples, one of twelve baths, each with a rinse and a dump.
fn largest() -> Plan {
    let all = examples::ALL.iter().filter_map(|(id, ..)| examples::plan(id));
    all.max_by_key(|plan| plan.places.len()).unwrap_or_else(|| {
        let mut plan = Plan::new("Twelve baths");
        let routes = [plan.add(Subject::Route, "Dilute"), plan.add(Subject::Route, "Concentrate")];
        for _ in 0..12 {
            let bath = plan.add(Subject::Bath, "Bath");
            plan.add_row(bath, "make-up", "ingredients", "Copper sulfate");
            plan.type_in(&Field::cell(bath, "make-up", "ingredients", "Copper sulfate", "c_m"), "40", None);
            for (route, kind) in routes.into_iter().zip(["rinse", "bath dump"]) {
                let stream = plan.add(Subject::Stream, "Stream");
                plan.type_in(&Field::single(stream, "stream", "kind"), kind, None);
                plan.set_from(stream, Some(bath));
                plan.set_to(stream, Some(route));
            }
        }
        plan
    })
}

#[test]
#[ignore = "a figure: cargo xtask figures"]
fn figure_evaluation() {
    let plan = largest();
    let bath = plan.places.iter().find(|place| place.subject == Subject::Bath).expect("a bath").id;
    let sheets = plan.places.iter().map(|place| place.sheets.len()).sum::<usize>();
    for (words, open) in
        [("without working", None), ("with the open sheet’s working", Some((bath, "make-up")))]
    {
        let mut times: Vec<f64> = (0..1000)
            .map(|_| {
                let start = Instant::now();
                std::hint::black_box(Results::of(&plan, open));
                start.elapsed().as_secs_f64() * 1e3
            })
            .collect();
        times.sort_by(f64::total_cmp);
        for (at, share) in [(500, "median"), (950, "p95")] {
            let name = format!("whole plan natively, {words}, {share} ({sheets} sheets)");
            figure(&name, &format!("{:.3}", times[at]));
        }
    }
}

fn figure(name: &str, value: &str) {
    let top = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let target = std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| top.join("target"), |dir| top.join(dir));
    let folder = target.join("figures");
    std::fs::create_dir_all(&folder).expect("target/figures");
    let path = folder.join("browser.tsv");
    let file = std::fs::OpenOptions::new().create(true).append(true).open(path);
    file.and_then(|mut file| writeln!(file, "{name}\t{value}\tms")).expect("target/figures");
}
