//! Where in the app one is: the fragment of the address, so that back, reload and a link hold.

use leptos::prelude::*;
use leptos::wasm_bindgen::JsCast;
use leptos::wasm_bindgen::prelude::Closure;

use crate::text::key;

/// A screen of the app.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Screen {
    /// The next batch: how much to mix, and how to measure it.
    #[default]
    Mix,
    /// The whole floor, with its coats and their plans.
    Floor,
    /// The batches under way, and the log.
    Clock,
    /// The shelf of products, each with its data sheet figures.
    Products,
    /// Rounds to learn from.
    Practice,
}

/// A side of the floor: what one looks at it for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FloorTab {
    /// The plan of its batches.
    #[default]
    Plan,
    /// All floors, of which one is in hand.
    Floors,
    /// Whether it is ready to coat.
    Ready,
    /// When it may be coated again, walked and driven on.
    After,
    /// What to buy and load.
    Load,
    /// The client's sheet for handing the floor over, and calendar entries.
    HandOver,
}

/// A spot within the shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ShelfRoute {
    /// The list of all products, where the screen opens.
    Shelf,
    /// A product being written, by id.
    Edit(String),
    /// A product that is not there yet, by the id it will have.
    New(String),
    /// The lot in hand of a product, by id.
    Lot(String),
    /// Handing a product on, by id.
    Share(String),
    /// Handing all of them on.
    ShareAll,
    /// Handing the floor on.
    ShareFloor,
    /// What this phone keeps.
    Phone,
    /// What a link brought.
    Link(String),
    /// What a file brought.
    File,
}

/// A spot within the clock.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ClockRoute {
    /// All that is under way, and the log.
    All,
    /// Handing a batch under way on, by id: a slip for its lid, a code for a second phone.
    HandOn(String),
}

impl Screen {
    /// All of them, in the order of the bar.
    pub const ALL: [Self; 5] =
        [Self::Mix, Self::Floor, Self::Clock, Self::Products, Self::Practice];

    /// Gives the part of the address that opens it, such as `#mix`.
    pub fn fragment(self) -> &'static str {
        match self {
            Self::Mix => "#mix",
            Self::Floor => "#floor",
            Self::Clock => "#clock",
            Self::Products => "#products",
            Self::Practice => "#practice",
        }
    }

    /// The text of its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Mix => key::PLACE_MIX,
            Self::Floor => key::PLACE_FLOOR,
            Self::Clock => key::PLACE_CLOCK,
            Self::Products => key::PLACE_PRODUCTS,
            Self::Practice => key::PLACE_PRACTICE,
        }
    }

    /// The screen a fragment names; what names none is the first.
    ///
    /// ```
    /// use pailwise_app::screen::Screen;
    /// assert_eq!(Screen::of("#floor"), Screen::Floor);
    /// assert_eq!(Screen::of("#products/edit/x"), Screen::Products);
    /// assert_eq!(Screen::of("#ask-slab"), Screen::Mix);
    /// ```
    pub fn of(fragment: &str) -> Self {
        if fragment.starts_with(LINK) {
            return Self::Products;
        }
        let main = fragment.split('/').next().unwrap_or_default();
        Self::ALL.into_iter().find(|screen| screen.fragment() == main).unwrap_or_default()
    }
}

/// What the fragment of a link that brings something starts with.
pub const LINK: &str = "#take=";

impl FloorTab {
    /// All of them, in the order of the day.
    pub const ALL: [Self; 6] =
        [Self::Plan, Self::Load, Self::Ready, Self::After, Self::HandOver, Self::Floors];

    /// Those of one floor, in the order of the day.
    pub const OF_ONE: [Self; 5] =
        [Self::Plan, Self::Load, Self::Ready, Self::After, Self::HandOver];

    /// The side a fragment names; what names none is the plan.
    ///
    /// ```
    /// use pailwise_app::screen::FloorTab;
    /// assert!(FloorTab::ALL.into_iter().all(|side| FloorTab::of(&side.fragment()) == side));
    /// assert_eq!(FloorTab::of("#floor/elsewhere"), FloorTab::Plan);
    /// ```
    pub fn of(fragment: &str) -> Self {
        Self::ALL.into_iter().find(|side| side.fragment() == fragment).unwrap_or_default()
    }

    /// Gives the part of the address that opens it, such as `#floor/ready`.
    pub fn fragment(self) -> String {
        let inner = match self {
            Self::Plan => return Screen::Floor.fragment().to_owned(),
            Self::Ready => "ready",
            Self::After => "after",
            Self::Load => "load",
            Self::HandOver => "hand-over",
            Self::Floors => "floors",
        };
        format!("{}/{inner}", Screen::Floor.fragment())
    }

    /// The text of its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Plan => key::SIDE_PLAN,
            Self::Ready => key::SIDE_READY,
            Self::After => key::SIDE_AFTER,
            Self::Load => key::SIDE_LOAD,
            Self::HandOver => key::SIDE_HAND_OVER,
            Self::Floors => key::FLOORS,
        }
    }

    /// Opens it by setting the fragment of the page's address.
    pub fn go(self) {
        // The address of the page itself cannot fail to be set.
        let _ = window().location().set_hash(&self.fragment());
    }
}

