//! What leaves a bath follows the bath's own sheets: wafers, drag-out, life, bleed, draw-off; and its heat.
//!
//! The bath is invented. What a test expects is worked out by hand beside it.

mod common;

use bathbook::calculator::Subject;
use bathbook::plan::{Field, Id, Plan};
use bathbook::results::Results;
use bathbook::units::{AMPERE, G_METAL, G_PER_DAY_METAL, G_PER_L_METAL, KW, L, L_PER_DAY, MG_PER_L_METAL};
use common::{found, near, row, type_in};

/// 200 L of acid copper with 40 g/L, of which a dump drains 190 L, and a stream of a kind from it.
fn bath_and_stream(kind: &str) -> (Plan, Id, Id) {
    let mut plan = Plan::new("A line (invented)");
    let bath = plan.add(Subject::Bath, "Copper");
    type_in(&mut plan, bath, "make-up", &[("V_t", "200 L"), ("class", "acid"), ("V_h", "10 L")]);
    row(&mut plan, bath, ("make-up", "ingredients"), "Copper sulfate", &[("c_m", "40 g/L")]);
    let stream = plan.add(Subject::Stream, "Out");
    plan.set_from(stream, Some(bath));
    type_in(&mut plan, stream, "stream", &[("kind", kind)]);
    (plan, bath, stream)
}

/// 300 wafers a day; a step of 10 A·min for 5 min.
fn plate(plan: &mut Plan, bath: Id) {
    let wafers = [("D", "200 mm"), ("open", "20 %"), ("N", "300 per day"), ("η", "100 %")];
    type_in(plan, bath, "plating", &wafers);
    let step = [("given", "charge"), ("q_g", "10 A·min"), ("j", "2 A/dm²")];
    row(plan, bath, ("plating", "steps"), "Layer", &step);
}

/// Found 36 g/L, wanted 40, with 65 g/L of concentrate in a full tank of 200 L: (200 − x)·36 + 65·x = 8000.
fn correct(plan: &mut Plan, bath: Id) {
    let cells = [("c", "36 g/L"), ("c_t", "40 g/L"), ("added_as", "a liquid"), ("s", "65 g/L")];
    row(plan, bath, ("correction", "components"), "Cu", &cells);
}

#[test]
fn a_rinse_takes_wafers_and_drag_out_from_the_plating_load() {
    let (mut plan, bath, rinse) = bath_and_stream("rinse");
    plate(&mut plan, bath);
    type_in(&mut plan, rinse, "stream", &[("v_w", "1 L")]);
    let drag_out = |plan: &Plan| found(plan, rinse, "stream", "D", "", L_PER_DAY);
    // Drag-out has no usual value: as long as nobody weighed it, the rinse gives no number.
    assert!(drag_out(&plan).is_err_and(|why| why.contains("Drag-out")), "{:?}", drag_out(&plan));
    type_in(&mut plan, bath, "plating", &[("d_w", "4 mL")]);
    near(drag_out(&plan), 1.2);
    // 4 mL of 40 g/L into 1 L, and out of it with 1.004 L.
    near(found(&plan, rinse, "stream", "c_w", "Cu", MG_PER_L_METAL), 160.0 / 1.004);
    type_in(&mut plan, bath, "plating", &[("N", "600 per day")]);
    near(drag_out(&plan), 2.4);
    // Typed over the link, and linked again.
    type_in(&mut plan, rinse, "stream", &[("d_w", "2 mL")]);
    near(drag_out(&plan), 1.2);
    plan.clear(&Field::single(rinse, "stream", "d_w"));
    near(drag_out(&plan), 2.4);
}

#[test]
fn a_rinse_does_not_wait_for_a_plating_load_that_nobody_has_filled_in() {
    let (mut plan, _, rinse) = bath_and_stream("rinse");
    type_in(&mut plan, rinse, "stream", &[("N", "100 per day"), ("d_w", "5 mL"), ("v_w", "1 L")]);
    near(found(&plan, rinse, "stream", "D", "", L_PER_DAY), 0.5);
}

