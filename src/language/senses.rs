//! The senses that a word can have, and sets of them.
//!
//! A [`Sense`] says what a word does in a clause: it fills or labels a slot, is a unit, a part, a deed, opens a scope,
//! or is small. A [`Subject`] says what a question with the word in it is about; only questions look at it. A word has
//! one owner: of the groups in [`OWNERS`] it belongs to one at most, which a test holds for every table.

/// Declares an enumeration whose names are the keys of the word tables, and a set of it in a few integers.
macro_rules! flags {
    ($(#[$about:meta])* $name:ident, $set:ident, $words:literal, { $($flag:ident),* $(,)? }) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[allow(non_camel_case_types, missing_docs, reason = "they are the keys of the word tables, explained there")]
        #[repr(u8)]
        pub enum $name { $($flag),* }

        impl $name {
            /// All of them with their keys.
            pub const ALL: &'static [(&'static str, $name)] = &[$((stringify!($flag), $name::$flag)),*];

            /// The one that a table calls `key`.
            pub fn named(key: &str) -> Option<$name> {
                Self::ALL.iter().find(|(name, _)| *name == key).map(|(_, one)| *one)
            }
        }

        const _: () = assert!($name::ALL.len() <= 64 * $words, "a set holds 64 to a word");

        /// A set of them.
        #[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
        pub struct $set([u64; $words]);

        impl $set {
            /// None.
            pub const NONE: $set = $set([0; $words]);

            /// These.
            pub const fn of<const N: usize>(those: [$name; N]) -> $set {
                let (mut bits, mut i) = ([0; $words], 0);
                while i < N {
                    bits[those[i] as usize / 64] |= 1 << (those[i] as usize % 64);
                    i += 1;
                }
                $set(bits)
            }
            /// Those of both.
            pub const fn and(mut self, other: $set) -> $set {
                let mut i = 0;
                while i < $words {
                    self.0[i] |= other.0[i];
                    i += 1;
                }
                self
            }
            /// Those that are not in `other`.
            pub const fn without(mut self, other: $set) -> $set {
                let mut i = 0;
                while i < $words {
                    self.0[i] &= !other.0[i];
                    i += 1;
                }
                self
            }
            /// Those that are in `other`, too.
            pub const fn only(self, other: $set) -> $set {
                self.without(self.without(other))
            }
            /// Whether this one is in it.
            pub const fn has(self, one: $name) -> bool {
                self.0[one as usize / 64] & (1 << (one as usize % 64)) != 0
            }
            /// Whether any of `other` is in it.
            pub const fn any(self, other: $set) -> bool {
                !self.only(other).is_empty()
            }
            /// Whether it is empty.
            pub const fn is_empty(self) -> bool {
                let mut i = 0;
                while i < $words {
                    if self.0[i] != 0 {
                        return false;
                    }
                    i += 1;
                }
                true
            }
            /// The keys of what is in it, to look at.
            pub fn keys(self) -> String {
                let those = $name::ALL.iter().filter(|(_, one)| self.has(*one)).map(|(name, _)| *name);
                those.collect::<Vec<_>>().join("+")
            }
        }
    };
}

flags! {
    /// What a word does in a clause.
    Sense, Senses, 3, {
        // Slots, strong; and weak ones, which are ordinary words too ("in") and need a number at their side.
        feed, perm, prod, prodperm, elsewhere, temp, press, flow, waste, wfeed, wperm, wprod,
        // Units.
        ppm, us, ms, celsius, fahrenheit, degrees, psi, bar, kpa, lpm, gpm, minutes, money, percent,
        // What a number may count or number.
        count, numbered, street, each, stretch,
        // Parts and deeds.
        membrane, resin, prefilter, oring, change, fresh, repack, flushed, flush, gaveflush, remetered, finished, got,
        used_up, topped, litres, bottles, half_of,
        // Scope: what is not simply asserted.
        plan, not, cond, norm, past, guess, bound, says, speaker, modal, foreign, place, idle,
        // Questions.
        ask, ask0, qmark,
        // Corrections and answers.
        undo, oops, itwas, yes, no, keep, swap, later, not_used, put_back, it, drop,
        // What may be dangerous, and what with.
        danger, body, height, chemical,
        // Time.
        morning, afternoon, evening, lastnight, yesterday, daybefore, today, tomorrow, ago, weekday, month, at, until,
        am, pm, datebefore, clockbefore, clockbetween, last, now,
        // Small words.
        all, both, and, over, same, vehicle, but, filler, ordinary, num, doubled, point, except, settle, chat, half,
        prep, article, be, shows, too, rest, moved, you, gear, sorry, instead, fix, either, other_rig, has, noted,
        nth, nearly, washes,
        // Time off.
        shut, back_at, ahead, announces, daylink, sender,
    }
}

flags! {
    /// What a question is about.
    Subject, Subjects, 1, {
        due, rejection, trend, history, last, advice, buy, shopping, quiet, fleet, help, we, log, why, picture,
        compare, means, state, cost, what_if, cheaper, dearer, worst, when, how, what, who, did, shall, waits, period,
        from, status, now,
    }
}

/// Labels of measured values.
pub const SLOTS: Senses = STRONG.and(Senses::of([Sense::wfeed, Sense::wperm, Sense::wprod]));
/// Labels that are no ordinary words.
pub const STRONG: Senses = Senses::of([
    Sense::feed,
    Sense::perm,
    Sense::prod,
    Sense::prodperm,
    Sense::elsewhere,
    Sense::temp,
    Sense::press,
    Sense::flow,
    Sense::waste,
]);
/// Labels of dissolved solids.
pub const SOLIDS: Senses = Senses::of([Sense::feed, Sense::perm, Sense::prod, Sense::prodperm]);
/// Units of measure.
pub const UNITS: Senses = Senses::of([
    Sense::ppm,
    Sense::us,
    Sense::ms,
    Sense::celsius,
    Sense::fahrenheit,
    Sense::degrees,
    Sense::psi,
    Sense::bar,
    Sense::kpa,
    Sense::lpm,
    Sense::gpm,
]);
/// Parts of a rig.
pub const PARTS: Senses = Senses::of([Sense::membrane, Sense::resin, Sense::prefilter, Sense::oring]);
/// What says that something was done.
pub const DONE: Senses = Senses::of([
    Sense::fresh,
    Sense::change,
    Sense::flushed,
    Sense::repack,
    Sense::remetered,
]);
/// What says of a rig that it is not meant.
pub const DENIES: Senses = Senses::of([Sense::not, Sense::except, Sense::instead]);

/// The groups of senses of which a word may belong to one.
pub const OWNERS: [(&str, Senses); 4] = [
    (
        "scope",
        Senses::of([Sense::cond, Sense::norm, Sense::guess, Sense::plan]),
    ),
    ("small", Senses::of([Sense::filler, Sense::article])),
    ("unit", UNITS),
    ("deed", Senses::of([Sense::flushed, Sense::repack])),
];