impl ClockRoute {
    /// The spot a fragment names; what names none is all of it.
    ///
    /// ```
    /// use pailwise_app::screen::ClockRoute;
    /// let slip = ClockRoute::HandOn("17".to_owned());
    /// assert_eq!(ClockRoute::of(&slip.fragment()), slip);
    /// assert_eq!(ClockRoute::of("#clock/elsewhere"), ClockRoute::All);
    /// ```
    pub fn of(fragment: &str) -> Self {
        let words: Vec<&str> = fragment.split('/').skip(1).collect();
        match words.as_slice() {
            ["hand-on", id] => Self::HandOn((*id).to_owned()),
            _ => Self::All,
        }
    }

    /// Gives the part of the address that opens it, such as `#clock/hand-on/17`.
    pub fn fragment(&self) -> String {
        let clock = Screen::Clock.fragment();
        match self {
            Self::All => clock.to_owned(),
            Self::HandOn(id) => format!("{clock}/hand-on/{id}"),
        }
    }
}

impl ShelfRoute {
    /// The spot a fragment names; what names none is the shelf.
    ///
    /// ```
    /// use pailwise_app::screen::ShelfRoute;
    /// assert_eq!(ShelfRoute::of("#products/edit/grey"), ShelfRoute::Edit("grey".to_owned()));
    /// assert_eq!(ShelfRoute::of(&ShelfRoute::Phone.fragment()), ShelfRoute::Phone);
    /// assert_eq!(ShelfRoute::of("#products"), ShelfRoute::Shelf);
    /// ```
    pub fn of(fragment: &str) -> Self {
        if let Some(packed) = fragment.strip_prefix(LINK) {
            return Self::Link(packed.to_owned());
        }
        let words: Vec<&str> = fragment.split('/').skip(1).collect();
        match words.as_slice() {
            ["edit", id] => Self::Edit((*id).to_owned()),
            ["new", id] => Self::New((*id).to_owned()),
            ["lot", id] => Self::Lot((*id).to_owned()),
            ["share", id] => Self::Share((*id).to_owned()),
            ["share"] => Self::ShareAll,
            ["share-floor"] => Self::ShareFloor,
            ["phone"] => Self::Phone,
            ["file"] => Self::File,
            _ => Self::Shelf,
        }
    }

    /// Gives the part of the address that opens it, such as `#products/phone`.
    pub fn fragment(&self) -> String {
        let inner = match self {
            Self::Shelf => return Screen::Products.fragment().to_owned(),
            Self::Link(packed) => return format!("{LINK}{packed}"),
            Self::Edit(id) => format!("edit/{id}"),
            Self::New(id) => format!("new/{id}"),
            Self::Lot(id) => format!("lot/{id}"),
            Self::Share(id) => format!("share/{id}"),
            Self::ShareAll => "share".to_owned(),
            Self::ShareFloor => "share-floor".to_owned(),
            Self::Phone => "phone".to_owned(),
            Self::File => "file".to_owned(),
        };
        format!("{}/{inner}", Screen::Products.fragment())
    }

    /// Opens this spot by setting the fragment of the page's address.
    pub fn go(&self) {
        // The address of the page itself cannot fail to be set.
        let _ = window().location().set_hash(&self.fragment());
    }
}

/// The fragment one is at, in the context of the app.
#[derive(Clone, Copy)]
pub struct CurrentRoute(ReadSignal<String>);

impl CurrentRoute {
    /// Follows the address from now on.
    pub fn follow() -> Self {
        let now = || window().location().hash().unwrap_or_default();
        let (fragment, go) = signal(now());
        let moved = Closure::<dyn FnMut()>::new(move || {
            go.set(now());
            // Another screen is read from its top.
            window().scroll_to_with_x_and_y(0.0, 0.0);
        });
        // Without this the links still work after a reload.
        let _ =
            window().add_event_listener_with_callback("hashchange", moved.as_ref().unchecked_ref());
        moved.forget();
        Self(fragment)
    }

    /// The screen that the address names at this moment, whether or not it is shown yet.
    pub fn now() -> Screen {
        Screen::of(&window().location().hash().unwrap_or_default())
    }

    /// Gives the screen that the address names, updated as it changes.
    pub fn screen(self) -> Memo<Screen> {
        Memo::new(move |_| self.0.with(|fragment| Screen::of(fragment)))
    }

    /// The side of the floor.
    pub fn side(self) -> Memo<FloorTab> {
        Memo::new(move |_| self.0.with(|fragment| FloorTab::of(fragment)))
    }

    /// The spot within the clock.
    pub fn clock_spot(self) -> Memo<ClockRoute> {
        Memo::new(move |_| self.0.with(|fragment| ClockRoute::of(fragment)))
    }

    /// The spot within the shelf.
    pub fn spot(self) -> Memo<ShelfRoute> {
        Memo::new(move |_| self.0.with(|fragment| ShelfRoute::of(fragment)))
    }
}
