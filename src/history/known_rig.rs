//! A rig as it is remembered, and its state as it is written.

use crate::store::rigs::Rig;
use crate::store::states::State;
use crate::store::tails::Tail;
use crate::water;
use crate::water::settings::Settings;

use super::replay::Teachings;
use super::rig_state::RigState;

/// The form of a kept state: grows with each change of it.
pub const SHAPE: i64 = 1000 * water::rig::SHAPE + 2;

/// A rig, what it is computed under, and what it came to.
#[derive(Clone, Debug)]
pub struct KnownRig {
    /// Its row.
    pub rig: Rig,
    /// What the computation is told of it.
    pub settings: Settings,
    /// What its readings and services came to.
    pub state: RigState,
    /// When somebody was last asked to flush it, UTC seconds.
    pub asked_to_flush: Option<i64>,
    /// Whether the state must be written although its tail is short.
    pub keep_now: bool,
}

impl KnownRig {
    /// A rig's state as it is written; none before any event.
    pub fn written(&self, teachings: &Teachings) -> Option<State> {
        let mut state = self.state.clone();
        let (upto_at, _) = state.upto?;
        state.heard_lessons = teachings.mark(self.rig.id, upto_at);
        Some(State {
            rig_id: self.rig.id,
            shape: SHAPE,
            upto_at,
            upto_reading: state.upto_reading,
            upto_service: state.upto_service,
            body: serde_json::to_string(&state).ok()?,
        })
    }

    /// What came after its state.
    pub fn tail(&self) -> Tail {
        Tail {
            rig_id: self.rig.id,
            from_at: self.state.upto.map_or(i64::MIN, |(at, _)| at),
            after_reading: self.state.upto_reading,
            after_service: self.state.upto_service,
        }
    }
}
