//! The outside world to and from [`crate::domain::envelope`]; a transport knows
//! nothing else of the bot.

pub mod telegram;
