//! The outside world to and from [`crate::bot::envelope`]; a transport knows
//! nothing else of the bot.

pub mod telegram;
