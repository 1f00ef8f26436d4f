//! The four questions: which product, how warm, how much floor is left, who is here.

use leptos::prelude::*;
use pailwise_calc::field::Field as Quantity;
use pailwise_calc::kit::Portions;
use pailwise_calc::quantity::{Length, unit};
use pailwise_calc::record::Role;
use pailwise_calc::vessel::Vessel;
use pailwise_kept::records::mix::{Ask, Finer, PailPick, Wants};
use pailwise_kept::records::settings::turn;
use pailwise_kept::say;

use crate::desk::desk;
use crate::parts::choice::Choice;
use crate::parts::count::Count;
use crate::parts::field::Field;
use crate::parts::pail::pail;
use crate::parts::question::Question;
use crate::parts::toggle::Toggle;
use crate::text::{key, language, live, tr, tr_with};

/// All of them, each a line that opens.
#[component]
pub(super) fn Questions() -> impl IntoView {
    view! {
        <ProductQuestion />
        <WarmQuestion />
        <FloorQuestion />
        <CrewQuestion />
        <PailQuestion />
    }
}

/// What decides which fields are asked for.
fn wants() -> Memo<Wants> {
    let desk = desk();
    Memo::new(move |_| {
        let product = desk.product();
        desk.mix.with(|mix| mix.wants(product.as_ref()))
    })
}

/// What stands in a field, with its unit.
fn shown(ask: Ask) -> String {
    let desk = desk();
    let (_, kind) = ask.field();
    let units = desk.settings.with(|s| s.units);
    desk.mix.with(|mix| mix.entry(ask)).text_with_unit(kind, units, language())
}

/// Those of some fields that the product asks for.
fn fields(wants: Memo<Wants>, asks: &'static [Ask]) -> impl IntoView {
    move || {
        let wants = wants.get();
        asks.iter()
            .filter(|ask| ask.concerns(wants))
            .map(|ask| view! { <AskField ask=*ask /> })
            .collect_view()
    }
}

#[component]
fn ProductQuestion() -> impl IntoView {
    let desk = desk();
    let now = move || match desk.product() {
        Some(p) if p.invented => tr_with(key::NOW_PRODUCT_INVENTED, &[("name", &p.name)]),
        Some(p) => p.name,
        None => String::new(),
    };
    view! {
        <Question label=key::QUESTION_PRODUCT now=Signal::derive(now)>
            <Shelf />
        </Question>
    }
}

#[component]
fn WarmQuestion() -> impl IntoView {
    let desk = desk();
    let now = move || {
        let (slab, air, material) = (shown(Ask::Slab), shown(Ask::Air), shown(Ask::Material));
        tr_with(key::NOW_WARM, &[("slab", &slab), ("air", &air), ("material", &material)])
    };
    view! {
        <Question label=key::QUESTION_WARM now=Signal::derive(now)>
            {fields(wants(), &[Ask::Slab, Ask::Air, Ask::Material])}
            <Toggle
                label=key::ASK_READ_MIXED
                on=Signal::derive(move || desk.mix.with(|mix| mix.read_after_mixing))
                set=move |on| desk.mix.update(|mix| mix.read_after_mixing = on)
            />
            {fields(wants(), &[Ask::Humidity])}
        </Question>
    }
}

#[component]
fn FloorQuestion() -> impl IntoView {
    let desk = desk();
    let wants = wants();
    let filler = move || wants.get().role == Role::Filler;
    let now = move || {
        if filler() {
            let (length, width) = (shown(Ask::CrackLength), shown(Ask::CrackWidth));
            let depth = shown(Ask::CrackDepth);
            let figures = [("length", &*length), ("width", &*width), ("depth", &*depth)];
            return tr_with(key::NOW_CRACK, &figures);
        }
        tr_with(key::NOW_FLOOR, &[("area", &shown(Ask::Area)), ("width", &shown(Ask::Width))])
    };
    view! {
        <Question label=key::QUESTION_FLOOR now=Signal::derive(now)>
            {fields(wants, &[
                Ask::Area, Ask::Width, Ask::CrackLength, Ask::CrackWidth, Ask::CrackDepth,
                Ask::TakeUp, Ask::Loss,
            ])}
            <Show when=move || !filler()>
                <Toggle
                    label=key::ASK_ENDS_AT_JOINT
                    on=Signal::derive(move || desk.mix.with(|mix| mix.ends_at_joint))
                    set=move |on| desk.mix.update(|mix| mix.ends_at_joint = on)
                />
            </Show>
        </Question>
    }
}

