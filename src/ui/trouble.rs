//! What the page says when the program itself fails: never a blank page. Each edit was put into the
//! browser's storage as it was made, so the plan is there after a reload.

use wasm_bindgen::JsCast;

/// Shows a message, with a link to start again, in place of silence.
pub fn tell_of_panics() {
    std::panic::set_hook(Box::new(|info| {
        web_sys::console::error_1(&info.to_string().into());
        show(&info.to_string());
    }));
}

fn show(detail: &str) {
    let Some(document) = web_sys::window().and_then(|window| window.document()) else { return };
    if document.get_element_by_id("trouble").is_some() {
        return;
    }
    let part = |tag: &str, text: &str| {
        let element = document.create_element(tag).ok()?;
        element.set_text_content(Some(text));
        Some(element)
    };
    let build = || {
        let panel = document.create_element("section").ok()?;
        panel.set_id("trouble");
        panel.set_attribute("role", "alert").ok()?;
        panel.append_child(&*part("h2", "The program has stopped")?).ok()?;
        let said = "What you typed was put into this browser’s storage as you typed it. Start again to go on from \
                    there. The last number typed may have caused this; if it happens again, change another one.";
        panel.append_child(&*part("p", said)?).ok()?;
        let again = part("a", "Start again")?;
        again.set_attribute("class", "btn").ok()?;
        again.set_attribute("href", "").ok()?;
        panel.append_child(&again).ok()?;
        panel.append_child(&*part("pre", detail)?).ok()?;
        document.body()?.append_child(&panel).ok()?;
        panel.dyn_into::<web_sys::HtmlElement>().ok()?.scroll_into_view();
        Some(())
    };
    build();
}