#[test]
fn a_dump_comes_as_often_as_the_bath_lasts() {
    let (mut plan, bath, dump) = bath_and_stream("bath dump");
    plate(&mut plan, bath);
    let volume = |plan: &Plan| found(plan, dump, "stream", "Q_day", "", L_PER_DAY);
    assert!(volume(&plan).is_err_and(|why| why.contains("Days of service between dumps")));
    type_in(&mut plan, bath, "ageing", &[("L_t", "95 days")]);
    let let_out = found(&plan, bath, "make-up", "V_dump", "", L).expect("a volume");
    near(volume(&plan), let_out / 95.0);
    // By wafers: 300 a day, so 6000 are 20 days.
    type_in(&mut plan, bath, "ageing", &[("L_w", "6000")]);
    near(volume(&plan), let_out / 20.0);
}

#[test]
fn a_bleed_is_as_large_as_the_ageing_of_its_bath_has_it() {
    let (mut plan, bath, bleed) = bath_and_stream("bleed from a bath");
    plate(&mut plan, bath);
    plan.add_sheet(bath, "ageing");
    let volume = |plan: &Plan| found(plan, bleed, "stream", "Q_day", "", L_PER_DAY);
    // No bleed there is none to be counted here: it is asked for.
    assert!(volume(&plan).is_err_and(|why| why.contains("Volume a day")), "{:?}", volume(&plan));
    type_in(&mut plan, bath, "ageing", &[("q_b", "3 L/day"), ("L_t", "95 days")]);
    near(volume(&plan), 3.0);
    near(found(&plan, bleed, "stream", "m_w", "Cu", G_PER_DAY_METAL), 120.0);
    type_in(&mut plan, bleed, "stream", &[("Q_t", "2 L/day")]);
    near(volume(&plan), 2.0);
    // Samples of the same bath are no bleed.
    let samples = plan.add(Subject::Stream, "Samples");
    plan.set_from(samples, Some(bath));
    type_in(&mut plan, samples, "stream", &[("kind", "samples")]);
    assert!(found(&plan, samples, "stream", "Q_day", "", L_PER_DAY).is_err());
}

#[test]
fn what_a_correction_draws_off_is_a_stream_with_what_was_measured() {
    let (mut plan, bath, draw) = bath_and_stream("draw-off of a correction");
    correct(&mut plan, bath);
    type_in(&mut plan, draw, "stream", &[("t_k", "14 days")]);
    let drawn = 200.0 * 4.0 / 29.0;
    near(found(&plan, draw, "stream", "V_once", "", L), drawn);
    near(found(&plan, draw, "stream", "Q_day", "", L_PER_DAY), drawn / 14.0);
    // Of the 36 g/L that were found, and not of the 40 that were made up.
    near(found(&plan, draw, "stream", "c_w", "Cu", MG_PER_L_METAL), 36_000.0);
    near(found(&plan, draw, "stream", "m_once", "Cu", G_METAL), 36.0 * drawn);
    near(found(&plan, bath, "correction", "m_M", "Cu", G_METAL), 36.0 * drawn);
    // A dump of the same bath goes by its make-up; what that does not name, by what was found.
    row(&mut plan, bath, ("correction", "components"), "Fe", &[("c", "2 g/L")]);
    type_in(&mut plan, draw, "stream", &[("kind", "bath dump"), ("t_d", "100 days")]);
    near(found(&plan, draw, "stream", "c_w", "Cu", MG_PER_L_METAL), 40_000.0);
    near(found(&plan, draw, "stream", "c_w", "Fe", MG_PER_L_METAL), 2000.0);
    let measured = found(&plan, bath, "correction", "c_off", "Fe", G_PER_L_METAL);
    near(measured, 2.0);
}

