//! "I poured too much": what was really poured, and what to do with that pail.

use leptos::prelude::*;
use pailwise_calc::measure::MeasuredPour;
use pailwise_calc::measure::steps::Mark;
use pailwise_calc::quantity::{Figure, Volume};
use pailwise_calc::ratio::{Ingredient, Pour};
use pailwise_calc::rescue::{Lost, Remedy, Rescue};
use pailwise_calc::stoichiometry::Side;
use pailwise_kept::answers::batch::Good;
use pailwise_kept::entry::{Entry, Kind};
use pailwise_kept::records::mix::Way;
use pailwise_kept::records::slip::MetRecord;
use pailwise_kept::say;
use pailwise_kept::show::{Reader, mark_units};

use super::split::{layers, mark};
use crate::desk::{Desk, desk};
use crate::mix::slip::{Outcome, in_one_pail, name, outcome, parts_in, takes};
use crate::parts::choice::Choice;
use crate::parts::field::Field;
use crate::parts::pail::{Shown, before_and_after};
use crate::parts::working::how;
use crate::steady::now_ms;
use crate::text::{key, live, tr, tr_with};

/// How often the time since A met B is looked at again.
const LOOK_AGAIN: std::time::Duration = std::time::Duration::from_secs(5);

/// The panel under the split.
pub(super) fn rescue(reader: Reader, good: &Good) -> impl IntoView + use<> {
    let desk = desk();
    let mark = mark(reader, good);
    let way = Way::of(mark);
    let kept = good.clone();
    let now = clock();
    let open = desk.slip.with_untracked(|slip| {
        slip.met.is_some() || slip.poured.keys().any(|key| key.starts_with(&good.product.id))
    });
    view! {
        <details class="card fold" id="rescue" open=open>
            <summary>{live(key::RESCUE)}</summary>
            <div class="rescue">
            <p class="small">{live(key::RESCUE_WHAT)}</p>
            {readings(reader, good, mark, way)}
            <Met />
            <div class="rescue" aria-live="polite">
                {move || desk.slip.with(|slip| {
                    let outcome = outcome(slip, &kept, mark, way, now.get());
                    show(reader, &kept, mark, &outcome)
                })}
            </div>
            <button class="button" type="button" on:click=move |_| back_to_plan(desk)>
                {live(key::RESCUE_PLAN)}
            </button>
            </div>
        </details>
    }
}

/// The phone's clock, in milliseconds, looked at again every few seconds while this stands.
fn clock() -> RwSignal<f64> {
    let now = RwSignal::new(now_ms());
    let again = set_interval_with_handle(move || now.set(now_ms()), LOOK_AGAIN);
    on_cleanup(move || {
        if let Ok(handle) = again {
            handle.clear();
        }
    });
    now
}

fn back_to_plan(desk: Desk) {
    desk.slip.update(|slip| {
        slip.poured.clear();
        slip.met = None;
        slip.apart = false;
    });
}

/// A field for what each pour really came to, with the plan in it.
fn readings(reader: Reader, good: &Good, mark: Mark, way: Way) -> impl IntoView + use<> {
    let slip = desk().slip;
    let read_in = mark_units(mark);
    let plans = good.batch.measured.pours.iter().enumerate().map(|(place, planned)| {
        let entry = Entry::as_typed(reader.shown_by(mark, planned.reading), read_in);
        (name(&good.product.id, way, place), entry)
    });
    let plans = StoredValue::new(plans.collect::<Vec<_>>());
    let fields = good.batch.measured.pours.iter().enumerate().map(|(place, planned)| {
        let (field, kind) = takes(planned);
        // In one pail a later part has met the ones before it.
        let later = matches!(planned.pour.what, Ingredient::Component(i) if i > 0);
        let onto_another = later && !matches!(mark, Mark::Jug(_));
        let plan = Entry::as_typed(reader.shown_by(mark, planned.reading), read_in);
        let (kept, own) = (name(&good.product.id, way, place), name(&good.product.id, way, place));
        let what = say::ingredient(reader, &good.product, planned.pour.what);
        let text = match planned.reading {
            _ if planned.pour.apart => key::RESCUE_READ_APART,
            Figure::Mass(_) => key::RESCUE_READ_SCALE,
            Figure::Small(_) => key::RESCUE_READ_STICK,
            _ => key::RESCUE_READ_JUG,
        };
        let set = StoredValue::new(own);
        view! {
            <Field
                id=format!("rescue-{place}")
                label=tr_with(text, &[("what", &what)])
                quantity=field
                kind=kind
                optional=true
                read_in=read_in
                entry=Signal::derive(move || {
                    slip.with(|slip| slip.poured.get(&kept).cloned()).unwrap_or_else(|| plan.clone())
                })
                set=move |entry| slip.update(|slip| {
                    // From the first change on the plan's own figures stand still beside it.
                    for (own, planned) in plans.get_value() {
                        slip.poured.entry(own).or_insert(planned);
                    }
                    slip.poured.insert(set.get_value(), entry);
                    if onto_another && slip.met.is_none() {
                        let ago = Entry::as_typed("0", read_in);
                        slip.met = Some(MetRecord { ago, typed_at_ms: now_ms() });
                    }
                })
            />
        }
    });
    fields.collect_view()
}

