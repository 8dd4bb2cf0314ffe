//! Commands: what each is answered with.

use crate::grammar::Topic;
use crate::message::command::{Affair, Command};
use crate::message::setup::zone_of_place;
use crate::store::people::Role;
use crate::store::{Db, StoreError};

use super::answer::Answer;
use super::changes::changes;
use super::closed_outfit::{close, keep_outfit};
use super::crew_chat::{link_chat, unlink_chat};
use super::digest_answers::{digest_more, digest_now};
use super::digest_files::{calendar, digest_file};
use super::export::files::export;
use super::fleet_answers::whole_fleet;
use super::flush_answers::{flush_later, not_used};
use super::help::{help, help_on, meaning};
use super::import::offers::{drop_import, offer_import, read_dates, take_in};
use super::import::undone::undo_import;
use super::invites::{cancel_invites, invite, invites};
use super::language::{choose_language, which_language};
use super::log_answers::who_logged;
use super::membrane_question::same_membrane;
use super::notice_answers::answer_note;
use super::outfit_commands::{rename, set_zone};
use super::own_rig::{ride_none, ride_today, set_own_rig};
use super::people::{forget_me, hand_over, is_somebody, leave, make, nobody_but_a_rig, people, remove_person};
use super::picture_answers::{money_picture, picture, resin_picture};
use super::preservative::preserved;
use super::query_answers::look;
use super::refusals::{may_not, unknown_rig};
use super::request::Request;
use super::rig_answers::{history, one_rig};
use super::rig_commands::{add_rigs, remove_rig, rename_rig, trait_of};
use super::settings::{wish, wish_each};
use super::withdrawals::undo;
use super::year_ahead::{year_ahead, year_ahead_file};
use super::zones::zone_named;

/// Answers what concerns people, their chat, or the outfit's data.
pub(super) async fn attend_to(db: &mut Db, on: &mut Request<'_>, affair: Affair) -> Result<Answer, StoreError> {
    if let Some(refusal) = not_here(on, &affair) {
        return Ok(refusal);
    }
    Ok(match affair {
        Affair::Invite(terms) => invite(db, on, &terms).await?,
        Affair::InviteHow => Answer::says(on.words.plain("invite-how")),
        Affair::Invites => invites(db, on).await?,
        Affair::CancelInvites => cancel_invites(db, on).await?,
        Affair::Remove(name) => remove_person(db, on, &name).await?,
        Affair::Make(name, role) => make(db, on, &name, role).await?,
        Affair::HandOver(name, sure) => hand_over(db, on, &name, sure).await?,
        Affair::TodayOn(name) => ride_today(db, on, &name).await?,
        Affair::NoRig => ride_none(db, on).await?,
        Affair::LinkChat => link_chat(db, on).await?,
        Affair::UnlinkChat => unlink_chat(db, on).await?,
        Affair::SameMembrane(name) => same_membrane(db, on, &name).await?,
        Affair::Preserved(name) => preserved(db, on, &name).await?,
        Affair::Export => export(db, on).await?,
        Affair::Import(rows) => offer_import(db, on, &rows, None).await?,
        Affair::TakeIn => take_in(db, on).await?,
        Affair::DropImport => drop_import(db, on).await?,
        Affair::UndoImport => undo_import(db, on).await?,
        Affair::DayFirst(day_first) => match read_dates(db, on, day_first).await? {
            Some(read) => read,
            None => Answer::says(on.words.plain("import-nothing-waits")),
        },
        Affair::Changes => changes(db, on).await?,
        Affair::ForgetMe(sure) => forget_me(db, on, sure).await?,
        Affair::Close(name) => close(db, on, name).await?,
        Affair::Keep => keep_outfit(db, on).await?,
    })
}

/// Whether a command is about a rig or somebody of the outfit, where it names one: "make it quick" is talk.
pub(super) fn is_meant(on: &Request<'_>, command: &Command) -> bool {
    let is_rig = |name: &String| on.rig_named(name).is_some();
    match command {
        Command::Look(name)
        | Command::DiOnly(name)
        | Command::HasMembrane(name)
        | Command::FlushesItself(name)
        | Command::RenameRig(name, _)
        | Command::FlushedByHand(name)
        | Command::ResinPicture(name)
        | Command::MoneyPicture(name)
        | Command::Affair(Affair::TodayOn(name) | Affair::SameMembrane(name) | Affair::Preserved(name)) => is_rig(name),
        Command::Picture(name) => name.is_empty() || is_rig(name),
        Command::NoteAgain(name, about) | Command::NoteLetBe(name, about) => {
            (name.is_empty() && about == "frost") || is_rig(name)
        }
        Command::Setting(wished) => wished.rig.iter().all(is_rig),
        Command::Settings(wishes) => wishes.iter().flat_map(|wished| &wished.rig).all(is_rig),
        Command::Place(name) => zone_named(name).is_ok() || zone_of_place(name, None).is_some(),
        Command::NotUsed(names) => !names.is_empty() && names.iter().all(is_rig),
        Command::FlushLater(names) => names.iter().all(is_rig),
        Command::Affair(Affair::Remove(name)) => nobody_but_a_rig(on, name).is_some() || is_somebody(on, name),
        Command::Affair(Affair::Make(name, _) | Affair::HandOver(name, _)) => is_somebody(on, name),
        _ => true,
    }
}

