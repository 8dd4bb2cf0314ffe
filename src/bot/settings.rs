//! Answers to settings that are typed: who may, what holds from now on, what holds at all.

use jiff::civil::Date;

use crate::message::command::Command;
use crate::message::setting::{Field, Kind, Reach, SetBy, Setting, Wish, WishFor};
use crate::replies::help;
use crate::replies::settings::{Standing, list, typed};
use crate::store::people::Role;
use crate::store::rigs::Rig;
use crate::store::{Db, StoreError};
use crate::water::days_off::DaysOff;

use super::act::Act;
use super::answer::{Answer, Press};
use super::refusals::{may_not, unknown_rig};
use super::request::Request;
use super::retention::keep_for;
use super::rules::Rules;
use super::setting_conflicts::{lines_cross, name_taken};
use super::setting_values::{default_of, example_of, held, put, set_value, ways};

/// Answers a wish about the settings; none if it names no rig of the fleet,
/// so that it is read as a message.
pub(super) async fn wish(db: &mut Db, on: &mut Request<'_>, wished: WishFor) -> Result<Answer, StoreError> {
    let rig = match &wished.rig {
        None => None,
        Some(name) => match on.rig_named(name) {
            Some(rig) => Some(rig),
            None => return Ok(unknown_rig(on, name)),
        },
    };
    let sure = wished.sure;
    let field = match &wished.wish {
        Wish::ShowAll => return Ok(Answer::says(settings_list(on, rig.as_ref()))),
        Wish::Set(setting) => setting.field(),
        Wish::Change(change) => change.field(),
        Wish::Default(field) => *field,
    };
    // What deletes is for the owner's private chat; in a group it may be talk.
    if field == Field::Keep && on.incoming.chat.group {
        return Ok(match on.member.role {
            Role::Owner => Answer::says(on.words.plain("in-private")),
            _ => Answer::silence(),
        });
    }
    let wished = match wished.wish {
        Wish::Change(change) => {
            let held = held(&on.rules, field, None).or_else(|| default_of(on, field));
            match held.and_then(|held| change.of(&held)) {
                Some(setting) => Wish::Set(setting),
                None => return Ok(Answer::says(help::like_this(on.words, &example_of(on, field)))),
            }
        }
        other => other,
    };
    if let Some(refusal) = refuses(on, field, &wished, rig.as_ref()) {
        return Ok(refusal);
    }
    // What deletes is asked about first.
    if let (Field::Keep, Wish::Set(setting)) = (field, &wished) {
        return keep_for(db, on, setting, sure).await;
    }
    let setting = match wished {
        Wish::Set(setting) => Some(setting),
        _ => None,
    };
    if let Some(unusual) = setting
        .as_ref()
        .filter(|setting| !sure && !setting.is_usual(on.rules.currency()))
    {
        return Ok(is_it_meant(on, unusual, rig.as_ref()));
    }
    let all_told = setting.clone().map(|setting| beside_earlier(&on.rules, setting));
    put(db, on, field, all_told.as_ref(), rig.as_ref()).await?;
    Ok(Answer::says(set_words(on, field, setting.as_ref(), rig.as_ref())))
}

/// Does several wishes in their order; what each says is a line.
pub(super) async fn wish_each(db: &mut Db, on: &mut Request<'_>, wishes: Vec<WishFor>) -> Result<Answer, StoreError> {
    let mut said = Answer::default();
    for wished in wishes {
        let answer = wish(db, on, wished).await?;
        let new = answer
            .parts
            .into_iter()
            .flat_map(|part| part.lines().map(str::to_owned).collect::<Vec<_>>());
        for line in new {
            if !said.parts.contains(&line) {
                said.parts.push(line);
            }
        }
        said.buttons.extend(answer.buttons);
        // The next one may be about what this one changed.
        on.reload(db).await?;
    }
    said.parts = vec![said.parts.join("\n")];
    Ok(said)
}

/// The question about a value that is far from what the trade knows.
fn is_it_meant(on: &Request<'_>, setting: &Setting, rig: Option<&Rig>) -> Answer {
    let rig = rig.map(|rig| rig.name.as_str());
    let typed = typed(on.words, setting, ways(&on.rules));
    let whole = rig.map_or_else(|| typed.clone(), |rig| format!("{} {typed}", rig.to_lowercase()));
    let mut answer = Answer::says(on.words.say("setting-unusual", [("setting", (&whole).into())]));
    answer.buttons.push(Press {
        label: on.words.plain("setting-unusual-button"),
        act: Act::Command(Command::Setting(WishFor {
            sure: true,
            ..WishFor::set(rig, setting.clone())
        })),
    });
    answer
}

/// A busy summer leaves what was told of the winter; a hundred per cent takes all back.
fn beside_earlier(rules: &Rules, setting: Setting) -> Setting {
    let months = |setting: &Setting| setting.get::<[u16; 12]>();
    let earlier = set_value(rules, Field::BusyMonths, None);
    match (months(&setting), earlier.as_ref().and_then(months)) {
        (Some(told), Some(earlier)) if told != [100; 12] => {
            let month = |at: usize| if told[at] == 100 { earlier[at] } else { told[at] };
            Field::BusyMonths.to(std::array::from_fn::<u16, 12, _>(month))
        }
        _ => setting,
    }
}