/// Whether A has met B, and when.
#[component]
fn Met() -> impl IntoView {
    let desk = desk();
    let slip = desk.slip;
    let units = move || desk.settings.with(|s| s.units);
    let met = move |ago: Entry| {
        slip.update(|slip| slip.met = Some(MetRecord { ago, typed_at_ms: now_ms() }));
    };
    view! {
        <p class="field-label">{live(key::RESCUE_MET)}</p>
        <Choice
            name="met"
            label=key::RESCUE_MET
            // Nothing is preset: what to do is another thing once they have met.
            options=vec![(Some(false), key::RESCUE_MET_NOT), (Some(true), key::RESCUE_MET_YES)]
            chosen=Signal::derive(move || slip.with(|slip| {
                (slip.met.is_some() || slip.apart).then_some(slip.met.is_some())
            }))
            choose=move |has| if has == Some(true) {
                met(Entry::as_typed("0", units()));
                slip.update(|slip| slip.apart = false);
            } else {
                slip.update(|slip| (slip.met, slip.apart) = (None, true));
            }
        />
        <Show when=move || slip.with(|slip| slip.met.is_some())>
            <Field
                id="rescue-ago"
                label=Signal::derive(|| tr(key::RESCUE_MET_AGO))
                quantity=pailwise_calc::field::Field::MetAgo
                kind=Kind::Minutes
                optional=false
                entry=Signal::derive(move || {
                    let ago = slip.with(|slip| slip.met.as_ref().map(|met| met.ago.clone()));
                    ago.unwrap_or_else(|| Entry::as_typed("0", units()))
                })
                set=met
            />
        </Show>
    }
}

/// What to do, and why.
fn show(reader: Reader, good: &Good, mark: Mark, outcome: &Outcome) -> AnyView {
    match outcome {
        Outcome::AsPlanned => {
            view! { <p class="small">{live(key::RESCUE_AS_PLANNED)}</p> }.into_any()
        }
        Outcome::Invalid => view! { <p class="no-answer">{live(key::RESCUE_UNFIT)}</p> }.into_any(),
        Outcome::Wrong(error) => {
            view! { <p class="no-answer">{say::error(reader, error)}</p> }.into_any()
        }
        Outcome::Rescue(rescue) => remedy(reader, good, mark, rescue).into_any(),
    }
}

