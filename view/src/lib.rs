//! `view!` with the syntax of Leptos' own macro, whose elements are all of one type: `ui::element::Element`.
//!
//! Leptos gives each shape of element, each attribute and each closure a type of its own, and the compiler
//! writes code for each: a sixth of the page. What differs here is only what is generated; signals,
//! effects, components and the renderer are Leptos'.

use proc_macro2::TokenStream;
use quote::{format_ident, quote, quote_spanned};
use rstml::node::{
    KVAttributeValue, KeyedAttribute, KeyedAttributeValue, Node, NodeAttribute, NodeBlock, NodeElement,
};
use syn::spanned::Spanned;
use syn::{Expr, ExprLit, Ident, Lit, LitStr, Stmt};

/// Builds a view of elements, texts, blocks and components, as Leptos' `view!` does.
///
/// Known: attributes, `class:…`, `prop:…`, `style:…`, `on:…`, `node_ref`; in a component its properties,
/// `let:…` and children. A block or attribute that is a closure is run again when what it reads changes.
#[proc_macro]
pub fn view(tokens: proc_macro::TokenStream) -> proc_macro::TokenStream {
    match rstml::parse(tokens).and_then(|nodes| fragment(&nodes, false)) {
        Ok(view) => view.into(),
        Err(error) => error.to_compile_error().into(),
    }
}

