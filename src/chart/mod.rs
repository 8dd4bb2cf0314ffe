//! Facts into pictures: facts -> a sheet of SVG -> a PNG of 1080 x 810.
//!
//! Pure: no clock, no input or output, and no language. All words and figures are
//! handed in ready made; dates are local dates, rejections are fractions. The module
//! [`crate::replies::pictures`] chooses what is said, this one how it looks.
//!
//! The looks: the headline is the finding, words stand beside what they name, the
//! smallest letter is 42 px high, and nothing is said by colour alone. What wears or is
//! used up is a line that falls to a floor.
//!
//! Turning a sheet into a PNG is tens of milliseconds of one core and about 10 MB:
//! do it off the threads that answer, one picture at a time (a semaphore of one
//! around `spawn_blocking`).

pub mod axis;
pub mod fleet_list;
pub mod fleet_sheet;
pub mod mark;
pub mod palette;
pub mod png;
pub mod renewal_cost;
pub mod resin_life;
pub mod rig_fault;
pub mod rig_history;
pub mod sheet;
mod title;
pub mod typeface;
pub mod year_ahead;

pub use png::png;
pub use sheet::Sheet;
