//! Every part in every state, on one page: at `#parts` of a build that is not optimised, which
//! `cargo xtask serve --dev` makes. It is for whoever changes how the app looks.

use leptos::prelude::*;
use pailwise_calc::conditions::{Conditions, Course};
use pailwise_calc::demo;
use pailwise_calc::field::Field as Quantity;
use pailwise_calc::quantity::{Length, Time, Volume, celsius, minutes, unit};
use pailwise_calc::ready::{Readiness, Verdict, ready};
use pailwise_calc::shape::Rectangle;
use pailwise_calc::vessel::Generic;
use pailwise_kept::entry::{Entry, Kind};
use pailwise_kept::show::Reader;
use pailwise_kept::units::Units;

use crate::desk::desk;
use crate::parts::bands_picture::{Band, plan};
use crate::parts::caution::Caution;
use crate::parts::choice::Choice;
use crate::parts::day::{Row, day};
use crate::parts::field::Field;
use crate::parts::heat_curve::heat_curve;
use crate::parts::jump::jump;
use crate::parts::pail::{Fill, Layer, pail};
use crate::parts::pick::Pick;
use crate::parts::pot_life::{Dot, pot_life};
use crate::parts::printed::Printed;
use crate::parts::qr::qr;
use crate::parts::question::Question;
use crate::parts::strip::{Lane, strip};
use crate::parts::time_bar::{Bar, time_bar};
use crate::parts::toggle::Toggle;
use crate::parts::verdict::{readings, verdict};
use crate::parts::words::Words;
use crate::parts::working::how;
use crate::text::key;

/// Page for developers that shows every part of the app in every state.
#[component]
pub(crate) fn Gallery() -> impl IntoView {
    let desk = desk();
    let all = move || {
        let reader = desk.reader();
        view! {
            {typed(reader)}
            {chosen()}
            {said(reader)}
            {pictures(reader)}
        }
    };
    view! { <div class="mix"><section class="answer">{all}</section></div> }
}

/// A heading with what stands under it.
fn shown(name: &'static str, what: impl IntoView + 'static) -> AnyView {
    view! { <section class="card"><h2>{name}</h2>{what}</section> }.into_any()
}

/// Fields: filled, empty, unreadable, out of range, as printed, words.
fn typed(reader: Reader) -> impl IntoView {
    let field = |id: &'static str, text: &'static str, optional: bool| {
        let entry = RwSignal::new(Entry::as_typed(text, reader.units));
        view! {
            <Field
                id=id
                label=Signal::stored(id.to_owned())
                quantity=Quantity::Slab
                kind=Kind::Temperature
                optional=optional
                entry=entry
                set=move |new| entry.set(new)
            />
        }
    };
    let printed = RwSignal::new(Entry::as_typed("60", Units::Us));
    let words = RwSignal::new("Words".to_owned());
    let fields = view! {
        {field("filled", "70", false)}
        {field("empty", "", false)}
        {field("left empty", "", true)}
        {field("unreadable", "warm", false)}
        {field("out of range", "999", false)}
        <Printed
            id="printed"
            label=key::PREVIEW_TONIGHT
            hint=Some(key::PREVIEW_TONIGHT_HINT)
            quantity=Quantity::AfterTemperature
            kind=Kind::Temperature
            optional=false
            entry=printed
            set=move |new| printed.set(new)
        />
        <Words id="words" label=key::SHEET_NOTES most=40 text=words set=move |new| words.set(new) />
        <Words
            id="lines"
            label=key::SHEET_NOTES
            most=400
            lines=true
            text=words
            set=move |new| words.set(new)
        />
    };
    shown("field, printed, words", fields)
}

/// What is tapped: buttons, choices, a list, a question open and closed, a toggle.
fn chosen() -> impl IntoView {
    let on = RwSignal::new(true);
    let units = RwSignal::new(Units::Us);
    let options =
        vec![(Units::Us, key::SETTING_UNITS_US), (Units::Metric, key::SETTING_UNITS_METRIC)];
    let list = vec![(1, "One".to_owned()), (2, "Two".to_owned())];
    let tapped = view! {
        <button class="button button-deed" type="button">"button button-deed"</button>
        <button class="button" type="button">"button"</button>
        <button class="button" type="button" disabled=true>"button, disabled"</button>
        <button class="button button-quiet" type="button">"button button-quiet"</button>
        <button class="figure" type="button">"figure"</button>
        <button class="chip" type="button" aria-pressed="true"><span class="chip-name">"chip, chosen"</span></button>
        <button class="chip" type="button" aria-pressed="false"><span class="chip-name">"chip"</span></button>
        <Choice
            name="gallery-units"
            label=key::SETTING_UNITS
            options=options
            chosen=units
            choose=move |to| units.set(to)
        />
        <Pick id="pick" label=key::STEP_SIZE options=list chosen=1 choose=|_| {} />
        <Toggle label=key::ASK_ENDS_AT_JOINT on=on set=move |to| on.set(to) />
        <Question label=key::QUESTION_PRODUCT now=Signal::stored("closed".to_owned())>"Inside"</Question>
        <Question label=key::QUESTION_PRODUCT now=Signal::stored("open".to_owned()) open=true>"Inside"</Question>
        {jump("filled", "jump to a field".to_owned())}
    };
    shown("button, figure, chip, choice, pick, toggle, question, jump", tapped)
}