#[component]
fn CrewQuestion() -> impl IntoView {
    let desk = desk();
    let wants = wants();
    let now = move || {
        let (rollers, flakers) = (shown(Ask::Rollers), shown(Ask::Flakers));
        let Wants { role, flaked, .. } = wants.get();
        let text = match (role, flaked) {
            (Role::Filler, _) => key::NOW_CREW_FILLING,
            (_, true) => key::NOW_CREW_FLAKED,
            (_, false) => key::NOW_CREW,
        };
        let mut line = tr_with(text, &[("rollers", rollers.trim()), ("flakers", flakers.trim())]);
        let mixers = desk.mix.with(|mix| mix.mixers);
        if mixers > 0 {
            line.push_str(&tr_with(key::NOW_CREW_MIXERS, &[("n", &mixers.to_string())]));
        }
        line
    };
    view! {
        <Question label=key::QUESTION_CREW now=Signal::derive(now)>
            {fields(wants, &[Ask::Rollers, Ask::Flakers])}
            <Show when=move || wants.get().role != Role::Filler>
                <Count
                    label=key::ASK_MIXERS
                    value=Signal::derive(move || desk.mix.with(|mix| mix.mixers))
                    quantity=Quantity::Mixers
                    set=move |mixers| desk.mix.update(|mix| mix.mixers = mixers)
                />
                <Toggle
                    label=key::ASK_MEASURED_AHEAD
                    on=Signal::derive(move || desk.mix.with(|mix| mix.measured_ahead))
                    set=move |on| desk.mix.update(|mix| mix.measured_ahead = on)
                />
                <Toggle
                    label=key::ASK_RIBBON
                    on=Signal::derive(move || desk.mix.with(|mix| mix.ribbon))
                    set=move |on| desk.mix.update(|mix| mix.ribbon = on)
                />
                <Show when=move || wants.get().flaked>
                    <Toggle
                        label=key::ASK_SPIKES
                        on=Signal::derive(move || desk.mix.with(|mix| mix.spikes))
                        set=move |on| desk.mix.update(|mix| mix.spikes = on)
                    />
                </Show>
                <Toggle
                    label=key::ASK_SAME_WALL
                    on=Signal::derive(move || desk.mix.with(|mix| mix.same_wall))
                    set=move |on| desk.mix.update(|mix| mix.same_wall = on)
                />
            </Show>
            {fields(wants, &[
                Ask::RollPace, Ask::FlakePace, Ask::CrackPace, Ask::Throw, Ask::Settle, Ask::Carry,
                Ask::Reading, Ask::CleanPail, Ask::Usable,
            ])}
        </Question>
    }
}

#[component]
fn PailQuestion() -> impl IntoView {
    let desk = desk();
    let wants = wants();
    let units = move || desk.settings.with(|s| s.units);
    let chosen = Signal::derive(move || desk.mix.with(|mix| mix.vessel));
    let own = move || wants.get().own_pail;
    view! {
        <Question
            label=key::QUESTION_PAIL
            now=Signal::derive(move || tr(say::pail(chosen.get(), units())))
        >
            {move || {
                let options = PailPick::ALL.map(|pail| (pail, say::pail(pail, units())));
                view! {
                    <Choice
                        name="vessel"
                        label=key::QUESTION_PAIL
                        options=options.to_vec()
                        chosen=chosen
                        choose=move |vessel| desk.mix.update(|mix| mix.vessel = vessel)
                    />
                }
            }}
            <Show when=own>
                <p class="small">{live(key::OWN_PAIL)}</p>
            </Show>
            {fields(wants, &[Ask::OwnBottom, Ask::OwnTop, Ask::OwnHeight])}
            {move || own().then(own_pail)}
            {fields(wants, &[Ask::LargestMass])}
            <p class="field-label">{live(key::FINER)}</p>
            <Choice
                name="finer"
                label=key::FINER
                options=vec![
                    (Finer::Cup, key::FINER_CUP),
                    (Finer::SmallScale, key::FINER_SCALE),
                    (Finer::Nothing, key::FINER_NOTHING),
                ]
                chosen=Signal::derive(move || desk.mix.with(|mix| mix.finer))
                choose=move |finer| desk.mix.update(|mix| mix.finer = finer)
            />
            <KitChoice />
        </Question>
    }
}