/// Answers a command.
pub(super) async fn obey(db: &mut Db, on: &mut Request<'_>, command: Command) -> Result<Answer, StoreError> {
    Ok(match command {
        Command::Start(_) => Answer::says(on.words.say("already-in", [("outfit", (&on.outfit.name).into())])),
        Command::Help => help(db, on).await?,
        Command::HelpOn(page) => help_on(db, on, page).await?,
        Command::Meaning(term) => meaning(on.words, term),
        Command::Language(language) => choose_language(db, on, &language).await?,
        Command::WhichLanguage => which_language(on.words),
        Command::Undo => undo(db, on).await?,
        Command::Fleet => whole_fleet(on),
        Command::WhoLogged => who_logged(db, on, None, None).await?,
        Command::People => people(db, on).await?,
        Command::Leave => leave(db, on).await?,
        Command::Affair(affair) => attend_to(db, on, affair).await?,
        Command::Name(name) => rename(db, on, &name).await?,
        Command::Zone(zone) | Command::Place(zone) => set_zone(db, on, &zone).await?,
        Command::Setting(wished) => wish(db, on, wished).await?,
        Command::Settings(wishes) => wish_each(db, on, wishes).await?,
        Command::AddRigs(names) => add_rigs(db, on, &names).await?,
        Command::RemoveRig(name) => remove_rig(db, on, &name).await?,
        Command::RenameRig(old, new) => rename_rig(db, on, &old, &new).await?,
        Command::OwnRig(name) => set_own_rig(db, on, &name).await?,
        Command::History(name) if name.is_empty() => look(db, on, Topic::History, None).await?,
        Command::History(name) => match on.rig_named(&name) {
            Some(rig) => history(on, &rig),
            None => unknown_rig(on, &name),
        },
        Command::Look(name) => match on.rig_named(&name) {
            Some(rig) => one_rig(on, &rig),
            None => unknown_rig(on, &name),
        },
        Command::NotUsed(names) => match rigs_named(on, &names) {
            Ok(rigs) => not_used(db, on, &rigs).await?,
            Err(unknown) => unknown,
        },
        Command::NoteAgain(rig, about) => answer_note(db, on, &rig, &about, true).await?,
        Command::NoteLetBe(rig, about) => answer_note(db, on, &rig, &about, false).await?,
        Command::Digest => digest_now(db, on).await?,
        Command::DigestMore(of) => digest_more(db, on, &of).await?,
        Command::DigestFile => digest_file(db, on).await?,
        Command::Calendar => calendar(db, on).await?,
        Command::YearAhead => year_ahead(on),
        Command::YearAheadFile => year_ahead_file(db, on).await?,
        Command::Picture(name) => picture(on, &name),
        Command::ResinPicture(name) => resin_picture(on, &name),
        Command::MoneyPicture(name) => money_picture(on, &name),
        Command::FlushLater(names) => match rigs_named(on, &names) {
            Ok(rigs) => flush_later(db, on, &rigs, None).await?,
            Err(unknown) => unknown,
        },
        Command::DiOnly(name) => trait_of(db, on, &name, "rig-di-only", |rig| rig.di_only = true).await?,
        Command::HasMembrane(name) => trait_of(db, on, &name, "rig-has-membrane", |rig| rig.di_only = false).await?,
        Command::FlushesItself(name) => {
            trait_of(db, on, &name, "rig-flushes-itself", |rig| rig.flushes_itself = true).await?
        }
        Command::FlushedByHand(name) => {
            trait_of(db, on, &name, "rig-flushed-by-hand", |rig| rig.flushes_itself = false).await?
        }
    })
}

/// The outfit's data are its owner's, and nothing for a group.
fn not_here(on: &Request<'_>, affair: &Affair) -> Option<Answer> {
    let of_owner = matches!(
        affair,
        Affair::Export
            | Affair::Import(_)
            | Affair::TakeIn
            | Affair::DropImport
            | Affair::UndoImport
            | Affair::DayFirst(_)
            | Affair::Changes
            | Affair::Close(_)
            | Affair::Keep
    );
    if of_owner && on.member.role != Role::Owner {
        // "Changes" and the like are also words of talk.
        return Some(if on.incoming.chat.group {
            Answer::silence()
        } else {
            may_not(on.words, "who-owner")
        });
    }
    let private = of_owner || matches!(affair, Affair::ForgetMe(_) | Affair::Invites);
    (private && on.incoming.chat.group).then(|| Answer::says(on.words.plain("in-private")))
}

/// The rigs that names mean, or that one of them means none.
fn rigs_named(on: &Request<'_>, typed: &[String]) -> Result<Vec<i64>, Answer> {
    let id = |name: &String| {
        on.rig_named(name)
            .map(|rig| rig.id)
            .ok_or_else(|| unknown_rig(on, name))
    };
    typed.iter().map(id).collect()
}