fn refuses(on: &Request<'_>, field: Field, wish: &Wish, rig: Option<&Rig>) -> Option<Answer> {
    match field.set_by() {
        SetBy::Owner if on.member.role != Role::Owner => return Some(may_not(on.words, "who-owner")),
        SetBy::Leads if !on.member.role.leads() => return Some(may_not(on.words, "who-leads")),
        SetBy::WhoeverHasIt if rig.is_none() && !on.member.role.leads() => {
            return Some(may_not(on.words, "who-leads"));
        }
        SetBy::Owner | SetBy::Leads | SetBy::WhoeverHasIt => {}
    }
    let example = || match wish {
        Wish::Set(setting) => typed(on.words, setting, ways(&on.rules)),
        _ => example_of(on, field),
    };
    match (field.reach(), rig) {
        (Reach::Rig, None) => {
            let name = on.fleet.first().map_or("heron", |rig| &rig.name).to_lowercase();
            let example = example();
            let facts = [("rig", (&name).into()), ("setting", (&example).into())];
            Some(Answer::says(on.words.say("setting-names-a-rig", facts)))
        }
        (Reach::Outfit, Some(_)) => Some(Answer::says(
            on.words.say("setting-for-all", [("setting", (&example()).into())]),
        )),
        _ => match wish {
            Wish::Set(setting) => match setting.get::<Vec<String>>() {
                Some(names) => name_taken(on, &names, Some(rig?)),
                None => lines_cross(on.words, &on.rules, setting),
            },
            Wish::Default(field) => lines_cross(on.words, &on.rules, &field.default()?),
            _ => None,
        },
    }
}

fn set_words(on: &Request<'_>, field: Field, setting: Option<&Setting>, rig: Option<&Rig>) -> String {
    let holds = setting.cloned().or_else(|| default_of(on, field));
    let Some(holds) = holds else {
        return on.words.plain("setting-default-none");
    };
    if let (Field::DayEnds, Some(ends), None) = (field, setting, rig) {
        return on.words.say("day-ends-set", [("time", (&ends.text()).into())]);
    }
    let words = typed(on.words, &holds, ways(&on.rules));
    let mut lines = vec![match (setting, rig) {
        (None, _) => on.words.say("setting-as-before", [("setting", (&words).into())]),
        (Some(_), None) => on.words.say("setting-noted", [("setting", (&words).into())]),
        (Some(_), Some(rig)) => {
            let facts = [("rig", (&rig.name).into()), ("setting", (&words).into())];
            on.words.say("setting-noted-rig", facts)
        }
    }];
    if field.kind() == Kind::Money && on.rules.currency().is_none() {
        lines.push(on.words.plain("settings-currency"));
    }
    lines.join("\n")
}

/// A setting without the days off that are over; none if it was nothing else.
fn not_over(setting: Setting, today: Date) -> Option<Setting> {
    let Some(mut spans) = setting.get::<Vec<DaysOff>>() else {
        return Some(setting);
    };
    spans.retain(|span| span.back.is_none_or(|back| back > today));
    (!spans.is_empty()).then(|| setting.field().to(spans))
}

/// What holds, for the outfit or for one rig.
fn settings_list(on: &Request<'_>, rig: Option<&Rig>) -> String {
    let id = rig.map(|rig| rig.id);
    let set: Vec<Setting> = Field::all()
        .filter_map(|field| set_value(&on.rules, field, id))
        .filter_map(|setting| not_over(setting, on.today()))
        .collect();
    let is_set = |setting: &Setting| set.iter().any(|one| one.field() == setting.field());
    let defaults: Vec<Setting> = match rig {
        None => Field::all()
            .filter_map(|field| default_of(on, field))
            .filter(|one| !is_set(one))
            .collect(),
        Some(_) => Vec::new(),
    };
    let no_bed = rig.is_some_and(|rig| !on.rules.has_bed(rig));
    let needed = |field: &Field| match rig {
        _ if no_bed => false,
        None => *field != Field::ResinLitres && *field != Field::LitresPerDay || on.fleet.is_empty(),
        Some(_) => true,
    };
    let fields = match rig {
        None => &[
            Field::ResinPrice,
            Field::MembranePrice,
            Field::ResinLitres,
            Field::LitresPerDay,
        ][..],
        Some(_) => &[Field::ResinLitres, Field::LitresPerDay][..],
    };
    let missing: Vec<Setting> = fields
        .iter()
        .filter(|field| needed(field) && held(&on.rules, **field, id).is_none())
        .filter_map(|field| field.example())
        .collect();
    let title = match rig {
        None => on.words.say("settings-title", [("outfit", (&on.outfit.name).into())]),
        Some(rig) => on.words.say("settings-title-rig", [("rig", (&rig.name).into())]),
    };
    let before = rig
        .map(|rig| format!("{} ", rig.name.to_lowercase()))
        .unwrap_or_default();
    let standing = Standing {
        title,
        set: &set,
        defaults: &defaults,
        missing: &missing,
    };
    list(on.words, &standing, &before, ways(&on.rules))
}
