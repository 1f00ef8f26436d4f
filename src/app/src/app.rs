//! The page around the screens: the bar on top, settings, cautions, notices.

use leptos::prelude::*;
use pailwise_kept::records::settings::Theme;
use pailwise_kept::units::Units;

use crate::clock::watch::watch;
use crate::clock::{Alarm, Clock, Strip, Watch};
use crate::desk::{Desk, Notice, desk};
use crate::floor::Floor;
use crate::language_at_start::phone_languages;
use crate::mix::Mix;
use crate::parts::choice::Choice;
use crate::parts::later::in_turn;
use crate::parts::pail::Patterns;
use crate::practice::Practice;
use crate::products::Products;
use crate::screen::{CurrentRoute, Screen};
use crate::site::{KeptHere, NewerBuild, Site};
use crate::store::mirror;
use crate::text::{Language, key, live, tr, tr_with};

/// The whole page: bar on top, notices, the current screen and the cautions.
#[component]
pub fn App() -> impl IntoView {
    let desk = Desk::open(&phone_languages());
    provide_context(desk);
    provide_context(desk.language());
    desk.follow_other_tabs();
    let here = CurrentRoute::follow();
    Effect::new(move |_| {
        let (language, theme) = desk.settings.with(|s| (s.language, s.theme));
        dress_page(language, theme);
    });
    in_turn(move || {
        // Its cautions have been on the screen by now.
        if let Some(waiting) = document().get_element_by_id("start") {
            waiting.remove();
        }
        view! { <Page here=here /> }.into_any()
    })
}

/// All that stands on it.
#[component]
fn Page(here: CurrentRoute) -> impl IntoView {
    provide_context(Watch::begin(desk()));
    provide_context(Site::follow());
    let desk = desk();
    mirror::start(move || desk.reread());
    let now = here.screen();
    // Where they stand on the page is not their turn: the answer is wanted first.
    let screen = in_turn(move || (move || screen(now.get(), here)).into_any());
    let bar = in_turn(move || view! { <PlaceBar now=now /> <Alarm /> }.into_any());
    view! {
        <header class="bar">
            <h1 class="bar-name">"Pailwise"</h1>
            {in_turn(|| view! { <UnitSwitch /> <LanguageSwitch /> }.into_any())}
        </header>
        {in_turn(move || view! {
            <Patterns />
            <Strip here=here />
            <Undo here=here />
            <Notices />
            <NewerBuild />
        }.into_any())}
        <main>
            {screen}
        </main>
        <footer class="foot">
            {in_turn(|| view! {
                <Cautions />
                <ThemeSwitch />
                <p class="foot-line">{live(key::DATA_SHEET_FIRST)}</p>
                <KeptHere />
            }.into_any())}
        </footer>
        {bar}
    }
}

/// Gives the view of one screen; in debug builds `#parts` opens the gallery.
fn screen(which: Screen, here: CurrentRoute) -> AnyView {
    #[cfg(debug_assertions)]
    if window().location().hash().is_ok_and(|hash| hash == "#parts") {
        return view! { <crate::gallery::Gallery /> }.into_any();
    }
    match which {
        Screen::Mix => view! { <Mix /> }.into_any(),
        Screen::Floor => view! { <Floor here=here /> }.into_any(),
        Screen::Clock => view! { <Clock here=here /> }.into_any(),
        Screen::Products => view! { <Products here=here /> }.into_any(),
        Screen::Practice => view! { <Practice /> }.into_any(),
    }
}

/// The screens, one thumb away.
#[component]
fn PlaceBar(now: Memo<Screen>) -> impl IntoView {
    let links = Screen::ALL.into_iter().map(|to| {
        let here = move || (now.get() == to).then_some("page");
        view! { <a class="place" href=to.fragment() aria-current=here>{live(to.name())}</a> }
    });
    view! { <nav class="places" aria-label=live(key::PLACE_BAR)>{links.collect_view()}</nav> }
}

/// Tells the page its language and theme.
fn dress_page(language: Language, theme: Theme) {
    if let Some(page) = document().document_element() {
        // An attribute of the page itself cannot fail to be set.
        let _ = page.set_attribute("lang", language.tag());
        let _ = page.set_attribute("data-theme", theme.name());
    }
    document().set_title(&language.say(key::PAGE_TITLE, &[]));
}

/// How long the last step is offered to be undone, in milliseconds.
const OFFERED: f64 = 20_000.0;

