//! The published schemas of the files (`schema/`), written from the types: JSON Schema, draft 2020-12.

use super::archive::Archive;
use crate::plan::{Plan, examples};
use serde_json::{Value, json};
use std::fs;
use std::path::Path;

fn schemas() -> [(&'static str, Value); 2] {
    let plan = schemars::schema_for!(Plan).to_value();
    let archive = schemars::schema_for!(Archive).to_value();
    [("plan.schema.json", plan), ("archive.schema.json", archive)]
}

/// `BATHBOOK_WRITE_SCHEMA=1 cargo test --lib schema` writes them anew.
#[test]
fn the_published_schemas_are_those_of_the_types() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("schema");
    for (name, schema) in schemas() {
        let text = serde_json::to_string_pretty(&schema).unwrap() + "\n";
        if std::env::var_os("BATHBOOK_WRITE_SCHEMA").is_some() {
            fs::write(folder.join(name), &text).unwrap();
        }
        let published = fs::read_to_string(folder.join(name)).unwrap_or_default();
        assert!(
            published == text,
            "schema/{name} is out of date: BATHBOOK_WRITE_SCHEMA=1 cargo test --lib schema"
        );
    }
}

#[test]
fn the_examples_are_plans_after_the_schema_and_what_is_read_as_none_is_none() {
    let [(_, plan), (_, archive)] = schemas();
    let plans = jsonschema::validator_for(&plan).expect("a schema");
    let archives = jsonschema::validator_for(&archive).expect("a schema");
    for (id, ..) in examples::ALL {
        let plan = serde_json::to_value(examples::plan(id).unwrap()).unwrap();
        assert!(plans.is_valid(&plan), "{id}: {:?}", plans.validate(&plan).err().map(|it| it.to_string()));
        let kept = json!({ "name": id, "changed": "2026-11-29T13:24:00Z", "plan": plan });
        assert!(archives.is_valid(&json!({ "format": 1, "made": "", "plans": [kept] })));
    }
    for none in [json!({}), json!(null), json!({ "format": 1, "name": "x", "next": 1, "places": [{}] })] {
        assert!(!plans.is_valid(&none) && crate::plan::foreign::read(&none.to_string()).is_err());
    }
}
