//! Parts that screens are made of. They know nothing of screens.

pub(crate) mod bands_picture;
pub(crate) mod caution;
pub(crate) mod chart;
pub(crate) mod choice;
pub(crate) mod count;
pub(crate) mod day;
pub(crate) mod field;
pub(crate) mod heat_curve;
pub(crate) mod jump;
pub(crate) mod later;
pub(crate) mod link_code;
pub(crate) mod pail;
pub(crate) mod pick;
pub(crate) mod pot_life;
pub(crate) mod printed;
pub(crate) mod qr;
pub(crate) mod question;
pub(crate) mod search;
pub(crate) mod start;
pub(crate) mod strip;
pub(crate) mod time_bar;
pub(crate) mod toggle;
pub(crate) mod verdict;
pub(crate) mod words;
pub(crate) mod working;
