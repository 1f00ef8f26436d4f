//! After each coat: recoat, light use, vehicles and full cure as clock times, on a strip and in
//! words, and how the next coat as planned meets the window.

use leptos::prelude::*;
use pailwise_calc::after::{Meets, Window};
use pailwise_calc::field::Field;
use pailwise_calc::quantity::{Time, minutes, unit};
use pailwise_calc::working::Step;
use pailwise_kept::answers::floor::{Found, Good};
use pailwise_kept::show::Reader;

use super::ahead::{CoatAhead, Next, ahead, in_use};
use super::coats::{CoatPick, refusal, shown_coat};
use super::days::{DateQuestion, Days, Toward, midnight};
use super::weather::{Weather, day_said};
use crate::desk::{Desk, desk};
use crate::parts::question::Question;
use crate::parts::strip::{Lane, strip};
use crate::parts::working::{figure, how};
use crate::text::{key, live, tr, tr_with};

/// Floor tab that shows when each coat may be recoated, walked and driven on.
#[component]
pub(super) fn After(found: Memo<Found>) -> impl IntoView {
    let desk = desk();
    let shown = Memo::new(move |_| desk.floor.with(shown_coat));
    let answer = move || {
        let reader = desk.reader();
        found.with(|found| match found {
            Found::Plans(good) => answer(reader, desk, good).into_any(),
            other => refusal(reader, other).into_any(),
        })
    };
    view! {
        <section class="questions" aria-label=live(key::SIDE_AFTER)>
            <DateQuestion />
            <Question label=key::QUESTION_NIGHT now=Signal::derive(move || day_said(shown.get()))>
                <p class="small">{live(key::NIGHT_HINT)}</p>
                <CoatPick />
                {move || view! { <Weather at=shown.get() /> }}
            </Question>
        </section>
        <section class="answer" aria-label=live(key::FLOOR_ANSWER)>{answer}</section>
    }
}

fn answer(reader: Reader, desk: Desk, good: &Good) -> impl IntoView + use<> {
    let days = desk.floor.with(|form| Days::of(reader, form));
    let all = ahead(good, |from, to| days.between(from, to));
    let missing = (all.len() < good.floor.coats.len()).then(|| {
        view! { <p class="no-answer">{live(key::AFTER_NO_PLAN)}</p> }
    });
    let coats = all.iter().map(|one| coat(reader, days, good, one));
    let coats = coats.collect_view();
    let floor = (missing.is_none() && !all.is_empty()).then(|| whole(reader, days, &all));
    view! {
        {missing}
        <div class="card">
            {picture(days, good, &all)}
            <p class="small">{live(key::AFTER_LEGEND)}</p>
        </div>
        {floor}
        {coats}
        <p class="small">{live(key::AFTER_HOW)}</p>
    }
}

/// The strip of all coats.
fn picture(days: Days, good: &Good, all: &[CoatAhead]) -> Option<AnyView> {
    if all.is_empty() {
        return None;
    }
    let lanes: Vec<Lane> = all
        .iter()
        .map(|one| {
            let at = |since: Time| (one.begins + since).get::<unit::minute>();
            let mark = |time: Option<Time>, sign: &'static str| Some((at(time?), tr(sign)));
            // Under another coat nobody waits for them.
            let marks = [
                mark(one.ahead.light_use, key::SIGN_LIGHT_USE),
                mark(one.ahead.vehicles, key::SIGN_VEHICLES),
            ];
            let marks = marks.into_iter().filter(|_| one.next.is_none());
            Lane {
                label: good.products[one.coat].name.clone(),
                laid: (at(Time::default()), at(one.down)),
                window: one
                    .ahead
                    .recoat
                    .filter(|window| !window.shut())
                    .map(|window| (at(window.opens), window.closes.map(at))),
                marks: marks.flatten().collect(),
            }
        })
        .collect();
    let first = midnight(all.iter().map(|one| one.begins).fold(all[0].begins, Time::min));
    let day = move |n: u32| {
        let at = minutes(f64::from(n) * 1440.0 + 720.0);
        days.name(first.min(at), at - first.min(at))
    };
    let said = |one: &CoatAhead| {
        let lines =
            lines(days, one).into_iter().map(|(label, _, at)| format!("{}: {at}", tr(label)));
        format!("{}: {}", good.products[one.coat].name, lines.collect::<Vec<_>>().join(", "))
    };
    let said: Vec<String> = all.iter().map(said).collect();
    let title = format!("{} {}", tr(key::AFTER_PICTURE), said.join(". "));
    Some(strip(&lanes, day, title).into_any())
}

/// What comes after a coat, each with its moment in words.
fn lines(days: Days, one: &CoatAhead) -> Vec<(&'static str, Field, String)> {
    let later = |time: Time| days.said(one.begins, time, Toward::Later);
    let recoat = one.ahead.recoat;
    let closes = recoat.and_then(|window| window.closes);
    let earlier = |time: Time| days.said(one.begins, time, Toward::Earlier);
    [
        (key::ROW_RECOAT_OPENS, Field::RecoatOpens, recoat.map(|window| later(window.opens))),
        (key::ROW_RECOAT_CLOSES, Field::RecoatCloses, closes.map(earlier)),
    ]
    .into_iter()
    .filter_map(|(label, field, said)| Some((label, field, said?)))
    .collect()
}

