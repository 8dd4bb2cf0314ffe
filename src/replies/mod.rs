//! Facts into words. Pure; the texts stand in a folder a language, the
//! figures in [`figures`].

pub mod asking;
pub mod figures;
pub mod looking;
pub mod membrane;
pub mod outfit;
pub mod reading;
pub mod words;

pub use words::Words;
