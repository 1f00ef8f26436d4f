//! The form of a product, in the order of a data sheet.

use leptos::prelude::*;
use pailwise_calc::calibrate::Sample;
use pailwise_calc::cure::Chemistry;
use pailwise_calc::field::Field as Quantity;
use pailwise_calc::quantity::Figure;
use pailwise_calc::ratio::Basis;
use pailwise_calc::record::Role;
use pailwise_kept::entry::Entry;
use pailwise_kept::records::draft::{DraftRecord, FilmWay, RowRecord};
use pailwise_kept::records::sheet::{Row, Single};
use pailwise_kept::say;
use pailwise_kept::units::Units;

use super::drafting::{Draft, draft};
use crate::desk::desk;
use crate::parts::choice::Choice;
use crate::parts::pick::Pick;
use crate::parts::printed::Printed;
use crate::parts::question::Question;
use crate::parts::toggle::Toggle;
use crate::parts::words::Words;
use crate::text::{key, language, live, tr, tr_with};

/// All of them, each a line that opens.
#[component]
pub(super) fn Sections() -> impl IntoView {
    view! {
        <What />
        <Mixing />
        <Kits />
        <Times />
        <Film />
        <After />
        <Limits />
        <Heat />
        <Notes />
    }
}

fn record() -> RwSignal<DraftRecord> {
    draft().record
}

/// What stands in a figure, with its unit; a dash where it is empty.
fn said(entry: &Entry, kind: pailwise_kept::entry::Kind) -> String {
    if entry.text.trim().is_empty() {
        "–".to_owned()
    } else {
        entry.text_with_unit(kind, entry.units, language())
    }
}

/// What stands in the lines of a kind, one after the other.
fn now_rows(draft: &DraftRecord, row: Row) -> String {
    let lines = draft.rows_of(row).map(|(_, record)| {
        let asks = row.asks(record.way);
        let figures = asks.iter().zip(&record.entries).map(|(ask, entry)| said(entry, ask.kind));
        let figures: Vec<String> = figures.filter(|text| text != "–").collect();
        format!("{} {}", record.words, figures.join(" · ")).trim().to_owned()
    });
    lines.filter(|line| !line.is_empty()).collect::<Vec<_>>().join("; ")
}

fn now_singles(draft: &DraftRecord, singles: &[Single]) -> String {
    let units = desk().settings.with_untracked(|s| s.units);
    let given = singles.iter().filter(|single| draft.concerns(**single)).filter_map(|single| {
        let (ask, entry) = (single.ask(), draft.single(*single, units));
        (!entry.text.trim().is_empty()).then(|| said(&entry, ask.kind))
    });
    given.collect::<Vec<_>>().join(" · ")
}

fn most(field: Quantity) -> u32 {
    match field.range().1 {
        Figure::Count(most) => most,
        _ => 80,
    }
}

/// A line of words of the product itself.
#[component]
fn OwnWords(
    id: &'static str,
    label: &'static str,
    #[prop(optional)] hint: &'static str,
    field: Quantity,
    #[prop(optional)] lines: bool,
    get: fn(&DraftRecord) -> &String,
    put: fn(&mut DraftRecord) -> &mut String,
) -> impl IntoView {
    let record = record();
    view! {
        <Words
            id=id
            label=label
            hint=(!hint.is_empty()).then_some(hint)
            most=most(field)
            lines=lines
            text=Signal::derive(move || record.with(|draft| get(draft).clone()))
            set=move |text| record.update(|draft| *put(draft) = text)
        />
    }
}