fn remedy(reader: Reader, good: &Good, mark: Mark, rescue: &Rescue) -> AnyView {
    let since = desk().slip.with(|slip| slip.met.as_ref().and_then(|met| met.since(now_ms()).ok()));
    let since = since.map(|since| {
        let text = tr_with(key::RESCUE_MET_NOW, &[("time", &reader.time(since))]);
        view! { <p class="small" id="rescue-since">{text}</p> }
    });
    let deed = match rescue.remedy {
        Remedy::Discard(lost) => discard(reader, good, rescue, lost).into_any(),
        Remedy::Fine => {
            let off_by = reader.share(rescue.off_after.abs());
            let tolerance = reader.share(good.job.product.tolerance());
            let figures = [("off_by", &*off_by), ("tolerance", &*tolerance)];
            let text = tr_with(key::RESCUE_FINE, &figures);
            view! { <p class="rescue-deed">{text}</p> }.into_any()
        }
        Remedy::Overdosed => {
            let met = desk().slip.with(|slip| slip.met.is_some());
            let spread =
                met.then(|| view! { <p class="caution">{live(key::RESCUE_MET_ALREADY)}</p> });
            view! { <p class="rescue-deed">{live(key::RESCUE_PUT_ASIDE)}</p> {spread} }.into_any()
        }
        Remedy::Add | Remedy::AddInLarger(_) => additions(reader, good, mark, rescue).into_any(),
    };
    let apart = still_apart(mark, rescue);
    if apart && !rescue.back.is_empty() && all_in(good, rescue) {
        return pour_back(reader, good, mark, rescue).into_any();
    }
    view! {
        {since}
        {over_pail(reader, good, rescue)}
        {off_by(reader, good, rescue)}
        {hint(mark, rescue)}
        {deed}
        {overdosed(reader, good, rescue)}
        {picture(good, rescue)}
        {time(reader, rescue)}
        {consequence(reader, good, rescue)}
        {how(reader, Some(&good.product), &rescue.working)}
    }
    .into_any()
}

/// More than the pail holds was hardly poured into it: most likely a unit is wrong.
fn over_pail(reader: Reader, good: &Good, rescue: &Rescue) -> Option<impl IntoView + use<>> {
    let holds = good.job.gear.vessel.capacity();
    let poured: Volume = rescue.poured.iter().map(|pour| pour.volume).sum();
    (poured > holds).then(|| {
        let text = tr_with(key::RESCUE_OVER_PAIL, &[("holds", &reader.volume_about(holds))]);
        view! { <p class="caution">{text}</p> }
    })
}

/// Whether A and B have not met, as it was said: each still in its own jug.
fn still_apart(mark: Mark, rescue: &Rescue) -> bool {
    desk().slip.with(|slip| slip.apart) && !in_one_pail(mark, &rescue.poured)
}

/// Whether some of every part is poured.
fn all_in(good: &Good, rescue: &Rescue) -> bool {
    let parts = good.job.product.ratio().components().len();
    (0..parts).all(|i| {
        let part = Ingredient::Component(i);
        rescue.poured.iter().any(|pour| pour.what == part && pour.volume.value > 0.0)
    })
}

/// While the parts are apart the way back is to pour back.
fn pour_back(reader: Reader, good: &Good, mark: Mark, rescue: &Rescue) -> impl IntoView + use<> {
    let back = rescue.back.iter().map(|pour| {
        let what = say::ingredient(reader, &good.product, pour.what);
        view! {
            <li class="rescue-add">
                <strong class="rescue-amount">{reader.shown_by(mark, pour.volume.into())}</strong>
                <span>{tr_with(key::RESCUE_BACK_INTO_CAN, &[("what", &what)])}</span>
            </li>
        }
    });
    let adds = matches!(rescue.remedy, Remedy::Add | Remedy::AddInLarger(_));
    let or = adds.then(|| {
        view! { <p class="small">{live(key::RESCUE_OR_ADD)}</p> {additions(reader, good, mark, rescue)} }
    });
    view! {
        {over_pail(reader, good, rescue)}
        {off_by(reader, good, rescue)}
        <p class="rescue-deed">{live(key::RESCUE_BACK)}</p>
        <ul class="rescue-adds">{back.collect_view()}</ul>
        {or}
        {how(reader, Some(&good.product), &rescue.working)}
    }
}

