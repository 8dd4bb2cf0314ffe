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
    // "Put", "cambie": the same word for what was done and for what shall be.
    SamePresent = "same in the present",
    // Bought, ordered, delivered: there, but not in the rig.
    Obtained = "obtained",
    Too = "too",
    Pending = "pending",
    Place = "place",
    Inside = "inside",
    PriceNoun = "price noun",
    Repacked = "repacked",
    Flushed = "flushed",
    Flush = "flush",
    Finished = "finished",
    Intent = "intent",
    Not = "not",
    Yet = "yet",
    Except = "except",
    FlushDeed = "flush deed",
    RepackedAlone = "repacked alone",
    UnderWay = "flushing",
    Judges = "judges",
    Pronoun = "pronoun",
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
    Why = "why",
    Picture = "picture",
    Logged = "logged",
    Compares = "compares",
    Means = "means",
    Cost = "cost",
    Cheaper = "cheaper",
    Dearer = "dearer",
    Percent = "percent",
    WhatIf = "what if",
    Past = "past",
    Period = "period",
    State = "state",
    Worst = "worst",
    Days = "days",
    Needs = "needs",
    QuestionMark = "question mark",
    LastOnes = "last ones",
    TopicWord = "topic word",
    FleetWord = "fleet word",
    PartWord = "part word",
    General = "general",
    HowTo = "how to",
    ReadsWord = "reading word",
    Spare = "spare",
    WholeFleet = "whole fleet",
    WaterWord = "water word",
    LastOnesAlone = "last ones alone",
    What = "what",
    Which = "which",
    WhoDid = "who did",
    Waits = "waits",
    Reset = "start",
    // Corrections and answers.
    Undo = "undo",
    Oops = "oops",
    ItWas = "it was",
    ShouldBe = "should be",
    That = "that",
    Was = "was",
    Yes = "yes",
    No = "no",
    Keep = "keep",
    AsSent = "as sent",
    Swap = "swap",
    Drop = "drop",
    NotUsed = "not used",
    MeantFor = "meant for",
    Postpone = "postpone",
    Grants = "give me time",
    HalfHour = "half an hour",
    QuarterHour = "quarter of an hour",
    Hour = "hour",
    OtherOne = "other one",
    First = "the first one",
    Second = "the second one",
    Noted = "noted",
    ShortYes = "short yes",
    Move = "move",
    But = "but",
    Either = "either",
    Settles = "settles",
    Guessed = "guessed",
    Bound = "bound",
    // Values that nobody has just read from a meter here.
    Supposed = "supposed",
    AsIn = "as in",
    Says = "says",
    Speaker = "speaker",
    Contrast = "contrast",
    Nearly = "nearly",
    LeftOut = "left out",
    Modal = "modal",
    Weekday = "weekday",
    Fitted = "fitted",
    OtherNumber = "other number",
    ItRead = "it read",
    Until = "until",
    PriceWord = "price word",
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
    DateBefore = "date before",
    ClockBefore = "clock before",
    ClockBehind = "clock behind",
    ClockBetween = "clock between",
    MonthLink = "month link",
    DayLink = "day link",
    Ago = "ago",
    AgoBefore = "ago before",
    Stretch = "stretch",
    Ahead = "ahead",
    OfTime = "part of a time",
    // Numbers that are none of the water.
    Numbered = "numbered",
    Each = "each",
    Apiece = "apiece",
    Calls = "calls",
    Doubled = "doubled",
    One = "one",
    AndHalf = "and a half",
    DecimalPoint = "decimal point",
    SoundsLike = "sounds like",
    Article = "article",
    Plural = "plural",
    Conductivity = "conductivity",
    // Grammar.
    All = "all",
    Both = "both",
    And = "and",
    Joins = "joins",
    From = "from",
    WithDigit = "with digit",
    ShortLabel = "short label",
    JoinedS = "joined s",
    Elided = "elided",
    LetterLabel = "letter label",
    Foreign = "foreign",
    Mine = "mine",
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
pub struct Senses(u128, u128);

impl Senses {
    pub fn of(sense: Sense) -> Senses {
        let bit = sense as u8;
        if bit < 128 {
            Senses(1 << bit, 0)
        } else {
            Senses(0, 1 << (bit - 128))
        }
    }

    pub fn has(self, sense: Sense) -> bool {
        let one = Senses::of(sense);
        self.0 & one.0 | self.1 & one.1 != 0
    }

    pub fn has_any(self, senses: &[Sense]) -> bool {
        senses.iter().any(|&sense| self.has(sense))
    }

    pub fn with(self, other: Senses) -> Senses {
        Senses(self.0 | other.0, self.1 | other.1)
    }

    /// Without any of `senses`.
    pub fn without(self, senses: &[Sense]) -> Senses {
        senses.iter().fold(self, |kept, &sense| {
            let gone = Senses::of(sense);
            Senses(kept.0 & !gone.0, kept.1 & !gone.1)
        })
    }

    pub fn is_empty(self) -> bool {
        self.0 | self.1 == 0
    }
}
