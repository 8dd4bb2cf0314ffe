//! Everything that can be set for an outfit or for one rig: a closed list.
//!
//! Each has a row of all that holds for it (`field`), a kind of value (`value`) and its ways of being meant (`rows`, with
//! a table of words a language).

mod amount;
mod country;
mod currency;
mod field;
mod hours;
mod nearest;
mod rows;
mod said;
mod said_value;
mod typed;
mod value;
mod wish;

pub use amount::Amount;
pub use country::{Country, Ways};
pub use currency::{Currency, Side};
pub use field::{Field, Group, Reach, SetBy, Setting, Unit};
pub use hours::{Clock, Days, Weekday};
pub use nearest::{Meant, Nearest, nearest};
pub use typed::{answer, asks_what_is_set, read, read_among, read_each};
pub use value::{Bed, Degrees, Held, Kind, Meter, PressureUnit, Rated, Stands, Value, VolumeUnit};
pub use wish::{Change, Wish, WishFor};
