//! The texts of one language, by key. A key without a text in a language
//! falls back to English.

use std::sync::LazyLock;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

type Bundle = FluentBundle<FluentResource>;

/// The texts of one language: its folder has a file for each family of answers.
macro_rules! texts {
    ($tag:literal) => {
        (
            $tag,
            &[
                include_str!(concat!($tag, "/reading.ftl")),
                include_str!(concat!($tag, "/services.ftl")),
                include_str!(concat!($tag, "/asking.ftl")),
                include_str!(concat!($tag, "/looking.ftl")),
                include_str!(concat!($tag, "/membrane.ftl")),
                include_str!(concat!($tag, "/outfit.ftl")),
                include_str!(concat!($tag, "/people.ftl")),
                include_str!(concat!($tag, "/data.ftl")),
                include_str!(concat!($tag, "/help.ftl")),
                include_str!(concat!($tag, "/words.ftl")),
                include_str!(concat!($tag, "/cautions.ftl")),
                include_str!(concat!($tag, "/menu.ftl")),
                include_str!(concat!($tag, "/nudge.ftl")),
                include_str!(concat!($tag, "/figures.ftl")),
                include_str!(concat!($tag, "/settings.ftl")),
                include_str!(concat!($tag, "/money.ftl")),
                include_str!(concat!($tag, "/pictures.ftl")),
                include_str!(concat!($tag, "/digest.ftl")),
                include_str!(concat!($tag, "/setup.ftl")),
                include_str!(concat!($tag, "/days_off.ftl")),
            ],
        )
    };
}

/// The languages that the bot answers in: tag and texts.
pub const LANGUAGES: [(&str, &[&str]); 2] = [texts!("en"), texts!("es")];

static BUNDLES: LazyLock<Vec<(&'static str, Bundle)>> = LazyLock::new(|| {
    LANGUAGES
        .iter()
        .map(|(tag, texts)| (*tag, bundle(tag, texts)))
        .collect()
});

fn bundle(tag: &str, texts: &[&str]) -> Bundle {
    let language: LanguageIdentifier = tag.parse().unwrap_or_default();
    let mut bundle = Bundle::new_concurrent(vec![language]);
    // Isolating marks would show as boxes in a terminal and break copied text.
    bundle.set_use_isolating(false);
    for family in texts {
        let resource = FluentResource::try_new((*family).to_owned()).unwrap_or_else(|(readable, _)| readable);
        bundle.add_resource_overriding(resource);
    }
    bundle
}

/// The texts of one language.
#[derive(Clone, Copy)]
pub struct Words(&'static Bundle);

/// A value that a text takes in.
pub enum Value<'a> {
    /// Ready text.
    Text(&'a str),
    /// A number that chooses a plural or a name; shown as it is.
    Number(i64),
}

impl<'a> From<&'a str> for Value<'a> {
    fn from(text: &'a str) -> Self {
        Self::Text(text)
    }
}

impl<'a> From<&'a String> for Value<'a> {
    fn from(text: &'a String) -> Self {
        Self::Text(text)
    }
}

impl From<i64> for Value<'_> {
    fn from(number: i64) -> Self {
        Self::Number(number)
    }
}

impl Words {
    /// The texts for a language tag such as `es-MX`; English for an unknown one.
    pub fn of(tag: Option<&str>) -> Self {
        let wanted = tag.and_then(|tag| tag.split(['-', '_']).next()).unwrap_or("en");
        let found = BUNDLES.iter().find(|(tag, _)| *tag == wanted).unwrap_or(&BUNDLES[0]);
        Self(&found.1)
    }

    /// The text of `key` with its values filled in. A missing key shows itself;
    /// a test makes sure that none is missing.
    pub fn say<const N: usize>(self, key: &str, values: [(&'static str, Value<'_>); N]) -> String {
        let mut args = FluentArgs::with_capacity(N);
        for (name, value) in values {
            match value {
                Value::Text(text) => args.set(name, FluentValue::from(text.to_owned())),
                Value::Number(number) => args.set(name, FluentValue::from(number)),
            }
        }
        for bundle in [self.0, &BUNDLES[0].1] {
            if let Some(pattern) = bundle.get_message(key).and_then(|message| message.value()) {
                return bundle
                    .format_pattern(pattern, Some(&args), &mut Vec::new())
                    .into_owned();
            }
        }
        key.to_owned()
    }

    /// The text of a key that takes no values.
    pub fn plain(self, key: &str) -> String {
        self.say(key, [])
    }
}
