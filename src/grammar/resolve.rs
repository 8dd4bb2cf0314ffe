//! Frames to a meaning: what is recorded, what is asked. Nothing doubtful is recorded.

use super::ask;
use super::frame::{Frame, Frames, one};
use super::plausible;
use super::scope::{Deed, Mode};
use super::values::pair_of;
use crate::domain::ServiceKind as What;
use crate::domain::meaning::{About, Ask, Meaning, Reading, Rig, Scene, Service, Solids, Told, When};
use crate::language::names::Hit;

pub fn rig_of(scene: &Scene, id: i64) -> Option<&Rig> {
    scene.fleet.iter().find(|rig| rig.id == id)
}

pub fn is_complete(draft: &Reading, scene: &Scene) -> bool {
    let di_only = draft
        .rig
        .and_then(|id| rig_of(scene, id))
        .is_some_and(|rig| rig.di_only);
    draft.feed.is_some() && (draft.permeate.is_some() || di_only && draft.product.is_some())
}

/// A reading of a known rig is ready, or a question is due.
pub fn judge(draft: Reading, doubt: Option<About>, scene: &Scene) -> Result<Reading, Box<Ask>> {
    let rig = draft.rig.and_then(|id| rig_of(scene, id));
    let ahead = (draft.when == Some(When::Ahead)).then_some(About::Implausible);
    let implausible = plausible::doubt(&draft, rig).or(ahead);
    // Which way round comes first: it says more than "is that right?".
    let about = match (doubt, implausible) {
        (None | Some(About::Implausible), Some(About::Swapped)) => Some(About::Swapped),
        (Some(doubt), _) => Some(doubt),
        (None, _) if !is_complete(&draft, scene) => Some(About::MissingReading),
        (None, implausible) => implausible,
    };
    match about {
        Some(about) => Err(Box::new(ask::about_values(about, draft))),
        None => Ok(draft),
    }
}

/// Records a reading, or asks; one question at a time, but all that is missing of one kind in it.
pub fn take(meaning: &mut Meaning, judged: Result<Reading, Box<Ask>>) {
    match judged {
        Ok(reading) if meaning.readings.contains(&reading) => {}
        Ok(reading) => meaning.readings.push(reading),
        Err(ask) => match &mut meaning.ask {
            Some(first) if first.about == About::MissingReading && ask.about == About::MissingReading => {
                first.drafts.extend(ask.drafts);
            }
            Some(_) => {}
            None => meaning.ask = Some(*ask),
        },
    }
}

/// A glass above this share of the tap is rather the tap itself.
const MOST_OF_TAP: f64 = 0.5;

/// Who is meant where nobody is named: the only rig, or the sender's own, unless it was denied.
pub struct Resolver<'a> {
    pub scene: &'a Scene,
    pub text: &'a str,
    pub frames: &'a Frames,
}