#[component]
fn What() -> impl IntoView {
    let record = record();
    let now = move || {
        record.with(|draft| {
            if draft.name.trim().is_empty() { tr(key::SHEET_NO_NAME) } else { draft.name.clone() }
        })
    };
    let role = Memo::new(move |_| record.with(|draft| draft.role));
    let chemistry = Memo::new(move |_| record.with(|draft| draft.chemistry));
    view! {
        <Question label=key::SHEET_WHAT now=Signal::derive(now) open=true>
            <OwnWords id=key::SHEET_NAME label=key::SHEET_NAME hint=key::SHEET_NAME_HINT
                field=Quantity::Name get=|d| &d.name put=|d| &mut d.name />
            {move || view! {
                <Pick
                    id="sheet-role"
                    label=key::SHEET_ROLE
                    options=Role::ALL.map(|role| (role, tr(say::role(role)))).to_vec()
                    chosen=role.get()
                    choose=move |role| record.update(|draft| draft.role = role)
                />
            }}
            {move || view! {
                <Pick
                    id=key::SHEET_CHEMISTRY
                    label=key::SHEET_CHEMISTRY
                    options=Chemistry::ALL.map(|c| (Some(c), tr(say::chemistry(c)))).to_vec()
                    chosen=chemistry.get()
                    choose=move |chemistry| record.update(|draft| draft.chemistry = chemistry)
                />
            }}
            <OwnWords id="sheet-source" label=key::SHEET_SOURCE hint=key::SHEET_SOURCE_HINT
                field=Quantity::Sheet get=|d| &d.sheet_name put=|d| &mut d.sheet_name />
            <OwnWords id="sheet-dated" label=key::SHEET_DATED hint=key::SHEET_DATED_HINT
                field=Quantity::Sheet get=|d| &d.sheet_dated put=|d| &mut d.sheet_dated />
        </Question>
    }
}

#[component]
fn Mixing() -> impl IntoView {
    let record = record();
    let now = move || {
        let by = match record.with(|draft| draft.ratio_by) {
            Some(Basis::Volume) => tr(key::WAY_VOLUME),
            Some(Basis::Mass) => tr(key::WAY_MASS),
            None => "?".to_owned(),
        };
        format!("{}; {by}", record.with(|draft| now_rows(draft, Row::Part)))
    };
    view! {
        <Question label=key::SHEET_RATIO now=Signal::derive(now)>
            <p class="field-label" id=key::SHEET_RATIO_BY>{live(key::SHEET_RATIO_BY)}</p>
            <p class="hint">{live(key::SHEET_RATIO_BY_HINT)}</p>
            <Choice
                name="sheet-ratio-by"
                label=key::SHEET_RATIO_BY
                options=vec![
                    (Some(Basis::Volume), key::WAY_VOLUME),
                    (Some(Basis::Mass), key::WAY_MASS),
                ]
                chosen=Signal::derive(move || record.with(|draft| draft.ratio_by))
                choose=move |by| record.update(|draft| draft.ratio_by = by)
            />
            <Rows row=Row::Part />
            <Singles singles=&[Single::Tolerance] />
            <Rows row=Row::Additive />
            <Singles singles=&[Single::EquivalentA, Single::EquivalentB] />
        </Question>
    }
}

#[component]
fn Kits() -> impl IntoView {
    let record = record();
    let now = move || record.with(|draft| now_rows(draft, Row::Kit));
    view! {
        <Question label=key::KITS now=Signal::derive(now)>
            <Rows row=Row::Kit />
            <OwnWords id="sheet-currency" label=key::SHEET_CURRENCY hint=key::SHEET_CURRENCY_HINT
                field=Quantity::Currency get=|d| &d.currency put=|d| &mut d.currency />
        </Question>
    }
}

#[component]
fn Times() -> impl IntoView {
    let record = record();
    let now = move || record.with(|draft| now_rows(draft, Row::PotLife));
    view! {
        <Question label=key::SHEET_TIMES now=Signal::derive(now)>
            <Singles singles=&[Single::Mixing, Single::Induction] />
            <Rows row=Row::PotLife />
            <Rows row=Row::OpenTime />
        </Question>
    }
}

