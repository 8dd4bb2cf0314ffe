//! Kept readings as they are shown.

use crate::history::Followed;
use crate::history::rig_state::PastReading;
use crate::message::setting::{Degrees, PressureUnit};
use crate::replies::looking::Past;
use crate::replies::reading::Figures;
use crate::water::quantity::{Pressure, Temperature};
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
        figures: figures_of(on, reading),
        membrane: raw_rejection(reading).map(|rejection| (rejection, Told::Doubtful)),
        replaced: false,
        day: on.date(reading.taken_at),
    }
}

/// A kept reading's figures, in the outfit's units.
pub(super) fn figures_of(on: &Request<'_>, kept: &PastReading) -> Figures {
    let celsius = kept
        .temperature_c
        .and_then(|celsius| Temperature::from_celsius(celsius).ok());
    let bar = kept.pressure_kpa.and_then(|kpa| Pressure::from_kpa(kpa).ok());
    Figures {
        feed_ppm: kept.feed_ppm,
        permeate_ppm: kept.permeate_ppm,
        product_ppm: kept.product_ppm,
        temperature: celsius.map(|told| match on.rules.celsius() {
            true => (told.celsius(), Degrees::Celsius),
            false => (told.fahrenheit(), Degrees::Fahrenheit),
        }),
        pressure: bar.map(|told| match on.rules.pressure_unit() {
            PressureUnit::Bar => (told.bar(), PressureUnit::Bar),
            PressureUnit::Psi => (told.psi(), PressureUnit::Psi),
        }),
    }
}
