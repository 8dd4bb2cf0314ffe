//! The senses a word can have, and a set of them.

/// Declares the closed list of senses with the keys that the language tables use for them.
macro_rules! senses {
    ($($name:ident = $key:literal,)*) => {
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[repr(u8)]
        pub enum Sense { $($name,)* }

        impl Sense {
            /// The sense that a table calls `key`.
            pub fn named(key: &str) -> Option<Sense> {
                match key {
                    $($key => Some(Sense::$name),)*
                    _ => None,
                }
            }
        }
    };
}

senses! {
    // What a number measures. The weak ones are ordinary words too ("in", "out"): they need a number at their side.
    Feed = "feed",
    FeedWeak = "feed weak",
    Permeate = "permeate",
    PermeateWeak = "permeate weak",
    Product = "product",
    ProductWeak = "product weak",
    Made = "product or permeate",
    Elsewhere = "elsewhere",
    Temperature = "temperature",
    Pressure = "pressure",
    PermeateFlow = "permeate flow",
    WasteFlow = "waste flow",
    // Units.
    Ppm = "ppm",
    MicroSiemens = "uS",
    MilliSiemens = "mS",
    Celsius = "celsius",
    Fahrenheit = "fahrenheit",
    Degrees = "degrees",
    Psi = "psi",
    Bar = "bar",
    Kpa = "kpa",
    LitresPerMinute = "lpm",
    GallonsPerMinute = "gpm",
    Minutes = "minutes",
    Counted = "counted",
    Currency = "currency",
    // Parts and what is done to them.
    Membrane = "membrane",
    Resin = "resin",
    Prefilter = "prefilter",
    ORing = "o-ring",
    Done = "done",
    Fresh = "fresh",
    Repacked = "repacked",
    Flushed = "flushed",
    Flush = "flush",
    Finished = "finished",
    Intent = "intent",
    Not = "not",
    Yet = "yet",
    // Questions.
    Asks = "asks",
    AsksFirst = "asks at the start",
    How = "how",
    When = "when",
    Due = "due",
    Rejection = "rejection",
    Trend = "trend",
    History = "history",
    Current = "last reading",
    Log = "log",
    Buy = "buy",
    Who = "who",
    Quiet = "quiet",
    Shopping = "shopping",
    We = "we",
    FleetWide = "fleet wide",
    Again = "again",
    Advice = "advice",
    Help = "help",
    // Corrections and answers.
    Undo = "undo",
    Oops = "oops",
    ItWas = "it was",
    That = "that",
    Was = "was",
    Yes = "yes",
    No = "no",
    Keep = "keep",
    AsSent = "as sent",
    Swap = "swap",
    Drop = "drop",
    NotUsed = "not used",
    // Times.
    Morning = "morning",
    Afternoon = "afternoon",
    Evening = "evening",
    LastNight = "last night",
    Yesterday = "yesterday",
    DayBefore = "day before yesterday",
    Today = "today",
    Now = "now",
    Later = "later",
    At = "at",
    Am = "am",
    Pm = "pm",
    HourMark = "hour mark",
    Month = "month",
    // Grammar.
    All = "all",
    Both = "both",
    And = "and",
    Over = "over",
    To = "to",
    Same = "same",
    Vehicle = "vehicle",
    NumberSign = "number sign",
    Hypothetical = "hypothetical",
    Address = "address",
    Greeting = "greeting",
    Filler = "filler",
}

/// A set of senses.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Senses(u128);

impl Senses {
    pub fn of(sense: Sense) -> Senses {
        Senses(1 << sense as u8)
    }

    pub fn has(self, sense: Sense) -> bool {
        self.0 & (1 << sense as u8) != 0
    }

    pub fn has_any(self, senses: &[Sense]) -> bool {
        senses.iter().any(|&sense| self.has(sense))
    }

    pub fn with(self, other: Senses) -> Senses {
        Senses(self.0 | other.0)
    }

    pub fn is_empty(self) -> bool {
        self.0 == 0
    }
}