impl Resolver<'_> {
    pub fn own(&self) -> Option<i64> {
        let own = match self.scene.fleet.as_slice() {
            [only] => Some(only.id),
            _ => self.scene.own_rig,
        };
        own.filter(|id| !self.denied().contains(id))
    }

    fn denied(&self) -> Vec<i64> {
        self.frames.denied.iter().filter_map(|at| self.id(*at)).collect()
    }

    pub fn id(&self, at: usize) -> Option<i64> {
        self.scene.fleet.get(at).map(|rig| rig.id)
    }

    /// Asks which rig: of several that fit, or of all.
    fn ask_rig(&self, hit: Option<&Hit>, drafts: Vec<Reading>, typed: &str) -> Ask {
        match hit {
            Some(Hit::Unknown) => ask::unknown_rig(drafts, typed, self.scene),
            Some(Hit::Many(those)) => {
                let ids: Vec<i64> = those.iter().filter_map(|at| self.id(*at)).collect();
                ask::which_rig(drafts, &ids, &self.denied(), typed, self.scene)
            }
            _ => ask::which_rig(drafts, &[], &self.denied(), typed, self.scene),
        }
    }

    /// The meaning of the frames that state something.
    pub fn meaning(&self) -> Meaning {
        let mut out = Meaning::default();
        let mut shared = None;
        let readings: Vec<&Frame> = self.frames.readings().collect();
        for (place, frame) in readings.iter().enumerate() {
            // Values that found no rig of their own, and whose inherited one was read already.
            let before = readings[..place]
                .iter()
                .any(|other| other.rigs == frame.rigs && other.values.is_complete());
            if frame.loose && !frame.named && !frame.rigs.is_empty() && before {
                continue;
            }
            let v = &frame.values;
            if frame.shared && v.perm.is_none() && v.bare.len() <= 1 {
                shared = v.feed.or(v.bare.first().copied());
                continue;
            }
            self.reading(&mut out, frame, shared);
        }
        self.keep_last_of_repeats(&mut out);
        self.services(&mut out);
        out.price_left_out |= self.frames.price_shared;
        // "Resin changed, now 0 at the glass": the service is the news.
        let only_product = |draft: &Reading| draft.feed.is_none() && draft.permeate.is_none();
        let rest = |ask: &Ask| ask.about == About::MissingReading && ask.drafts.iter().all(only_product);
        if !out.services.is_empty() && out.ask.as_ref().is_some_and(rest) {
            out.ask = None;
        }
        out
    }

    /// "Test 1: 180/12, test 2: 181/12": one rig is read twice in one message at one time; the last counts.
    fn keep_last_of_repeats(&self, out: &mut Meaning) {
        let readings = std::mem::take(&mut out.readings);
        for (at, reading) in readings.iter().enumerate() {
            let later = readings[at + 1..]
                .iter()
                .any(|other| other.rig == reading.rig && other.when == reading.when);
            if !later {
                out.readings.push(reading.clone());
            }
        }
    }

    fn reading(&self, out: &mut Meaning, frame: &Frame, shared: Option<Solids>) {
        if frame.mode == Mode::Unreal {
            return;
        }
        let v = &frame.values;
        let is_di_only = |at: usize| self.scene.fleet.get(at).is_some_and(|rig| rig.di_only);
        let di_only = matches!(&frame.rigs[..], [Hit::One(at)] if is_di_only(*at))
            || frame.rigs.is_empty()
                && self
                    .own()
                    .and_then(|id| rig_of(self.scene, id))
                    .is_some_and(|rig| rig.di_only);
        let (mut reading, mut doubt) = pair_of(v, di_only);
        if di_only {
            doubt = doubt.or(self.beside_last_tap(frame, &mut reading));
        }
        let whole = v.is_complete() || di_only && reading.feed.is_some() && reading.product.is_some();
        if let (Some(feed), None, true) = (shared, reading.permeate, reading.feed.is_some()) {
            (reading.permeate, reading.feed) = (reading.feed, Some(feed));
            doubt = None;
        } else if let (Some(_), Some(_), None) = (shared, reading.permeate, reading.feed) {
            reading.feed = shared;
        }
        reading.when = frame.when;
        if frame.mode == Mode::Doubtful {
            doubt = Some(About::Implausible);
        }
        if !self.is_about_water(out, frame, &reading, whole) {
            return;
        }
        if let Some(typed) = frame.stranger.filter(|_| frame.rigs.is_empty()) {
            self.strange_rig(out, frame, reading, whole, typed);
            return;
        }
        let rigs: Vec<Option<i64>> = if frame.rigs.is_empty() {
            vec![self.own().filter(|_| !frame.other_rig)]
        } else {
            frame
                .rigs
                .iter()
                .map(|hit| one(hit).and_then(|at| self.id(at)))
                .collect()
        };
        for (place, rig) in rigs.into_iter().enumerate() {
            let reading = Reading { rig, ..reading.clone() };
            if rig.is_some() {
                take(out, judge(reading, doubt, self.scene));
                continue;
            }
            let hit = frame.rigs.get(place);
            if hit.is_some() || whole || v.strong {
                let ask = self.ask_rig(hit, vec![reading], "");
                take(out, Err(Box::new(ask)));
            }
        }
    }

    /// The glass alone of a rig without a membrane stands beside the tap as it was read last; in doubt where it is as high
    /// as a tap. What talks of something else, too, is left as it is.
    fn beside_last_tap(&self, frame: &Frame, reading: &mut Reading) -> Option<About> {
        let at = match &frame.rigs[..] {
            [Hit::One(at)] => self.scene.fleet.get(*at),
            _ => self.own().and_then(|id| rig_of(self.scene, id)),
        };
        let (tap, product) = (at?.last_feed_ppm?, reading.product?);
        if reading.feed.is_some() || frame.foreign > 0 || frame.values.garbled {
            return None;
        }
        reading.feed = Some(Solids { ppm: tap, raw_us: None });
        (product.ppm > MOST_OF_TAP * tap && frame.values.prod.is_none()).then_some(About::WhichIsWhich)
    }

    /// Whether the frame's values are of a rig's water at all, or numbers of other talk.
    fn is_about_water(&self, out: &mut Meaning, frame: &Frame, reading: &Reading, whole: bool) -> bool {
        let v = &frame.values;
        let plain = frame.foreign == 0;
        // "that wasnt heron 180 12", of nobody else: it is denied, not asked about.
        let denied = self.denied();
        let own = self.scene.own_rig.is_some_and(|own| denied.contains(&own));
        if frame.rigs.is_empty() && !denied.is_empty() && !own && self.own().is_none() {
            return false;
        }
        let holds_place = (v.hole || v.garbled) && plain && (frame.named || v.any_solids());
        if !v.any_solids()
            && !(v.percent && frame.named)
            && !holds_place
            && !(v.any_extra() && frame.named && plain && self.frames.queries().next().is_none())
        {
            return false;
        }
        // "left gauge 165 right gauge 8"
        if let ([first], [second], false, false, false) =
            (&v.bare[..], &v.loose[..], whole, v.strong, frame.rigs.is_empty())
            && first.ppm > 4.0 * second.ppm
            && first.ppm >= 50.0
        {
            let draft = Reading {
                permeate: Some(*second),
                rig: self.first_rig(frame),
                ..reading.clone()
            };
            take(out, Err(Box::new(ask::about_values(About::WhichIsWhich, draft))));
            return false;
        }
        if !whole {
            if v.percent && frame.named && !v.any_solids() {
                return true;
            }
            let few = frame.foreign <= 1 && (v.strong || v.prod.is_some());
            if !plain && !few || self.frames.services().next().is_some() && !frame.named {
                return false;
            }
            // "otter has 2 today"
            if !v.strong
                && !v.labelled
                && !v.garbled
                && frame.words > 0
                && v.bare.first().is_some_and(|s| s.ppm < plausible::LEAST_FEED_PPM)
            {
                return false;
            }
        }
        if frame.rigs.is_empty() {
            let labelled = v.strong && v.bare.is_empty() && whole;
            let strange = frame.stranger.is_some() && whole;
            if !plain && !labelled && !strange {
                // A plausible pair among other words: nothing is recorded, but it is asked about.
                let falls =
                    reading.feed.is_some_and(|feed| feed.ppm >= 50.0) && plausible::doubt(reading, None).is_none();
                if let (Some(own), true, 2) = (self.own(), frame.tied && falls, v.bare.len()) {
                    let draft = Reading {
                        rig: Some(own),
                        ..reading.clone()
                    };
                    take(out, Err(Box::new(ask::about_values(About::Implausible, draft))));
                }
                return false;
            }
            // "see you at the school, 30 12"
            let talk = self.frames.clauses > 1 && !frame.tied && !v.strong;
            if talk && reading.feed.is_some_and(|feed| feed.ppm < 50.0) {
                return false;
            }
            // "1 nil", "12"
            let small = v.bare.iter().all(|s| s.ppm < plausible::LEAST_FEED_PPM);
            if !v.strong && !v.bare.is_empty() && small || !whole && !v.strong && reading.feed.is_none() {
                return false;
            }
        }
        // An inherited rig and words of its own: only a plain pair is a reading.
        let inherited = !frame.named && !frame.rigs.is_empty() && !plain;
        !(inherited && !v.strong && (!whole || plausible::doubt(reading, None).is_some()))
    }

    fn first_rig(&self, frame: &Frame) -> Option<i64> {
        frame.rigs.first().and_then(one).and_then(|at| self.id(at))
    }

    /// A name that nobody has, before a pair that can be one.
    fn strange_rig(&self, out: &mut Meaning, frame: &Frame, reading: Reading, whole: bool, typed: (usize, usize)) {
        let doubt = plausible::doubt(&reading, None);
        let swapped = doubt == Some(About::Swapped) && reading.permeate.is_some_and(|p| p.ppm >= 100.0);
        if whole && frame.values.bare.len() <= 2 && (doubt.is_none() || swapped) {
            let typed = self.text.get(typed.0..typed.1).unwrap_or("");
            take(out, Err(Box::new(ask::unknown_rig(vec![reading], typed, self.scene))));
        }
    }

    fn services(&self, out: &mut Meaning) {
        // A service without a rig is of the only rig that the message names.
        let mut named: Vec<&Hit> = Vec::new();
        for hit in self
            .frames
            .all
            .iter()
            .filter(|frame| frame.kind != super::frame::Kind::Query)
            .flat_map(|f| &f.rigs)
        {
            if !named.contains(&hit) {
                named.push(hit);
            }
        }
        for (frame, deed) in self.frames.services() {
            let rigs = self.rigs_of_service(frame, deed, &named, out);
            let told = Told {
                minutes: frame.minutes,
                price: frame.price.clone(),
                when: frame.when,
            };
            let (what, about) = match deed {
                Deed::Done(what) => (what, None),
                Deed::UsedUp(what) => (what, Some(About::UsedUp)),
                Deed::Portion(what) => (what, Some(About::Portion)),
                Deed::Moved(what) => (what, Some(About::Moved)),
            };
            // Without a rig only a message about nothing else is about a rig at all.
            if rigs.is_empty() && frame.rigs.is_empty() && frame.foreign > 0 {
                continue;
            }
            if rigs.is_empty() {
                let hit = frame.rigs.iter().find(|hit| one(hit).is_none());
                let asked = Ask {
                    service: Some(what),
                    told,
                    ..self.ask_rig(hit, Vec::new(), "")
                };
                let asked = Ask {
                    about: if hit == Some(&Hit::Unknown) {
                        About::UnknownRig
                    } else {
                        About::WhichRig
                    },
                    ..asked
                };
                out.ask = out.ask.take().or(Some(asked));
                continue;
            }
            if let Some(about) = about {
                out.ask = out
                    .ask
                    .take()
                    .or_else(|| Some(ask::about_service(about, what, told, &rigs)));
                continue;
            }
            let shared = rigs.len() > 1 && frame.price.is_some();
            out.price_left_out |= shared;
            for rig in rigs {
                if out
                    .services
                    .iter()
                    .any(|service| service.rig == rig && service.what == what)
                {
                    continue;
                }
                let price = told.price.clone().filter(|_| !shared);
                out.services.push(Service {
                    rig,
                    what,
                    minutes: told.minutes,
                    price,
                    when: told.when,
                });
            }
        }
    }

    fn rigs_of_service(&self, frame: &Frame, deed: Deed, named: &[&Hit], out: &Meaning) -> Vec<i64> {
        let flush = deed == Deed::Done(What::Flush);
        if !frame.rigs.is_empty() {
            return frame.rigs.iter().filter_map(one).filter_map(|at| self.id(at)).collect();
        }
        if frame.follows && self.scene.may_speak_for_all {
            let rest = |rig: &&Rig| out.services.iter().all(|service| service.rig != rig.id);
            return self.scene.fleet.iter().filter(rest).map(|rig| rig.id).collect();
        }
        if let ([Hit::One(only)], false) = (named, frame.follows) {
            return self.id(*only).into_iter().collect();
        }
        if self.frames.of_all {
            let denied = self.denied();
            let meant = |rig: &&Rig| !denied.contains(&rig.id) && (!flush || rig.manual_flush && rig.worked_today);
            let all = self.scene.may_speak_for_all || self.scene.fleet.len() == 1;
            return self
                .scene
                .fleet
                .iter()
                .filter(meant)
                .filter(|_| all)
                .map(|rig| rig.id)
                .collect();
        }
        self.own()
            .filter(|_| named.is_empty() && !frame.follows)
            .into_iter()
            .collect()
    }
}

