//! How long: by when the pail is empty, the floor rolled and flaked, and the next mix started.

use leptos::prelude::*;
use pailwise_calc::job::Job;
use pailwise_calc::pail::warm_enough;
use pailwise_calc::product::Product;
use pailwise_calc::quantity::{Time, unit};
use pailwise_calc::record::Role;
use pailwise_calc::working::Sentence;
use pailwise_kept::answers::batch::Good;
use pailwise_kept::say;
use pailwise_kept::show::Reader;

use crate::parts::time_bar::{Bar, time_bar};
use crate::parts::working::figure;
use crate::screen::ShelfRoute;
use crate::text::{key, live, tr, tr_with};

/// The times, as figures and as a bar.
pub(super) fn time(reader: Reader, good: &Good) -> impl IntoView + use<> {
    let (batch, timeline) = (&good.batch, &good.batch.timeline);
    let flaked = good.job.product.flaked();
    let line = |id: &'static str, label: &'static str, time: Time, step: Sentence| {
        view! {
            <div class="times-line">
                <dt>{live(label)}</dt>
                <dd id=id>{figure(reader.time(time), step)}</dd>
            </div>
        }
    };
    let rolled = if filler(good) { key::TIME_FILLED } else { key::TIME_ROLLED };
    let done =
        flaked.then(|| line("mix-flaked", key::TIME_FLAKED, timeline.done, Sentence::Flaked));
    let next = (!batch.finishes)
        .then(|| line("mix-next", key::TIME_NEXT, timeline.next_mix, Sentence::NextMix));
    let job = &good.job;
    let longest = job.pot_life_at_longest(batch.measured.mass, batch.pot_life);
    let pot_life = say::span(reader, batch.pot_life, longest);
    let latest = tr_with(
        key::TIME_LATEST,
        &[
            ("pour_out", &reader.time(batch.pour_out)),
            ("pot_life", &pot_life),
            ("warm", &reader.temperature_down(job.out_at())),
            ("warmer", &reader.change(warm_enough())),
        ],
    );
    let only_cup =
        longest.map(|_| view! { <p class="small" id="mix-span">{live(key::TIME_ONLY_CUP)}</p> });
    let lot = lot_line(reader, &good.job.product, &good.product.id);
    view! {
        <section class="card">
            <h2>{live(key::TIME)}</h2>
            <p class="small">{live(key::TIME_FROM)}</p>
            <dl class="times">
                {line("mix-pour", key::TIME_POUR, timeline.pour, Sentence::Emptied)}
                {line("mix-emptied", key::TIME_EMPTIED, timeline.emptied, Sentence::Emptied)}
                {line("mix-rolled", rolled, timeline.rolled, Sentence::Rolled)}
                {done}
                {next}
            </dl>
            {bars(reader, good)}
            {strips(reader, good)}
            <p class="caution" id="mix-latest">{figure(latest, Sentence::PourOut)}</p>
            {only_cup}
            {lot}
            {keep_in_pail(job)}
        </section>
    }
}

/// Notice to roll in strips that are less deep than a throw of flake, where that is needed.
fn strips(reader: Reader, good: &Good) -> Option<impl IntoView + use<>> {
    let (batch, crew) = (&good.batch, &good.job.crew);
    let dry_edge = good.job.product.flaked() && !crew.spikes;
    (dry_edge && batch.strip < crew.throw * 0.999).then(|| {
        let depth = reader.distance(batch.strip);
        let text = tr_with(key::TIME_STRIPS, &[("depth", &depth)]);
        view! { <p class="notice" id="mix-strips">{text}</p> }
    })
}

/// Notice to keep a mix that cures by damp in its pail, and a caution if no humidity was read.
fn keep_in_pail(job: &Job) -> Option<impl IntoView + use<>> {
    job.product.film().damp().map(|_| {
        let unread = job.conditions.humidity.is_none();
        view! {
            <p class="notice" id="mix-keep">{live(key::TIME_KEEP_IN_PAIL)}</p>
            {unread.then(|| view! {
                <p class="caution" id="mix-humidity">{live(key::TIME_HUMIDITY_UNREAD)}</p>
            })}
        }
    })
}

/// How the lot in hand runs against its sheet, where that changes the times.
pub(super) fn lot_line(
    reader: Reader,
    product: &Product,
    id: &str,
) -> Option<impl IntoView + use<>> {
    let text = say::lot_runs(reader, product.lot())?;
    let spot = ShelfRoute::Lot(id.to_owned());
    Some(view! {
        <p class="notice" id="mix-lot">
            {text}" "<a href=spot.fragment()>{live(key::LOT)}</a>
        </p>
    })
}

fn filler(good: &Good) -> bool {
    good.product.role == Role::Filler
}

fn bars(reader: Reader, good: &Good) -> impl IntoView + use<> {
    let (batch, timeline) = (&good.batch, &good.batch.timeline);
    let min = |time: Time| time.get::<unit::minute>();
    let mut bars = vec![
        Bar {
            label: tr(key::BAR_PAIL),
            from: 0.0,
            to: min(timeline.emptied),
            limit: Some((min(batch.pour_out), min(batch.pot_life))),
        },
        Bar {
            label: tr(if filler(good) { key::BAR_FILL } else { key::BAR_ROLL }),
            from: min(timeline.pour),
            to: min(timeline.rolled),
            limit: None,
        },
    ];
    let open = (min(batch.finish_by), min(batch.open_until));
    if good.job.product.flaked() {
        bars.push(Bar {
            label: tr(key::BAR_FLAKE),
            from: min(timeline.flaking_starts),
            to: min(timeline.done),
            limit: Some(open),
        });
    } else if let Some(rolling) = bars.last_mut() {
        rolling.limit = Some(open);
    }
    let description = tr_with(
        key::BAR_PICTURE,
        &[
            ("emptied", &reader.time(timeline.emptied)),
            ("pot_life", &reader.time(batch.pot_life)),
            ("done", &reader.time(timeline.done)),
            ("open", &reader.time(batch.open_until)),
        ],
    );
    time_bar(&bars, &tr(key::BAR_MINUTES), description)
}
