//! What was set, for the outfit or for one rig.

use std::collections::HashMap;

use crate::message::setting::{Field, Held, Setting, Value};

/// The values that were set, by setting.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Values(HashMap<Field, Value>);

impl Values {
    /// Puts a setting in its place, over one before.
    pub(super) fn take(&mut self, setting: &Setting) {
        self.0.insert(setting.field(), setting.value().clone());
    }

    /// What a setting was set to.
    pub(super) fn get<T: Held>(&self, field: Field) -> Option<T> {
        self.held(field).cloned()
    }

    /// The same as it is held.
    pub(super) fn held<T: Held>(&self, field: Field) -> Option<&T> {
        T::of(self.0.get(&field)?)
    }
}
