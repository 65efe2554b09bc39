//! The site opens from any folder of a static host, and keeps to itself.

use crate::harness::Browser;

#[test]
fn opens_from_a_sub_folder() {
    let browser = Browser::open();
    assert!(browser.address().ends_with("/some/folder/"));
    assert_eq!(browser.text(".bar .title"), "Bathbook");
    assert_eq!(browser.count("#shell"), 0, "the loading message should be gone");
    browser.click("a.card[href='#/quick/drain']");
    browser.wait_text("h1", "Gravity drain and lift station");
    browser.assert_quiet();
}

/// The watch itself must see what it is there to see.
#[test]
fn the_policy_refuses_a_request_to_another_host_and_the_watch_sees_it() {
    let browser = Browser::open();
    let answer = browser.eval_promise("fetch('http://192.0.2.1/').then(() => 'answered')");
    assert!(answer.as_str().is_some_and(|text| text.starts_with("TypeError")), "{answer}");
    browser.until("the console to tell", || {
        let told = browser.console().iter().any(|entry| entry.contains("Content Security Policy"));
        if told { Ok(()) } else { Err("nothing yet".into()) }
    });
}

/// Whatever markup got into the page, no script of it would run.
#[test]
fn the_policy_blocks_an_injected_script() {
    let browser = Browser::open();
    let ways = [
        "const it = document.createElement('script'); it.textContent = 'window.hit = 1'; document.body.append(it)",
        "const it = document.createElement('script'); it.src = 'data:text/javascript,window.hit=1'; document.body.append(it)",
        "const it = document.createElement('script'); it.src = URL.createObjectURL(new Blob(['window.hit=1'])); document.body.append(it)",
        "const it = document.createElement('div'); it.innerHTML = '<img src=\"data:,x\" onerror=\"window.hit=1\">'; document.body.append(it)",
        "const it = document.createElement('a'); it.href = 'javascript:window.hit=1'; document.body.append(it); it.click()",
        // Not at once: what a test itself evaluates may evaluate more.
        "setTimeout(() => eval('window.hit = 1'))",
        "setTimeout(() => new Function('window.hit = 1')())",
        "setTimeout('window.hit = 1')",
        "const it = document.createElement('iframe'); it.srcdoc = '<script>parent.hit=1</script>'; document.body.append(it)",
    ];
    for (at, way) in ways.iter().enumerate() {
        let before = told(&browser);
        browser.script(way, serde_json::json!([])).expect("a script");
        browser.until(&format!("way {at} to be refused"), || {
            if told(&browser) > before { Ok(()) } else { Err("the console tells nothing".into()) }
        });
        assert_eq!(browser.eval("window.hit ?? null"), serde_json::Value::Null, "{way}");
    }
}

fn told(browser: &Browser) -> usize {
    browser.console().iter().filter(|entry| entry.contains("Content Security Policy")).count()
}
