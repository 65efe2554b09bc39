//! Which sheets a place has from the start, and how others come and go.

use bathbook::calculator::Subject;
use bathbook::calculators::{for_places_of, from_start};
use bathbook::plan::{Field, History, Id, Plan};
use bathbook::results::Results;

fn sheets(plan: &Plan, id: Id) -> Vec<&str> {
    let place = plan.place(id).expect("a place");
    place.sheets.keys().map(String::as_str).collect()
}

#[test]
fn a_new_bath_has_its_core_sheets_and_may_have_the_others() {
    let mut plan = Plan::new("A line");
    let bath = plan.add(Subject::Bath, "Bath");
    assert_eq!(sheets(&plan, bath), ["heat-up", "make-up", "plating"]);
    let first = from_start(Subject::Bath).next().expect("a sheet");
    assert_eq!(first.id, "make-up", "a new bath opens at its make-up");
    for calculator in for_places_of(Subject::Bath) {
        plan.add_sheet(bath, calculator.id);
        assert!(Results::of(&plan, None).network.cell_at(bath, calculator.id).is_some(), "{}", calculator.id);
    }
}

#[test]
fn every_sort_of_place_has_a_sheet_to_open_at() {
    for sort in bathbook::calculator::subject::SORTS {
        assert!(from_start(sort.subject).next().is_some(), "{}", sort.title);
    }
}

#[test]
fn every_quick_sum_has_its_sheet_whether_or_not_a_new_place_has_it() {
    for calculator in bathbook::calculators::ALL.iter().filter(|calculator| calculator.quick) {
        let plan = Plan::quick(calculator.id, calculator.title, calculator.subject);
        let here = plan.places.iter().filter(|place| place.sheets.contains_key(calculator.id));
        assert_eq!(here.count(), 1, "{}", calculator.id);
    }
}

#[test]
fn what_was_typed_on_a_sheet_that_is_taken_off_comes_back_with_undo() {
    let mut plan = Plan::new("A line");
    let bath = plan.add(Subject::Bath, "Bath");
    let field = Field::single(bath, "chambers", "n");
    plan.type_in(&field, "8", None);
    let mut history = History::of(plan);
    assert!(history.plan().place(bath).expect("a bath").sheets["chambers"].is_touched());
    history.edit("", |plan| plan.remove_sheet(bath, "chambers")).1.unwrap();
    assert!(history.plan().entry(&field).is_none());
    assert!(history.undo());
    assert_eq!(history.plan().entry(&field).map(|entry| entry.text.as_str()), Some("8"));
}

#[test]
fn a_place_keeps_one_sheet_and_the_site_its_settings() {
    let mut plan = Plan::new("A line");
    let (site, stream) = (plan.site().expect("a site").id, plan.add(Subject::Stream, "Rinse"));
    assert!(!plan.may_remove_sheet(stream, "stream") && !plan.may_remove_sheet(site, "site"));
    plan.remove_sheet(stream, "stream");
    plan.remove_sheet(site, "site");
    assert!(sheets(&plan, stream) == ["stream"] && sheets(&plan, site).contains(&"site"));
    // Wafers of a plan from before there were any are added, and taken off again.
    plan.remove_sheet(site, "wafers");
    assert!(!sheets(&plan, site).contains(&"wafers"));
    plan.add_sheet(site, "wafers");
    assert!(sheets(&plan, site).contains(&"wafers") && plan.may_remove_sheet(site, "wafers"));
    // No sheet of another sort of place, nor one that is not there.
    assert!(!plan.may_remove_sheet(site, "throughput") && !plan.may_remove_sheet(stream, "make-up"));
}
