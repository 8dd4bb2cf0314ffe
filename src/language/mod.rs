//! Characters to tokens, words to senses: the only code that looks at characters.
//!
//! [`lexer`] cuts a text into words, numbers and marks; [`lexicon`] gives words and phrases their senses from the
//! tables in `words/`; [`spelled`] reads numbers in words; [`mod@unit`] turns units into those that are kept; [`names`]
//! finds the names of rigs. Everything here is total: no text makes it fail, and none costs more than its length.

pub mod lexer;
pub mod lexicon;
pub mod names;
pub mod senses;
pub mod spelled;
pub mod unit;

pub use lexer::{Form, Kind, Text, Token, read_number};
pub use lexicon::{LEXICON, Lexicon};
pub use senses::{Sense, Senses, Subject, Subjects};
