//! Who is ready for what, for the owner.

use leptos::prelude::*;
use pailwise_calc::practice::Skill;
use pailwise_kept::records::progress::{BOXES, PersonRecord, READY};

use super::skills;
use crate::desk::desk;
use crate::parts::question::Question;
use crate::text::{key, live, tr, tr_with};

/// Everybody, and each skill of theirs.
#[component]
pub(super) fn ReadyFor() -> impl IntoView {
    let desk = desk();
    let people = Memo::new(move |_| desk.practice.with(|practice| practice.people.clone()));
    let now = move || {
        let count = desk.practice.with(|practice| ready(&practice.person()));
        said(count)
    };
    view! {
        <Question label=key::PRACTICE_READY now=Signal::derive(now)>
            <p class="small">{live(key::PRACTICE_READY_HINT)}</p>
            {move || people.get().iter().map(person).collect_view()}
        </Question>
    }
}

/// For how many skills somebody is ready.
fn ready(person: &PersonRecord) -> usize {
    person.skills.values().filter(|kept| kept.in_box >= READY).count()
}

fn said(count: usize) -> String {
    let all = Skill::ALL.len().to_string();
    tr_with(key::PRACTICE_READY_FOR, &[("n", &count.to_string()), ("all", &all)])
}

fn person(person: &PersonRecord) -> impl IntoView + use<> {
    let name =
        if person.name.is_empty() { tr(key::PRACTICE_SOMEBODY) } else { person.name.clone() };
    let count = said(ready(person));
    let lines = Skill::ALL.into_iter().map(|skill| {
        let kept = person.skills.get(&skill);
        let (in_box, asked, right) =
            kept.map_or((0, 0, 0), |kept| (kept.in_box, kept.asked, kept.right));
        let boxes: String = (1..=BOXES).map(|n| if n <= in_box { '■' } else { '□' }).collect();
        let figures = [("right", right.to_string()), ("asked", asked.to_string())];
        let of = tr_with(
            key::PRACTICE_OF,
            &figures.each_ref().map(|(name, text)| (*name, text.as_str())),
        );
        view! {
            <tr>
                <th scope="row">{live(skills::name(skill))}</th>
                <td><span aria-hidden="true">{boxes}</span>" "{in_box}</td>
                <td>{of}</td>
            </tr>
        }
    });
    view! {
        <details class="fold">
            <summary>{name}" · "{count}</summary>
            <table class="split-table">
                <thead>
                    <tr>
                        <th scope="col">{live(key::PRACTICE_KIND)}</th>
                        <th scope="col">{live(key::PRACTICE_BOXES)}</th>
                        <th scope="col">{live(key::PRACTICE_SCORE)}</th>
                    </tr>
                </thead>
                <tbody>{lines.collect_view()}</tbody>
            </table>
        </details>
    }
}