/// What was done last, and undoing it: for some seconds, and on the screen it was done on.
#[component]
fn Undo(here: CurrentRoute) -> impl IntoView {
    let desk = desk();
    let screen = here.screen();
    let watch = watch();
    // The step that is offered, since when, and on which screen.
    let offered = RwSignal::new(None::<(String, f64, Screen)>);
    Effect::new(move |_| {
        let last =
            desk.steps.with(|steps| steps.last().map(|step| (step.what.clone(), step.at_ms)));
        // Where the step led to: the address has changed by now.
        offered.set(last.map(|(what, at)| (what, at, CurrentRoute::now())));
    });
    Effect::new(move |_| {
        screen.track();
        let now = watch.now.get();
        offered.maybe_update(|offered| {
            let over = |(_, since, on): &(String, f64, Screen)| {
                *on != CurrentRoute::now() || now - *since > OFFERED
            };
            offered.take_if(|offered| over(offered)).is_some()
        });
    });
    let last = move || offered.with(|offered| offered.as_ref().map(|(what, ..)| what.clone()));
    view! {
        <div class="undo" role="status">
            {move || last().map(|what| view! {
                <span class="undo-what">{what}</span>
                <button
                    id="undo"
                    class="button"
                    type="button"
                    on:click=move |_| {
                        // Told of where storage will not take it back.
                        let _ = desk.undo();
                    }
                >
                    {live(key::UNDO)}
                </button>
                <button
                    class="button button-quiet"
                    type="button"
                    aria-label=live(key::UNDO_HIDE)
                    on:click=move |_| desk.steps.update(Vec::clear)
                >
                    "×"
                </button>
            })}
        </div>
    }
}

#[component]
fn UnitSwitch() -> impl IntoView {
    let settings = desk().settings;
    view! {
        <Choice
            name="units"
            label=key::SETTING_UNITS
            options=Units::ALL.map(|units| (units, match units {
                Units::Us => key::SETTING_UNITS_US,
                Units::Metric => key::SETTING_UNITS_METRIC,
            })).to_vec()
            chosen=Signal::derive(move || settings.with(|s| s.units))
            choose=move |units| settings.update(|s| s.units = units)
        />
    }
}

#[component]
fn LanguageSwitch() -> impl IntoView {
    let settings = desk().settings;
    let other = move || settings.with(|s| s.language).next();
    view! {
        <button
            class="button button-quiet"
            lang=move || other().tag()
            on:click=move |_| {
                let other = other();
                settings.update(|s| s.language = other);
            }
        >
            {move || other().own_name()}
        </button>
    }
}

#[component]
fn ThemeSwitch() -> impl IntoView {
    let settings = desk().settings;
    view! {
        <Choice
            name="theme"
            label=key::SETTING_THEME
            options=Theme::ALL.map(|theme| (theme, match theme {
                Theme::Phone => key::SETTING_THEME_PHONE,
                Theme::Light => key::SETTING_THEME_LIGHT,
                Theme::Dark => key::SETTING_THEME_DARK,
            })).to_vec()
            chosen=Signal::derive(move || settings.with(|s| s.theme))
            choose=move |theme| settings.update(|s| s.theme = theme)
        />
    }
}

#[component]
fn Cautions() -> impl IntoView {
    const LINES: [&str; 5] = [
        key::CAUTION_SKIN,
        key::CAUTION_HOT,
        key::CAUTION_LEFTOVERS,
        key::CAUTION_ACID,
        key::CAUTION_SLIP,
    ];
    view! {
        <details class="fold cautions">
            <summary>{live(key::CAUTIONS)}</summary>
            <ul>{LINES.into_iter().map(|line| view! { <li>{live(line)}</li> }).collect_view()}</ul>
        </details>
    }
}

#[component]
fn Notices() -> impl IntoView {
    let notices = desk().notices;
    let say = |notice: &Notice| match notice {
        Notice::SetAside(aside) => tr_with(key::NOTICE_SET_ASIDE, &[("key", aside)]),
        Notice::Newer(kept) => tr_with(key::NOTICE_NEWER, &[("key", kept)]),
        Notice::Stuck(kept) => tr_with(key::NOTICE_STUCK, &[("key", kept)]),
        Notice::ProductGone(name) => tr_with(key::NOTICE_PRODUCT_GONE, &[("name", name)]),
        Notice::NotKept => tr(key::NOTICE_NOT_KEPT),
        Notice::ClockSetBack => tr(key::NOTICE_CLOCK_SET_BACK),
        Notice::NearlyFull => tr(key::NOTICE_NEARLY_FULL),
    };
    view! {
        <div role="status">
            {move || notices.with(|all| all.iter().map(|notice| view! {
                <p class="notice">{say(notice)}</p>
            }).collect_view())}
        </div>
    }
}