#[component]
fn Film() -> impl IntoView {
    const FIGURES: [Single; 5] =
        [Single::Spread, Single::Wet, Single::Dry, Single::Solids, Single::FlakeCover];
    let record = record();
    let now = move || record.with(|draft| now_singles(draft, &FIGURES));
    let coat = Memo::new(move |_| record.with(|draft| draft.role != Role::Filler));
    view! {
        <Question label=key::SHEET_FILM now=Signal::derive(now)>
            <Show when=move || coat.get() fallback=|| view! { <p>{live(key::SHEET_FILM_NONE)}</p> }>
                <Choice
                    name="sheet-film"
                    label=key::SHEET_FILM
                    options=vec![
                        (FilmWay::Spread, key::FILM_SPREAD),
                        (FilmWay::Wet, key::FILM_WET),
                        (FilmWay::Dry, key::FILM_DRY),
                    ]
                    chosen=Signal::derive(move || record.with(|draft| draft.film))
                    choose=move |film| record.update(|draft| draft.film = film)
                />
                <Singles singles=&[Single::Spread, Single::Wet, Single::Dry, Single::Solids] />
                <Toggle
                    label=key::SHEET_FLAKED
                    on=Signal::derive(move || record.with(|draft| draft.flaked))
                    set=move |on| record.update(|draft| draft.flaked = on)
                />
                <Singles singles=&[Single::FlakeCover] />
            </Show>
        </Question>
    }
}

#[component]
fn After() -> impl IntoView {
    const ROWS: [Row; 5] =
        [Row::RecoatOpens, Row::RecoatCloses, Row::LightUse, Row::Vehicles, Row::FullCure];
    let record = record();
    let now = move || {
        let said = |row| {
            let given = record.with(|draft| now_rows(draft, row));
            (!given.is_empty()).then(|| format!("{}: {given}", tr(row.name())))
        };
        ROWS.into_iter().filter_map(said).collect::<Vec<_>>().join("; ")
    };
    view! {
        <Question label=key::SHEET_AFTER now=Signal::derive(now)>
            {ROWS.map(|row| view! { <Rows row=row /> }).collect_view()}
        </Question>
    }
}

#[component]
fn Limits() -> impl IntoView {
    let record = record();
    // The slab's, which are asked first; the rest is seen when it is opened.
    let now = move || {
        let [least, most] = [Single::SlabLeast, Single::SlabMost]
            .map(|single| record.with(|draft| now_singles(draft, &[single])));
        let to = if least.is_empty() && most.is_empty() { "" } else { " – " };
        format!("{least}{to}{most}")
    };
    view! {
        <Question label=key::SHEET_LIMITS now=Signal::derive(now)>
            <Singles singles=&Single::LIMITS />
        </Question>
    }
}

#[component]
fn Heat() -> impl IntoView {
    let record = record();
    let now = move || {
        let given = record.with(|draft| now_singles(draft, &Single::THERMAL));
        if given.is_empty() { tr(key::SHEET_TYPICAL) } else { given }
    };
    view! {
        <Question label=key::SHEET_THERMAL now=Signal::derive(now)>
            <p class="hint">{live(key::SHEET_THERMAL_HINT)}</p>
            <Singles singles=&Single::THERMAL />
        </Question>
    }
}

#[component]
fn Notes() -> impl IntoView {
    let record = record();
    let now =
        move || record.with(|draft| draft.notes.lines().next().unwrap_or_default().to_owned());
    view! {
        <Question label=key::SHEET_NOTES now=Signal::derive(now)>
            <OwnWords id="sheet-notes" label=key::SHEET_NOTES lines=true
                field=Quantity::Notes get=|d| &d.notes put=|d| &mut d.notes />
        </Question>
    }
}

/// Those of some figures that are asked for.
#[component]
fn Singles(singles: &'static [Single]) -> impl IntoView {
    let record = record();
    let asked = Memo::new(move |_| {
        record.with(|draft| {
            singles.iter().copied().filter(|s| draft.concerns(*s)).collect::<Vec<_>>()
        })
    });
    let units = desk().settings;
    move || {
        asked
            .get()
            .into_iter()
            .map(|single| {
                let ask = single.ask();
                let entry = move || {
                    let units = units.with(|s| s.units);
                    record.with(|draft| draft.single(single, units))
                };
                view! {
                    <Printed
                        id=single.id()
                        label=ask.label
                        hint=ask.hint
                        quantity=ask.field
                        kind=ask.kind
                        optional=ask.optional
                        entry=Signal::derive(entry)
                        set=move |entry| record.update(|draft| {
                            draft.singles.insert(single, entry);
                        })
                    />
                }
            })
            .collect_view()
    }
}