/// What is said: cautions, refusals, verdicts, a working.
fn said(reader: Reader) -> impl IntoView {
    let base = demo::base().ok();
    let conditions = Conditions::try_from(&demo::conditions()).ok();
    let found = base
        .as_ref()
        .zip(conditions)
        .map(|(base, now)| ready(base, &Course::steady(now), minutes(30.0)));
    let verdicts = found.into_iter().flat_map(|found| {
        let all = [
            Verdict::Go,
            Verdict::Wait(minutes(90.0)),
            Verdict::NoGo,
            Verdict::Unread(Quantity::Humidity),
        ];
        all.map(|verdict| Readiness { verdict, ..found.clone() })
    });
    let at = move |time: Time| reader.time(time);
    let verdicts: Vec<_> = verdicts
        .map(|found| {
            view! { {verdict(reader, &found, "verdict", key::READY_GO, at)} {readings(reader, &found, at)} }
        })
        .collect();
    let working = base.map(|base| base.explain_pot_life()).unwrap_or_default();
    let lines = view! {
        <p class="headline-mix"><strong class="headline-amount">"1 gal 2 qt"</strong></p>
        <p class="headline-covers">"headline-covers"</p>
        <p>"text"</p>
        <p class="small">"small"</p>
        <p class="caution">"caution"</p>
        <p class="notice">"notice"</p>
        <p class="no-answer">"no-answer"</p>
        <p class="field-problem">"field-problem"</p>
        <Caution text=key::CAUTION_SLIP />
        {verdicts.collect_view()}
        {how(reader, None, &working)}
    };
    shown("caution, notice, verdict, readings, working", lines)
}

/// The plan of a floor with two batches, the first of them down.
fn floor_plan(reader: Reader, title: String) -> impl IntoView {
    let meters = Length::new::<unit::meter>;
    let room = |back: f64, depth: f64| Rectangle {
        left: meters(0.0),
        back: meters(back),
        width: meters(6.0),
        depth: meters(depth),
    };
    let band = |back: f64, to: f64, number: &str, down: bool| Band {
        bay: 0,
        boxes: vec![room(back, to - back)],
        from: meters(back),
        to: meters(to),
        number: number.to_owned(),
        tape: reader.distance(meters(to)),
        down,
    };
    let bands = [band(0.0, 2.0, "1", true), band(2.0, 6.0, "2", false)];
    plan(&[room(0.0, 6.0)], &bands, ("back", "front"), None, title)
}

/// Gives a card with every kind of drawing, using the demo base coat.
fn pictures(reader: Reader) -> Option<AnyView> {
    let product = demo::base().ok()?;
    let air = celsius(24.0);
    let mass = product.ratio().density() * Volume::new::<unit::liter>(6.0);
    let hot = product.pail(mass, &Generic::FiveGallon.vessel(), air, air).ok()?;
    let (life, can_pass) = (hot.pot_life().ok()?, product.can_pass(&hot, mass).ok()?);
    let layer = |fill, bottom, top, text: &str| Layer { fill, bottom, top, text: text.to_owned() };
    let layers = [
        layer(Fill::Part(0), 0.0, 80.0, "A"),
        layer(Fill::Part(1), 80.0, 120.0, "B"),
        layer(Fill::Solid, 120.0, 130.0, "+"),
    ];
    let bars = [
        Bar { label: "in the pail".to_owned(), from: 0.0, to: 6.0, limit: Some((27.0, 34.0)) },
        Bar { label: "on the floor".to_owned(), from: 6.0, to: 21.0, limit: Some((30.0, 38.0)) },
    ];
    let row = |number: &str, mixed: f64| Row {
        number: number.to_owned(),
        mixed,
        poured: mixed + 5.0,
        rolled: mixed + 16.0,
        done: mixed + 21.0,
        pour_out: mixed + 27.0,
        edge_until: Some(mixed + 35.0),
    };
    let lane = Lane {
        label: "Base".to_owned(),
        laid: (480.0, 600.0),
        window: Some((1500.0, Some(2600.0))),
        marks: vec![(2300.0, "light use".to_owned())],
    };
    let mark = Dot { temperature: air, time: life, label: "now".to_owned() };
    let title = || "A picture".to_owned();
    let pail_picture = pail(&Generic::FiveGallon.vessel(), &layers, title());
    let drawn = view! {
        {pail_picture}
        {time_bar(&bars, "min", title())}
        {pot_life(reader, &product, &[mark], title())}
        {heat_curve(reader, &hot, can_pass, air, &[(Some(life), key::SANDBOX_USABLE)]).map(|(view, _)| view)}
        {floor_plan(reader, title())}
        {day(&[row("1", 0.0), row("2", 16.0)], |at| (format!("{at:.0}"), String::new()), title())}
        {strip(&[lane], |n| format!("day {n}"), title())}
        {qr("https://example.org/", title())}
    };
    Some(shown("pail, time bar, curves, plan, day, strip, code", drawn))
}
