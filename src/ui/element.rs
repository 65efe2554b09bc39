//! What `view!` builds: elements that are all of one type, whatever their tag, attributes and children.
//!
//! Leptos' own elements carry their shape in their type, and each type gets code of its own; with as many
//! small views as this page has, that was a sixth of what a visitor downloads. Signals, effects, components
//! and the renderer are Leptos' as they are. Like its elements, these are changed in place when a view is
//! built again in the same shape, so that the focus and what is typed stay.

use super::value::{IntoSource, Source, Value};
use leptos::children::{ChildrenFn, ViewFn};
use leptos::ev::EventDescriptor;
use leptos::prelude::*;
use leptos::reactive::computed::ArcMemo;
use leptos::reactive::effect::RenderEffect;
use leptos::tachys::html::InertElement;
use leptos::tachys::html::attribute::any_attribute::AnyAttribute;
use leptos::tachys::html::element::ElementType;
use leptos::tachys::html::node_ref::NodeRefContainer;
use leptos::tachys::hydration::Cursor;
use leptos::tachys::renderer::{RemoveEventHandler, Rndr, types};
use leptos::tachys::view::any_view::AnyViewState;
use leptos::tachys::view::{Mountable, Position, PositionState, Render, RenderHtml};
use send_wrapper::SendWrapper;
use std::any::Any;
use std::borrow::Cow;
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::{JsCast, JsValue};

/// An element that is not on the page yet.
pub struct Element(Box<SendWrapper<Made>>);

struct Made {
    tag: &'static str,
    is_drawn: bool,
    parts: Vec<Part>,
    children: Vec<AnyView>,
}

/// Where a value goes.
#[derive(Clone, Copy, PartialEq)]
enum Target {
    Attribute,
    Class,
    Property,
    Style,
}

type Handler = Box<dyn FnMut(JsValue)>;