/// How far off it is and which part, where that is what is the matter.
fn off_by(reader: Reader, good: &Good, rescue: &Rescue) -> impl IntoView + use<> {
    let product = &good.job.product;
    let furthest = product.ratio().furthest_off(&rescue.poured);
    let text = match furthest {
        _ if !all_in(good, rescue) => Some(tr(key::RESCUE_UNFINISHED)),
        Some((i, off)) if off.abs() > product.tolerance() => {
            let key = if off > 0.0 { key::RESCUE_OFF_OVER } else { key::RESCUE_OFF_UNDER };
            let name = |i| say::ingredient(reader, &good.product, Ingredient::Component(i));
            let (what, first) = (name(i), name(0));
            let (off, allowed) = (reader.share(off.abs()), reader.share(product.tolerance()));
            let figures =
                [("off_by", &*off), ("tolerance", &*allowed), ("what", &*what), ("first", &*first)];
            Some(tr_with(key, &figures))
        }
        _ => None,
    };
    text.map(|text| view! { <p id="rescue-off">{text}</p> })
}

/// What there is to say while it was not said when the parts met.
fn hint(mark: Mark, rescue: &Rescue) -> impl IntoView + use<> {
    let (unsaid, apart) = desk().slip.with(|slip| (slip.met.is_none(), slip.apart));
    let counts = in_one_pail(mark, &rescue.poured) || (!apart && parts_in(&rescue.poured) > 1);
    let text = (unsaid && counts).then_some(key::RESCUE_SAY_WHEN);
    text.map(|text| view! { <p class="caution">{live(text)}</p> })
}

/// What to add, as this crew measures.
fn additions(reader: Reader, good: &Good, mark: Mark, rescue: &Rescue) -> impl IntoView + use<> {
    let larger = match rescue.remedy {
        Remedy::AddInLarger(generic) => {
            let pail = tr(say::vessel(generic, reader.units));
            let text = tr_with(key::RESCUE_LARGER, &[("pail", &pail)]);
            Some(view! { <p class="caution">{text}</p> })
        }
        _ => None,
    };
    let adds = rescue.adds.iter().map(|add| {
        let what = say::ingredient(reader, &good.product, add.pour.what);
        let text = match add.reading {
            Figure::Mass(_) => key::RESCUE_ADD_TO_READING,
            Figure::Small(_) => key::RESCUE_ADD_TO_MARK,
            _ => key::RESCUE_ADD_JUG,
        };
        let amount = match add.reading {
            Figure::Mass(_) => reader.shown_by(mark, add.pour.mass.into()),
            _ => reader.shown_by(mark, add.pour.volume.into()),
        };
        let reading = reader.shown_by(mark, add.reading);
        let text = tr_with(text, &[("what", &what), ("reading", &reading)]);
        view! {
            <li class="rescue-add">
                <strong class="rescue-amount">{amount}</strong>
                <span>{text}</span>
            </li>
        }
    });
    let volume = reader.shown_by(mark, rescue.volume.into());
    let off_by = reader.share(rescue.off_after.abs());
    let on_ratio = rescue.off_after.abs() < 0.0005;
    let then = if on_ratio { key::RESCUE_THEN_ON_RATIO } else { key::RESCUE_THEN };
    let then = tr_with(then, &[("volume", &volume), ("off_by", &off_by)]);
    view! {
        {larger}
        <p class="rescue-deed">{live(key::RESCUE_ADD)}</p>
        <ul class="rescue-adds">{adds.collect_view()}</ul>
        <p>{then}</p>
    }
}

fn discard(reader: Reader, good: &Good, rescue: &Rescue, lost: Lost) -> impl IntoView + use<> {
    let as_it_is = rescue.adds.is_empty();
    let own = good.job.gear.largest_mass.filter(|most| rescue.mass > *most);
    let why = match lost {
        Lost::PastPotLife => tr(key::RESCUE_PAST),
        Lost::NoTime if as_it_is => tr(key::RESCUE_LATE),
        Lost::NoTime => tr(key::RESCUE_NO_TIME),
        Lost::TooMuch => match own {
            Some(most) => tr_with(
                key::RESCUE_OVER_OWN,
                &[("mass", &reader.mass(rescue.mass)), ("most", &reader.mass(most))],
            ),
            None => tr_with(key::RESCUE_TOO_MUCH, &[("volume", &reader.volume(rescue.volume))]),
        },
    };
    view! {
        <div class="no-answer" role="alert">
            <p class="no-answer-head">{live(key::RESCUE_DISCARD)}</p>
            <p>{why}</p>
            <p>{live(key::RESCUE_HOW_TO_DISCARD)}</p>
        </div>
    }
}

