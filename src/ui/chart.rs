//! A chart on the page: drawn sharp, redrawn when size, density or theme change, read by touch, by keys
//! and by ear.

use crate::ui::element::Show;
use crate::ui::file::hand_over;
use crate::ui::signals::{Effect, Memo};
use crate::ui::store::Store;
use bathbook_view::view;
use leptos::ev;
use leptos::html::Canvas;
use leptos::prelude::*;
use wasm_bindgen::{JsCast, JsValue, closure::Closure};
use web_sys::js_sys::Array;
use web_sys::{
    HtmlCanvasElement, MediaQueryList, MutationObserver, MutationObserverInit, ResizeObserver,
    ResizeObserverBoxOptions, ResizeObserverOptions,
};

use crate::picture::canvas::{Palette, paint};
use crate::picture::{Chart, Frame};

/// A figure with a canvas. Touching it, or the arrow keys while it has the focus, read single values;
/// leaving it or Escape shows the present value again.
///
/// Style: `figure.chart` (`.is-empty` without a curve), `.chart-picture` (give it a height), `.chart-reading`, `.chart-empty`; colours
/// from `--ink --ink-2 --line --accent --link --sheet`.
#[component]
pub fn ChartView(
    /// What to draw.
    #[prop(into)]
    chart: Signal<Chart>,
) -> impl IntoView {
    let node = NodeRef::<Canvas>::new();
    let touched = RwSignal::new(None::<usize>);
    let repaint = Trigger::new();
    watch_page(node, repaint);

    Effect::new(move || {
        repaint.track();
        let touched = touched.get();
        chart.with(|chart| {
            if let Some(canvas) = node.get()
                && !chart.is_empty()
            {
                let palette = Palette::of(&canvas, |name| css(&canvas, name));
                // A picture that can't be drawn leaves its words, which the figure has anyway.
                let _ = paint(&canvas, chart, &palette, touched);
            }
        });
    });

    let touch = move |event: ev::PointerEvent| {
        let Some(canvas) = node.get_untracked() else { return };
        let (width, height) = (f64::from(canvas.client_width()), f64::from(canvas.client_height()));
        let from_left = f64::from(event.client_x()) - canvas.get_bounding_client_rect().left();
        let at =
            chart.with_untracked(|chart| chart.nearest(Frame::of(chart, width, height)?.fraction(from_left)));
        touched.set(at);
    };
    let step = move |event: ev::KeyboardEvent| {
        let (last, start) =
            chart.with_untracked(|chart| (chart.points.len().saturating_sub(1), chart.start().unwrap_or(0)));
        let at = touched.get_untracked().map(|at| at.min(last));
        let next = match event.key().as_str() {
            "ArrowLeft" | "ArrowDown" => Some(at.map_or(start, |at| at.saturating_sub(1))),
            "ArrowRight" | "ArrowUp" => Some(at.map_or(start, |at| (at + 1).min(last))),
            "PageDown" => Some(at.map_or(start, |at| at.saturating_sub(10))),
            "PageUp" => Some(at.map_or(start, |at| (at + 10).min(last))),
            "Home" => Some(0),
            "End" => Some(last),
            "Escape" if at.is_some() => None,
            _ => return,
        };
        // The page must not scroll away under the finger.
        event.prevent_default();
        touched.set(next);
    };
    let reading = move || {
        chart.with(|chart| match touched.get() {
            Some(at) => chart.reading(at).unwrap_or_default(),
            None => chart
                .marker
                .map_or(String::new(), |(x, y)| format!("Now {}: {}", chart.x_text(x), chart.y_text(y))),
        })
    };
    let empty = Memo::new(move |_| chart.with(Chart::is_empty));
    let store = Store::here();
    let name = move || {
        let plan = store.history.with_untracked(|history| history.plan().name.clone());
        chart.with_untracked(|chart| format!("{plan} - {}", chart.title))
    };
    let save_svg = move |_| {
        if let Some(text) = chart.with_untracked(|chart| chart.file(&name())) {
            hand_over(store, &name(), ("svg", "image/svg+xml"), &text.into());
        }
    };
    let save_png = move |_| {
        let Some(canvas) = node.get_untracked() else { return };
        let give = Closure::once_into_js(move |blob: JsValue| {
            hand_over(store, &name(), ("png", "image/png"), &blob);
        });
        let _ = canvas.to_blob(give.unchecked_ref());
    };
    view! {
        <figure class="chart" class:is-empty=empty>
            <canvas
                class="chart-picture"
                node_ref=node
                role="img"
                tabindex="0"
                style:display=move || if empty.get() { "none" } else { "block" }
                aria-label=move || chart.with(Chart::in_words)
                on:pointerdown=touch
                on:pointermove=touch
                on:pointerleave=move |_| touched.set(None)
                on:pointercancel=move |_| touched.set(None)
                on:keydown=step
                on:blur=move |_| touched.set(None)
            ></canvas>
            <Show when=move || empty.get()>
                <p class="chart-empty">{move || chart.with(|chart| {
                    if chart.points.is_empty() {
                        "Nothing to draw yet: the numbers above are not complete.".to_string()
                    } else {
                        chart.in_words()
                    }
                })}</p>
            </Show>
            <figcaption>
                <span class="chart-title">{move || chart.with(|chart| chart.title.clone())}</span>
                " "
                <output class="chart-reading">{reading}</output>
            </figcaption>
            <Show when=move || !empty.get()>
                <div class="buttons no-print">
                    <button on:click=save_png>"Save as PNG"</button>
                    <button on:click=save_svg>"Save as SVG"</button>
                </div>
            </Show>
        </figure>
    }
}

