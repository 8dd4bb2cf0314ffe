//! The columns of each sheet: their names in the files, and the key of the text
//! that says what they hold.

pub const READINGS: [Named; 14] = [
    ("rig", "key-rig"),
    ("time", "key-taken"),
    ("feed_ppm", "key-feed"),
    ("permeate_ppm", "key-permeate"),
    ("product_ppm", "key-product"),
    ("temp_c", "key-temperature"),
    ("pressure_kpa", "key-pressure"),
    ("permeate_lpm", "key-permeate-flow"),
    ("waste_lpm", "key-waste-flow"),
    ("feed_us", "key-feed-us"),
    ("permeate_us", "key-permeate-us"),
    ("product_us", "key-product-us"),
    ("by", "key-by"),
    ("withdrawn", "key-withdrawn"),
];

pub const SERVICES: [Named; 7] = [
    ("rig", "key-rig"),
    ("time", "key-done"),
    ("what", "key-what"),
    ("minutes", "key-minutes"),
    ("price_minor", "key-price"),
    ("by", "key-by"),
    ("withdrawn", "key-withdrawn"),
];

pub const RIGS: [Named; 5] = [
    ("rig", "key-rig"),
    ("kind", "key-kind"),
    ("flush", "key-flush"),
    ("added", "key-added"),
    ("removed", "key-removed"),
];

pub const SETTINGS: [Named; 5] = [
    ("rig", "key-setting-rig"),
    ("name", "key-setting"),
    ("value", "key-value"),
    ("since", "key-since"),
    ("by", "key-by"),
];

pub const PEOPLE: [Named; 3] = [("name", "key-name"), ("role", "key-role"), ("since", "key-since")];

/// A column's name, the same in every language so that a file can be read back,
/// and the key of its meaning.
pub type Named = (&'static str, &'static str);