/// The lines of a kind, with what adds another.
#[component]
fn Rows(row: Row) -> impl IntoView {
    let Draft { record, .. } = draft();
    let desk = desk();
    // Rebuilt only when lines come and go or are said in another way, so that typing keeps its
    // field.
    let places = Memo::new(move |_| {
        record.with(|draft| {
            draft.rows_of(row).map(|(place, record)| (place, record.way)).collect::<Vec<_>>()
        })
    });
    let (least, most) = row.count();
    let add = move |_| {
        let units = desk.settings.with_untracked(|s| s.units);
        let mut line = RowRecord::empty(row, units);
        record.update(|draft| {
            if row == Row::Part {
                // The next letter.
                let n = draft.rows_of(row).count() as u8;
                line.words = char::from(b'A' + n.min(25)).to_string();
            }
            if row == Row::Additive {
                "A".clone_into(&mut line.onto);
            }
            draft.rows.push(line);
        });
    };
    view! {
        <p class="field-label rows-label" id=row.name()>{live(row.name())}</p>
        <p class="hint">{live(row.hint())}</p>
        {move || {
            let places = places.get();
            let removable = places.len() > least;
            places.into_iter().enumerate().map(|(n, (place, way))| view! {
                <OneRow row=row n=n place=place way=way removable=removable />
            }).collect_view()
        }}
        <Show when=move || places.with(|places| places.len() < most)>
            <button class="button" type="button" on:click=add>
                {live(row.add())}
            </button>
        </Show>
    }
}

#[component]
fn OneRow(row: Row, n: usize, place: usize, way: usize, removable: bool) -> impl IntoView {
    let Draft { record, key } = draft();
    let desk = desk();
    let name = format!("{}-{n}", row.name());
    let words = row.words().map(|(label, field)| {
        view! {
            <Words
                id=format!("{name}-words")
                label=label
                most=most(field)
                text=Signal::derive(move || {
                    record.with(|d| d.rows.get(place).map_or_else(String::new, |r| r.words.clone()))
                })
                set=move |text| record.update(|draft| {
                    if let Some(row) = draft.rows.get_mut(place) {
                        row.words = text;
                    }
                })
            />
        }
    });
    let ways = (!row.ways().is_empty()).then(|| {
        let options = row.ways().iter().enumerate().map(|(i, text)| (i, tr(text)));
        view! {
            <Pick
                id=format!("{name}-way")
                label=key::ROW_WAY
                options=options.collect()
                chosen=way
                choose=move |way| record.update(|draft| draft.say_in(place, way))
            />
        }
    });
    let fields = row.asks(way).into_iter().enumerate().map(|(i, ask)| {
        let entry = move || {
            record
                .with(|draft| draft.rows.get(place).and_then(|row| row.entries.get(i)).cloned())
                .unwrap_or_else(|| Entry::as_typed("", desk.settings.with_untracked(|s| s.units)))
        };
        view! {
            <Printed
                id=row.id(n, i)
                label=ask.label
                hint=ask.hint
                quantity=ask.field
                kind=ask.kind
                optional=ask.optional
                entry=Signal::derive(entry)
                set=move |entry| record.update(|draft| {
                    let at = draft.rows.get_mut(place).and_then(|row| row.entries.get_mut(i));
                    if let Some(at) = at {
                        *at = entry;
                    }
                })
            />
        }
    });
    let remove = move |_| {
        let what = tr_with(key::DID_REMOVE, &[("what", &tr(row.name()))]);
        let _ = desk.step(what, &[key.get_value()], || {
            record.update(|draft| {
                if place < draft.rows.len() {
                    draft.rows.remove(place);
                }
            });
            Ok::<(), ()>(())
        });
    };
    view! {
        <fieldset class="thing">
            <legend>{format!("{}.", n + 1)}</legend>
            {words}
            {(row == Row::Additive).then(|| view! { <Onto name=name.clone() place=place /> })}
            {ways}
            {fields.collect_view()}
            {(row == Row::PotLife).then(|| view! { <SampleAsk name=name.clone() place=place /> })}
            {removable.then(|| view! {
                <button class="button button-quiet" type="button" on:click=remove>
                    {live(key::REMOVE)}
                </button>
            })}
        </fieldset>
    }
}