/// Drafts whose question was answered: ready, or asked on for what is still missing or strange.
pub fn sort_out(drafts: Vec<Reading>, answered: About, scene: &Scene) -> Meaning {
    let mut meaning = Meaning::default();
    for draft in drafts {
        if draft.rig.is_none() {
            take(
                &mut meaning,
                Err(Box::new(ask::which_rig(vec![draft], &[], &[], "", scene))),
            );
            continue;
        }
        let judged = judge(draft, None, scene).or_else(|ask| {
            let settled =
                matches!(answered, About::Swapped | About::Implausible | About::WhichIsWhich) && ask.about == answered;
            match ask.drafts.first().filter(|_| settled) {
                Some(draft) => Ok(draft.clone()),
                None => Err(ask),
            }
        });
        take(&mut meaning, judged);
    }
    meaning
}

/// Drafts of which the sender said that they are right: only what is missing is asked on.
pub fn settle(drafts: Vec<Reading>, scene: &Scene) -> Meaning {
    let mut meaning = Meaning::default();
    for draft in drafts {
        let judged = match (draft.rig, is_complete(&draft, scene)) {
            (None, _) => Err(Box::new(ask::which_rig(vec![draft], &[], &[], "", scene))),
            (Some(_), false) => Err(Box::new(ask::about_values(About::MissingReading, draft))),
            (Some(_), true) => Ok(draft),
        };
        take(&mut meaning, judged);
    }
    meaning
}