/// When the whole floor may be used.
fn whole(reader: Reader, days: Days, all: &[CoatAhead]) -> impl IntoView + use<> {
    let labels = [key::ROW_LIGHT_USE, key::ROW_VEHICLES, key::ROW_FULL_CURE];
    let fields = [Field::LightUse, Field::Vehicles, Field::FullCure];
    let rows = labels.into_iter().zip(fields).zip(in_use(all)).map(|((label, field), moment)| {
        let said = moment.map(|at| days.said(at.begins, at.since, Toward::Later));
        let steps = moment.and_then(|at| all.get(at.of)).map(|one| one.ahead.working_of(field));
        row(reader, label, said.unwrap_or_else(|| tr(key::AFTER_ASK)), steps.unwrap_or_default())
    });
    let no_night = (!all.iter().all(|one| one.knows_a_night)).then(|| {
        view! { <p class="caution no-night">{live(key::AFTER_NO_NIGHT)}</p> }
    });
    view! {
        <section class="card after" id="after-floor">
            <h2>{live(key::AFTER_FLOOR)}</h2>
            <div class="rows">{rows.collect_view()}</div>
            {no_night}
        </section>
    }
}

/// A time, and the working it opens to.
fn row(reader: Reader, label: &'static str, said: String, steps: &[Step]) -> impl IntoView + use<> {
    let figure = match steps.last() {
        Some(step) => figure(said, step.sentence).into_any(),
        None => said.into_any(),
    };
    let how = (!steps.is_empty()).then(|| how(reader, None, steps));
    view! {
        <div class="row">
            <p class="row-line"><span>{live(label)}</span>" "<strong>{figure}</strong></p>
            {how}
        </div>
    }
}

fn coat(reader: Reader, days: Days, good: &Good, one: &CoatAhead) -> impl IntoView + use<> {
    let name = good.products[one.coat].name.clone();
    let down = days.said(one.begins, one.down, Toward::Later);
    let rows = lines(days, one);
    let nothing = rows.is_empty().then(|| view! { <p>{live(key::AFTER_UNSAID)}</p> });
    let rows = rows
        .into_iter()
        .map(|(label, field, said)| row(reader, label, said, one.ahead.working_of(field)));
    let no_night = (!one.knows_a_night).then(|| {
        view! { <p class="caution no-night">{live(key::AFTER_NO_NIGHT)}</p> }
    });
    let shut = one.ahead.recoat.filter(Window::shut).map(|_| {
        view! { <p class="no-answer" role="alert">{live(key::AFTER_SHUT)}</p> }
    });
    let next = one.next.as_ref().zip(good.products.get(one.coat + 1));
    let next = next.map(|(next, product)| meets(days, one, *next, &product.name));
    view! {
        <section class="card after" id=format!("after-{}", one.coat)>
            <h2>{name}</h2>
            <p class="small">{tr_with(key::AFTER_DOWN, &[("time", &down)])}</p>
            {shut}
            {next}
            {nothing}
            <div class="rows">{rows.collect_view()}</div>
            {no_night}
        </section>
    }
}

/// How the next coat as planned meets the window, and what then.
fn meets(days: Days, one: &CoatAhead, next: Next, name: &str) -> Option<AnyView> {
    let window = one.ahead.recoat?;
    let planned = days.said(one.begins, next.begins, Toward::Earlier);
    let opens = days.said(one.begins, window.opens, Toward::Later);
    let closes = window.closes.unwrap_or_default();
    let closed = days.said(one.begins, closes, Toward::Earlier);
    let begin_by = closes - (next.ends - next.begins);
    let (text, class) = match next.meets? {
        Meets::InTime => (key::MEETS_IN_TIME, "meets-in-time"),
        Meets::TooEarly => (key::MEETS_TOO_EARLY, "no-answer"),
        Meets::TooLate => (key::MEETS_TOO_LATE, "no-answer"),
        Meets::EndsTooLate if begin_by > window.opens => (key::MEETS_ENDS_TOO_LATE, "no-answer"),
        Meets::EndsTooLate => (key::MEETS_TOO_LONG, "no-answer"),
    };
    let by = days.said(one.begins, begin_by, Toward::Earlier);
    let figures = [
        ("name", name),
        ("planned", planned.as_str()),
        ("opens", opens.as_str()),
        ("closes", closed.as_str()),
        ("by", by.as_str()),
    ];
    let abrade = matches!(next.meets, Some(Meets::TooLate | Meets::EndsTooLate));
    Some(
        view! {
            <div class=class role="status" data-meets=format!("{:?}", next.meets?)>
                <p>{tr_with(text, &figures)}</p>
                {abrade.then(|| view! { <p>{live(key::MEETS_ABRADE)}</p> })}
            </div>
        }
        .into_any(),
    )
}