enum Part {
    Value(Target, &'static str, Source),
    Event(Cow<'static, str>, Handler),
    Reference(Box<dyn FnOnce(&web_sys::Element)>),
}

impl Element {
    /// An element of the page.
    pub fn new(tag: &'static str) -> Element {
        Element::made(tag, false)
    }

    /// An element of a drawing.
    pub fn drawn(tag: &'static str) -> Element {
        Element::made(tag, true)
    }

    #[inline(never)]
    fn made(tag: &'static str, is_drawn: bool) -> Element {
        let made = Made { tag, is_drawn, parts: Vec::new(), children: Vec::new() };
        Element(Box::new(SendWrapper::new(made)))
    }

    // Views are long chains of these: each is a call, not its body once more.
    #[inline(never)]
    fn with(mut self, part: Part) -> Element {
        self.0.parts.push(part);
        self
    }

    #[inline(never)]
    fn value(self, target: Target, name: &'static str, value: Source) -> Element {
        self.with(Part::Value(target, name, value))
    }

    /// Sets an attribute to a text.
    #[inline(never)]
    pub fn set(self, name: &'static str, text: &'static str) -> Element {
        self.value(Target::Attribute, name, Source::Fixed(text.into()))
    }

    /// Sets an attribute; none for nothing and for `false`.
    pub fn attribute<M>(self, name: &'static str, value: impl IntoSource<M>) -> Element {
        self.value(Target::Attribute, name, value.into_source())
    }

    /// Sets a class while the value is true.
    pub fn class<M>(self, name: &'static str, value: impl IntoSource<M>) -> Element {
        self.value(Target::Class, name, value.into_source())
    }

    /// Sets a property, such as what stands in a field.
    pub fn property<M>(self, name: &'static str, value: impl IntoSource<M>) -> Element {
        self.value(Target::Property, name, value.into_source())
    }

    /// Sets a single style.
    pub fn style<M>(self, name: &'static str, value: impl IntoSource<M>) -> Element {
        self.value(Target::Style, name, value.into_source())
    }

    /// Listens to an event.
    pub fn on<D>(self, event: D, mut hear: impl FnMut(D::EventType) + 'static) -> Element
    where
        D: EventDescriptor,
        D::EventType: JsCast,
    {
        self.hears(event.name(), Box::new(move |event| hear(event.unchecked_into())))
    }

    #[inline(never)]
    fn hears(self, event: Cow<'static, str>, mut handler: Handler) -> Element {
        // What is done then may ask for what the views around this one provide.
        let owner = Owner::current().unwrap_or_default();
        self.with(Part::Event(event, Box::new(move |event| owner.with(|| handler(event)))))
    }

    /// Says which element it became, once it is built.
    pub fn node_ref<T>(self, reference: NodeRef<T>) -> Element
    where
        T: ElementType + 'static,
        NodeRef<T>: NodeRefContainer<T>,
    {
        self.with(Part::Reference(Box::new(move |element| reference.load(element))))
    }

    /// Adds a text after the children there are.
    #[inline(never)]
    pub fn text(self, text: &'static str) -> Element {
        self.child(text.into_any())
    }

    /// Adds a child after those there are.
    #[inline(never)]
    pub fn child(mut self, child: AnyView) -> Element {
        self.0.children.push(child);
        self
    }

    /// The element as a view.
    #[inline(never)]
    pub fn view(self) -> AnyView {
        self.into_any()
    }
}

/// What stands in braces in a `view!`. If it is a closure, its view is built again whenever what it reads
/// changes; anything else is a view by itself, see [`Stays`].
pub struct Block<T>(pub T);

impl<F, T, V> Block<F>
where
    F: FnMut() -> T + Send + 'static,
    T: IntoRender<Output = V>,
    V: RenderHtml + Send + 'static,
{
    /// The view.
    pub fn view(mut self) -> AnyView {
        live_boxed(Box::new(move || fixed(self.0())))
    }
}

/// The view of a [`Block`] that is no closure: the compiler takes this only where the other does not fit.
pub trait Stays {
    /// The view.
    fn view(self) -> AnyView;
}

impl<T, V> Stays for Block<T>
where
    T: IntoRender<Output = V>,
    V: RenderHtml + Send + 'static,
{
    fn view(self) -> AnyView {
        fixed(self.0)
    }
}

/// A view of any type as one without.
pub fn fixed<T, V>(view: T) -> AnyView
where
    T: IntoRender<Output = V>,
    V: RenderHtml + Send + 'static,
{
    // A view without a type is taken as it is, not wrapped once more.
    let mut view = Some(view.into_render());
    let known = (&mut view as &mut dyn Any).downcast_mut::<Option<AnyView>>().and_then(Option::take);
    known.or_else(|| view.map(IntoAny::into_any)).unwrap_or_else(|| ().into_any())
}

#[inline(never)]
fn live_boxed(view: Box<dyn FnMut() -> AnyView + Send>) -> AnyView {
    view.into_any()
}

/// Markup that is known when the page is compiled.
#[inline(never)]
pub fn inert(html: &'static str) -> AnyView {
    InertElement::new(html).into_any()
}

/// Views side by side, with no element around them.
#[inline(never)]
pub fn side_by_side(views: Vec<AnyView>) -> AnyView {
    views.into_any()
}

/// Shows its children while a condition holds, and otherwise the fallback, if there is one.
#[component]
pub fn Show<W>(when: W, children: ChildrenFn, #[prop(optional, into)] fallback: ViewFn) -> impl IntoView
where
    W: Fn() -> bool + Send + Sync + 'static,
{
    show(Box::new(when), children, fallback)
}

#[inline(never)]
fn show(when: Box<dyn Fn() -> bool + Send + Sync>, children: ChildrenFn, fallback: ViewFn) -> AnyView {
    let holds = ArcMemo::new(move |_| when());
    live_boxed(Box::new(move || if holds.get() { children() } else { fallback.run() }))
}

/// An element on the page.
pub struct Standing {
    tag: &'static str,
    element: web_sys::Element,
    parts: Vec<Kept>,
    children: Vec<AnyViewState>,
}

enum Kept {
    Fixed(Target, &'static str, Value),
    Live(Target, &'static str, RenderEffect<Value>),
    Event(
        Cow<'static, str>,
        Rc<RefCell<Handler>>,
        #[expect(dead_code, reason = "stops listening when dropped")] Listening,
    ),
    Reference,
}

type Listening = RemoveEventHandler<web_sys::Element>;

fn set(element: &web_sys::Element, target: Target, name: &'static str, value: &Value) {
    match (target, value) {
        (Target::Attribute, Value::None | Value::Flag(false)) => Rndr::remove_attribute(element, name),
        (Target::Attribute, _) => Rndr::set_attribute(element, name, value.text()),
        (Target::Class, Value::Flag(true)) => Rndr::add_class(&Rndr::class_list(element), name),
        (Target::Class, _) => Rndr::remove_class(&Rndr::class_list(element), name),
        (Target::Property, _) => Rndr::set_property_or_value(element, name, &value.to_js()),
        (Target::Style, _) => Rndr::set_css_property(&Rndr::style(element), name, value.text()),
    }
}

/// Follows a value. `last` is what is set already; a property is set all the same, since the reader may have
/// changed it.
fn follow(
    element: &web_sys::Element,
    target: Target,
    name: &'static str,
    mut value: Box<dyn FnMut() -> Value>,
    last: Option<Value>,
) -> RenderEffect<Value> {
    let element = element.clone();
    let follow = move |last: Option<Value>| {
        let value = value();
        if target == Target::Property || last.as_ref() != Some(&value) {
            set(&element, target, name, &value);
        }
        value
    };
    RenderEffect::new_with_value(follow, last)
}

fn build(element: &web_sys::Element, part: Part) -> Kept {
    match part {
        Part::Value(target, name, Source::Fixed(value)) => {
            if value != Value::None {
                set(element, target, name, &value);
            }
            Kept::Fixed(target, name, value)
        }
        Part::Value(target, name, Source::Live(value)) => {
            Kept::Live(target, name, follow(element, target, name, value, None))
        }
        Part::Event(name, handler) => {
            let handler = Rc::new(RefCell::new(handler));
            let hear = Rc::clone(&handler);
            let hear = Box::new(move |event| {
                if let Ok(mut hear) = hear.try_borrow_mut() {
                    hear(event);
                }
            });
            let listening = Rndr::add_event_listener(element, &name, hear);
            Kept::Event(name, handler, listening)
        }
        Part::Reference(tell) => {
            tell(element);
            Kept::Reference
        }
    }
}

/// Whether a part can take the place of one that stands.
fn fits(new: &Part, old: &Kept) -> bool {
    match (new, old) {
        (Part::Value(target, name, Source::Fixed(_)), Kept::Fixed(was, called, _))
        | (Part::Value(target, name, Source::Live(_)), Kept::Live(was, called, _)) => {
            target == was && name == called
        }
        (Part::Event(name, _), Kept::Event(called, ..)) => name == called,
        (Part::Reference(_), Kept::Reference) => true,
        _ => false,
    }
}

fn rebuild(element: &web_sys::Element, part: Part, old: &mut Kept) {
    match (part, old) {
        (Part::Value(target, name, Source::Fixed(value)), Kept::Fixed(.., last)) => {
            if target == Target::Property || value != *last {
                set(element, target, name, &value);
            }
            *last = value;
        }
        (Part::Value(target, name, Source::Live(value)), Kept::Live(.., effect)) => {
            *effect = follow(element, target, name, value, effect.take_value());
        }
        (Part::Event(_, handler), Kept::Event(_, old, _)) => {
            if let Ok(mut old) = old.try_borrow_mut() {
                *old = handler;
            }
        }
        (Part::Reference(tell), _) => tell(element),
        _ => (),
    }
}

impl Render for Element {
    type State = Standing;

    fn build(self) -> Standing {
        let Made { tag, is_drawn, parts, children } = self.0.take();
        let space = is_drawn.then_some("http://www.w3.org/2000/svg");
        let element = Rndr::create_element(tag, space);
        let parts = parts.into_iter().map(|part| build(&element, part)).collect();
        let child = |child: AnyView| {
            let mut child = child.build();
            child.mount(&element, None);
            child
        };
        let children = children.into_iter().map(child).collect();
        Standing { tag, element, parts, children }
    }

    fn rebuild(self, old: &mut Standing) {
        let new = &self.0;
        let is_same_shape = new.tag == old.tag
            && new.children.len() == old.children.len()
            && new.parts.len() == old.parts.len()
            && new.parts.iter().zip(&old.parts).all(|(new, old)| fits(new, old));
        if !is_same_shape {
            let mut new = self.build();
            old.insert_before_this(&mut new);
            old.unmount();
            *old = new;
            return;
        }
        let Made { parts, children, .. } = self.0.take();
        for (part, kept) in parts.into_iter().zip(&mut old.parts) {
            rebuild(&old.element, part, kept);
        }
        for (child, old) in children.into_iter().zip(&mut old.children) {
            child.rebuild(old);
        }
    }
}

impl Mountable for Standing {
    fn unmount(&mut self) {
        self.element.remove();
    }

    fn mount(&mut self, parent: &types::Element, marker: Option<&types::Node>) {
        Rndr::insert_node(parent, &self.element, marker);
    }

    fn insert_before_this(&self, child: &mut dyn Mountable) -> bool {
        let parent = self.element.parent_element();
        parent.is_some_and(|parent| child.try_mount(&parent, Some(&self.element)))
    }

    fn elements(&self) -> Vec<types::Element> {
        vec![self.element.clone()]
    }
}

leptos::tachys::no_attrs!(Element);

/// Leptos asks for all of this of a view; the page is only ever built in the browser.
impl RenderHtml for Element {
    type AsyncOutput = Element;
    type Owned = Element;
    const MIN_LENGTH: usize = 0;

    fn dry_resolve(&mut self) {}

    async fn resolve(self) -> Element {
        self
    }

    fn to_html_with_buf(self, _: &mut String, _: &mut Position, _: bool, _: bool, _: Vec<AnyAttribute>) {}

    fn hydrate<const FROM_SERVER: bool>(self, _: &Cursor, _: &PositionState) -> Standing {
        self.build()
    }

    fn into_owned(self) -> Element {
        self
    }
}
