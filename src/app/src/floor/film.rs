//! The wet film on the comb: what it is, how far the material goes at that, and whether it still does.

use leptos::prelude::*;
use pailwise_calc::comb::{Place, WetFilm, notch};
use pailwise_calc::error::Error;
use pailwise_calc::floor::{Coat, CoatPlan};
use pailwise_calc::quantity::{Figure, Length, Volume, unit};
use pailwise_calc::record::Role;
use pailwise_kept::answers::floor::{Found, Good};
use pailwise_kept::records::floor::Single;
use pailwise_kept::say;
use pailwise_kept::show::Reader;

use super::coats::shown_coat;
use super::fields::SingleField;
use crate::desk::{Desk, desk};
use crate::parts::question::Question;
use crate::text::{key, live, tr, tr_with};

/// The teeth of three places: the last wet one, and the next.
const TEETH: [(Single, Single); 3] = [
    (Single::CombWet1, Single::CombDry1),
    (Single::CombWet2, Single::CombDry2),
    (Single::CombWet3, Single::CombDry3),
];

/// The fields of the comb, and what they come to.
#[component]
pub(super) fn Film(found: Memo<Found>) -> impl IntoView {
    let desk = desk();
    let shown = Memo::new(move |_| desk.floor.with(shown_coat));
    // Paste in a crack is no film.
    let is_film = Memo::new(move |_| {
        found.with(|found| match found {
            Found::Plans(good) => {
                good.products.get(shown.get()).is_some_and(|product| product.role != Role::Filler)
            }
            _ => false,
        })
    });
    let said = move || {
        let reader = desk.reader();
        found.with(|found| match found {
            Found::Plans(good) => said(reader, desk, good, shown.get()),
            _ => None,
        })
    };
    let now = move || match read(desk, shown.get()) {
        Some(Ok(film)) => between(desk.reader(), film),
        _ => tr(key::COMB_NOT_READ),
    };
    let fields = move || {
        let coat = shown.get();
        let places = TEETH.map(|(wet, dry)| {
            view! {
                <div class="thing comb">
                    <SingleField single=wet coat=coat />
                    <SingleField single=dry coat=coat />
                </div>
            }
        });
        places.collect_view()
    };
    view! {
        <Show when=move || is_film.get()>
            <div class="questions">
                <Question label=key::QUESTION_COMB now=Signal::derive(now)>
                    <p class="small">{live(key::COMB_HINT)}</p>
                    {fields}
                    <div aria-live="polite">{said}</div>
                </Question>
            </div>
        </Show>
    }
}

/// The film at the places that are typed; nothing while there is none.
fn read(desk: Desk, coat: usize) -> Option<Result<WetFilm, Error>> {
    let tooth = |single: Single| {
        let measure = single.measure();
        let entry = desk.floor.with(|form| form.entry(coat, single).cloned())?;
        let um = entry.value(measure.kind, measure.field).ok()?;
        Some(Length::new::<unit::micrometer>(um))
    };
    let places = TEETH
        .into_iter()
        .filter_map(|(wet, dry)| Some(Place { last_wet: tooth(wet)?, next_dry: tooth(dry)? }));
    let places: Vec<Place> = places.collect();
    (!places.is_empty()).then(|| WetFilm::read(&places))
}

/// "14 to 16 mils"; one figure where it is one.
fn between(reader: Reader, film: WetFilm) -> String {
    let (least, most) = (reader.thickness(film.least), reader.thickness(film.most));
    if least == most {
        return most;
    }
    tr_with(key::COMB_BETWEEN, &[("least", &least), ("most", &most)])
}

fn said(reader: Reader, desk: Desk, good: &Good, shown: usize) -> Option<AnyView> {
    let (coat, plan) = (good.floor.coats.get(shown)?, good.plans.get(shown)?);
    let asked = coat.coverage.wet();
    let depth = notch(asked).map(|depth| {
        let figures = [("asked", &*reader.thickness(asked)), ("depth", &*reader.small(depth))];
        view! { <p class="small">{tr_with(key::COMB_NOTCH, &figures)}</p> }
    });
    let film = match read(desk, shown) {
        None => None,
        Some(Err(error)) => {
            let swapped = matches!(error, Error::LeastAboveMost { .. });
            let why = if swapped { tr(key::COMB_SWAPPED) } else { say::error(reader, &error) };
            Some(view! { <p class="field-problem" id="comb-wrong">{why}</p> }.into_any())
        }
        Some(Ok(film)) => Some(reckoned(reader, (coat, plan), film).into_any()),
    };
    Some(view! { {film}{depth} }.into_any())
}

/// What a film comes to: as asked or not, how far it goes, and what the rest takes at that.
fn reckoned(
    reader: Reader,
    (coat, plan): (&Coat, &CoatPlan),
    film: WetFilm,
) -> impl IntoView + use<> {
    let asked = coat.coverage.wet();
    let goes = film.goes(asked);
    let spread = Figure::SpreadRate(1.0 / film.most.get::<unit::millimeter>());
    let figures = [
        ("film", &*between(reader, film)),
        ("asked", &*reader.thickness(asked)),
        ("spread", &*reader.figure(spread)),
    ];
    let text = if film.is_as_asked(asked) {
        key::COMB_AS_ASKED
    } else if film.least > asked {
        key::COMB_THICK
    } else {
        key::COMB_THIN
    };
    let class = if film.is_as_asked(asked) { "" } else { "caution" };
    // Thinner than asked is no saving: the rest is to be laid as asked.
    let rest = plan.needed / goes.min(1.0);
    let takes = tr_with(key::COMB_TAKES, &[("volume", &reader.volume_needed(rest))]);
    let short = plan.left.map(|left| {
        let short = (rest - left).max(Volume::default());
        if short > Volume::default() {
            let text = tr_with(key::COMB_SHORT, &[("short", &reader.volume_needed(short))]);
            view! { <p class="no-answer" role="alert" id="comb-short">{text}</p> }.into_any()
        } else {
            view! { <p class="small">{live(key::PLAN_ENOUGH)}</p> }.into_any()
        }
    });
    view! {
        <p class=class id="comb-film">{tr_with(text, &figures)}</p>
        <p>{takes}</p>
        {short}
    }
}
