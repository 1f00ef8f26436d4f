//! One of many, from a list that the phone opens.

use leptos::prelude::*;

use crate::text::live;

/// A labelled list of options of which one is chosen.
#[component]
pub(crate) fn Pick<T>(
    /// Its name in the page.
    #[prop(into)]
    id: String,
    /// Text of its label.
    label: &'static str,
    /// The options, each as it reads.
    options: Vec<(T, String)>,
    /// The option chosen so far; one not in the list shows a dash.
    chosen: T,
    /// Called with the one tapped.
    choose: impl Fn(T) + 'static,
) -> impl IntoView
where
    T: Copy + PartialEq + 'static,
{
    let unchosen = options.iter().all(|(option, _)| *option != chosen);
    let values: Vec<T> = options.iter().map(|(option, _)| *option).collect();
    let items = options.into_iter().enumerate().map(|(i, (option, text))| {
        view! { <option value=i.to_string() selected=option == chosen>{text}</option> }
    });
    view! {
        <div class="pick">
            <label class="field-label" for=id.clone()>{live(label)}</label>
            <select
                id=id
                class="pick-list"
                on:change:target=move |event| {
                    let at = event.target().value().parse::<usize>().ok();
                    if let Some(option) = at.and_then(|at| values.get(at)) {
                        choose(*option);
                    }
                }
            >
                {unchosen.then(|| view! { <option value="" selected=true disabled=true>"–"</option> })}
                {items.collect_view()}
            </select>
        </div>
    }
}
