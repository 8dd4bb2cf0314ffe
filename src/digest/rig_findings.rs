//! What one rig asks for this week, each with the fact behind it.

use jiff::civil::Date;

use crate::water::verdict::{Deed, Kind, LAID_UP_FROM_DAYS};

use super::week::{RigWeek, Week};
use crate::water::dates::days_between;

/// Silent longer than this, a rig is taken to stand.
pub const STANDS_FROM_DAYS: i64 = 14;
/// A membrane that stands longer than this wants preserving (common practice,
/// no source).
pub const PRESERVE_FROM_DAYS: i64 = 30;
/// One missed flush happens; from two on it is a habit.
const FLUSHES_MISSED: u32 = 2;

/// What a rig asks for: the deeds of its verdict, then what its week asks for; one that is away asks for nothing.
#[must_use]
pub fn of(rig: &RigWeek, week: &Week) -> Vec<Deed> {
    if rig.off.away.is_some() {
        return Vec::new();
    }
    let deeds = rig.verdict(week.utc_offset_seconds).deeds;
    let is_to_be_read = deeds.iter().any(|deed| deed.kind() == Kind::ReadAgain);
    let put_off = |deed: &Deed| rig.membrane_put_off_until.is_some() && matches!(deed, Deed::NewMembrane { .. });
    (deeds.into_iter().filter(|deed| !put_off(deed)))
        .chain(flush(rig))
        .chain(silence(rig, week.today).filter(|_| !is_to_be_read))
        .collect()
}

fn flush(rig: &RigWeek) -> Option<Deed> {
    let missed = rig.days_worked.saturating_sub(rig.days_flushed);
    (rig.has_membrane && rig.manual_flush && missed >= FLUSHES_MISSED).then_some(Deed::Flush {
        worked: rig.days_worked,
        flushed: rig.days_flushed,
    })
}

/// A rig without readings this week: quiet at first, then standing; one that is
/// laid up, was off or whose membrane lies in preservative is left in peace.
fn silence(rig: &RigWeek, today: Date) -> Option<Deed> {
    if rig.readings > 0 || rig.is_preserved || rig.off.lately {
        return None;
    }
    let last = rig.last_reading_on?;
    let days = days_between(last, today);
    if days < STANDS_FROM_DAYS {
        return (rig.readings_before > 0).then_some(Deed::QuietRig { last });
    }
    (rig.has_membrane && days < LAID_UP_FROM_DAYS).then(|| Deed::IdleRig {
        last,
        days: u32::try_from(days).unwrap_or(0),
        preserve: days >= PRESERVE_FROM_DAYS,
    })
}