/// Several nodes side by side, or the one there is.
fn fragment(nodes: &[Node], in_svg: bool) -> syn::Result<TokenStream> {
    match nodes {
        [one] => node(one, in_svg),
        _ => {
            let nodes = nodes.iter().map(|one| node(one, in_svg)).collect::<syn::Result<Vec<_>>>()?;
            Ok(quote! { crate::ui::element::side_by_side(::std::vec![#(#nodes),*]) })
        }
    }
}

fn node(node: &Node, in_svg: bool) -> syn::Result<TokenStream> {
    let mut html = String::new();
    match node {
        Node::Text(text) => {
            let text = &text.value;
            Ok(quote! { crate::ui::element::fixed(#text) })
        }
        Node::Block(block) => {
            let value = alone(block).map_or_else(|| quote! { #block }, |value| quote! { #value });
            Ok(quote! {{
                use crate::ui::element::Stays as _;
                crate::ui::element::Block(#value).view()
            }})
        }
        Node::Element(found) if is_component(found) => component(found),
        Node::Element(found) if !in_svg && markup(node, &mut html).is_some() => {
            Ok(quote! { crate::ui::element::inert(#html) })
        }
        Node::Element(found) => element(found, in_svg),
        Node::Fragment(found) => fragment(&found.children, in_svg),
        other => Err(syn::Error::new(other.span(), "view! does not know this kind of node")),
    }
}

/// Adds a node as HTML, if all of it is known now: such parts are written into the page as they are.
fn markup(node: &Node, html: &mut String) -> Option<()> {
    let escaped = |text: &str| text.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;");
    match node {
        Node::Text(text) => html.push_str(&escaped(&text.value_string())),
        Node::Element(found) if !is_component(found) && !is_drawn(found) => {
            let tag = found.name().to_string();
            *html += &format!("<{tag}");
            for part in keyed(found) {
                let part = part.ok()?;
                let name = part.key.to_string();
                if name.contains(':') || name == "node_ref" {
                    return None;
                }
                *html += &match &part.possible_value {
                    KeyedAttributeValue::None => format!(" {name}"),
                    _ => format!(" {name}=\"{}\"", escaped(&literal(part)?.value())),
                };
            }
            html.push('>');
            found.children.iter().try_for_each(|child| markup(child, html))?;
            if !found.open_tag.is_self_closed() {
                *html += &format!("</{tag}>");
            }
        }
        _ => return None,
    }
    Some(())
}

/// The text of an attribute, if it is written there.
fn literal(part: &KeyedAttribute) -> Option<&LitStr> {
    match part.value()? {
        Expr::Lit(ExprLit { lit: Lit::Str(text), .. }) => Some(text),
        _ => None,
    }
}

/// The expression that is all of a block.
fn alone(block: &NodeBlock) -> Option<&Expr> {
    match block.try_block()?.stmts.as_slice() {
        [Stmt::Expr(value, None)] => Some(value),
        _ => None,
    }
}

fn is_component(element: &NodeElement<rstml::Infallible>) -> bool {
    let name = element.name().to_string();
    name.contains("::") || name.starts_with(|c: char| c.is_ascii_uppercase())
}

/// What belongs to drawings, also where the `svg` around it stands in another `view!`.
const DRAWN: [&str; 6] = ["svg", "g", "path", "rect", "text", "circle"];

fn is_drawn(element: &NodeElement<rstml::Infallible>) -> bool {
    DRAWN.contains(&element.name().to_string().as_str())
}

fn element(found: &NodeElement<rstml::Infallible>, in_svg: bool) -> syn::Result<TokenStream> {
    let tag = found.name().to_string();
    let in_svg = in_svg || is_drawn(found);
    let start = if in_svg { format_ident!("drawn") } else { format_ident!("new") };
    let attributes = keyed(found).map(|part| attribute(part?)).collect::<syn::Result<Vec<_>>>()?;
    let child = |child: &Node| match child {
        Node::Text(text) => {
            let text = &text.value;
            Ok(quote! { .text(#text) })
        }
        child => node(child, in_svg).map(|child| quote! { .child(#child) }),
    };
    let children = found.children.iter().map(child).collect::<syn::Result<Vec<_>>>()?;
    let span = found.name().span();
    Ok(quote_spanned! { span=>
        crate::ui::element::Element::#start(#tag) #(#attributes)* #(#children)* .view()
    })
}

/// The attributes, all of which must have a name.
fn keyed(found: &NodeElement<rstml::Infallible>) -> impl Iterator<Item = syn::Result<&KeyedAttribute>> {
    found.attributes().iter().map(|one| match one {
        NodeAttribute::Attribute(one) => Ok(one),
        NodeAttribute::Block(block) => Err(syn::Error::new(block.span(), "attributes are given by name")),
    })
}

fn value(part: &KeyedAttribute) -> Option<TokenStream> {
    part.possible_value.to_value().map(|value| match &value.value {
        KVAttributeValue::Expr(value) => quote! { #value },
        KVAttributeValue::InvalidBraced(block) => quote! { #block },
    })
}

fn attribute(part: &KeyedAttribute) -> syn::Result<TokenStream> {
    let name = part.key.to_string();
    let value = value(part).unwrap_or_else(|| quote! { true });
    let span = part.key.span();
    Ok(match name.split_once(':') {
        None if name == "node_ref" => quote! { .node_ref(#value) },
        None if literal(part).is_some() => quote! { .set(#name, #value) },
        None => quote! { .attribute(#name, #value) },
        Some(("class", name)) => quote! { .class(#name, #value) },
        Some(("prop", name)) => quote! { .property(#name, #value) },
        Some(("style", name)) => quote! { .style(#name, #value) },
        Some(("on", name)) => {
            let name = Ident::new(name, span);
            quote! { .on(::leptos::ev::#name, #value) }
        }
        Some(_) => return Err(syn::Error::new(span, "view! does not know this kind of attribute")),
    })
}

fn component(found: &NodeElement<rstml::Infallible>) -> syn::Result<TokenStream> {
    let name = found.name();
    let (mut properties, mut bound) = (Vec::new(), Vec::new());
    for part in keyed(found) {
        let part = part?;
        let key = part.key.to_string();
        if let Some(binding) = key.strip_prefix("let:") {
            bound.push(Ident::new(binding, part.key.span()));
        } else {
            let key = &part.key;
            let value = match &part.possible_value {
                KeyedAttributeValue::None => quote! { #key },
                _ => value(part).unwrap_or_else(|| quote! { #key }),
            };
            properties.push(quote! { .#key(#value) });
        }
    }
    if !found.children.is_empty() {
        let children = fragment(&found.children, false)?;
        properties.push(if bound.is_empty() {
            quote! { .children(::leptos::children::ToChildren::to_children(move || #children)) }
        } else {
            quote! { .children(move |#(#bound),*| #children) }
        });
    }
    Ok(quote_spanned! { name.span()=>
        crate::ui::element::fixed(::leptos::component::component_view(
            #[allow(clippy::needless_borrows_for_generic_args)]
            &#name,
            ::leptos::component::component_props_builder(&#name) #(#properties)* .build(),
        ))
    })
}
