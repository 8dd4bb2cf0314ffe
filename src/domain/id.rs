//! Numbers under which things are kept.

/// An outfit's number.
pub type OutfitId = i64;
/// A rig's number.
pub type RigId = i64;
/// A person's number.
pub type PersonId = i64;
/// A question's number.
pub type QuestionId = i64;
/// The number of a message on its way out.
pub type SendId = i64;
