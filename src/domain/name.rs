//! What may stand in the name of a person or a rig.

/// Whether a mark shows nothing and changes what stands around it: controls, and what turns the direction of writing
/// (Unicode Standard Annex 9).
#[must_use]
pub fn is_hidden(mark: char) -> bool {
    mark.is_control()
        || matches!(mark, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}
