//! The ground floor: what everything else speaks of. It depends on nothing.
//!
//! Ids, roles and kinds of service; what comes in and goes out ([`envelope`]); what a message comes to ([`meaning`],
//! [`query`]).

pub mod envelope;
pub mod id;
pub mod meaning;
pub mod name;
pub mod query;
pub mod role;
pub mod service;
pub mod term;
pub mod time_off;

pub use id::{OutfitId, PersonId, QuestionId, RigId, SendId};
pub use role::Role;
pub use service::ServiceKind;
