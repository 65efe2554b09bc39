//! The picture: any answer against any number of this sheet.
use super::Here;
use leptos::prelude::*;
/// To come.
#[component]
pub fn Picture(here: Here) -> impl IntoView {
    let _ = here;
}
