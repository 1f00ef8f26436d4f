//! The cup test: four ounces set aside from a batch, and one tap once it strings or gets hot. What
//! it says of the lot is kept with the product.

use leptos::prelude::*;
use pailwise_calc::quantity::{Time, minutes};
use pailwise_kept::records::cup::CupRecord;
use pailwise_kept::records::run::RunRecord;

use super::count::countdown;
use super::seen::learn;
use super::watch::watch;
use crate::desk::{Desk, desk};
use crate::moments;
use crate::moments::clock;
use crate::screen::ShelfRoute;
use crate::store::{CUPS, PRODUCTS};
use crate::text::{key, live, tr, tr_with};

/// The button that sets a cup of a batch aside, as long as none stands.
pub(super) fn set_aside(desk: Desk, run: &RunRecord) -> impl IntoView + use<> {
    let (id, run) = (run.id.clone(), run.clone());
    let stands = move || desk.cups.with(|cups| cups.iter().any(|cup| cup.id == id));
    let take = move |_| {
        let Some(cup) = CupRecord::of(&run) else { return };
        let what = tr_with(key::DID_SET_CUP, &[("name", &cup.name)]);
        // Told of where it fails.
        let _ = desk.step(what, &keys(&cup)[..1], || desk.put_cup(cup.clone()));
    };
    move || {
        let take = take.clone();
        (!stands()).then(|| {
            view! {
                <div class="set-cup">
                    <button class="button" type="button" on:click=take>{live(key::CUP_SET)}</button>
                    <p class="hint">{live(key::CUP_SET_HINT)}</p>
                </div>
            }
        })
    }
}

/// The cups that stand aside.
#[component]
pub(super) fn Cups() -> impl IntoView {
    let cups = desk().cups;
    let ids = Memo::new(move |_| {
        cups.with(|cups| cups.iter().map(|cup| cup.id.clone()).collect::<Vec<_>>())
    });
    move || {
        let card = |id: String| {
            let cup = cups.with_untracked(|cups| cups.iter().find(|cup| cup.id == id).cloned());
            cup.map(|cup| view! { <Cup cup=cup /> })
        };
        ids.get().into_iter().map(card).collect_view()
    }
}

#[component]
fn Cup(cup: CupRecord) -> impl IntoView {
    let desk = desk();
    let watch = watch();
    let id = format!("cup-{}", cup.id);
    let head = move |cup: &CupRecord| {
        let text = if cup.lot.is_empty() { key::CUP_OF } else { key::CUP_OF_LOT };
        tr_with(text, &[("name", &cup.name), ("lot", &cup.lot)])
    };
    let stamp = cup.met_at_ms;
    let met =
        move || tr_with(key::CLOCK_MET, &[("time", &clock(desk.reader(), stamp, Time::default()))]);
    let of = StoredValue::new(cup);
    let since = move || of.with_value(|cup| cup.since(watch.now.get()));
    // Sooner it was not mixed yet, later nobody has watched it.
    let tells = Memo::new(move |_| (minutes(0.5)..=minutes(24.0 * 60.0)).contains(&since()));
    let spot = ShelfRoute::Lot(of.with_value(|cup| cup.product.clone()));
    let gone = move |_| {
        let cup = of.get_value();
        let learnt = cup.learnt(cup.since(watch.now.get_untracked()), moments::now());
        let what = tr_with(key::DID_CUP_GONE, &[("name", &cup.name)]);
        let kept = desk.step(what, &keys(&cup), || {
            learn(desk, &cup.product, learnt)?;
            desk.remove_cup(&cup.id);
            Ok::<(), crate::store::NotKept>(())
        });
        if kept.is_ok() {
            spot.go();
        }
    };
    let forget = move |_| {
        let cup = of.get_value();
        let _ = desk.step(tr(key::DID_FORGET_CUP), &keys(&cup)[..1], || {
            desk.remove_cup(&cup.id);
            Ok::<(), ()>(())
        });
    };
    view! {
        <section class="card cup" id=id>
            <h2>{move || of.with_value(|cup| head(cup))}</h2>
            <p class="small">{met}</p>
            <p class="run-count">{move || countdown(since())}</p>
            <button
                class="button button-deed"
                type="button"
                disabled=move || !tells.get()
                on:click=gone
            >
                {live(key::CUP_GONE)}
            </button>
            <p class="hint">{live(key::CUP_GONE_HINT)}</p>
            <button class="button button-quiet" type="button" on:click=forget>
                {live(key::CUP_FORGET)}
            </button>
        </section>
    }
}

/// Where a cup and its product are kept, for what is undone with it.
fn keys(cup: &CupRecord) -> [String; 2] {
    [format!("{CUPS}{}", cup.id), format!("{PRODUCTS}{}", cup.product)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use pailwise_calc::lot::LearntBy;
    use pailwise_calc::lot::Seen;
    use pailwise_calc::product::Product;
    use pailwise_calc::record::LearntRecord;

    #[test]
    fn a_cup_says_what_its_lot_is_when_it_goes_as_its_sheet_has_it_and_when_it_goes_sooner() {
        let run = RunRecord::start(1.7e12, pailwise_calc::demo::job(), 5.0, Vec::new(), None);
        let cup = CupRecord::of(&run).unwrap();
        let product = Product::try_from(&run.job.product).unwrap();
        let pace = |minutes: f64| {
            let learnt = LearntRecord {
                at: "2026-01-01T00:00:00Z".to_owned(),
                time_min: minutes,
                lot: String::new(),
                by: LearntBy::Cup,
                mass_kg: cup.mass_kg,
                mixed_c: cup.mixed_c,
                air_c: cup.air_c,
                read_c: None,
            };
            product.pace_by(&Seen::try_from(&learnt).unwrap()).unwrap().unwrap()
        };
        // The demo's base: a little more than its pot life of 45 min at 25 °C in a cup this small.
        assert!(pace(30.0) > pace(45.0) && pace(45.0) > 0.8 && pace(20.0) > 1.5);
        assert_eq!(cup.since(1.7e12 + 60_000.0), minutes(1.0));
        assert_eq!(cup.set_back(60_000.0).since(1.7e12), minutes(1.0));
    }
}
