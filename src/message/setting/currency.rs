//! Currencies: code, digits of the smallest unit, sign.
//!
//! Codes and digits are those of ISO 4217, written down from memory; the signs
//! are common usage. Currencies with a thousandth as their coin are left out: their
//! `1.010` reads as a thousand and ten. Within one outfit there is one currency, so that a bare
//! dollar sign is clear.

/// A currency that an outfit can use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Currency(&'static Row);

#[derive(Debug, PartialEq, Eq)]
struct Row {
    code: &'static str,
    digits: u8,
    sign: &'static str,
    side: Side,
    /// Words that mean it when an owner types them, plain and small.
    words: &'static [&'static str],
}

/// On which side of the number a currency's sign stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// `$9`.
    Before,
    /// `9 zł`.
    After,
    /// As the language of the answer has it: `€9`, `9 €`.
    ByLanguage,
}

const fn row(code: &'static str, digits: u8, sign: &'static str, side: Side, words: &'static [&'static str]) -> Row {
    Row {
        code,
        digits,
        sign,
        side,
        words,
    }
}

use Side::{After, Before, ByLanguage};

static TABLE: [Row; 34] = [
    row("USD", 2, "$", Before, &["dollar", "dollars", "dolares"]),
    row("EUR", 2, "€", ByLanguage, &["euro", "euros"]),
    row("GBP", 2, "£", Before, &["pound", "pounds", "sterling", "libras"]),
    row("CAD", 2, "$", Before, &["canadian dollar", "canadian dollars"]),
    row("AUD", 2, "$", Before, &["australian dollar", "australian dollars"]),
    row("NZD", 2, "$", Before, &["new zealand dollar", "new zealand dollars"]),
    row("MXN", 2, "$", Before, &["mexican pesos", "pesos mexicanos"]),
    row("PLN", 2, "zł", After, &["zloty", "zlotys", "zl"]),
    row("CHF", 2, "CHF", Before, &["franc", "francs", "francos"]),
    row("SEK", 2, "kr", After, &[]),
    row("NOK", 2, "kr", After, &[]),
    row("DKK", 2, "kr", After, &[]),
    row("ISK", 0, "kr", After, &[]),
    row("CZK", 2, "Kč", After, &["kc"]),
    row("HUF", 2, "Ft", After, &["ft", "forint"]),
    row("RON", 2, "lei", After, &[]),
    row("TRY", 2, "TRY", Before, &[]),
    row("ZAR", 2, "R", Before, &["r", "rand"]),
    row("JPY", 0, "¥", Before, &["yen", "yenes"]),
    row("KRW", 0, "KRW", Before, &["won"]),
    row("CNY", 2, "¥", Before, &["yuan"]),
    row("HKD", 2, "$", Before, &[]),
    row("SGD", 2, "$", Before, &[]),
    row("INR", 2, "INR", Before, &["rupee", "rupees"]),
    row("BRL", 2, "R$", Before, &["reais"]),
    row("ARS", 2, "$", Before, &[]),
    row("CLP", 0, "$", Before, &[]),
    row("COP", 2, "$", Before, &[]),
    row("PEN", 2, "PEN", Before, &["soles"]),
    row("UYU", 2, "$", Before, &[]),
    row("CRC", 2, "CRC", Before, &[]),
    row("DOP", 2, "$", Before, &[]),
    row("ILS", 2, "ILS", Before, &[]),
    row("AED", 2, "AED", Before, &[]),
];

impl Currency {
    /// The currency of an ISO 4217 code, whatever its case.
    pub fn of_code(code: &str) -> Option<Self> {
        TABLE.iter().find(|row| row.code.eq_ignore_ascii_case(code)).map(Self)
    }

    /// The currency that a code, a sign or a word means. A bare `$` is no one
    /// currency; it is taken for the US dollar and shown back.
    pub fn typed(text: &str) -> Option<Self> {
        Self::of_code(text).or_else(|| {
            let named = |row: &&Row| row.sign == text || row.words.contains(&text);
            TABLE.iter().find(named).map(Self)
        })
    }

    /// Whether a sign or word that somebody typed may mean this currency: `$` and "pesos" are of several.
    pub fn may_be(self, typed: &str) -> bool {
        let own = self.0.sign == typed || self.0.words.contains(&typed) || self.0.code.eq_ignore_ascii_case(typed);
        own || match typed {
            "buck" | "bucks" | "dollar" | "dollars" | "dolar" | "dolares" => self.0.sign == "$" && !self.has_pesos(),
            "peso" | "pesos" => self.has_pesos(),
            "quid" | "libra" => self.0.code == "GBP",
            other => Self::typed(other).is_none(),
        }
    }

    fn has_pesos(self) -> bool {
        matches!(self.0.code, "MXN" | "ARS" | "CLP" | "COP" | "UYU" | "DOP")
    }

    /// All of them.
    pub fn all() -> impl Iterator<Item = Self> {
        TABLE.iter().map(Self)
    }

    /// Its ISO 4217 code.
    pub fn code(self) -> &'static str {
        self.0.code
    }

    /// How many digits its smallest unit has.
    pub fn digits(self) -> u8 {
        self.0.digits
    }

    /// Its sign, and on which side it stands.
    pub fn sign(self) -> (&'static str, Side) {
        (self.0.sign, self.0.side)
    }
}

/// Whether a piece of text is a sign or word of money, so that it may stand
/// beside an amount.
pub fn is_money(text: &str) -> bool {
    Currency::typed(text).is_some() || matches!(text, "peso" | "pesos" | "quid" | "bucks" | "kr")
}