/// The pail of their own: drawn to scale, with what it holds, or what is wrong with its measures.
fn own_pail() -> impl IntoView {
    let desk = desk();
    let reader = desk.reader();
    let length = |ask: Ask| {
        let (field, kind) = ask.field();
        let value = desk.mix.with(|mix| mix.entry(ask)).value(kind, field).ok()?;
        Some(Length::new::<unit::millimeter>(value))
    };
    let measures = (length(Ask::OwnBottom), length(Ask::OwnTop), length(Ask::OwnHeight));
    let (Some(bottom), Some(top), Some(height)) = measures else { return ().into_any() };
    let vessel = match Vessel::new(bottom, top, height) {
        Ok(vessel) => vessel,
        Err(error) => {
            return view! { <p class="field-problem">{say::error(reader, &error)}</p> }.into_any();
        }
    };
    let holds = reader.volume_about(vessel.capacity());
    let works = reader.volume_about(vessel.working_capacity());
    let text = tr_with(key::OWN_HOLDS, &[("holds", &holds), ("works", &works)]);
    view! {
        {pail(&vessel, &[], text.clone())}
        <p class="small">{text}</p>
    }
    .into_any()
}

/// Whether kits are split, for a product that comes in kits.
#[component]
fn KitChoice() -> impl IntoView {
    let desk = desk();
    let comes_in_kits = Memo::new(move |_| desk.product().is_some_and(|p| !p.kits.is_empty()));
    view! {
        <Show when=move || comes_in_kits.get()>
            <p class="field-label">{live(key::KITS)}</p>
            <Choice
                name="kits"
                label=key::KITS
                options=vec![
                    (None, key::KITS_MEASURED),
                    (Some(Portions::Half), key::KITS_HALF),
                    (Some(Portions::Whole), key::KITS_WHOLE),
                ]
                chosen=Signal::derive(move || desk.mix.with(|mix| mix.kits))
                choose=move |kits| desk.mix.update(|mix| mix.kits = kits)
            />
        </Show>
    }
}

/// The field of one input of this screen.
#[component]
fn AskField(ask: Ask) -> impl IntoView {
    let desk = desk();
    let (quantity, kind) = ask.field();
    view! {
        <Field
            id=ask.label()
            label=Signal::derive(move || tr(ask.label()))
            quantity=quantity
            kind=kind
            optional=ask.optional()
            entry=Signal::derive(move || desk.mix.with(|mix| mix.entry(ask)))
            set=move |entry| desk.mix.update(|mix| {
                mix.entries.insert(ask, entry);
            })
        />
    }
}

/// The products as chips, favourites first.
#[component]
fn Shelf() -> impl IntoView {
    let desk = desk();
    let ordered = Memo::new(move |_| desk.favourites_first(desk.offered()));
    let chip = move |product: pailwise_calc::record::ProductRecord| {
        let (id, name, role) = (product.id.clone(), product.name.clone(), product.role);
        let (is, star, choose) = (id.clone(), id.clone(), id.clone());
        let chosen = move || desk.mix.with(|mix| mix.product == is);
        let favourite =
            Signal::derive(move || desk.settings.with(|s| s.favourites.contains(&star)));
        let invented = product.invented;
        view! {
            <li class="shelf-item">
                <button
                    class="chip"
                    type="button"
                    aria-pressed=move || chosen().to_string()
                    on:click=move |_| desk.mix.update(|mix| mix.product.clone_from(&choose))
                >
                    <span class="chip-name">{name.clone()}</span>
                    <span class="chip-role">
                        {live(say::role(role))}
                        {move || invented.then(|| format!(" · {}", tr(key::PRODUCT_INVENTED)))}
                    </span>
                </button>
                <button
                    class="star"
                    type="button"
                    aria-pressed=move || favourite.get().to_string()
                    aria-label=move || tr_with(key::FAVOURITE, &[("name", &name)])
                    on:click=move |_| desk.settings.update(|s| turn(&mut s.favourites, &id))
                >
                    {move || if favourite.get() { "★" } else { "☆" }}
                </button>
            </li>
        }
    };
    view! { <ul class="shelf">{move || ordered.get().into_iter().map(chip).collect_view()}</ul> }
}