/// How a pot life was measured, and on how much: the sizes that sheets print.
#[component]
fn SampleAsk(name: String, place: usize) -> impl IntoView {
    // By weight or by volume, in kilograms or litres, as it is printed.
    const SIZES: [(&str, usize, f64, Units); 5] = [
        ("100 g", 1, 0.1, Units::Metric),
        ("150 g", 1, 0.15, Units::Metric),
        ("1 qt", 0, 0.946_352_946, Units::Us),
        ("1 gal", 0, 3.785_411_784, Units::Us),
        ("1½ gal", 0, 5.678_117_676, Units::Us),
    ];
    let record = record();
    let measured =
        Memo::new(move |_| record.with(|draft| draft.rows.get(place).and_then(|row| row.measured)));
    let size = move |way: usize, amount: f64, units: Units| {
        record.update(|draft| {
            draft.say_in(place, way);
            let kind = Row::PotLife.asks(way).get(2).map(|ask| ask.kind);
            let row = draft.rows.get_mut(place);
            if let (Some(kind), Some(entry)) = (kind, row.and_then(|row| row.entries.get_mut(2))) {
                *entry = Entry::from_value(kind, amount, units);
            }
        });
    };
    let sizes = SIZES.map(|(text, way, amount, units)| {
        view! {
            <button class="button button-small" type="button" on:click=move |_| size(way, amount, units)>
                {text}
            </button>
        }
    });
    let options =
        [None, Some(Sample::Cup), Some(Sample::Kit), Some(Sample::Insulated), Some(Sample::Gel)];
    view! {
        <div class="sizes" role="group" aria-label=tr(key::ROW_OF)>{sizes.collect_view()}</div>
        {move || view! {
            <Pick
                id=format!("{name}-measured")
                label=key::ROW_MEASURED
                options=options
                    .map(|sample| (sample, tr(sample.map_or(key::MEASURED_NOT_SAID, say::measured))))
                    .to_vec()
                chosen=measured.get()
                choose=move |sample| record.update(|draft| {
                    if let Some(row) = draft.rows.get_mut(place) {
                        row.measured = sample;
                    }
                })
            />
        }}
        <p class="hint">{live(key::ROW_MEASURED_HINT)}</p>
    }
}

/// What an additive goes into: a part, or the whole mix.
#[component]
fn Onto(name: String, place: usize) -> impl IntoView {
    let record = record();
    let labels = Memo::new(move |_| {
        record.with(|draft| {
            draft
                .rows_of(Row::Part)
                .map(|(_, part)| part.words.trim().to_owned())
                .collect::<Vec<_>>()
        })
    });
    let onto = Memo::new(move |_| {
        record.with(|draft| draft.rows.get(place).map_or_else(String::new, |r| r.onto.clone()))
    });
    move || {
        let labels = labels.get();
        let mix = labels.len();
        let part = |label: &String| tr_with(key::PART, &[("label", label)]);
        let mut options: Vec<(usize, String)> = labels.iter().map(part).enumerate().collect();
        options.push((mix, tr(key::ROW_ONTO_MIX)));
        let now = onto.get();
        let chosen = labels.iter().position(|label| *label == now);
        let chosen = chosen.or((now == "mix").then_some(mix)).unwrap_or(usize::MAX);
        view! {
            <Pick
                id=format!("{name}-onto")
                label=key::ROW_ONTO
                options=options
                chosen=chosen
                choose=move |i: usize| {
                    let onto = labels.get(i).cloned().unwrap_or_else(|| "mix".to_owned());
                    record.update(|draft| {
                        if let Some(row) = draft.rows.get_mut(place) {
                            row.onto = onto;
                        }
                    });
                }
            />
        }
    }
}