/// A colour of the page as it is used here: custom properties may refer to each other and to the theme, so
/// the browser is asked for the colour that text of that colour would have.
fn css(canvas: &HtmlCanvasElement, name: &str) -> String {
    let style = web_sys::HtmlElement::style(canvas);
    let used = web_sys::window().and_then(|window| {
        style.set_property("color", &format!("var({name})")).ok()?;
        window.get_computed_style(canvas).ok()??.get_property_value("color").ok()
    });
    // A canvas shows no text, so its own colour means nothing and need not be kept.
    let _ = style.remove_property("color");
    used.unwrap_or_default()
}

/// Repaints when the picture's size, the screen's density or the theme change, while the view is there.
fn watch_page(node: NodeRef<Canvas>, repaint: Trigger) {
    let sized = Closure::<dyn FnMut(JsValue)>::new(move |_| repaint.notify());
    let sizes = ResizeObserver::new(sized.as_ref().unchecked_ref()).ok();
    let themed = Closure::<dyn FnMut(JsValue)>::new(move |_| repaint.notify());
    let themes = MutationObserver::new(themed.as_ref().unchecked_ref()).ok();
    let root = web_sys::window().and_then(|window| window.document()?.document_element());
    if let (Some(themes), Some(root)) = (&themes, root) {
        let options = MutationObserverInit::new();
        options.set_attribute_filter(&Array::of2(&"data-theme".into(), &"class".into()));
        let _ = themes.observe_with_options(&root, &options);
    }
    let dark = query("(prefers-color-scheme: dark)");
    let changed = Closure::<dyn FnMut(JsValue)>::new(move |_| repaint.notify());
    if let Some(dark) = &dark {
        let _ = dark.add_event_listener_with_callback("change", changed.as_ref().unchecked_ref());
    }
    let density = StoredValue::new_local(None::<Density>);
    watch_density(density, repaint);
    // A window that moves to another screen may say only this.
    let resized = window_event_listener(ev::resize, move |_| repaint.notify());

    let observer = sizes.clone();
    Effect::new(move || {
        if let (Some(canvas), Some(observer)) = (node.get(), &observer) {
            let options = ResizeObserverOptions::new();
            options.set_box(ResizeObserverBoxOptions::DevicePixelContentBox);
            observe(observer, &canvas, &options);
        }
    });
    let held = StoredValue::new_local((sizes, sized, themes, themed, dark, changed));
    on_cleanup(move || {
        held.with_value(|(sizes, _, themes, _, dark, changed)| {
            sizes.iter().for_each(ResizeObserver::disconnect);
            themes.iter().for_each(MutationObserver::disconnect);
            if let Some(dark) = dark {
                let listener = changed.as_ref().unchecked_ref();
                let _ = dark.remove_event_listener_with_callback("change", listener);
            }
        });
        density.update_value(|density| *density = None);
        resized.remove();
    });
}

/// By device pixels, so that a change of density counts too; where that is not known, by the plain box.
fn observe(observer: &ResizeObserver, canvas: &HtmlCanvasElement, options: &ResizeObserverOptions) {
    use web_sys::js_sys::{Function, Reflect};
    // web-sys does not say that this call may throw, and it does in WebKit.
    let asked = Reflect::get(observer, &"observe".into())
        .and_then(|observe| observe.dyn_into::<Function>())
        .and_then(|observe| observe.call2(observer, canvas, options));
    if asked.is_err() {
        observer.observe(canvas);
    }
}

/// A listener to the density that the screen has now; silent once dropped.
struct Density {
    query: MediaQueryList,
    _changed: Closure<dyn FnMut()>,
}

impl Drop for Density {
    fn drop(&mut self) {
        self.query.set_onchange(None);
    }
}

/// A query names one density, so each change needs the next query.
fn watch_density(held: StoredValue<Option<Density>, LocalStorage>, repaint: Trigger) {
    let Some(window) = web_sys::window() else { return };
    let Some(query) = query(&format!("(resolution: {}dppx)", window.device_pixel_ratio())) else { return };
    let changed = Closure::<dyn FnMut()>::new(move || {
        repaint.notify();
        // Not from within its own call: the closure that runs must not be dropped.
        set_timeout(
            move || {
                if !held.is_disposed() {
                    watch_density(held, repaint);
                }
            },
            std::time::Duration::ZERO,
        );
    });
    query.set_onchange(Some(changed.as_ref().unchecked_ref()));
    held.update_value(|held| *held = Some(Density { query, _changed: changed }));
}

fn query(text: &str) -> Option<MediaQueryList> {
    web_sys::window()?.match_media(text).ok()?
}
