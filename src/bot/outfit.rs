//! Commands about the outfit's settings: name, zone, end of the day.

use jiff::tz::{self, TimeZone};

use crate::message::setting::{self, Field, Setting};
use crate::message::setup::zone_of_place;
use crate::store::people::Role;
use crate::store::{self, StoreError};

use super::answer::Answer;
use super::rules::Rules;
use super::turn::{Turn, zone_of};

impl Turn<'_> {
    pub(super) async fn rename(&mut self, name: &str) -> Result<Answer, StoreError> {
        if self.member.role != Role::Owner {
            return Ok(self.may_not("who-owner"));
        }
        if name.chars().count() > 60 || name.chars().any(char::is_control) {
            return Ok(Answer::says(self.words.plain("name-bad")));
        }
        self.call_outfit(name).await?;
        Ok(Answer::says(self.words.say("outfit-named", [("name", name.into())])))
    }

    pub(super) async fn set_zone(&mut self, typed: &str) -> Result<Answer, StoreError> {
        if self.member.role != Role::Owner {
            return Ok(self.may_not("who-owner"));
        }
        let name = ("name", typed.into());
        let country = match self.set_value(Field::Country, None) {
            Some(Setting::Country(country)) => Some(country),
            _ => None,
        };
        let of_place = zone_of_place(typed, country).or_else(|| zone_of_place(typed, None));
        let found = zone_named(typed).or_else(|why| of_place.map_or(Err(why), zone_named));
        let (zone, zone_name) = match found {
            Ok(found) => found,
            Err(Some(near)) => {
                return Ok(Answer::says(
                    self.words.say("zone-near", [name, ("near", (&near).into())]),
                ));
            }
            Err(None) => return Ok(Answer::says(self.words.say("zone-unknown", [name]))),
        };
        self.move_to(&zone_name).await?;
        let there = jiff::Timestamp::from_second(self.now)
            .unwrap_or_default()
            .to_zoned_datetime(zone);
        let time = there.strftime("%H:%M").to_string();
        Ok(Answer::says(self.words.say(
            "zone-set",
            [("zone", (&zone_name).into()), ("time", (&time).into())],
        )))
    }

    /// Gives the outfit a name that can be one.
    pub(super) async fn call_outfit(&mut self, name: &str) -> Result<(), StoreError> {
        name.clone_into(&mut self.outfit.name);
        store::outfits::set(self.db, &self.outfit).await?;
        store::settings::set(self.db, self.teller(), None, store::settings::NAME, name).await
    }

    /// Moves the outfit's clock to a zone of that IANA name.
    pub(super) async fn move_to(&mut self, zone: &str) -> Result<(), StoreError> {
        zone.clone_into(&mut self.outfit.zone);
        self.zone = zone_of(&self.outfit);
        store::outfits::set(self.db, &self.outfit).await?;
        store::settings::set(self.db, self.teller(), None, store::settings::ZONE, zone).await?;
        self.rules = Rules::load(self.db, &self.outfit).await?;
        Ok(())
    }

    pub(super) async fn set_day_ends(&mut self, typed: &str) -> Result<Answer, StoreError> {
        if self.member.role != Role::Owner {
            return Ok(self.may_not("who-owner"));
        }
        let wished = setting::read(&format!("day ends {typed}"));
        let answer = match wished {
            Some(wished) => self.wish(wished).await?,
            None => None,
        };
        Ok(answer.unwrap_or_else(|| Answer::says(self.words.plain("day-ends-bad"))))
    }
}

/// The zone of that name, whatever its case, or the only one that ends in it
/// (`madrid`); else the nearest name, if one is near.
pub(super) fn zone_named(typed: &str) -> Result<(TimeZone, String), Option<String>> {
    let wanted = typed.trim().to_lowercase().replace(' ', "_");
    let names: Vec<String> = tz::db()
        .available()
        .map(|name| name.to_string())
        .filter(|name| name.contains('/') || name == "UTC")
        .collect();
    let same = names.iter().find(|name| name.to_lowercase() == wanted);
    let city = || {
        let mut ends = names.iter().filter(|name| {
            name.rsplit('/')
                .next()
                .is_some_and(|city| city.to_lowercase() == wanted)
        });
        match (ends.next(), ends.next()) {
            (Some(name), None) => Some(name),
            _ => None,
        }
    };
    if let Some(name) = same.or_else(city)
        && let Ok(zone) = TimeZone::get(name)
    {
        return Ok((zone, name.clone()));
    }
    let likeness = |name: &String| {
        let name = name.to_lowercase();
        let city = name.rsplit('/').next().unwrap_or(&name);
        strsim::jaro_winkler(&name, &wanted).max(strsim::jaro_winkler(city, &wanted))
    };
    let nearest = names
        .iter()
        .map(|name| (likeness(name), name))
        .max_by(|a, b| a.0.total_cmp(&b.0));
    Err(nearest
        .filter(|(likeness, _)| *likeness > 0.85)
        .map(|(_, name)| name.clone()))
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_zone_is_found_by_name_or_city_and_a_typo_gets_a_suggestion() {
        for (typed, name) in [
            ("Europe/Madrid", "Europe/Madrid"),
            ("europe/madrid", "Europe/Madrid"),
            ("Madrid", "Europe/Madrid"),
            ("new york", "America/New_York"),
        ] {
            assert_eq!(zone_named(typed).unwrap().1, name, "{typed}");
        }
        assert_eq!(
            zone_named("Europe/Madird").unwrap_err().as_deref(),
            Some("Europe/Madrid")
        );
        assert_eq!(zone_named("qqqq").unwrap_err(), None);
    }
}