fn overdosed(reader: Reader, good: &Good, rescue: &Rescue) -> impl IntoView + use<> {
    rescue.overdosed.map(|(what, over)| {
        let what = say::ingredient(reader, &good.product, what);
        let figures = [("what", &*what), ("share", &*reader.share(over))];
        view! { <p class="caution">{tr_with(key::RESCUE_OVERDOSED, &figures)}</p> }
    })
}

/// By when it must be where, counted from when A met B.
fn time(reader: Reader, rescue: &Rescue) -> impl IntoView + use<> {
    let late = rescue
        .salvage
        .as_ref()
        .filter(|_| !matches!(rescue.remedy, Remedy::Discard(_) | Remedy::Overdosed));
    late.map(|late| {
        let figures = [
            ("area", reader.area(late.area)),
            ("emptied", reader.time(late.timeline.emptied)),
            ("done", reader.time(late.timeline.done)),
            ("pour_out", reader.time(late.pour_out)),
        ];
        let figures: Vec<_> = figures.iter().map(|(name, text)| (*name, text.as_str())).collect();
        let rest = (late.rest > rescue.volume * 0.02).then(|| {
            let rest = reader.volume_about(late.rest);
            let text = tr_with(key::RESCUE_REST, &[("rest", &rest)]);
            view! { <p class="caution">{text}</p> }
        });
        let edge = (!late.edge_holds).then(|| {
            view! { <p class="caution">{live(key::RESCUE_EDGE)}</p> }
        });
        view! {
            <p id="rescue-covers">{tr_with(key::RESCUE_COVERS, &figures)}</p>
            {edge}
            {rest}
        }
    })
}

/// What it would come to if it were left as it is.
fn consequence(reader: Reader, good: &Good, rescue: &Rescue) -> impl IntoView + use<> {
    let off = rescue.off_by.is_some_and(|off| off.abs() > good.job.product.tolerance());
    let consequence = rescue.consequence.filter(|_| off && all_in(good, rescue));
    let left = consequence.and_then(|c| c.unreacted).map(|left| {
        let text = match left.side {
            Side::A => key::RESCUE_LEFT_A,
            Side::B => key::RESCUE_LEFT_B,
        };
        tr_with(text, &[("share", &reader.share(left.share))])
    });
    let never = consequence.is_some_and(|c| c.gel.is_none()).then(|| tr(key::RESCUE_NEVER_SETS));
    (left.is_some() || never.is_some()).then(|| view! { <p class="small">{left}" "{never}</p> })
}

/// The pail now and then.
fn picture(good: &Good, rescue: &Rescue) -> impl IntoView + use<> {
    let adding = matches!(rescue.remedy, Remedy::Add | Remedy::AddInLarger(_));
    (adding && !rescue.adds.is_empty()).then(|| {
        let own = good.job.gear.vessel;
        let larger = match rescue.remedy {
            Remedy::AddInLarger(generic) => generic.vessel(),
            _ => own,
        };
        let bare = |pour: &Pour| (*pour, String::new());
        let added = |add: &MeasuredPour| (add.pour, "+".to_owned());
        let now = layers(&own, &good.product, rescue.poured.iter().map(bare));
        let all = rescue.poured.iter().map(bare).chain(rescue.adds.iter().map(added));
        let then = layers(&larger, &good.product, all);
        let texts = |layers: &[crate::parts::pail::Layer]| {
            layers.iter().map(|layer| layer.text.clone()).collect::<Vec<_>>().join(", ")
        };
        let title = format!(
            "{} {}. {} {}.",
            tr(key::RESCUE_BEFORE),
            texts(&now),
            tr(key::RESCUE_AFTER),
            texts(&then)
        );
        before_and_after(
            &Shown { vessel: &own, layers: &now, caption: tr(key::RESCUE_NOW) },
            &Shown { vessel: &larger, layers: &then, caption: tr(key::RESCUE_THEN_PAIL) },
            title,
        )
    })
}