#[test]
fn a_correction_that_is_not_done_yet_keeps_no_stream_waiting() {
    let (mut plan, bath, dump) = bath_and_stream("bath dump");
    plan.add_sheet(bath, "correction");
    type_in(&mut plan, dump, "stream", &[("t_d", "100 days")]);
    near(found(&plan, dump, "stream", "c_w", "Cu", MG_PER_L_METAL), 40_000.0);
}

#[test]
fn plating_current_heats_the_bath_that_it_plates() {
    let (mut plan, bath, _) = bath_and_stream("samples");
    let heating = [
        ("T", "30 °C"),
        ("T_0", "18 °C"),
        ("L", "20 W/K"),
        ("T_s", "65 °C"),
        ("UA", "350 W/K"),
        ("q", "8 L/min"),
        ("U", "5 V"),
    ];
    type_in(&mut plan, bath, "heat-up", &heating);
    let hold = |plan: &Plan| found(plan, bath, "heat-up", "Q_hold", "", KW);
    let idle = hold(&plan).expect("it does not wait for the plating load");
    plate(&mut plan, bath);
    // 300 wafers of 10 A·min in 24 h are 2.0833 A in the mean; at 5 V that is 10.4 W.
    let current = 300.0 * 10.0 / (24.0 * 60.0);
    near(found(&plan, bath, "plating", "I_bath", "", AMPERE), current);
    near(hold(&plan), idle - 5.0 * current / 1000.0);
}

/// From the sheet of correction a draw-off leads on, and no rinse; from another sheet a stream of no such kind.
#[test]
fn a_stream_made_of_a_correction_begins_as_its_draw_off() {
    let (mut plan, bath, _) = bath_and_stream("bath dump");
    correct(&mut plan, bath);
    let (stream, first) = plan.lead_on(bath, "correction", Subject::Stream.sort());
    assert_eq!(first.map(|calculator| calculator.id), Some("stream"));
    let place = plan.place(stream).expect("the stream");
    assert_eq!((place.from, place.sheets.len()), (Some(bath), 1));
    let kind = plan.entry(&Field::single(stream, "stream", "kind")).expect("its kind");
    assert_eq!(kind.text, "draw-off of a correction");

    let (other, _) = plan.lead_on(bath, "make-up", Subject::Stream.sort());
    assert!(plan.entry(&Field::single(other, "stream", "kind")).is_none());
}

/// What treatment makes is the water of the sheet that it is made of; from the route's own sheet, of what treats it.
#[test]
fn a_treated_stream_begins_as_what_the_route_has() {
    let mut plan = Plan::new("A line (invented)");
    let route = plan.add(Subject::Route, "Acid water");
    let begun = |plan: &mut Plan, sheet: &str| {
        let (treated, _) = plan.lead_on(route, sheet, Subject::Treated.sort());
        plan.entry(&Field::single(treated, "treated", "what")).expect("what it is").text.clone()
    };
    assert_eq!(begun(&mut plan, "route"), "the route’s water, not treated");
    plan.add_sheet(route, "neutralisation");
    assert_eq!(begun(&mut plan, "route"), "water from neutralisation");
    plan.add_sheet(route, "ion-exchange");
    assert_eq!(begun(&mut plan, "neutralisation"), "water from neutralisation");
    assert_eq!(begun(&mut plan, "route"), "water from ion exchange");
}

/// A dump asks for no draw-off, so nothing that the correction draws off goes there.
#[test]
fn a_dump_takes_no_draw_off_and_a_draw_off_does() {
    for (kind, takes) in [("bath dump", false), ("draw-off of a correction", true)] {
        let (mut plan, bath, stream) = bath_and_stream(kind);
        correct(&mut plan, bath);
        let results = Results::of(&plan, None);
        let correction = results.network.cell_at(bath, "correction").expect("the correction");
        let to = results.network.cell_at(stream, "stream").expect("the stream");
        let mut links = results.network.downstream(correction).filter(|(at, _)| *at == to);
        let (_, link) = links.find(|(_, link)| link.input.symbol == "V_k").expect("a link of the draw-off");
        assert_eq!(results.takes(to, link), takes, "{kind}");
    }
}
