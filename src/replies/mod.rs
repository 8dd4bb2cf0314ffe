//! Facts into words. Pure; the texts stand in a folder a language, the
//! figures in [`figures`].

pub mod asking;
pub mod buying;
pub mod caution;
pub mod comparing;
pub mod data;
pub mod days_off;
pub mod digest;
pub mod figures;
pub mod glass;
pub mod help;
pub mod lists;
pub mod looking;
pub mod membrane;
pub mod money;
pub mod notes;
pub mod nudge;
pub mod outfit;
pub mod people;
pub mod pictures;
pub mod reading;
pub mod resin;
pub mod settings;
pub mod words;
pub mod year;

pub use lists::listed;
pub use words::Words;
