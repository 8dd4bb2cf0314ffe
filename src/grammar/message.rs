//! A message cut and sorted once: what every later step looks at.

use super::clause::{self, Clause};
use super::frame::{self, Frames, one};
use super::item::{Item, Items};
use super::role::Role;
use super::scope;
use super::values::{self, Values};
use crate::domain::meaning::{Scene, When};
use crate::language::senses::Sense;

/// A message with its clauses and frames.
pub struct Message<'a> {
    pub text: &'a str,
    pub items: &'a [Item],
    pub roles: &'a [Role],
    pub clauses: Vec<Clause<'a>>,
    pub frames: Frames,
    pub scene: &'a Scene,
}

impl Items for Message<'_> {
    fn items(&self) -> &[Item] {
        self.items
    }
}

impl<'a> Message<'a> {
    pub fn new(text: &'a str, items: &'a [Item], roles: &'a [Role], scene: &'a Scene) -> Message<'a> {
        let clauses = clause::cut(items, roles);
        let frames = frame::build(&clauses, text, scene);
        Message {
            text,
            items,
            roles,
            clauses,
            frames,
            scene,
        }
    }
    /// Words and numbers.
    pub fn size(&self) -> usize {
        self.items
            .iter()
            .filter(|item| item.mark.is_none())
            .map(|item| item.words.max(1))
            .sum()
    }
    pub fn has_mark(&self, marks: &str) -> bool {
        self.items.iter().any(|item| item.is_mark(marks))
    }
    /// A question, by its mark or its first clause.
    pub fn is_question(&self) -> bool {
        self.clauses.iter().any(|clause| clause.asked) || self.clauses.first().is_some_and(scope::is_question)
    }
    /// All values of all clauses together.
    pub fn values(&self) -> Values {
        let mut all = Values::default();
        for clause in &self.clauses {
            all.add(&values::values(clause, self.scene), true);
        }
        all
    }
    /// The rigs that it names plainly, in order: their ids, and whether they are denied.
    pub fn rigs(&self) -> Vec<(i64, bool)> {
        let mut out = Vec::new();
        for clause in &self.clauses {
            let (named, denied) = frame::rigs_of(clause);
            let vague: Vec<_> = clause
                .items
                .iter()
                .filter(|item| item.is(Sense::vehicle))
                .map(|item| &item.rig)
                .collect();
            let plain = named.into_iter().filter(|hit| !vague.contains(&&Some(hit.clone())));
            let id = |at: usize| self.scene.fleet.get(at).map(|rig| rig.id);
            out.extend(plain.filter_map(|hit| one(&hit)).filter_map(id).map(|id| (id, false)));
            out.extend(denied.into_iter().filter_map(id).map(|id| (id, true)));
        }
        out
    }
    pub fn when(&self) -> Option<When> {
        self.clauses.iter().find_map(frame::time_of)
    }
    /// A thumbs-up, a tick.
    pub fn has_thumb(&self) -> bool {
        self.items
            .iter()
            .any(|item| item.is_mark("\u{1f44d}\u{2705}\u{1f44c}\u{2714}\u{1f197}"))
    }
}
