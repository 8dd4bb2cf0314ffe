//! Kept readings as they are shown.

use crate::history::Followed;
use crate::history::rig_state::PastReading;
use crate::replies::looking::Past;
use crate::replies::reading::Figures;
use crate::store::readings::Reading;
use crate::water::verdict::Told;

use super::condition::{raw_rejection, word_for};
use super::request::Request;

/// A rig's last reading, with the state that the computation gives it now.
pub(super) fn newest(on: &Request<'_>, followed: &Followed<'_>) -> Option<Past> {
    let reading = followed.state.readings.back()?;
    let mut last = looked_up(on, reading);
    if let Some((_, told)) = &mut last.membrane {
        *told = word_for(followed, reading);
    }
    last.replaced = followed.unread_membrane_since().is_some();
    Some(last)
}

pub(super) fn looked_up(on: &Request<'_>, reading: &PastReading) -> Past {
    Past {
        figures: Figures {
            feed_ppm: reading.feed_ppm,
            permeate_ppm: reading.permeate_ppm,
            product_ppm: reading.product_ppm,
        },
        membrane: raw_rejection(reading).map(|rejection| (rejection, Told::Doubtful)),
        replaced: false,
        day: on.date(reading.taken_at),
    }
}

/// A kept reading's figures.
pub(super) fn figures_of(kept: &Reading) -> Figures {
    Figures {
        feed_ppm: kept.feed_ppm,
        permeate_ppm: kept.permeate_ppm,
        product_ppm: kept.product_ppm,
    }
}
