//! Go, wait or not: the word, its sign, the reading that decides, and every other beside its limit.

use leptos::prelude::*;
use pailwise_calc::field::Field;
use pailwise_calc::quantity::Time;
use pailwise_calc::ready::{Judged, Readiness, Verdict};
use pailwise_calc::working::Sentence;
use pailwise_kept::say;
use pailwise_kept::show::Reader;

use crate::parts::working::{figure, how};
use crate::text::{key, live, tr, tr_with};

/// The word where nothing forbids, unless the sheet gives no limits: then that is the word.
pub(crate) fn word_of_go(found: &Readiness, go: &'static str) -> &'static str {
    if found.sheet_is_silent { key::READY_GO_SILENT } else { go }
}

/// The card of a verdict; `go` is the word where nothing forbids, `at` says a time from the start
/// of the course.
pub(crate) fn verdict<F: Fn(Time) -> String>(
    reader: Reader,
    found: &Readiness,
    id: &'static str,
    go: &'static str,
    at: F,
) -> impl IntoView + use<F> {
    let (class, sign, word) = match found.verdict {
        Verdict::Go if [key::READY_GO, key::READY_GO_NOW].contains(&word_of_go(found, go)) => {
            ("verdict verdict-go", SIGN_GO, tr(go))
        }
        // Nothing forbids, and something else is open.
        Verdict::Go => ("verdict verdict-wait", SIGN_WAIT, tr(word_of_go(found, go))),
        Verdict::Wait(until) => {
            let text = tr_with(key::READY_WAIT, &[("time", &at(until))]);
            ("verdict verdict-wait", SIGN_WAIT, text)
        }
        Verdict::NoGo => ("verdict verdict-no", SIGN_NO, tr(key::READY_NO)),
        Verdict::Unread(Field::Humidity) => {
            ("verdict verdict-wait", SIGN_WAIT, tr(key::READY_UNREAD))
        }
        Verdict::Unread(_) => ("verdict verdict-wait", SIGN_WAIT, tr(key::READY_UNTESTED)),
    };
    // Where a reading is missing and nothing else forbids, nothing has decided yet; where the
    // surface forbids, no reading of the room has.
    let surface = found.verdict == Verdict::NoGo && !found.judged.iter().any(Judged::fails);
    let unread = matches!(found.verdict, Verdict::Unread(_));
    let decides = found.judged.first().filter(|_| !unread && !surface);
    let decides = decides.map(|judged| {
        let mut text = say::judged(reader, judged, found.spread_is_usual);
        if let Some(from) = judged.from.filter(|from| *from > Time::default()) {
            text = format!("{text} {}", tr_with(key::READY_FROM, &[("time", &at(from))]));
        } else if judged.at > Time::default() {
            text = format!("{text} {}", tr_with(key::READY_AT, &[("time", &at(judged.at))]));
        }
        if !judged.fails() {
            text = tr_with(key::READY_CLOSEST, &[("reading", &text)]);
        }
        let help = judged.fails().then(|| say::judged_help(judged));
        view! {
            <p>{text}</p>
            {help.map(|help| view! { <p>{live(help)}</p> })}
        }
    });
    let turns = found.turns.map(|turns| {
        let text = tr_with(key::READY_TURNS, &[("time", &at(turns))]);
        view! { <p class="verdict-turns">{text}</p> }
    });
    let close = found.judged.iter().any(Judged::close) && found.verdict == Verdict::Go;
    let dew = found.dew_point.map(|dew| {
        let dew = figure(reader.beside_limit(dew.into(), true), Sentence::DewPoint);
        view! { <p class="small">{live(key::READY_DEW)}" "{dew}</p> }
    });
    view! {
        <section class=class id=id>
            <p class="verdict-word" role="status">
                <svg class="verdict-sign" viewBox="0 0 24 24" aria-hidden="true"><path d=sign /></svg>
                <strong>{word}</strong>
            </p>
            {surface.then(|| view! { <p>{live(key::READY_SURFACE_FAILS)}</p> })}
            {decides}
            {close.then(|| view! { <p>{live(key::READY_CLOSE)}</p> })}
            {turns}
            {dew}
            {how(reader, None, &found.working)}
        </section>
    }
}

/// Every reading beside its limit, at its worst.
pub(crate) fn readings<F: Fn(Time) -> String>(
    reader: Reader,
    found: &Readiness,
    at: F,
) -> impl IntoView + use<F> {
    let row = |judged: &Judged| {
        let given = reader.beside_limit(judged.given, judged.most);
        let when = (judged.at > Time::default()).then(|| at(judged.at));
        let allowed = reader.beside_limit(judged.allowed, !judged.most);
        let text = if judged.most { key::READY_MOST } else { key::READY_LEAST };
        let state = if judged.fails() { key::READY_FAILS } else { key::READY_FITS };
        view! {
            <tr class:reading-fails=judged.fails()>
                <th scope="row">{live(say::reading(judged.reading, judged.most))}</th>
                <td>{given} {when.map(|when| view! { <span class="small">" "{when}</span> })}</td>
                <td>{tr_with(text, &[("limit", &allowed)])}</td>
                <td>{live(state)}</td>
            </tr>
        }
    };
    view! {
        <table class="split-table readings">
            <thead>
                <tr>
                    <th scope="col">{live(key::READY_READING)}</th>
                    <th scope="col">{live(key::READY_WORST)}</th>
                    <th scope="col">{live(key::READY_LIMIT)}</th>
                    <th scope="col"><span class="unseen">{live(key::READY_STATE)}</span></th>
                </tr>
            </thead>
            <tbody>{found.judged.iter().map(row).collect_view()}</tbody>
        </table>
    }
}

/// A tick, an hourglass and a bar across.
const SIGN_GO: &str = "M4 13l5 5L20 6l-2-2-9 10-3-3z";
const SIGN_WAIT: &str = "M6 3h12v3l-5 6 5 6v3H6v-3l5-6-5-6z";
const SIGN_NO: &str = "M3 9h18v6H3z";
