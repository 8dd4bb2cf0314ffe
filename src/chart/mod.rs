//! Facts into pictures: facts -> a sheet of SVG -> a PNG of 1080 x 810.
//!
//! Pure: no clock, no input or output, and no language. All words and figures are
//! handed in ready made; dates are local dates, rejections are fractions. A room
//! above chooses what is told ([`crate::replies::pictures`]), this one how it looks.
//!
//! The looks: the headline is the finding, words stand beside what they name, the
//! smallest letter is 30 px high, and nothing is told by colour alone.
//!
//! Turning a sheet into a PNG is tens of milliseconds of one core and about 10 MB:
//! do it off the threads that answer, one picture at a time (a semaphore of one
//! around `spawn_blocking`).

pub mod axis;
mod fleet_list;
pub mod fleet_sheet;
mod mark;
pub mod palette;
pub mod png;
pub mod renewal_cost;
pub mod resin_life;
pub mod rig_history;
mod rig_history_forecast;
pub mod sheet;
pub mod typeface;

pub use png::png;
pub use sheet::Sheet;
